"""What `rack size` prints: whether it holds, what each step bought, what the search covered."""

import math
from dataclasses import replace

from rich.console import Group, RenderableType
from rich.text import Text

from frame.report import words
from frame.report.cautioned import warnings
from frame.report.document import Data, footing_data, heading, lowered_data
from frame.report.money import amount, counted, money
from frame.report.tables import FLAG, section, table
from frame.study.sentences import act_by, first_to_go, movements
from frame.study.sizing import Bought, Sized
from frame.units import show

MOST_STUCK = 8
PIPE_ONLY = "Steel counted: post, sleeve, beam, knees and stays; wire, anchors and bolts are not."


def page(sized: Sized, system: str) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    parts: list[RenderableType] = [_lead(sized, system), _steps(sized, system)]
    if len(sized.grown) > 1:
        parts.append(_grown(sized, system))
    if sized.stuck:
        parts.append(_stuck(sized))
    notes = [sized.method, PIPE_ONLY, counted(sized.rack), *warnings(sized.rack), *words.CAUTIONS]
    return Group(*parts, *(Text(note, style="italic") for note in notes if note))


def _lead(sized: Sized, system: str) -> Group:
    full, gust = sized.result, show(sized.rack.site.map_gust, "speed", system)
    limit = words.gust(full.limit_gust, system)
    lines, named = [], words.named(full.title)
    if sized.holds:
        said = f"Sized for {named}: it has the code's margin at the map gust, {gust}."
        lines.append(Text(said, style="bold"))
    else:
        said = f"No size offered holds {gust} with {named}."
        lines.append(Text(f"{said} The strongest tried has margin up to {limit}.", style=FLAG))
    rack = replace(sized.rack, units=system)
    told = (act_by(rack, full), first_to_go(rack, full), _weight(sized, system))
    lines += [Text(line) for line in told]
    moved = movements(full)
    if moved:
        lines.append(Text(f"It {moved}.", style=FLAG))
    if sized.uncovered:
        missing = ", ".join(sized.uncovered)
        lines.append(Text(f"No rule here covers: {missing}. Have them looked at.", style=FLAG))
    return Group(*lines, Text(""))


def _weight(sized: Sized, system: str) -> str:
    before, after = (show(w, "weight", system) for w in sized.steel)
    said = f"Pipe: {before} as described, {after} as sized."
    if sized.rack.prices is not None:
        before, after = (money(c, sized.rack) for c in sized.cost)
        said += f" Cost: {before} as described, {after} as sized."
    return said


def _steps(sized: Sized, system: str) -> Group:
    priced = sized.rack.prices is not None
    made = table(
        "Change, one after the other", ">margin up to", ">lets go\nat about", ">pipe",
        *([">cost"] if priced else []),
    )  # fmt: skip
    for step in sized.bought:
        limit, let_go = (_rise(g, system) for g in (step.limit_gust, step.let_go_gust))
        cost = [amount(step.added_cost)] if priced else []
        made.add_row(step.words, limit, let_go, _added(step, system), *cost)
    if not sized.bought:
        return section("What each step bought", "Nothing to change: it is sized as described.")
    return section("What each step bought", made)


def _grown(sized: Sized, system: str) -> Group:
    priced = sized.rack.prices is not None
    made = table("Arrangement, grown", "holds", ">pipe then", *([">cost then"] if priced else []))
    for one in sized.grown:
        cost = [amount(one.cost)] if priced else []
        made.add_row(
            one.words, "yes" if one.holds else "no", show(one.pipe, "weight", system), *cost
        )
    return section(
        "Other ways to the same gust",
        made,
        "The first is the one sized. The others were grown, not trimmed; --bracing sizes one.",
    )


def _rise(gusts: tuple[float, float], system: str) -> str:
    return " to ".join(words.gust(None if math.isinf(g) else g, system) for g in gusts)


def _added(step: Bought, system: str) -> str:
    if abs(step.added_steel) < 0.5:
        return "-"
    sign = "+" if step.added_steel > 0 else "-"
    return f"{sign}{show(abs(step.added_steel), 'weight', system)}"


def _stuck(sized: Sized) -> Group:
    made = table("What stops it", ">uses")
    for name, use in sized.stuck[:MOST_STUCK]:
        made.add_row(name, words.percent(use))
    more = len(sized.stuck) - MOST_STUCK
    return section(
        "What stops it, with the strongest size offered",
        made,
        f"and {more} more" if more > 0 else "",
        "A lower tilt may hold (see `rack gusts`), fewer panels on it, or bracing not described.",
    )


def document(sized: Sized) -> Data:
    """Return the same for JSON: SI, null where no gust reaches it; `file` is the sized file."""
    full = sized.result
    return {
        **heading(sized.rack),
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
                "limit_gust": [_finite(g) for g in step.limit_gust],
                "let_go_gust": [_finite(g) for g in step.let_go_gust],
                "added_steel": step.added_steel,
                "added_cost": step.added_cost,
            }
            for step in sized.bought
        ],
        "arrangements": [
            {"name": one.words, "holds": one.holds, "pipe": one.pipe, "cost": one.cost}
            for one in sized.grown
        ],
        "stopped_by": [{"check": name, "utilisation": _finite(use)} for name, use in sized.stuck],
        "not_checked": list(sized.uncovered),
        "search": sized.method,
        "file": sized.text,
        **footing_data(sized.rack),
    }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None
