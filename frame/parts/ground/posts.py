"""Posts in the ground: pushed sideways, pressed down, pulled up and turned."""

from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.ground.post_lateral import (
    bearing_width,
    doubled,
    presumptive_free,
    presumptive_held,
)
from frame.checks.ground.post_turning import (
    adhesion_clay,
    foot_friction,
    grip_cast,
    grip_tamped,
    overburden,
    tamped_cohesion,
    touching_share,
    turning,
    without_report,
)
from frame.checks.ground.post_ultimate import ultimate_clay, ultimate_sand
from frame.checks.ground.post_vertical import (
    DEAD_SHARE,
    FRICTION_CLAY,
    FRICTION_SAND,
    bearing,
    uplift,
    workable_friction,
)
from frame.idealize.posts import post_name
from frame.idealize.state import STIFF
from frame.named.backfill import GRAVEL
from frame.named.limit_state import LimitState
from frame.parts.checker import PartCheck
from frame.parts.ground.at_grade import (
    GRAVEL_ANGLE,
    AtGrade,
    at_grade,
    below_grade,
    foot_area,
    rubbing_width,
)
from frame.parts.ground.posts_expected import expected_ground_checks
from frame.rack.rack import STAYS
from frame.solved.situation import Situation
from frame.tables.soils import CONCRETE_UNIT_WEIGHT, WATER_UNIT_WEIGHT
from frame.units import INCH

DIG = INCH
"""Step of the depths tried [m]."""
DEEPEST = 5.0
"""Deepest hole tried [m]."""
FROST = "below the frost, or the ground lifts the post year by year whatever its weight"
SETTLES = "a post pressed too hard settles, it does not drop; a stone or plate under it helps"
STILL = "the code's pressures keep the post still, with some half inch at grade; no strength"
SLAB = "the slab must be checked for the shear it takes; one that cracks does not hold the post"


def ground_checks(now: Situation) -> Iterator[PartCheck]:
    """Every post against its ground; the soft end of the soil's band is wet, the stiff end dry.

    Turning counts for a single post only: several hold the beam between them.
    """
    if now.median:
        yield from expected_ground_checks(now)
        return
    wet = now.block.state.soil != STIFF
    for i in range(len(now.rack.posts.positions)):
        name, load = post_name(now.rack, i), at_grade(now, i)
        for check in _sideways(now, load, wet=wet):
            yield name, check
        yield name, _pressed(now, load)
        yield name, _lifted(now, load, wet=wet)
        if len(now.rack.posts.positions) == 1:
            yield name, _turned(now, load, wet=wet)


def _sideways(now: Situation, load: AtGrade, *, wet: bool) -> Iterator[Check]:
    """Yield the code's presumptive rule, which keeps a post from leaning, and the strength.

    Under a slab the code's rule for held posts stands alone for the allowable; the strength is
    still that of the post without its slab (safe side).
    """
    footing = now.rack.posts.footing
    width = float(bearing_width(now.rack.posts.pipe.od, footing.hole, footing.backfill))
    notes = (STILL, SLAB if footing.slab else "", f"set it {FROST}")
    extra: dict[str, Numbers] = {"width": width}
    if footing.slab:
        extra["slab_shear"] = load.shear + np.divide(load.moment, footing.depth)
    code = _presumptive(now, load.shear, load.moment, footing.depth)
    needed = _depth_needed(load, code, lambda *tried: _presumptive(now, *tried))
    yield replace(
        code,
        name=LimitState.POST_LEANING,
        note="; ".join(filter(None, notes)),
        extra={**extra, "depth_needed": needed},
    )
    limit = _ultimate(now, load.shear, load.moment, footing.depth, wet=wet)
    if footing.slab:
        yield replace(_strength_only(limit), name=LimitState.POST_SIDEWAYS, extra=extra)
        return
    needed = _depth_needed(load, limit, lambda *tried: _ultimate(now, *tried, wet=wet))
    yield replace(limit, name=LimitState.POST_SIDEWAYS, extra={**extra, "depth_needed": needed})


def _presumptive(now: Situation, shear: Numbers, moment: Numbers, depth: Numbers) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    width = bearing_width(posts.pipe.od, footing.hole, footing.backfill)
    if footing.slab:
        return presumptive_held(moment, depth, width, soil.lateral)
    guyed = bool(now.block.fitted.any()) or STAYS in now.block.bracing
    lateral = doubled(soil.lateral, posts=len(posts.positions), guyed=guyed)
    return presumptive_free(shear, moment, depth, width, lateral, footing.ignored)


def _ultimate(
    now: Situation, shear: Numbers, moment: Numbers, depth: Numbers, *, wet: bool
) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    width = bearing_width(posts.pipe.od, footing.hole, footing.backfill)
    if soil.cu_soft > 0:
        strength = soil.cu_soft if wet else soil.cu_stiff
        return ultimate_clay(shear, moment, depth, width, strength, footing.ignored)
    weight = soil.unit_weight_wet if wet else soil.unit_weight_dry
    phi = soil.phi_soft if wet else soil.phi_stiff
    return ultimate_sand(shear, moment, depth, width, weight, phi, footing.ignored)


def _strength_only(limit: Check) -> Check:
    """Leave the allowable of a check out, and the steps that lead to it."""
    steps = tuple(s for s in limit.steps if s.symbol not in ("R", "u"))
    return replace(limit, allowable=np.full_like(limit.nominal, np.inf), steps=steps)


def _depth_needed(
    load: AtGrade, check: Check, rule: Callable[[Numbers, Numbers, Numbers], Check]
) -> float:
    """Least depth, inch by inch [m], that the worst case needs with the forces as they are."""
    worst = int(np.argmax(np.nan_to_num(check.utilisation, nan=np.inf)))
    tried = np.arange(DIG, DEEPEST, DIG)
    with np.errstate(invalid="ignore"):
        use = rule(float(load.shear[worst]), float(load.moment[worst]), tried).utilisation
        short = ~(use <= 1.0)
    deep = int(np.flatnonzero(short).max(initial=-1)) + 1
    return float(tried[deep]) if deep < len(tried) else float("inf")


def _pressed(now: Situation, load: AtGrade) -> Check:
    """Post pressed down by what stands on it, the buried post and the concrete round it.

    Concrete counts by what it weighs more than the soil it replaces (common practice, no source).
    """
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    force = load.down + below_grade(posts, CONCRETE_UNIT_WEIGHT - soil.unit_weight_dry)
    friction = workable_friction(soil.vertical, soil.vertical, footing.backfill, down=True)
    sides = np.pi * rubbing_width(posts) * (footing.depth - footing.ignored)
    check = bearing(force, foot_area(posts), soil.vertical, sides, friction)
    return replace(check, note=SETTLES)


def _concrete(*, wet: bool) -> float:
    """Return the unit weight of concrete [N/m3], less the water's where it stands in it."""
    return CONCRETE_UNIT_WEIGHT - WATER_UNIT_WEIGHT if wet else CONCRETE_UNIT_WEIGHT


def _lifted(now: Situation, load: AtGrade, *, wet: bool) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    wished = FRICTION_CLAY if soil.cu_soft > 0 else FRICTION_SAND
    return uplift(
        -load.down,
        below_grade(posts, _concrete(wet=wet)),
        rubbing_width(posts),
        footing.depth,
        workable_friction(wished, soil.vertical, footing.backfill),
        footing.ignored,
    )


def _turned(now: Situation, load: AtGrade, *, wet: bool) -> Check:
    """Post turned; of the weight on its foot only that below grade counts, less what lifts it."""
    posts, soil = now.rack.posts, now.rack.site.soil
    footing, width = posts.footing, rubbing_width(posts)
    if soil.cu_soft > 0 and footing.backfill != GRAVEL:
        cohesion = tamped_cohesion(soil.cu_soft if wet else soil.cu_stiff, footing.backfill)
        friction = adhesion_clay(cohesion)
        foot = foot_friction(width, friction)
    else:
        unit_weight = soil.unit_weight_wet if wet else soil.unit_weight_dry
        phi = (soil.phi_soft if wet else soil.phi_stiff) or GRAVEL_ANGLE
        above = overburden(unit_weight, footing.depth, footing.ignored)
        middle = (footing.depth + footing.ignored) / 2
        grip = grip_cast(middle) if posts.footing.cast else grip_tamped(phi)
        friction = grip * above
        own = DEAD_SHARE * below_grade(posts, _concrete(wet=wet))
        foot = foot_friction(width, 0.0, own + np.minimum(load.down, 0.0), np.tan(phi))
    if posts.footing.cast:
        friction = without_report(friction, soil.vertical)
    return turning(
        load.torque,
        friction,
        width,
        footing.depth,
        footing.ignored,
        touching_share(footing.backfill),
        foot,
    )
