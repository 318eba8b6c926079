"""What stands below every answer: what must be built for it, warnings, welding, assumptions."""

import math

from rich.console import Group, RenderableType

from frame.parts.rails.u_bolts import u_bolt
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.records.results import BracingResult
from frame.report import words
from frame.report.cautioned import warnings, welded_steels
from frame.report.data.built import SET_BOLTS, U_BOLTS, WELDS, assumed
from frame.report.tables import new_table, under_title
from frame.tables.steels import welding_advice
from frame.units import show, told_in
from frame.verdict.torque_notes import CLOSE, plain_proof_torque


def counted_on(rack: Rack, result: BracingResult, system: str) -> Group:
    """Return what must be built for the answer to hold: depth, welds and torques, in one place."""
    lock, rods = rack.sleeve.lock, rack.rails.u_bolts
    rod, nuts = show(rods.diameter, "length", system), show(rods.torque, "torque", system)
    leg, some = show(rack.welds.leg, "length", system), _capped(rack, system)
    some += assumed(rack, U_BOLTS)
    lines = [
        _depth(rack, result, system),
        f"- fillet welds of {leg} leg, or more{assumed(rack, WELDS)}",
        f"- {rods.count} U-bolt{_plural(rods.count)} of {rod} on each rail, nuts at {nuts}{some}",
    ]
    if rack.rails.marked:
        lines.append("- rails that bear the mark of a maker of strut channel")
    if isinstance(lock, SetBolts):
        torque = show(lock.torque, "torque", system)
        lines.append(
            f"- {lock.count} set bolt{_plural(lock.count)} of "
            f"{show(lock.diameter, 'length', system)} at {torque}, "
            f"jam nuts {'on: a quarter' if lock.jam_nuts else 'off: half'} of the torque is taken "
            "to be lost"
            f"{_if_hardened(rack, system)}{assumed(rack, SET_BOLTS)}"
        )
    else:
        lines.append(f"- a {show(lock.diameter, 'length', system)} pin through sleeve and post")
    return under_title("Counted on", *lines)


def _plural(count: int) -> str:
    return "" if count == 1 else "s"


def _capped(rack: Rack, system: str) -> str:
    """Say how much of the torque on the U-bolts is counted, where that is not all of it."""
    most = float(u_bolt(rack).proof_torque)
    if rack.rails.u_bolts.torque <= CLOSE * most:
        return ""
    return f" (no more than {show(most, 'torque', system)} of it counts)"


def _if_hardened(rack: Rack, system: str) -> str:
    """Say that so much torque counts on hardened bolts only, where it does."""
    lock = rack.sleeve.lock
    if not isinstance(lock, SetBolts) or lock.torque <= CLOSE * plain_proof_torque(lock.diameter):
        return ""
    limit = show(plain_proof_torque(lock.diameter), "torque", system)
    return f"; only if marked as hardened (unmarked bolts: under {limit})"


def _depth(rack: Rack, result: BracingResult, system: str) -> str:
    """Say how deep the post is, how deep it must be, and in which wind."""
    deep = show(rack.posts.footing.depth, "length", system)
    rows = [r for r in result.rows if "depth_needed" in r.hand.extra]
    if not rows:
        return f"- post set {deep} deep"
    worst = max(rows, key=lambda r: float(r.hand.extra["depth_needed"]))
    need = float(worst.hand.extra["depth_needed"])
    told = "no depth looked at is enough" if math.isinf(need) else show(need, "length", system)
    named = words.title_in_sentence(result.title)
    when = words.when(worst.words, worst.tilt, worst.decided_by)
    return f"- post set {deep} deep; needed sideways with {named}: {told} ({when})"


def footing(rack: Rack, system: str) -> Group:
    """Return warnings, and the assumptions with the unsafe ones first."""
    parts: list[RenderableType] = []
    warned = warnings(rack)
    if warned:
        parts.append(under_title("Warnings", *(f"- {line}" for line in warned)))
    advice = sorted({s.name for s in welded_steels(rack)})
    parts.append(
        under_title(
            "Welding (advice, no procedure; mind zinc fumes and what the pipe once held)",
            *(f"- {name}: {told_in(welding_advice(name), system)}." for name in advice),
        )
    )
    if rack.assumptions:
        made = new_table("Not in the file", "taken as", "errs", "find it out in ten minutes")
        for a in sorted(rack.assumptions, key=lambda a: not a.unsafe):
            made.add_row(a.key, a.value, a.errs, a.find_out)
        parts.append(under_title("Assumed", made))
    return Group(*parts)
