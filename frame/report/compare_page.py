"""What `rack compare --all` prints: the bracing described as it is, in groups of tables."""

from fractions import Fraction

from rich.console import Group, RenderableType
from rich.text import Text

from frame.rack.rack import bracing_title
from frame.records.results import Study
from frame.report import words
from frame.report.foot import counted_on, footing
from frame.report.ladder import ladder_table
from frame.report.money import amount
from frame.report.part_forces import force_words, part_forces
from frame.report.side_by_side import gusts_side_by_side, movements_side_by_side, overview
from frame.report.tables import FLAG, new_table, under_title
from frame.report.wind import weights, wind_chain
from frame.units import DEG, show

AS_DESCRIBED = "Every bracing described, side by side, nothing else changed"


def page(study: Study, system: str, *, cautions: bool = True) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric").

    `cautions`: whether they stand in it, or where it is printed has them already.
    """
    best = next(r for r in study.results if r.bracing == study.verdict.bracing)
    groups: dict[str, list[RenderableType]] = {
        "MOVEMENTS": [movements_side_by_side(study, system)],
        "FORCES": [
            overview(study, system),
            part_forces(study, system),
            weights(study.rack, system),
            wind_chain(study.rack, study.results, system),
        ],
        "WHAT GOES FIRST": [gusts_side_by_side(study, system)],
        "WHAT IT COUNTS ON": [counted_on(study.rack, best, system), footing(study.rack, system)],
    }
    if study.knee_card:
        groups["MOVEMENTS"].append(knee_card_table(study, system))
    if best.let_go_gust is not None:
        groups["WHAT GOES FIRST"].append(ladder_table(best, system))
    if study.moves:
        groups["WHAT GOES FIRST"].append(moves_table(study, system))
    told = [(Text(head, style="bold"), *parts) for head, parts in groups.items()]
    return Group(
        verdict_words(study, cautions=cautions),
        *(one for parts in told for one in parts),
        _agreement(study),
    )


def verdict_words(study: Study, *, cautions: bool = True) -> Group:
    """Return the first lines: which bracing is nearest as described, why, the cautions."""
    told = study.verdict
    lines = [
        Text(AS_DESCRIBED, style="bold"),
        Text(told.headline),
        Text(told.act_by_words),
        Text(told.reason),
        Text(told.next_cure),
        *(Text(line, style="italic") for line in words.CAUTIONS if cautions),
    ]
    if told.not_checked:
        missing = ", ".join(told.not_checked)
        lines.append(Text(f"No rule covers, so no check speaks for: {missing}.", style=FLAG))
    return Group(*lines, Text(""))


def moves_table(study: Study, system: str) -> Group:
    """Return the cheapest changes to the bracing of the verdict, each solved again."""
    priced = study.rack.prices is not None
    made = new_table(
        "Cheapest moves up", ">margin up to\n(mapped gust)", ">first goes\nat about", "then first",
        ">added\nsteel", *([">added\ncost"] if priced else []),
    )  # fmt: skip
    named = words.title_in_sentence(bracing_title(study.verdict.bracing))
    for m in study.moves:
        made.add_row(
            m.words,
            _rise(m.limit_gust, system),
            _rise(m.let_go_gust, system),
            m.next_part,
            show(m.added_steel, "weight", system),
            *([amount(m.cost)] if priced else []),
        )
    by = "the file's prices" if priced else "steel and work (judgement); no prices are known"
    return under_title(
        f"One change at a time to {named}, each solved again",
        made,
        f"The cheapest that raise one of the gusts, by {by}.{_enough(study)}",
    )


def _rise(gusts: tuple[float, float], system: str) -> str:
    """Return a gust before and after a change; one that stays as it was is told once."""
    before, after = (words.gust_rounded_down(g, system) for g in gusts)
    return f"{before}, no higher" if before == after else f"{before} to {after}"


def _enough(study: Study) -> str:
    """Say whether any of the changes is enough by itself."""
    held = any(m.limit_gust[1] >= study.rack.site.map_gust for m in study.moves)
    return "" if held else " Not one of them is enough by itself."


def knee_card_table(study: Study, system: str) -> Group:
    """Return the knee card: what each reach leaves of the sag, and the piece to cut."""
    knees = study.rack.knees
    made = new_table(
        ">Reach, part\nof the arm", ">reach", ">drop", ">sag\nleft", ">of the\nbare sag",
        ">most force\nin a knee", ">cut, long point\nto long point", ">angle off\nthe post",
    )  # fmt: skip
    for c in study.knee_card:
        made.add_row(
            f"yours: {_part(c.part)}" if c.described else _part(c.part),
            show(c.reach, "length", system),
            show(c.drop, "length", system),
            words.movement_words(c.sag, system),
            words.percent(c.left),
            force_words(c.force, system),
            show(c.cut, "length", system),
            f"{c.angle / DEG:.1f} deg",
        )
    return under_title(
        f"Knee card: knees of {knees.pipe.label}" if knees else "Knee card",
        made,
        "Yours: the reach and drop in the file. Measured between centre lines; welded before the "
        "panels go on, or with the beam lifted to shape. Knees welded under load leave the sag "
        "that is there.",
        _not_built(study, system),
        _most_force(study),
    )


def _not_built(study: Study, system: str) -> str:
    """Say which reaches of the card cannot be built, and why; "" where all can."""
    told: dict[str, list[str]] = {}
    for c in study.knee_card:
        if c.note:
            told.setdefault(c.note, []).append(show(c.reach, "length", system))
    return " ".join(f"At a reach of {', '.join(w)} it {note}." for note, w in told.items())


def _most_force(study: Study) -> str:
    """Say in which case the most force of the reach in the file comes."""
    yours = next((c for c in study.knee_card if c.described), study.knee_card[0])
    named = "Most force, yours" if yours.described else "Most force, the shortest reach"
    way = "a push" if yours.pushed else "a pull"
    return (
        f"{named}: {way} with knees alone ({words.when(yours.words, yours.tilt)}); wind at the "
        "map gust, growth by sway in it."
    )


def _part(part: float) -> str:
    """Return a part of the arm as a plain fraction where it is one, else as a decimal."""
    plain = Fraction(part).limit_denominator(6)
    return str(plain) if abs(plain - part) < 1e-3 else f"{part:.2f}"


def _agreement(study: Study) -> Text:
    found = [r.agreement.worst for r in study.results if r.agreement]
    if not found:
        return Text("The second solver was not asked.")
    return Text(
        "Solved twice: on the front and side elevation of the worst case of every bracing, the "
        "plane solver and the space frame differ by at most "
        f"{words.difference_words(max(found))}. Both were given the same idealization; "
        "it may still be wrong."
    )
