"""Guy anchor that holds by weight: a concrete block dragged, lifted and tipped.

Passive pressure on a buried block is not counted. Weight where water can stand is that of the
block less the water it displaces: pass dry and wet as arrays.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.named.limit_state import LimitState

DEAD_SHARE = 0.6
CLAY_FRICTION = 0.25
"""Friction under a block on clay [1]; the code gives cohesion there (judgement)."""
SOURCE = "statics; 0.6 of the weight as in ASCE/SEI 7-22 2.4.1"
SOURCE_FRICTION = "IBC 2021 Table 1806.2 sliding coefficient (0.25 sand, 0.35 gravel, read)"


def sliding(
    drag: Numbers,
    lift: Numbers,
    weight: Numbers,
    friction: Numbers,
    share: float = DEAD_SHARE,
) -> Check:
    """Block dragged and lifted at once: lift + drag / mu <= 0.6 W.

    From drag <= mu (W - lift); nothing is left of mu (W - lift) when the block hangs, so lifting
    needs no check of its own. Parameters: `drag`, `lift` pull of the guy level and upwards [N];
    `weight` [N]; `friction` mu: 0.25 sand, 0.35 gravel; for clay the code gives cohesion instead
    and 0.25 is a judgement [1]; `share` of the weight that is counted on [1]. Allowable 0.6 W,
    nominal W [N]; arrays broadcast.
    """
    level = np.abs(drag)
    up = np.maximum(lift, 0.0)
    demand = up + level / friction
    allowable = np.multiply(share, weight)
    check = Check(
        name=LimitState.ANCHOR_BLOCK_DRAGGED,
        demand=demand,
        allowable=allowable,
        nominal=np.asarray(weight, dtype=float),
        unit="N",
        source=f"{SOURCE}; {SOURCE_FRICTION}",
        covered=(allowable > 0) & (np.asarray(friction) > 0),
    )
    steps = (
        Step("H", "level pull", "", level, "N"),
        Step("V", "upward pull", "", up, "N"),
        Step("mu", "friction under the block", "", friction, "1", SOURCE_FRICTION),
        Step("W", "weight", "", weight, "N"),
        Step("D", "demand", "V + H / mu", demand, "N", SOURCE),
        Step("R", "allowable", f"{share:g} * W", allowable, "N", SOURCE),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


def tipping(
    drag: Numbers,
    lift: Numbers,
    weight: Numbers,
    eye_height: Numbers,
    base: Numbers,
    share: float = DEAD_SHARE,
) -> Check:
    """Block tipped over its edge towards the guy: H e + V b / 2 <= 0.6 W b / 2, eye amidships.

    `drag`, `lift`, `weight` [N]; `eye_height` of the eye above the base, `base` of the block along
    the guy [m]; `share` of the weight that is counted on. Nominal W b / 2 [N m];
    firm ground under the edge is taken for granted. Arrays broadcast.
    """
    level, up = np.abs(drag), np.maximum(lift, 0.0)
    demand = level * eye_height + up * np.divide(base, 2)
    nominal = np.multiply(weight, base) / 2
    check = Check(
        name=LimitState.ANCHOR_BLOCK_TIPPED,
        demand=demand,
        allowable=share * nominal,
        nominal=nominal,
        unit="N m",
        source=SOURCE,
        covered=nominal > 0,
    )
    steps = (
        Step("H", "level pull", "", level, "N"),
        Step("V", "upward pull", "", up, "N"),
        Step("e", "height of the eye", "", eye_height, "m"),
        Step("b", "base along the guy", "", base, "m"),
        Step("W", "weight", "", weight, "N"),
        Step("D", "demand", "H * e + V * b / 2", demand, "N m", SOURCE),
        Step("Rn", "strength", "W * b / 2", nominal, "N m", SOURCE),
        Step("R", "allowable", f"{share:g} * Rn", share * nominal, "N m", SOURCE),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)
