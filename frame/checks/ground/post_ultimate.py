"""Post in the ground, pushed sideways until the ground gives way: rigid post free to turn.

Broms (1964), short free-headed post. *Short*: the post stays straight and the ground fails first;
whether the pipe yields before is the pipe's own check. In the code's model `nominal` carries no
safety factor and is meant for the weakest band (wet, soft or loose), `allowable` is Broms'
strength over 2. Practice has 2.5 where the ground is guessed at and 2 where it is measured: the
weakest band is what to guess, so the factor does not count the same doubt again (judgement).
`expected_clay` and `expected_sand` take what is expected of the ground instead, without a factor.
`shear` and `moment` as in `post_lateral` beside it: sizes of resultants at grade, taken to turn
the post the same way. All arrays broadcast.
"""

from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.named.limit_state import LimitState

SAFETY = 2.0
CLAY_TOP = 1.5
WIDEST = 0.19
"""Width that counts in clay, of the depth: beyond it the dead top takes what the width gives."""
TOP_SHARE = 0.75
"""Part of the top left out that is expected not to push back: 9 in of the usual 12 (judgement)."""
SOURCE_CLAY = "Broms 1964, cohesive soil, short free-headed pile (textbook copy read)"
SOURCE_SAND = "Broms 1964, cohesionless soil, short free-headed pile (from memory)"
SOURCE_FACTOR = (
    "safety factor 2 on load, usual with known soil (from memory): the weakest of its band is "
    "taken (judgement)"
)
PHI_LEAST, PHI_MOST = np.radians(20.0), np.radians(45.0)


def ultimate_clay(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    cohesion: Numbers,
    ignored: Numbers = 0.0,
) -> Check:
    """Clay: no pressure down to 1.5 b (or `ignored`), then 9 cu b per length on either side.

    With p = 9 cu b over the length l below that level, M1 the moment there and the turning point
    anywhere, the balance of a straight post gives the limit P^2 + 2 p l P + 4 p M1 = (p l)^2, the
    same as Broms' Hu (e + 1.5 b + f / 2) = 2.25 cu b g^2. Loads that grow together reach it at
    E = p l^2 / 4 where E = (l P + 2 M1 + sqrt((l P + 2 M1)^2 + (l P)^2)) / 4: an equivalent pure
    moment, straight in the size of the load.

    A wide pier holds at least what a strip of it would, yet by the rule it begins to lose when
    wider than 0.2 (pure shear) to 0.22 (pure moment) of its depth, for the dead top grows with it.
    So no more than 0.19 L of the width counts: a wider post is never the weaker.

    Parameters: `shear` [N], `moment` [N m] at grade; `depth`, `width`, `ignored` [m]; `cohesion`
    undrained shear strength cu [Pa] (wet: the soft end). Demand, allowable (/ 2) and nominal in
    N m. Not covered where the post ends in the top left out.
    """
    check, steps = _clay(shear, moment, depth, width, cohesion, ignored)
    allowable = np.divide(check.nominal, SAFETY)
    check = replace(check, allowable=allowable, source=f"{SOURCE_CLAY}; {SOURCE_FACTOR}")
    last = (
        Step("R", "allowable", "Rn / 2", allowable, "N m", SOURCE_FACTOR),
        Step("u", "use", "E / R", check.utilisation, "1"),
    )
    return replace(check, steps=(*steps, *last))


def expected_clay(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    cohesion: Numbers,
    ignored: Numbers = 0.0,
) -> Check:
    """Clay at what is expected of it: `ultimate_clay` without a factor, nominal = allowable.

    `cohesion`: median cu [Pa]; `width` from `expected_width`. Of the top left out, three quarters
    are dead.
    """
    dead = np.multiply(TOP_SHARE, ignored)
    check, steps = _clay(shear, moment, depth, width, cohesion, dead)
    return replace(check, steps=(*steps, Step("u", "use", "E / Rn", check.let_go, "1")))


def _clay(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    cohesion: Numbers,
    ignored: Numbers,
) -> tuple[Check, tuple[Step, ...]]:
    shear, moment = np.abs(shear), np.abs(moment)
    counted = np.minimum(width, np.multiply(WIDEST, depth))
    top = np.maximum(CLAY_TOP * counted, ignored)
    zone = np.maximum(depth - top, 0.0)
    line = np.multiply(9.0, cohesion) * counted
    below = moment + shear * top
    sway = zone * shear + 2 * below
    demand = (sway + np.hypot(sway, zone * shear)) / 4
    nominal = line * zone**2 / 4
    check = Check(
        name=LimitState.POST_SIDEWAYS_CLAY,
        demand=demand,
        allowable=nominal,
        nominal=nominal,
        unit="N m",
        source=SOURCE_CLAY,
        covered=(zone > 0) & (line > 0),
    )
    steps = (
        Step("P", "shear at grade", "", shear, "N"),
        Step("M", "moment at grade", "", moment, "N m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("b", "width that bears", "", width, "m"),
        Step("cu", "undrained shear strength", "", cohesion, "Pa"),
        Step("w", "width that counts", "min(b, 0.19 * L)", counted, "m", "statics"),
        Step("z", "level where pressure begins", "max(1.5 * w, a)", top, "m", SOURCE_CLAY),
        Step("l", "length that bears", "max(L - z, 0)", zone, "m"),
        Step("p", "limit pressure per length", "9 * cu * w", line, "N/m", SOURCE_CLAY),
        Step("M1", "moment at that level", "M + P * z", below, "N m"),
        Step("k", "l P + 2 M1", "l * P + 2 * M1", sway, "N m"),
        Step(
            "E", "equivalent moment", "(k + sqrt(k^2 + (l * P)^2)) / 4", demand, "N m", SOURCE_CLAY
        ),
        Step("Rn", "strength of the ground", "p * l^2 / 4", nominal, "N m", SOURCE_CLAY),
    )
    return check, steps


def ultimate_sand(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    unit_weight: Numbers,
    phi: Numbers,
    ignored: Numbers = 0.0,
) -> Check:
    """Sand: pressure 3 Kp gamma' z over the width, Kp = tan^2(45 deg + phi / 2).

    Broms lets the post turn about its foot, with whatever force the foot needs there:
    M + P L = gamma' b L^3 Kp / 2 (his Hu = 0.5 gamma b L^3 Kp / (e + L)). A top a left out does
    not push back but weighs on what is below, so pressure still grows from grade, and the moment
    of it about the foot is q (L - a)^2 (L + 2 a) / 6 with q = 3 Kp gamma' b. `allowable` is that
    over 2. The foot force can be larger than 3 Kp gamma' z allows, the more so the higher the
    load acts; `nominal`, the low band, therefore keeps to that pressure on both sides of a turning
    point x: P = q (x^2 - (L^2 + a^2) / 2), M = q (L^3 + a^3 - 2 x^3) / 3. Its limit line is
    concave; the chord from pure moment to pure shear is used, on the safe side by at most a few
    percent. With a = 0 nominal is 0.59 (pure moment) to 0.78 (pure shear) of Broms, still above
    Broms / 2 (judgement; field tests mostly reach Broms or more).

    Parameters: `shear` [N], `moment` [N m] at grade; `depth`, `width`, `ignored` [m];
    `unit_weight` effective [N/m3]: wet means submerged, less the weight of water; `phi` friction
    angle [rad]. Demand M + P L about the foot, allowable and nominal in N m. Not covered for phi
    outside 0.35 to 0.79 rad (20 to 45 degrees) or a post that ends in the top left out.
    """
    check, steps = _sand(shear, moment, depth, width, unit_weight, phi, ignored)
    broms, slope = np.asarray(check.nominal), 3 * _passive(phi) * unit_weight * width
    force, couple = _both_sides(slope, depth, ignored)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.abs(shear) / force[1] + np.abs(moment) / couple[1]
        nominal = np.where(share > 0, np.divide(check.demand, share), broms)
    check = replace(
        check,
        allowable=broms / SAFETY,
        nominal=nominal,
        source=f"{SOURCE_SAND}; {SOURCE_FACTOR}; nominal: pressure on both sides (judgement)",
        extra={"broms": broms},
    )
    last = (
        Step("x0", "turning point of a pure moment", _PURE_MOMENT, couple[0], "m"),
        Step("M0", "pure moment", "q * (L^3 + a^3 - 2 * x0^3) / 3", couple[1], "N m"),
        Step("x1", "turning point of a pure shear", _PURE_SHEAR, force[0], "m"),
        Step("P0", "pure shear", "q * (x1^2 - (L^2 + a^2) / 2)", force[1], "N"),
        Step("T", "share of the two", "P / P0 + M / M0", share, "1"),
        Step("Rn", "low strength", "D / T if T > 0 else Rb", nominal, "N m"),
        Step("R", "allowable", "Rb / 2", broms / SAFETY, "N m", SOURCE_FACTOR),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=(*steps, *last))


@dataclass(frozen=True, slots=True)
class ExpectedSand:
    """Sand as is to be expected: `unit_weight` of moist ground [N/m3], median angle `phi` [rad].

    `share`: what tests reach of Broms' strength [1].
    """

    unit_weight: Numbers
    phi: Numbers
    share: Numbers = 1.0


def expected_sand(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    sand: ExpectedSand,
    ignored: Numbers = 0.0,
) -> Check:
    """Sand at what is expected of it: Broms about the foot times a share, nominal = allowable.

    `width` from `expected_width`. Of the top left out, three quarters are dead.
    """
    dead = np.multiply(TOP_SHARE, ignored)
    check, steps = _sand(shear, moment, depth, width, sand.unit_weight, sand.phi, dead)
    strength = np.multiply(sand.share, check.nominal)
    check = replace(check, allowable=strength, nominal=strength)
    last = (
        Step("c", "what tests reach of it", "", sand.share, "1", "judgement"),
        Step("Rn", "strength of the ground", "c * Rb", strength, "N m", SOURCE_SAND),
        Step("u", "use", "D / Rn", check.let_go, "1"),
    )
    return replace(check, steps=(*steps, *last))


def _sand(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    unit_weight: Numbers,
    phi: Numbers,
    ignored: Numbers,
) -> tuple[Check, tuple[Step, ...]]:
    shear, moment = np.abs(shear), np.abs(moment)
    embedded = np.maximum(np.subtract(depth, ignored), 0.0)
    passive = _passive(phi)
    slope = 3 * passive * unit_weight * width
    demand = moment + shear * depth
    broms = slope * embedded**2 * (depth + 2 * np.asarray(ignored)) / 6
    angle = np.asarray(phi)
    check = Check(
        name=LimitState.POST_SIDEWAYS_SAND,
        demand=demand,
        allowable=broms,
        nominal=broms,
        unit="N m",
        source=SOURCE_SAND,
        covered=(embedded > 0) & (slope > 0) & (angle >= PHI_LEAST) & (angle <= PHI_MOST),
    )
    steps = (
        Step("P", "shear at grade", "", shear, "N"),
        Step("M", "moment at grade", "", moment, "N m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("b", "width that bears", "", width, "m"),
        Step("g", "effective unit weight of the ground", "", unit_weight, "N/m3"),
        Step("phi", "friction angle", "", phi, "rad"),
        Step("l", "depth that counts", "max(L - a, 0)", embedded, "m"),
        Step("Kp", "passive pressure", "tan(pi / 4 + phi / 2)^2", passive, "1"),
        Step("q", "limit pressure per length and depth", "3 * Kp * g * b", slope, "N/m2"),
        Step("D", "moment about the foot", "M + P * L", demand, "N m", SOURCE_SAND),
        Step(
            "Rb", "strength about the foot", "q * l^2 * (L + 2 * a) / 6", broms, "N m", SOURCE_SAND
        ),
    )
    return check, steps


def _passive(phi: Numbers) -> Numbers:
    passive: Numbers = np.tan(np.pi / 4 + np.divide(phi, 2)) ** 2
    return passive


def _both_sides(
    slope: Numbers, depth: Numbers, ignored: Numbers
) -> tuple[tuple[Numbers, Numbers], tuple[Numbers, Numbers]]:
    """Return turning point [m] and size of a pure shear [N] and of a pure moment [N m]."""
    square = (np.square(depth) + np.square(ignored)) / 2
    cube = (np.power(depth, 3) + np.power(ignored, 3)) / 2
    low, high = cube ** (1 / 3), np.sqrt(square)
    shear = low, np.maximum(slope * (low**2 - square), 0.0)
    moment = high, np.maximum(slope * (2 * cube - 2 * high**3) / 3, 0.0)
    return shear, moment


_PURE_MOMENT = "sqrt((L^2 + a^2) / 2)"
_PURE_SHEAR = "((L^3 + a^3) / 2)^(1/3)"
