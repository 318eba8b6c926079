"""Post turning in the ground about its own axis: what a pinned sleeve hands down.

A through pin cures swing only if the post does not turn in its hole. Friction over the buried
sides and under the foot resists; fins or a crosspiece welded to the foot are not counted.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Kind, Numbers
from frame.checks.ground.post_vertical import workable_friction
from frame.checks.sheet import Sheet
from frame.named.backfill import CONCRETE
from frame.named.limit_state import LimitState
from frame.units import FT, PSF

SAFETY = 2.0
CLAY_SHARE = 0.5
CAST_MOST, CAST_LEAST, CAST_TOP, CAST_FALL = 1.2, 0.25, 1.5, 0.135
TAMPED_PRESSURE = 0.5
STEEL_SHARE = 2 / 3
TOUCHING_SHARE = 0.8
TAMPED_MOST = 2000 * PSF
SOURCE = "friction over the buried cylinder and the disc of its foot times their radii (statics)"
SOURCE_FACTOR = "safety factor 2 on ground (judgement)"


def adhesion_clay(cohesion: Numbers) -> Numbers:
    """Side adhesion in clay [Pa]: half the undrained strength cu [Pa] (alpha method).

    0.55 for drilled shafts, 1.0 to 0.5 from soft to stiff clay for driven piles (FHWA and API,
    from memory); half throughout for a hole dug by hand and for earth tamped back (judgement).
    """
    return np.multiply(CLAY_SHARE, cohesion)


def tamped_cohesion(cohesion: Numbers, backfill: str) -> Numbers:
    """Undrained strength of what rubs on the post [Pa]: of the ground itself on concrete.

    Earth dug out and tamped back is never firmer than stiff clay, cu 2000 psf, whatever rock or
    hardpan the hole is in (judgement).
    """
    return cohesion if backfill == CONCRETE else np.minimum(cohesion, TAMPED_MOST)


def overburden(unit_weight: Numbers, depth: Numbers, ignored: Numbers = 0.0) -> Numbers:
    """Mean vertical effective stress [Pa] from `ignored` to `depth` [m]: gamma' z halfway down.

    `unit_weight` effective [N/m3] (wet: submerged). The top left out still weighs.
    """
    middle = np.add(depth, ignored) / 2
    return np.multiply(unit_weight, middle)


def grip_cast(middle: Numbers) -> Numbers:
    """Side friction of concrete cast against sand or gravel over vertical effective stress [1].

    beta = 1.5 - 0.135 sqrt(z), z in ft, from 0.25 to 1.2, `middle` depth of what rubs [m]: drilled
    shafts in sand, O'Neill and Reese 1999 (FHWA-IF-99-025, from memory). Whatever the angle of
    friction: near grade the ground presses harder than its weight alone makes it. In gravel tests
    reach more. Not for loose sand, in which a hole does not stand open.
    """
    beta = CAST_TOP - CAST_FALL * np.sqrt(np.divide(middle, FT))
    return np.clip(beta, CAST_LEAST, CAST_MOST)


def grip_tamped(phi: Numbers) -> Numbers:
    """Side friction of a pipe in tamped sand or gravel over vertical effective stress [1].

    K tan(delta), K = 0.5, about at rest, and delta 2/3 of `phi` [rad] on steel (judgement).
    """
    return TAMPED_PRESSURE * np.tan(np.multiply(STEEL_SHARE, phi))


def touching_share(backfill: str) -> float:
    """Share of the sides that rubs [1]: all of concrete cast against the ground, 0.8 of a pipe.

    A pipe in tamped earth or gravel rocks in the wind and stands off on one side near the top
    (judgement). Where wet clay lets go of it altogether, weld fins or a crosspiece to the foot.
    """
    return 1.0 if backfill == CONCRETE else TOUCHING_SHARE


def foot_friction(
    width: Numbers, adhesion: Numbers, weight: Numbers = 0.0, roughness: Numbers = 0.0
) -> Numbers:
    """Torque [N m] that the disc of the foot resists, of diameter `width` [m].

    Each ring r dr rubs with its own radius: a uniform stress s gives pi b^3 s / 12, a weight
    spread evenly, times its friction, gives W mu b / 3. `adhesion` of clay [Pa], 0 in sand;
    `weight` that surely bears on the foot [N] and `roughness` mu of sand [1], 0 in clay.
    """
    disc = np.pi * np.power(width, 3) / 12 * adhesion
    return disc + np.maximum(weight, 0.0) * roughness * np.divide(width, 3)


def without_report(friction: Numbers, bearing: Numbers) -> Numbers:
    """Return the ultimate side friction [Pa] of cast concrete that counts without a soil report.

    `friction` ultimate, `bearing` vertical pressure of IBC Table 1806.2 [Pa]: no more than twice
    what IBC 2021 1810.3.3.1.4 lets be allowable (from memory), see `workable_friction`.
    """
    return np.minimum(friction, SAFETY * workable_friction(np.inf, bearing, CONCRETE))


def turning(
    torque: Numbers,
    friction: Numbers,
    width: Numbers,
    depth: Numbers,
    ignored: Numbers = 0.0,
    share: Numbers = 1.0,
    foot: Numbers = 0.0,
) -> Check:
    """Turn the buried cylinder: torque <= friction pi b l (b / 2) over the depth that counts.

    Parameters: `torque` about the post's axis at grade [N m], either sense; `friction` mean
    ultimate over that depth [Pa], `adhesion_clay`, or `grip_cast` or `grip_tamped` times
    `overburden`; `width` of what turns, `depth` of the post, `ignored` top [m]; `share` of the
    sides that rubs [1]; `foot` from `foot_friction` [N m]. What a push sideways takes off the
    friction on one side it adds on the other: neither is counted.

    Nominal without factor, allowable / 2 [N m]; arrays broadcast. Round posts only. The doubt is
    counted once: the ground is at the weak end of its band (soft clay, loose sand with water up to
    grade), its friction otherwise as it is met in such ground.
    """
    check = expected_turning(torque, friction, width, depth, ignored, share, foot)
    sheet = Sheet(*check.steps[:-1])
    allowable = sheet.work("R", "allowable", f"Rn / {SAFETY:g}", "N m", SOURCE_FACTOR)
    sheet.use("u", "use", "T", "R", "1")
    source, steps = f"{SOURCE}; {SOURCE_FACTOR}", tuple(sheet.steps)
    return replace(check, allowable=allowable, source=source, steps=steps)


def expected_turning(
    torque: Numbers,
    friction: Numbers,
    width: Numbers,
    depth: Numbers,
    ignored: Numbers = 0.0,
    share: Numbers = 1.0,
    foot: Numbers = 0.0,
) -> Check:
    """Turn the buried cylinder at what is expected of the ground: `turning` without a factor.

    `friction` and `foot` at their medians. Nominal = allowable [N m].
    """
    sheet = Sheet()
    sheet.given("T", "torque about the post", np.abs(torque), "N m")
    sheet.given("s", "friction of the sides", friction, "Pa")
    sheet.given("b", "diameter of what turns", width, "m")
    sheet.given("L", "depth of the post below grade", depth, "m")
    sheet.given("a", "top left out", ignored, "m")
    sheet.given("c", "share of the sides that rubs", share, "1")
    sheet.given("f", "friction under the foot", foot, "N m")
    sheet.work("l", "depth that counts", "max(L - a, 0)", "m")
    sheet.work("Rn", "strength", "c * s * pi * b * l * b / 2 + f", "N m", SOURCE)
    sheet.use("u", "use", "T", "Rn", "1")
    return Check(
        name=LimitState.POST_TURNING,
        demand=sheet["T"],
        allowable=sheet["Rn"],
        nominal=sheet["Rn"],
        unit="N m",
        source=SOURCE,
        kind=Kind.TURNS,
        steps=tuple(sheet.steps),
    )
