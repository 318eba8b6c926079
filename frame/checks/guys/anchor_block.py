"""Guy anchor that holds by weight: a concrete block dragged, lifted and tipped.

Passive pressure on a buried block is not counted. Where water can stand, a block weighs less by
the water it displaces (Archimedes): pass what that takes off, nil where it is dry, as an array.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.named.limit_state import LimitState

DEAD_SHARE = 0.6
CLAY_FRICTION = 0.25
"""Friction under a block on clay [1]; the code gives cohesion there (judgement)."""
SOURCE = "statics; 0.6 of the weight as in ASCE/SEI 7-22 2.4.1"
SOURCE_WET = "unit weight of water over that of concrete, 62.4 / 145 pcf"
SOURCE_FRICTION = "IBC 2021 Table 1806.2 sliding coefficient (0.25 sand, 0.35 gravel, read)"


def block_sliding(
    drag: Numbers,
    lift: Numbers,
    weight: Numbers,
    friction: Numbers,
    share: float = DEAD_SHARE,
    water: Numbers | None = None,
) -> Check:
    """Block dragged and lifted at once: lift + drag / mu <= 0.6 W.

    From drag <= mu (W - lift); nothing is left of mu (W - lift) when the block hangs, so lifting
    needs no check of its own. Parameters: `drag`, `lift` pull of the guy level and upwards [N];
    `weight` in air [N], of which standing `water` takes off that part [1], its unit weight over
    that of the block; `friction` mu: 0.25 sand, 0.35 gravel; for clay the code gives cohesion
    instead and 0.25 is a judgement [1]; `share` of the weight that is counted on [1]. Allowable
    0.6 W, nominal W [N]; arrays broadcast.
    """
    level = np.abs(drag)
    up = np.maximum(lift, 0.0)
    demand = up + level / friction
    left, weighed = _weighed(weight, water)
    allowable = np.multiply(share, left)
    check = Check(
        name=LimitState.ANCHOR_BLOCK_DRAGGED,
        demand=demand,
        allowable=allowable,
        nominal=np.asarray(left, dtype=float),
        unit="N",
        source=f"{SOURCE}; {SOURCE_FRICTION}",
        covered=(allowable > 0) & (np.asarray(friction) > 0),
    )
    steps = (
        Step("H", "level pull", "", level, "N"),
        Step("V", "upward pull", "", up, "N"),
        Step("mu", "friction under the block", "", friction, "1", SOURCE_FRICTION),
        *weighed,
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
    water: Numbers | None = None,
) -> Check:
    """Block tipped over its edge towards the guy: H e + V b / 2 <= 0.6 W b / 2, eye amidships.

    `drag`, `lift` [N]; `weight` in air [N], of which `water` takes off that part, as for
    `block_sliding`; `eye_height` of the eye above the base, `base` of the block along
    the guy [m]; `share` of the weight that is counted on. Nominal W b / 2 [N m];
    firm ground under the edge is taken for granted. Arrays broadcast.
    """
    level, up = np.abs(drag), np.maximum(lift, 0.0)
    demand = level * eye_height + up * np.divide(base, 2)
    left, weighed = _weighed(weight, water)
    nominal = np.multiply(left, base) / 2
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
        *weighed,
        Step("D", "demand", "H * e + V * b / 2", demand, "N m", SOURCE),
        Step("Rn", "strength", "W * b / 2", nominal, "N m", SOURCE),
        Step("R", "allowable", f"{share:g} * Rn", share * nominal, "N m", SOURCE),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


def _weighed(weight: Numbers, water: Numbers | None) -> tuple[Numbers, tuple[Step, ...]]:
    """Return what a block weighs less the water it displaces [N], and the steps that say so."""
    if water is None:
        return weight, (Step("W", "weight", "", weight, "N"),)
    left = np.multiply(weight, np.subtract(1.0, water))
    steps = (
        Step("Wa", "weight in air", "", weight, "N"),
        Step(
            "wc", "part that standing water takes off, nil where dry", "", water, "1", SOURCE_WET
        ),
        Step("W", "weight less the water it displaces", "Wa * (1 - wc)", left, "N", "Archimedes"),
    )
    return left, steps
