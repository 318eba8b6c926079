"""What `rack size` prints: whether it holds, what each step bought, what the search covered."""

import math
from collections.abc import Iterator
from dataclasses import replace

from rich.console import Group, RenderableType
from rich.text import Text

from frame.casefile.write import edited, without_section
from frame.report import words
from frame.report.cautioned import warnings
from frame.report.data.bracing import lowered_data
from frame.report.data.plain import Data, document_opening, footing_data
from frame.report.headed import headed
from frame.report.money import amount, money, what_cost_counts
from frame.report.tables import FLAG, new_table, under_title
from frame.sizing.bought import Bought, RackGusts
from frame.sizing.size import Sized
from frame.sizing.stopped import Stopped
from frame.units import show
from frame.verdict.sentences import act_by_words, first_to_go, movements_over_limit
from frame.verdict.verdict import not_carried

MOST_STUCK, NAMED = 8, 3
"""Of what stops it: told on the page, and at the top of the file."""
PIPE_ONLY = "Steel counted: post, sleeve, beam, knees and stays; wire, anchors and bolts are not."
CAUTION = "An estimate, not a permit. Take the panels off before the gusts it is not good for."
TOP = "# rack size: "
"""How the lines at the top of a sized file begin."""
WORTHLESS = "nothing offered helps it: fewer panels, a lower tilt or another post would"
LIMIT = "the most offered"
YES = {True: "yes", False: "no"}
MIDDLES = (
    "Margin: mapped gust up to which the code's margin is kept. First slip, first break: real "
    "gust at which that is expected, in the middle."
)


def page(sized: Sized, system: str) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    parts: list[RenderableType] = [_lead(sized, system), _steps(sized, system)]
    if len(sized.grown) > 1:
        parts.append(_grown(sized, system))
    if sized.stopped:
        parts.append(_stopped(sized))
    notes = [
        sized.method,
        PIPE_ONLY,
        what_cost_counts(sized.rack),
        *warnings(sized.rack),
        *words.CAUTIONS,
    ]
    return Group(*parts, *(Text(note, style="italic") for note in notes if note))


def _lead(sized: Sized, system: str) -> Group:
    full, gust = sized.result, show(sized.rack.site.map_gust, "speed", system)
    limit = words.gust_rounded_down(full.limit_gust, system)
    lines, named = [], words.title_in_sentence(full.title)
    if sized.holds:
        said = f"Sized for {named}: it has the code's margin at the map gust, {gust}."
        lines.append(Text(said, style="bold"))
    elif full.passes:
        said = f"Sized for {named}: all that is checked has the code's margin at {gust}."
        lines.append(Text(said, style=FLAG))
    else:
        said = f"No size offered holds {gust} with {named}."
        kept = f"The strongest tried has margin up to {limit}"
        lines.append(Text(f"{said} {kept}{_other_loads(sized)}.", style=FLAG))
    rack = replace(sized.rack, units=system)
    told = (act_by_words(rack, full), first_to_go(rack, full), _weight(sized, system))
    lines += [Text(line) for line in told]
    moved = movements_over_limit(full)
    if moved:
        lines.append(Text(f"It {moved}.", style=FLAG))
    if sized.uncovered:
        missing = ", ".join(sized.uncovered)
        lines.append(Text(f"No rule here covers: {missing}. Have them looked at.", style=FLAG))
    return Group(*lines, Text(""))


def _other_loads(sized: Sized) -> str:
    """Say of a rack that falls short which loads beside wind alone it does not carry."""
    missing = not_carried(sized.rack, sized.result)
    return f" in wind alone, and does not carry {missing}" if missing else ""


def _weight(sized: Sized, system: str) -> str:
    before, after = (show(w, "weight", system) for w in sized.steel)
    said = f"Pipe: {before} as described, {after} as sized."
    if sized.rack.prices is not None:
        before, after = (money(c, sized.rack) for c in sized.cost)
        said += f" Cost: {before} as described, {after} as sized."
    return said


def _steps(sized: Sized, system: str) -> Group:
    priced = sized.rack.prices is not None
    made = new_table(
        "Change, one after the other", ">margin\nup to", ">first\nslip", ">first\nbreak",
        *([">cost"] if priced else [">pipe"]),
    )  # fmt: skip
    if not sized.bought:
        return under_title("What each step bought", "Nothing to change: it is sized as described.")
    before = sized.bought[0].before
    made.add_row("as described", *_gusts(before, system), "-")
    for step in sized.bought:
        added = amount(step.added_cost) if priced else _added(step, system)
        made.add_row(step.words, *_gusts(step.after, system), added)
    return under_title("What each step bought", made, MIDDLES)


def _gusts(gusts: RackGusts, system: str) -> tuple[str, str, str]:
    margin, slip, broke = (
        words.gust_rounded_down(None if math.isinf(g) else g, system)
        for g in (gusts.margin, gusts.first_slip, gusts.first_break)
    )
    return margin, slip, broke


def _grown(sized: Sized, system: str) -> Group:
    priced = sized.rack.prices is not None
    head = [">cost then"] if priced else []
    made = new_table("Arrangement, grown", "holds", "trimmed", ">pipe then", *head)
    for one in sized.grown:
        holds = "yes, but moves too far" if one.moves else YES[one.holds]
        cost = [amount(one.cost)] if priced else []
        made.add_row(one.words, holds, YES[one.trimmed], show(one.pipe, "weight", system), *cost)
    best = (
        "the lightest, or one not much heavier that moves no further than it should"
        if sized.grown[0].holds
        else "what keeps the margin furthest"
    )
    return under_title(
        "Other ways to the same gust",
        made,
        f"The first is the one sized: of those trimmed, {best}. Those that are not trimmed could "
        "be lighter than told; --bracing sizes one.",
    )


def _added(step: Bought, system: str) -> str:
    if abs(step.added_steel) < 0.5:
        return "-"
    sign = "+" if step.added_steel > 0 else "-"
    return f"{sign}{show(abs(step.added_steel), 'weight', system)}"


def _stopped(sized: Sized) -> Group:
    made = new_table("What stops it", ">uses", "the most offered for it")
    for one in sized.stopped[:MOST_STUCK]:
        made.add_row(one.name, words.percent(one.use), "; ".join(one.most) or WORTHLESS)
    more = len(sized.stopped) - MOST_STUCK
    return under_title(
        "What stops it, with the strongest size offered",
        made,
        f"and {more} more" if more > 0 else "",
        "A lower tilt may hold (see `rack gusts`), fewer panels on it, or bracing not described.",
    )


def file(sized: Sized) -> str:
    """Return the text of the sized file; where it falls short its top says so, and what stops it.

    Lines that an earlier search has left at the top are taken away, and what the rack described
    has stood: the sized one has stood nothing yet.
    """
    text = without_section(without_section(sized.text, "stood"), "measured")
    said = [*(_held(sized) if sized.holds else _falls_short(sized)), *_not_fitted(sized), CAUTION]
    return headed(edited(text, {("", "stands"): None}), TOP, said)


def _held(sized: Sized) -> Iterator[str]:
    site = show(sized.rack.site.map_gust, "speed", sized.rack.units)
    yield f"has the code's margin at {site}, as the site is mapped, {_fitted(sized)}."


def _not_fitted(sized: Sized) -> Iterator[str]:
    left = [name for name in sized.rack.bracing_names if name not in sized.result.bracing]
    if left:
        yield f"Described below but NOT to be fitted: {', '.join(left)}."


def _fitted(sized: Sized) -> str:
    full = sized.result
    return f"with {words.title_in_sentence(full.title)}" if full.bracing else "without bracing"


def _falls_short(sized: Sized) -> Iterator[str]:
    full, rack = sized.result, sized.rack
    reached = words.gust_rounded_down(full.limit_gust, rack.units)
    site = show(rack.site.map_gust, "speed", rack.units)
    if full.passes:
        missing = ", ".join(sized.uncovered)
        yield f"NOT ALL IS CHECKED: no rule here covers {missing}. Have them looked at."
    else:
        kept = f"the code's margin up to {reached} {_fitted(sized)}{_other_loads(sized)}"
        yield f"FALLS SHORT: {kept}, the site is mapped at {site}."
    for one in sized.stopped[:NAMED]:
        yield f"What stops it at {site}: {_limit(one)}"


def _limit(one: Stopped) -> str:
    said = f"{one.name} {words.use_words(one.use)}"
    return f"{said}; {LIMIT}: {'; '.join(one.most)}." if one.most else f"{said}; {WORTHLESS}."


def document(sized: Sized) -> Data:
    """Return the same for JSON: SI, null where no gust reaches it; `file` is the sized file."""
    full = sized.result
    return {
        **document_opening(sized.rack),
        "bracing": full.title,
        "fitted": list(full.bracing),
        "holds": sized.holds,
        "limit_gust": full.limit_gust,
        "act_by_gust": full.act_by_gust,
        "lowered": lowered_data(full),
        "let_go_gust": full.let_go_gust,
        "first_to_go": full.ladder[0].part if full.let_go_gust is not None else None,
        "sags": full.sags,
        "sways": full.sways,
        "pipe": {"described": sized.steel[0], "sized": sized.steel[1]},
        "cost": {"described": sized.cost[0], "sized": sized.cost[1]},
        "steps": [
            {
                "words": step.words,
                "limit_gust": _pair(step, "margin"),
                "let_go_gust": _pair(step, "let_go"),
                "first_slip": _pair(step, "first_slip"),
                "first_break": _pair(step, "first_break"),
                "added_steel": step.added_steel,
                "added_cost": step.added_cost,
            }
            for step in sized.bought
        ],
        "arrangements": [
            {
                "name": one.words,
                "holds": one.holds,
                "moves_too_far": one.moves,
                "trimmed": one.trimmed,
                "pipe": one.pipe,
                "cost": one.cost,
            }
            for one in sized.grown
        ],
        "stopped_by": [
            {"check": one.name, "utilisation": _finite(one.use), "most_offered": list(one.most)}
            for one in sized.stopped
        ],
        "not_checked": list(sized.uncovered),
        "search": sized.method,
        "file": file(sized),
        **footing_data(sized.rack),
    }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _pair(step: Bought, gust: str) -> list[float | None]:
    return [_finite(getattr(gusts, gust)) for gusts in (step.before, step.after)]
