"""Post turning in the ground about its own axis: what a pinned sleeve hands down.

A through pin cures swing only if the post does not turn in its hole.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers, Step

SAFETY = 2.0
CLAY_SHARE = 0.5
EARTH_PRESSURE = 0.5
ROCKED_SHARE = 0.5
SOURCE = "adhesion over the buried cylinder times its radius (statics)"
SOURCE_FACTOR = "safety factor 2 on ground (judgement)"


def adhesion_clay(cohesion: Numbers) -> Numbers:
    """Side adhesion in clay [Pa]: half the undrained strength cu [Pa] (judgement, alpha method).

    The alpha method takes 1.0 for soft to 0.5 for stiff clay; a shallow hole dug by hand is
    smeared and dries out, so half is used throughout.
    """
    return np.multiply(CLAY_SHARE, cohesion)


def adhesion_sand(
    unit_weight: Numbers, phi: Numbers, depth: Numbers, ignored: Numbers = 0.0
) -> Numbers:
    """Mean side friction in sand from `ignored` to `depth` [Pa]: K gamma' z tan(2/3 phi).

    K = 0.5 and 2/3 of the friction angle (judgement, beta method for cast or backfilled shafts);
    `unit_weight` effective [N/m3] (wet: submerged), `phi` [rad], depths [m]; z is halfway down.
    """
    middle = np.add(depth, ignored) / 2
    return EARTH_PRESSURE * np.multiply(unit_weight, middle) * np.tan(np.multiply(2 / 3, phi))


def touching_share(backfill: str) -> float:
    """Share of the surface that rubs [1]: all of concrete cast against the ground; half of a pipe.

    A pipe in tamped earth or gravel stands in a hole that rocking has widened: one side touches
    (judgement). Where wet clay lets go of it altogether, weld fins or a crosspiece to the foot.
    """
    return 1.0 if backfill == "concrete" else ROCKED_SHARE


def turning(
    torque: Numbers,
    adhesion: Numbers,
    width: Numbers,
    depth: Numbers,
    ignored: Numbers = 0.0,
    share: Numbers = 1.0,
) -> Check:
    """Turn the buried cylinder: torque <= adhesion pi b l (b / 2) over the depth that counts.

    Parameters: `torque` about the post's axis at grade [N m], either sense; `adhesion` mean
    ultimate over that depth, wet and dry as arrays [Pa]; `width` of what turns, `depth` of the
    post, `ignored` top [m]; `share` that rubs [1]. The base and any fins are not counted, nor
    what sideways load takes of the adhesion: say so beside the answer.

    Nominal without factor, allowable / 2 [N m]; arrays broadcast. Round posts only.
    """
    size = np.abs(torque)
    rubs = np.maximum(np.subtract(depth, ignored), 0.0)
    nominal = share * np.multiply(adhesion, np.pi) * width * rubs * np.divide(width, 2)
    check = Check(
        name="post turning in the ground",
        demand=size,
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N m",
        source=f"{SOURCE}; {SOURCE_FACTOR}",
        note="friction under the foot not counted",
    )
    steps = (
        Step("T", "torque about the post", "", size, "N m"),
        Step("s", "adhesion", "", adhesion, "Pa"),
        Step("b", "diameter of what turns", "", width, "m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("c", "share that rubs", "", share, "1"),
        Step("l", "depth that counts", "max(L - a, 0)", rubs, "m"),
        Step("Rn", "strength", "c * s * pi * b * l * b / 2", nominal, "N m", SOURCE),
        Step("R", "allowable", "Rn / 2", nominal / SAFETY, "N m", SOURCE_FACTOR),
    )
    return replace(check, steps=steps)
