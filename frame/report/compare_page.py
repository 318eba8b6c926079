"""What `rack compare` prints: the verdict first, then every bracing side by side."""

import math
from fractions import Fraction

from rich.console import Group, RenderableType
from rich.text import Text

from frame.rack.rack import Rack, bracing_title
from frame.rack.sleeve import SetBolts
from frame.report import words
from frame.report.ladder import ladder
from frame.report.side_by_side import side_by_side
from frame.report.tables import FLAG, section, table
from frame.study.results import BracingResult, Study
from frame.tables.steels import Steel, welding_advice
from frame.units import DEG, show


def page(study: Study, system: str) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    parts: list[RenderableType] = [verdict(study), side_by_side(study, system)]
    best = next(r for r in study.results if r.bracing == study.verdict.bracing)
    if best.let_go_gust is not None:
        parts.append(ladder(best, system))
    if study.moves:
        parts.append(moves(study, system))
    if study.knee_card:
        parts.append(knee_card(study, system))
    return Group(
        *parts,
        counted(study.rack, best, system),
        footing(study.rack, study.notes),
        _agreement(study),
    )


def verdict(study: Study) -> Group:
    """Return the first lines: what to weld, why, the next cure, the cautions."""
    told = study.verdict
    lines = [
        Text(told.headline, style="bold"),
        Text(told.reason),
        Text(told.next_cure),
        *(Text(line, style="italic") for line in words.CAUTIONS),
    ]
    if told.not_checked:
        missing = ", ".join(told.not_checked)
        lines.append(Text(f"No rule covers, so no check speaks for: {missing}.", style=FLAG))
    return Group(*lines, Text(""))


def moves(study: Study, system: str) -> Group:
    """Return the cheapest changes to the bracing of the verdict, each solved again."""
    made = table(
        "Cheapest moves up", ">margin up to\n(mapped gust)", ">lets go\nat about", "then first",
        ">added\nsteel",
    )  # fmt: skip
    for m in study.moves:
        made.add_row(
            m.words,
            " to ".join(words.gust(g, system) for g in m.limit_gust),
            " to ".join(words.gust(g, system) for g in m.let_go_gust),
            m.next_part,
            show(m.added_steel, "weight", system),
        )
    return section(
        f"One change at a time to {bracing_title(study.verdict.bracing)}, each solved again",
        made,
        "The cheapest that raise a gust, by steel and work (judgement); no prices are known.",
    )


def knee_card(study: Study, system: str) -> Group:
    """Return the knee card: what each reach leaves of the sag, and the piece to cut."""
    knees = study.rack.knees
    made = table(
        ">Reach, part\nof the arm", ">reach", ">drop", ">sag\nleft", ">of the\nbare sag",
        ">most force\nin a knee", ">cut, long point\nto long point", ">angle off\nthe post",
        "note",
    )  # fmt: skip
    for c in study.knee_card:
        made.add_row(
            str(Fraction(c.part).limit_denominator(12)),
            show(c.reach, "length", system),
            show(c.drop, "length", system),
            words.movement(c.sag, system),
            words.percent(c.left),
            show(c.force, "force", system),
            show(c.cut, "length", system),
            f"{c.angle / DEG:.1f} deg",
            c.note or "-",
        )
    return section(
        f"Knee card: knees of {knees.pipe.label}" if knees else "Knee card",
        made,
        "Measured between centre lines; welded before the panels go on, or with the beam lifted "
        "to shape. Knees welded under load leave the sag that is there.",
    )


def counted(rack: Rack, result: BracingResult, system: str) -> Group:
    """Return what must be built for the answer to hold: depth, welds and torques, in one place."""
    footing, lock, rods = rack.posts.footing, rack.sleeve.lock, rack.rails.u_bolts
    needed = [r.hand.extra["depth_needed"] for r in result.rows if "depth_needed" in r.hand.extra]
    deepest = max((float(d) for d in needed), default=0.0)
    need = (
        "no depth looked at is enough" if math.isinf(deepest) else show(deepest, "length", system)
    )
    deep = show(footing.depth, "length", system)
    lines = [
        f"- post set {deep} deep; needed sideways with {result.title}: {need}",
        f"- fillet welds of {show(rack.welds.leg, 'length', system)} leg",
        f"- {rods.count} U-bolt(s) on each rail, nuts at {show(rods.torque, 'torque', system)}",
    ]
    if isinstance(lock, SetBolts):
        torque = show(lock.torque, "torque", system)
        lines.append(
            f"- {lock.count} set bolt(s) at {torque}, jam nuts {'on' if lock.jam_nuts else 'off'}"
        )
    else:
        lines.append(f"- a {show(lock.diameter, 'length', system)} pin through sleeve and post")
    return section("Counted on", *lines)


def footing(rack: Rack, notes: tuple[str, ...] = ()) -> Group:
    """Return warnings, and the assumptions with the unsafe ones first."""
    parts: list[RenderableType] = []
    warned = (*rack.warnings, *notes, *_unidentified(rack))
    if warned:
        parts.append(section("Warnings", *(f"- {line}" for line in warned)))
    advice = sorted({s.name for s in _steels(rack)})
    parts.append(
        section(
            "Welding (advice, no procedure; mind zinc fumes and what the pipe once held)",
            *(f"- {name}: {welding_advice(name)}." for name in advice),
        )
    )
    if rack.assumptions:
        made = table("Not in the file", "taken as", "errs", "find it out in ten minutes")
        for a in sorted(rack.assumptions, key=lambda a: not a.errs.startswith("unsafe")):
            made.add_row(a.key, a.value, a.errs, a.find_out)
        parts.append(section("Assumed", made))
    return Group(*parts)


def _steels(rack: Rack) -> list[Steel]:
    """Return the steels that are welded."""
    pipes = [rack.posts.pipe, rack.beam.pipe, *(p.pipe for p in (rack.knees, rack.stays) if p)]
    return [*(p.steel for p in pipes), rack.sleeve.steel]


def _unidentified(rack: Rack) -> tuple[str, ...]:
    """Say what the standard says of steel without papers."""
    if all(steel.identified for steel in _steels(rack)):
        return ()
    told = (
        "Some of the pipe is steel of unknown make. AISC 360-22 A3.1b allows that only where a "
        "failure would not weaken the structure, so not in posts, beams and braces: every use of "
        "it here is an estimate at a low yield, and no more than 35 ksi is counted at welds."
    )
    return (told,)


def _agreement(study: Study) -> Text:
    found = [r.agreement.worst for r in study.results if r.agreement]
    if not found:
        return Text("The second solver was not asked.")
    return Text(
        "Solved twice: on the front and side elevation of the worst case of every bracing, the "
        f"plane solver and the space frame differ by at most {words.difference(max(found))}. "
        "Both were given the same idealization; it may still be wrong."
    )
