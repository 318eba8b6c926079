"""Guy anchors at the strength expected of them, for what lets go first."""

import numpy as np

from frame.checks.check import Check
from frame.checks.guys.anchor import expected_screw, pickets, proved, rock_eye, torque_factor
from frame.checks.guys.anchor_block import block_sliding, tipping
from frame.checks.guys.deadman import expected_deadman
from frame.parts.guys.anchor_ground import log, middle_earth, middle_share
from frame.parts.guys.guys import FittedGuy
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK
from frame.solved.frames import FloatArray
from frame.tables.soils import Soil
from frame.units import PSI

BOND = 100 * PSI
"""Allowable bond of grout to sound rock, half of what is expected [Pa] (from memory)."""
OVER_TEST = 1.25
"""What a tested anchor is expected to hold, over what it stood [1] (judgement)."""
DRIED = 0.7
"""Part of a pull stood in dry ground that is expected on most days [1] (judgement)."""


def expected_holding(line: FittedGuy, soil: Soil, spread: FloatArray) -> tuple[Check, ...]:
    """Pull of a guy against what its anchor is expected to hold, ground neither wet nor dry.

    `spread` (n,) about the median [1]. A tested anchor holds at least what it stood; a block's
    weight is known, so that its friction alone spreads.
    """
    hold, kind = line.group.hold, line.group.anchor
    if hold.tested > 0:
        stood = hold.tested * (1.0 if hold.tested_wet else DRIED)
        held = np.maximum(OVER_TEST * spread, 1.0)
        return (proved(line.pull, stood, held, 1.0),)
    if kind == BLOCK:
        drag, lift = line.pull * np.cos(line.slope), line.pull * np.sin(line.slope)
        friction = soil.friction_expected * spread
        return (
            block_sliding(drag, lift, hold.weight, friction, 1.0),
            tipping(drag, lift, hold.weight, hold.height, hold.length, 1.0),
        )
    if kind == ROCK:
        return (rock_eye(line.pull, hold.size, hold.length, BOND * spread, 1.0),)
    if kind == PICKETS:
        held = spread * middle_share(kind, soil)
        return (pickets(line.pull, line.slope, hold.holdfast, held, 1.0),)
    earth = middle_earth(soil)
    if kind == DEADMAN:
        known = middle_share(kind, soil)
        return (expected_deadman(line.pull, line.slope, log(hold), earth, known, spread),)
    screw = hold.torque, torque_factor(hold.shaft), hold.depth, hold.size
    return (expected_screw(line.pull, *screw, earth.cohesion, spread),)
