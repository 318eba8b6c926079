"""Post in the ground, up and down: bearing under dead load and guy pull, and pulling out."""

import numpy as np

from frame.checks.check import Check, Kind, Numbers
from frame.checks.sheet import Sheet
from frame.named.backfill import CONCRETE
from frame.named.limit_state import LimitState
from frame.units import PSF

FRICTION_CLAY, FRICTION_SAND = 100 * PSF, 150 * PSF
"""Allowable side friction below frost against pulling up, cautious (judgement) [Pa]."""
FRICTION_LIMIT = 500 * PSF
BEARING_RESERVE = 2.0
FRICTION_RESERVE = 2.0
DEAD_SHARE = 0.6
TAMPED_SHARE = 0.5
CLAY_BEARING = 9.0
SOURCE_BEARING = "IBC 2021 Table 1806.2 vertical pressure; strength twice that (judgement)"
SOURCE_FRICTION = (
    "IBC 2021 1810.3.3.1.4, cast in place: bearing value / 6, at most 500 psf (from memory); "
    "tamped earth half of it pressing down, nil pulling up (judgement)"
)
SOURCE_UPLIFT = (
    "0.6 of own weight as in ASCE/SEI 7-22 2.4.1; friction IBC 2021 1810.3.3.1.4 (from memory); "
    "strength: whole weight and twice that friction (judgement)"
)
SOURCE_CLAY_TIP = "9 cu, Skempton 1951, deep foundations in clay (from memory)"
SOURCE_SAND_TIP = "overburden times Nq, Prandtl and Reissner (textbooks, from memory)"
SOURCE_SIDES = "friction of the sides of a shaft (statics; alpha and beta methods, judgement)"


def workable_friction(
    friction: Numbers, bearing: Numbers, backfill: str, *, down: bool = False
) -> Numbers:
    """Return the allowable side friction [Pa]: at most bearing / 6 and 500 psf.

    `friction` wished for [Pa]; `bearing` the vertical pressure of Table 1806.2 [Pa]. The code's
    clause is for concrete cast against the ground. Up, 100 psf in clay and 150 psf in sand below
    frost are cautious: the code wants a factor of 3 on the worked-out pull (1810.3.3.1.5, from
    memory), and soft clay, cu 500 psf, rubs with some 250. A bare pipe in tamped earth or gravel
    has nothing in the code and gets none up: cast a collar, or weld a crosspiece to the foot
    (common practice, no source). `down`, where it settles in sight and the earth is pressed on,
    it gets half (judgement).
    """
    share = 1.0 if backfill == CONCRETE else TAMPED_SHARE * down
    return share * np.minimum(np.minimum(friction, np.divide(bearing, 6)), FRICTION_LIMIT)


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
    area : that bears [m2]: the hole where concrete is under the foot, else a plate, else the
        outline of the pipe
    pressure : presumptive vertical pressure, Table 1806.2 [Pa]
    sides : area of the sides that rub, below the top left out [m2]
    friction : allowable side friction [Pa]

    Allowable q A + f As, nominal twice that (judgement: presumptive values keep a factor of two at
    least; the post settles, it does not drop) [N]; arrays broadcast. Not covered: fill, peat, mud
    (q = 0).
    """
    sheet = Sheet()
    sheet.given("F", "force at the foot, down positive", force, "N")
    sheet.given("A", "area that bears", area, "m2")
    sheet.given("q", "vertical pressure", pressure, "Pa", "IBC 2021 Table 1806.2")
    sheet.work("N", "demand", "max(F, 0)", "N")
    sheet.given("As", "area of the sides that rub", sides, "m2")
    sheet.given("f", "allowable side friction", friction, "Pa", SOURCE_FRICTION)
    sheet.work("R", "allowable", "q * A + f * As", "N", SOURCE_BEARING)
    sheet.work("Rn", "strength", f"{BEARING_RESERVE:g} * R", "N", SOURCE_BEARING)
    sheet.use("u", "use", "N", "R", "1")
    return Check(
        name=LimitState.POST_DOWN,
        demand=sheet["N"],
        allowable=sheet["R"],
        nominal=sheet["Rn"],
        unit="N",
        source=SOURCE_BEARING,
        covered=np.greater(pressure, 0),
        kind=Kind.LEANS,
        steps=tuple(sheet.steps),
    )


def bearing_factor(phi: Numbers) -> Numbers:
    """Nq = exp(pi tan phi) tan^2(45 deg + phi / 2) [1], `phi` [rad] (Prandtl and Reissner)."""
    passive = np.tan(np.pi / 4 + np.divide(phi, 2)) ** 2
    factor: Numbers = np.exp(np.pi * np.tan(phi)) * passive
    return factor


def expected_bearing(
    force: Numbers, area: Numbers, tip: Numbers, sides: Numbers, friction: Numbers, source: str
) -> Check:
    """Post pressed down, at what is expected of the ground: force <= q A + f As.

    Parameters: `force` at the foot, down positive, `area` as in `bearing`; `tip` what the ground
    under the foot bears before the post sinks [Pa]: 9 cu in clay, overburden times
    `bearing_factor` in sand, as `source` says; `sides` that rub [m2], `friction` median [Pa].
    Nominal = allowable [N]; arrays broadcast. A foot less than four of its widths deep bears a
    little less than 9 cu.
    """
    sheet = Sheet()
    sheet.given("F", "force at the foot, down positive", force, "N")
    sheet.given("A", "area that bears", area, "m2")
    sheet.given("q", "strength under the foot", tip, "Pa", source)
    sheet.given("As", "area of the sides that rub", sides, "m2")
    sheet.given("f", "side friction", friction, "Pa", SOURCE_SIDES)
    sheet.work("N", "demand", "max(F, 0)", "N")
    sheet.work("Rn", "strength", "q * A + f * As", "N")
    sheet.use("u", "use", "N", "Rn", "1")
    return Check(
        name=LimitState.POST_DOWN,
        demand=sheet["N"],
        allowable=sheet["Rn"],
        nominal=sheet["Rn"],
        unit="N",
        source=f"{source}; {SOURCE_SIDES}",
        kind=Kind.LEANS,
        steps=tuple(sheet.steps),
    )


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
    sheet = _pulled(force, weight, width, depth, ignored, friction, SOURCE_FRICTION)
    sheet.work("Rn", "strength", f"W + {FRICTION_RESERVE:g} * G", "N", SOURCE_UPLIFT)
    sheet.work("R", "allowable", f"{DEAD_SHARE} * W + G", "N", SOURCE_UPLIFT)
    sheet.use("u", "use", "N", "R", "1")
    return Check(
        name=LimitState.POST_UP,
        demand=sheet["N"],
        allowable=sheet["R"],
        nominal=sheet["Rn"],
        unit="N",
        source=SOURCE_UPLIFT,
        kind=Kind.LEANS,
        steps=tuple(sheet.steps),
    )


def expected_uplift(
    force: Numbers,
    weight: Numbers,
    width: Numbers,
    depth: Numbers,
    friction: Numbers,
    ignored: Numbers = 0.0,
) -> Check:
    """Post pulled up, at what is expected of the ground: force <= W + f pi b l.

    Parameters as in `uplift`, but `force` under the real weight, `weight` of the footing in moist
    ground, and `friction` the median on being pulled: a share of cu in clay, `shaft` of
    `expected.csv` times the overburden in sand, of earth tamped back too. Nominal =
    allowable [N]; arrays broadcast.
    """
    sheet = _pulled(force, weight, width, depth, ignored, friction, SOURCE_SIDES)
    sheet.work("Rn", "strength", "W + G", "N")
    sheet.use("u", "use", "N", "Rn", "1")
    return Check(
        name=LimitState.POST_UP,
        demand=sheet["N"],
        allowable=sheet["Rn"],
        nominal=sheet["Rn"],
        unit="N",
        source=f"weight of the footing and {SOURCE_SIDES}",
        kind=Kind.LEANS,
        steps=tuple(sheet.steps),
    )


def _pulled(
    force: Numbers,
    weight: Numbers,
    width: Numbers,
    depth: Numbers,
    ignored: Numbers,
    friction: Numbers,
    source: str,
) -> Sheet:
    """Begin with the pull and what the sides hold against it."""
    sheet = Sheet()
    sheet.given("F", "pull at grade, up positive", force, "N")
    sheet.given("W", "weight of the footing", weight, "N")
    sheet.given("b", "diameter that rubs", width, "m")
    sheet.given("L", "depth of the post below grade", depth, "m")
    sheet.given("a", "top left out", ignored, "m")
    sheet.given("f", "side friction", friction, "Pa", source)
    sheet.work("N", "demand", "max(F, 0)", "N")
    sheet.work("G", "side friction", "pi * b * max(L - a, 0) * f", "N", source)
    return sheet
