"""The paragraphs of the first screen on what is not known, what was read, and what to mind."""

import re
from collections.abc import Iterable

from frame.checks.welds.weld_leg import smallest_leg
from frame.plan.decision import Decision
from frame.rack.rack import Rack
from frame.rack.stood import NOTHING
from frame.report.screen.phrases import (
    RISE,
    gust,
    happens,
    number,
    paragraph,
)
from frame.report.words import tilt
from frame.units import DEG, show
from frame.whatif.tilts import COVERED

TOLD_HERE = re.compile("Tilt .* is (over|under) ")
"""Warnings of the file that the screen gives in words of its own."""
THICK_ENOUGH = 0.999
"""Part of a least size that is taken for it [1]: rounding of inches."""


def hangs_on(decision: Decision) -> list[str]:
    """Say what decides the answer most, what if it turns out well, and how to find it out."""
    return ["What this hangs on, and what if it turns out well", *unknown(decision, 0)]


def unknown(decision: Decision, place: int) -> list[str]:
    """Say it of the unknown at a place among those that decide, the first at 0."""
    units = decision.rack.units
    lines: list[str] = []
    for one in decision.decides[place : place + 1]:
        going, well = one.going, gust(one.gust_if_well, units)
        little = one.gust_if_well < RISE * going.gust
        said = (
            f"{'nothing much by itself; most, ' if little else ''}{one.unknown}: "
            f"{happens(going.part, going.check)} at {well}, not "
            f"{number(going.gust, units)}. {_find_out(one.find_out)}"
        )
        lines += paragraph(" ", said, 2)
    return lines


def ask_what_it_stood(decision: Decision) -> list[str]:
    """Ask for what a rack that is up has stood, where the file does not say."""
    if decision.rack.stood is not None or not decision.rack.stands:
        return []
    return paragraph(" ", "what it has stood: write it under [stood] and run again.", 2)


def _find_out(how: str) -> str:
    """Say how to find something out; where nothing tells, that."""
    if how == "nothing tells":
        return "Nothing tells beforehand."
    return f"To know: {how}{'' if how.endswith('?') else '.'}"


def stood(decision: Decision) -> list[str]:
    """Say what the gust it has stood tells."""
    rack = decision.rack
    told = rack.stood
    if told is None:
        return []
    better = [
        r.going
        for r in decision.start.ladder
        if r.going and r.going.guessed and r.going.gust > RISE * r.going.guessed
    ]
    moved = "nothing moved" if told.moved == NOTHING else f"and {told.moved}"
    said = f"it stood {gust(told.gust, rack.units)} at {tilt(told.tilt)}, {moved}"
    if better:
        first = better[0]
        was = number(first.guessed, rack.units)
        at = f" at {tilt(first.tilt)}" if tilt(first.tilt) != tilt(told.tilt) else ""
        said += (
            f": {happens(first.part, first.check)} later than guessed, at about "
            f"{number(first.gust, rack.units)}{at}, not {was}"
        )
    return paragraph("Stood", f"{said}.")


def warned(decision: Decision, most: int = 2) -> list[str]:
    """Warn of what changes what a builder does: the file's own warnings, steep and flat tilts.

    And of what the plan itself brings, whole: a thick post in a short sleeve.
    """
    plan = decision.plan
    lines: list[str] = []
    for warning in dict.fromkeys(plan.end.rack.warnings):
        if warning not in plan.start.rack.warnings and not TOLD_HERE.match(warning):
            lines += paragraph("Mind", f"After step {len(plan.steps)}: {warning}")
    said = [w for w in decision.rack.warnings if not TOLD_HERE.match(w)]
    tilts = [t / DEG for t in decision.rack.tilts]
    if max(tilts) > COVERED[1] / DEG + 0.1:
        said.append("Tilts over 45 deg keep the wind of 45: the tables end there.")
    if min(tilts) < COVERED[0] / DEG - 0.1:
        said.append("Tilts under 8 deg get no answer: near flat, panels can flutter off.")
    said += _thin_fillet(decision.rack)
    for warning in _shortest(said)[:most]:
        lines += _in_two_lines(warning)
    return lines


def _in_two_lines(warning: str) -> list[str]:
    """Return the sentences of a warning that two lines have room for, the first one anyhow."""
    told = re.split(r"(?<=\.) (?=[A-Z])", warning)
    while len(told) > 1 and len(paragraph("Mind", " ".join(told))) > 2:
        told.pop()
    return paragraph("Mind", " ".join(told))


def _thin_fillet(rack: Rack) -> list[str]:
    """Warn of fillets smaller than the pipes' walls ask for."""
    walls = rack.posts.pipe.wall, rack.beam.pipe.wall, rack.sleeve.wall
    least = float(smallest_leg(min(walls), max(walls)))
    if rack.welds.leg >= THICK_ENOUGH * least:
        return []
    leg, asked = (show(size, "length", rack.units) for size in (rack.welds.leg, least))
    return [f"Fillets of {leg} are small for such walls: {asked} is the least (AISC J2.4)."]


def _shortest(said: Iterable[str]) -> list[str]:
    return sorted(dict.fromkeys(said), key=len)
