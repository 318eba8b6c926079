"""Guy anchors: pulled, dragged and lifted, in wet ground and in dry."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from frame.checks.anchor import (
    deadman,
    ground_share,
    pickets,
    proof_pull,
    proved,
    rock_eye,
    screw,
    torque_factor,
)
from frame.checks.anchor_block import sliding, tipping
from frame.checks.check import Check
from frame.idealize.state import STIFF
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK, SCREW
from frame.study.frames import FloatArray
from frame.study.parts.guys import Line, guy_lines
from frame.study.parts.pipes import PartCheck
from frame.study.situation import Situation
from frame.tables.soils import Soil
from frame.units import PCF, PSI

BoolArray = npt.NDArray[np.bool_]
WATER = 62.4 * PCF
CONCRETE = 145 * PCF
"""Unit weight of plain concrete, low end of the usual 145 to 150 pcf [N/m3] (judgement)."""
CLAY_FRICTION = 0.25
"""Friction under a block on clay [1]; the code gives cohesion there (judgement)."""
BOND = 100 * PSI
"""Allowable bond of grout to sound rock [Pa] (from memory)."""
TESTED_DRY = 0.5
"""Part of a pull stood in dry ground that counts in wet ground [1] (judgement)."""
ROUGH = "test one by the pull given: no table knows this ground"
SHARES = {
    (DEADMAN, "clay"): ("fine wet or sandy", "loam"),
    (DEADMAN, "sand"): ("fine wet or sandy", "fine wet or sandy"),
    (DEADMAN, ""): ("fine wet or sandy", "loam"),
    (PICKETS, "sand"): ("fine wet or sandy", "fine wet or sandy"),
    (PICKETS, ""): ("fine wet or sandy", "clay or gravel"),
    (SCREW, ""): ("wetter than at the torque reading", "as at the torque reading"),
}
"""Row of the table of grounds when wet and when dry, by anchor and soil."""


def anchor_checks(now: Situation) -> Iterator[PartCheck]:
    """Pull of every fitted guy against what its anchor holds, and the pull to test one by.

    The soft end of the soil's band is wet ground, the stiff end dry. The soft side of a doubt is
    taken throughout: nothing here counts rock as better than loam for deadmen.
    """
    wet = now.each(lambda b: b.state.soil != STIFF) > 0
    for line in guy_lines(now):
        name = line.name.replace(",", " anchor,", 1)
        proof = proof_pull(line.standing, line.pretension)
        for check in _holding(line, now.rack.site.soil, wet):
            note = "; ".join(filter(None, (check.note, ROUGH)))
            yield name, replace(check, note=note, extra={**check.extra, "proof_pull": proof})


def _holding(line: Line, soil: Soil, wet: BoolArray) -> tuple[Check, ...]:
    hold, kind = line.group.hold, line.group.anchor
    if hold.tested > 0:
        tested = np.where(wet & (not hold.tested_wet), TESTED_DRY, 1.0)
        return (proved(line.pull, hold.tested, tested),)
    if kind == BLOCK:
        return _block(line, soil, wet)
    if kind == ROCK:
        return (rock_eye(line.pull, hold.size, hold.length, BOND),)
    share = _share(kind, soil, wet)
    if kind == DEADMAN:
        return (deadman(line.pull, line.slope, hold.depth, hold.height, hold.length, share),)
    if kind == PICKETS:
        return (pickets(line.pull, line.slope, hold.holdfast, share),)
    factor = torque_factor(hold.shaft)
    check = screw(line.pull, hold.torque, factor, hold.depth, hold.size, soil_share=share)
    return (replace(check, note="set in line with the guy"),)


def _block(line: Line, soil: Soil, wet: BoolArray) -> tuple[Check, ...]:
    hold = line.group.hold
    weight = hold.weight * np.where(wet, 1 - WATER / CONCRETE, 1.0)
    drag, lift = line.pull * np.cos(line.slope), line.pull * np.sin(line.slope)
    return (
        sliding(drag, lift, weight, soil.friction or CLAY_FRICTION),
        tipping(drag, lift, weight, hold.height, hold.length),
    )


def _share(kind: str, soil: Soil, wet: BoolArray) -> FloatArray:
    grounds = SHARES.get((kind, soil.name), SHARES[kind, ""])
    return np.where(wet, *(ground_share(kind, ground) for ground in grounds))
