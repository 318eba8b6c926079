"""Post in the ground, up and down: bearing under dead load and guy pull, and pulling out."""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.units import PSF

FRICTION_LIMIT = 500 * PSF
BEARING_RESERVE = 2.0
FRICTION_RESERVE = 2.0
DEAD_SHARE = 0.6
SOURCE_BEARING = "IBC 2021 Table 1806.2 vertical pressure; strength twice that (judgement)"
SOURCE_FRICTION = "IBC 2021 1810.3.3.1.4: bearing value / 6, at most 500 psf (from memory)"
SOURCE_UPLIFT = (
    "0.6 of own weight as in ASCE/SEI 7-22 2.4.1; friction IBC 2021 1810.3.3.1.4 (from memory); "
    "strength: whole weight and twice that friction (judgement)"
)


def workable_friction(friction: Numbers, bearing: Numbers, backfill: str) -> Numbers:
    """Return the allowable side friction [Pa] against uplift: at most bearing / 6, 500 psf.

    `friction` wished for [Pa]: 100 psf in clay and 150 psf in sand below frost are cautious
    (judgement); `bearing` is the vertical pressure of Table 1806.2 [Pa]. Nil unless the hole is
    filled with concrete: a bare pipe in tamped earth or gravel is given no grip (judgement).
    """
    if backfill != "concrete":
        return np.multiply(friction, 0.0)
    return np.minimum(np.minimum(friction, np.divide(bearing, 6)), FRICTION_LIMIT)


def plug_weight(od: Numbers, hole: Numbers, depth: Numbers, unit_weight: Numbers) -> Numbers:
    """Weight [N] of the ring of concrete between pipe `od` and `hole` over `depth` [m].

    `unit_weight` [N/m3]; in ground that can stand under water, less that of water (9.81 kN/m3).
    """
    return np.pi / 4 * (np.square(hole) - np.square(od)) * depth * unit_weight


def bearing(
    force: Numbers, area: Numbers, pressure: Numbers, sides: Numbers = 0.0, friction: Numbers = 0.0
) -> Check:
    """Post pressed down: force <= q A + f As.

    Parameters
    ----------
    force : pressing down at the foot, dead load with the down-pull of the guys and the weight of
        post and concrete [N]; an upward force (negative) demands nothing
    area : that bears [m2]: the hole where concrete is under the foot, else a plate, else the metal
        of the pipe's end
    pressure : presumptive vertical pressure, Table 1806.2 [Pa]
    sides : area of the sides that rub, below the top left out [m2]
    friction : allowable side friction [Pa]

    Allowable q A + f As, nominal twice that (judgement: presumptive values keep a factor of two at
    least; the post settles, it does not drop) [N]; arrays broadcast. Not covered: fill, peat, mud
    (q = 0).
    """
    down = np.maximum(force, 0.0)
    grip = np.multiply(friction, sides)
    allowable = np.multiply(pressure, area) + grip
    nominal = BEARING_RESERVE * allowable
    check = Check(
        name="post in ground, pressed down",
        demand=down,
        allowable=allowable,
        nominal=nominal,
        unit="N",
        source=SOURCE_BEARING,
        covered=np.greater(pressure, 0),
    )
    steps = (
        Step("F", "force at the foot, down positive", "", force, "N"),
        Step("A", "area that bears", "", area, "m2"),
        Step("q", "vertical pressure", "", pressure, "Pa", "IBC 2021 Table 1806.2"),
        Step("N", "demand", "max(F, 0)", down, "N"),
        Step("As", "area of the sides that rub", "", sides, "m2"),
        Step("f", "allowable side friction", "", friction, "Pa", SOURCE_FRICTION),
        Step("R", "allowable", "q * A + f * As", allowable, "N", SOURCE_BEARING),
        Step("Rn", "strength", "2 * R", nominal, "N", SOURCE_BEARING),
        Step("u", "use", "N / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


def uplift(
    force: Numbers,
    weight: Numbers,
    width: Numbers,
    depth: Numbers,
    friction: Numbers,
    ignored: Numbers = 0.0,
) -> Check:
    """Post pulled up: weight of the footing, and side friction below the top left out.

    Parameters
    ----------
    force : pull at grade of a combination with 0.6 D, up positive [N]; the weight below grade must
        not be in it already. Downward (negative) demands nothing
    weight : of the footing: concrete, buried post [N]; wet: under water
    width, depth, ignored : diameter that rubs, depth of the post, top left out [m]
    friction : allowable side friction from `workable_friction` [Pa]

    Allowable 0.6 W + friction pi b l, nominal W + 2 friction pi b l (low: a tested shaft needs a
    factor of two) [N]; arrays broadcast. A cone of lifted ground is not counted.
    """
    up = np.maximum(force, 0.0)
    rubs = np.maximum(np.subtract(depth, ignored), 0.0)
    grip = np.pi * np.multiply(width, rubs) * friction
    allowable = np.multiply(DEAD_SHARE, weight) + grip
    nominal = weight + FRICTION_RESERVE * grip
    check = Check(
        name="post in ground, pulled up",
        demand=up,
        allowable=allowable,
        nominal=nominal,
        unit="N",
        source=SOURCE_UPLIFT,
    )
    steps = (
        Step("F", "pull at grade, up positive", "", force, "N"),
        Step("W", "weight of the footing", "", weight, "N"),
        Step("b", "diameter that rubs", "", width, "m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("f", "allowable side friction", "", friction, "Pa", SOURCE_FRICTION),
        Step("N", "demand", "max(F, 0)", up, "N"),
        Step("l", "length that rubs", "max(L - a, 0)", rubs, "m"),
        Step("G", "side friction", "pi * b * l * f", grip, "N", SOURCE_FRICTION),
        Step("Rn", "strength", "W + 2 * G", nominal, "N", SOURCE_UPLIFT),
        Step("R", "allowable", "0.6 * W + G", allowable, "N", SOURCE_UPLIFT),
    )
    return replace(check, steps=steps)
