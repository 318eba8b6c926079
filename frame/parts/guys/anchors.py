"""Guy anchors: pulled, dragged and lifted, in wet ground and in dry."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check
from frame.checks.guys.anchor import (
    pickets,
    proved,
    rock_eye,
    screw,
    torque_factor,
)
from frame.checks.guys.anchor_block import CLAY_FRICTION, block_sliding, tipping
from frame.checks.guys.deadman import deadman
from frame.idealize.state import STIFF
from frame.named.part import anchor
from frame.parts.checker import PartCheck
from frame.parts.guys.anchor_ground import BoolArray, earth, holding_left, log
from frame.parts.guys.anchors_expected import BOND, expected_holding
from frame.parts.guys.guys import FittedGuy, fitted_guys
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK
from frame.solved.situation import Situation
from frame.tables.soils import CONCRETE_UNIT_WEIGHT, WATER_UNIT_WEIGHT, Soil

TESTED_DRY = 0.5
"""Part of a pull stood in dry ground that counts in wet ground [1] (judgement)."""
ROUGH = "test one by the pull given: no table knows this ground"


def anchor_checks(now: Situation) -> Iterator[PartCheck]:
    """Pull of every fitted guy against what its anchor holds.

    The soft end of the soil's band is wet ground, the stiff end dry. In the median model the
    ground is halfway between, and what an anchor holds is what is expected of it.
    """
    soil = now.rack.site.soil
    wet = now.each(lambda b: b.state.soil != STIFF) > 0
    for line in fitted_guys(now):
        name = anchor(line.name)
        found = (
            expected_holding(line, soil, now.expected("anchor"))
            if now.median
            else _holding(line, soil, wet)
        )
        for check in found:
            note = "; ".join(filter(None, (check.note, ROUGH)))
            yield name, replace(check, note=note)


def _holding(line: FittedGuy, soil: Soil, wet: BoolArray) -> tuple[Check, ...]:
    hold, kind = line.group.hold, line.group.anchor
    if hold.tested > 0:
        tested = np.where(wet & (not hold.tested_wet), TESTED_DRY, 1.0)
        return (proved(line.pull, hold.tested, tested),)
    if kind == BLOCK:
        return _block(line, soil, wet)
    if kind == ROCK:
        return (rock_eye(line.pull, hold.size, hold.length, BOND),)
    holds = holding_left(kind, soil, wet)
    if kind == DEADMAN:
        return (deadman(line.pull, line.slope, log(hold), earth(soil, wet), holds),)
    if kind == PICKETS:
        return (pickets(line.pull, line.slope, hold.holdfast, holds),)
    factor = torque_factor(hold.shaft)
    check = screw(line.pull, hold.torque, factor, hold.depth, hold.size, soil_share=holds)
    return (replace(check, note="set in line with the guy"),)


def _block(line: FittedGuy, soil: Soil, wet: BoolArray) -> tuple[Check, ...]:
    hold = line.group.hold
    water = np.where(wet, WATER_UNIT_WEIGHT / CONCRETE_UNIT_WEIGHT, 0.0)
    drag, lift = line.pull * np.cos(line.slope), line.pull * np.sin(line.slope)
    return (
        block_sliding(drag, lift, hold.weight, soil.friction or CLAY_FRICTION, water=water),
        tipping(drag, lift, hold.weight, hold.height, hold.length, water=water),
    )
