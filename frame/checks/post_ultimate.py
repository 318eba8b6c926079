"""Post in the ground, pushed sideways until the ground gives way: rigid post free to turn.

Broms (1964), short free-headed pile. *Short*: the post stays straight and the ground fails first;
whether the pipe yields before is the pipe's own check. `nominal` carries no safety factor and is
meant for the weakest band (wet, soft or loose); `allowable` is Broms' strength over 2.5. Pass wet
and dry as arrays: the strength is worked out for each. `shear` and `moment` as in
`frame.checks.post_lateral`: sizes of resultants at grade, taken to turn the post the same way.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers, Step

SAFETY = 2.5
CLAY_TOP = 1.5
SOURCE_CLAY = "Broms 1964, cohesive soil, short free-headed pile (textbook copy read)"
SOURCE_SAND = "Broms 1964, cohesionless soil, short free-headed pile (from memory)"
SOURCE_FACTOR = "safety factor 2.5 on load, usual with assumed soil (from memory)"
TURN_MOMENT = (2 - np.sqrt(2.0)) / 6
TURN_SHEAR = 2 ** (1 / 3) / 2 - 0.5


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

    Parameters: `shear` [N], `moment` [N m] at grade; `depth`, `width`, `ignored` [m]; `cohesion`
    undrained shear strength cu [Pa] (wet: the soft end). Demand, allowable (/ 2.5) and nominal in
    N m; arrays broadcast. Not covered where the post ends above 1.5 b.
    """
    shear, moment = np.abs(shear), np.abs(moment)
    top = np.maximum(np.multiply(CLAY_TOP, width), ignored)
    zone = np.maximum(depth - top, 0.0)
    line = np.multiply(9.0, cohesion) * width
    below = moment + shear * top
    sway = zone * shear + 2 * below
    demand = (sway + np.hypot(sway, zone * shear)) / 4
    nominal = line * zone**2 / 4
    check = Check(
        name="post in ground, sideways, clay at its limit",
        demand=demand,
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N m",
        source=f"{SOURCE_CLAY}; {SOURCE_FACTOR}",
        covered=(zone > 0) & (line > 0),
    )
    steps = (
        Step("P", "shear at grade", "", shear, "N"),
        Step("M", "moment at grade", "", moment, "N m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("b", "width that bears", "", width, "m"),
        Step("cu", "undrained shear strength", "", cohesion, "Pa"),
        Step("z", "level where pressure begins", "max(1.5 * b, a)", top, "m", SOURCE_CLAY),
        Step("l", "length that bears", "max(L - z, 0)", zone, "m"),
        Step("p", "limit pressure per length", "9 * cu * b", line, "N/m", SOURCE_CLAY),
        Step("M1", "moment at that level", "M + P * z", below, "N m"),
        Step("w", "l P + 2 M1", "l * P + 2 * M1", sway, "N m"),
        Step(
            "E", "equivalent moment", "(w + sqrt(w^2 + (l * P)^2)) / 4", demand, "N m", SOURCE_CLAY
        ),
        Step("Rn", "strength of the ground", "p * l^2 / 4", nominal, "N m", SOURCE_CLAY),
        Step("R", "allowable", "Rn / 2.5", nominal / SAFETY, "N m", SOURCE_FACTOR),
        Step("u", "use", "E / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


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
    M + P l = gamma' b l^3 Kp / 2 (his Hu = 0.5 gamma b L^3 Kp / (e + L)). `allowable` is that over
    2.5. The foot force can be larger than 3 Kp gamma' z allows, the more so the higher the load
    acts; `nominal`, the low band, therefore keeps to that pressure on both sides of a turning
    point u l: P = q l^2 (u^2 - 1/2), M = q l^3 (1 - 2 u^3) / 3 with q = 3 Kp gamma' b. Its
    limit line is convex; the chord from pure moment (2 - sqrt 2) / 6 q l^3 to pure shear
    (2^(1/3) - 1) / 2 q l^2 is used, on the safe side by at most a few percent. Nominal
    is 0.59 (pure moment) to 0.78 (pure shear) of Broms, still above Broms / 2.5 (judgement; field
    tests mostly reach Broms or more).

    Parameters: `shear` [N], `moment` [N m] at grade; `depth`, `width`, `ignored` [m] (the ground
    is taken to begin at `ignored`); `unit_weight` effective [N/m3]: wet means submerged, less
    the weight of water; `phi` friction angle [rad]. Demand M + P l about the foot,
    allowable and nominal in N m; arrays broadcast. Not covered for phi outside 0.35 to 0.79 rad
    (20 to 45 degrees).
    """
    shear, moment = np.abs(shear), np.abs(moment)
    embedded = np.maximum(np.subtract(depth, ignored), 0.0)
    below = moment + shear * ignored
    passive = np.tan(np.pi / 4 + np.divide(phi, 2)) ** 2
    slope = 3 * passive * unit_weight * width
    demand = below + shear * embedded
    broms = slope * embedded**3 / 6
    turned = below + TURN_MOMENT / TURN_SHEAR * shear * embedded
    ratio = np.divide(demand, turned, out=np.ones_like(demand + turned), where=turned > 0)
    nominal = TURN_MOMENT * slope * embedded**3 * ratio
    check = Check(
        name="post in ground, sideways, sand at its limit",
        demand=demand,
        allowable=broms / SAFETY,
        nominal=nominal,
        unit="N m",
        source=f"{SOURCE_SAND}; {SOURCE_FACTOR}; nominal: pressure on both sides (judgement)",
        covered=(embedded > 0) & (slope > 0) & (np.abs(np.subtract(phi, 0.57)) <= 0.22),
        extra={"broms": broms},
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
        Step("M1", "moment where counting begins", "M + P * a", below, "N m"),
        Step("Kp", "passive pressure", "tan(pi / 4 + phi / 2)^2", passive, "1"),
        Step("q", "limit pressure per length and depth", "3 * Kp * g * b", slope, "N/m2"),
        Step("D", "moment about the foot", "M1 + P * l", demand, "N m", SOURCE_SAND),
        Step("Rb", "strength, turning about the foot", "q * l^3 / 6", broms, "N m", SOURCE_SAND),
        Step("T", "demand, turning above the foot", _TURNED, turned, "N m"),
        Step("k", "one demand to the other", "D / T if T > 0 else 1", ratio, "1"),
        Step("Rn", "low strength", "(2 - sqrt(2)) / 6 * q * l^3 * k", nominal, "N m"),
        Step("R", "allowable", "Rb / 2.5", broms / SAFETY, "N m", SOURCE_FACTOR),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


_TURNED = "M1 + (2 - sqrt(2)) / 3 / (2^(1/3) - 1) * P * l"
