"""Posts in the ground: pushed sideways, pressed down, pulled up and turned."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.post_lateral import (
    bearing_width,
    doubled,
    governing,
    presumptive_free,
    presumptive_held,
)
from frame.checks.post_turning import adhesion_clay, adhesion_sand, touching_share, turning
from frame.checks.post_ultimate import ultimate_clay, ultimate_sand
from frame.checks.post_vertical import bearing, plug_weight, uplift, workable_friction
from frame.idealize.posts import post_name
from frame.idealize.state import STIFF
from frame.rack.rack import STAYS
from frame.study.frames import FloatArray
from frame.study.parts.joined import joined
from frame.study.parts.pipes import PartCheck
from frame.study.situation import Situation
from frame.units import INCH, PCF, PSF

WATER = 62.4 * PCF
CONCRETE = 145 * PCF
"""Unit weight of plain concrete, low end of the usual 145 to 150 pcf [N/m3] (judgement)."""
FRICTION_CLAY, FRICTION_SAND = 100 * PSF, 150 * PSF
"""Allowable side friction below frost, cautious (judgement) [Pa]."""
DIG = INCH
"""Step of the depths tried [m]."""
DEEPEST = 5.0
"""Deepest hole tried [m]."""
FROST = "below the frost, or the ground lifts the post year by year whatever its weight"
TAMPED_SHARE = 0.5
"""Side friction of tamped earth over that of concrete cast against the ground (judgement)."""
SETTLES = "a post pressed too hard settles, it does not drop; a stone or plate under it helps"
SLAB = "the slab must be checked for the shear it takes; one that cracks does not hold the post"


@dataclass(frozen=True, slots=True, kw_only=True)
class AtGrade:
    """What one post hands to the ground at grade, (n,) each.

    `shear` and `moment` are resultants over both directions [N], [N m], the moment enlarged by
    the second-order factor; `down` [N], pressing positive; `torque` about +z [N m].
    """

    shear: FloatArray
    moment: FloatArray
    down: FloatArray
    torque: FloatArray


def at_grade(now: Situation, post: int) -> AtGrade:
    """Return the forces of a post on the ground, from its first member above grade."""
    ideal = now.block.frame.ideal
    name = post_name(now.rack, post)
    grade = ideal.marks[f"{name} at grade"]
    members = ideal.model.members
    above = next(m for m in ideal.model.members_of(name) if members[m].ends[0] == grade)
    force = now.answer.on_members([above])[:, 0, :6]
    return AtGrade(
        shear=np.hypot(force[:, 1], force[:, 2]),
        moment=now.second_order * np.hypot(force[:, 4], force[:, 5]),
        down=force[:, 0],
        torque=-force[:, 3],
    )


def ground_checks(now: Situation) -> Iterator[PartCheck]:
    """Every post against its ground; the soft end of the soil's band is wet, the stiff end dry.

    Turning counts for a single post only: several hold the beam between them.
    """
    wet = now.block.state.soil != STIFF
    for i in range(len(now.rack.posts.positions)):
        name, load = post_name(now.rack, i), at_grade(now, i)
        yield name, _sideways(now, load, wet=wet)
        yield name, _pressed(now, load)
        yield name, _lifted(now, load, wet=wet)
        if len(now.rack.posts.positions) == 1:
            yield name, _turned(now, load, wet=wet)


def _sideways(now: Situation, load: AtGrade, *, wet: bool) -> Check:
    footing, od = now.rack.posts.footing, now.rack.posts.pipe.od
    code, limit = _rules(now, load.shear, load.moment, footing.depth, wet=wet)
    check = joined(governing(code, limit), code, limit)
    width = float(bearing_width(od, footing.hole, footing.backfill))
    notes = (check.note, SLAB if footing.slab else "", f"set it {FROST}")
    extra: dict[str, Numbers] = {
        **check.extra,
        "depth_needed": _depth_needed(now, load, check, wet=wet),
        "width": width,
    }
    if footing.slab:
        extra["slab_shear"] = load.shear + np.divide(load.moment, footing.depth)
    return replace(check, note="; ".join(filter(None, notes)), extra=extra)


def _rules(
    now: Situation, shear: Numbers, moment: Numbers, depth: Numbers, *, wet: bool
) -> tuple[Check, Check]:
    """Check by the code's presumptive pressures, and by the strength of the ground.

    Under a slab the code's rule for held posts stands alone for the allowable; the strength is
    still that of the post without its slab (safe side).
    """
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    width = bearing_width(posts.pipe.od, footing.hole, footing.backfill)
    if soil.cu_soft > 0:
        strength = soil.cu_soft if wet else soil.cu_stiff
        limit = ultimate_clay(shear, moment, depth, width, strength, footing.ignored)
    else:
        weight = soil.unit_weight_wet if wet else soil.unit_weight_dry
        phi = soil.phi_soft if wet else soil.phi_stiff
        limit = ultimate_sand(shear, moment, depth, width, weight, phi, footing.ignored)
    guyed = bool(now.block.fitted.any()) or STAYS in now.block.bracing
    lateral = doubled(soil.lateral, posts=len(posts.positions), guyed=guyed)
    if footing.slab:
        return presumptive_held(moment, depth, width, soil.lateral), _strength_only(limit)
    return presumptive_free(shear, moment, depth, width, lateral, footing.ignored), limit


def _strength_only(limit: Check) -> Check:
    """Leave the allowable of a check out, and the steps that lead to it."""
    steps = tuple(s for s in limit.steps if s.symbol not in ("R", "u"))
    return replace(limit, allowable=np.full_like(limit.nominal, np.inf), steps=steps)


def _depth_needed(now: Situation, load: AtGrade, check: Check, *, wet: bool) -> float:
    """Least depth, inch by inch [m], that the worst case needs with the forces as they are."""
    worst = int(np.argmax(np.nan_to_num(check.utilisation, nan=np.inf)))
    tried = np.arange(DIG, DEEPEST, DIG)
    shear, moment = float(load.shear[worst]), float(load.moment[worst])
    code, limit = _rules(now, shear, moment, tried, wet=wet)
    with np.errstate(invalid="ignore"):
        short = ~(np.maximum(code.utilisation, limit.utilisation) <= 1.0)
    deep = int(np.flatnonzero(short).max(initial=-1)) + 1
    return float(tried[deep]) if deep < len(tried) else float("inf")


def _pressed(now: Situation, load: AtGrade) -> Check:
    """Post pressed down by what stands on it, the buried post and the concrete round it.

    Concrete counts by what it weighs more than the soil it replaces (common practice, no source).
    It bears on the whole hole where that is full of concrete; else on the plate or stone under the
    foot, or on the outline of the pipe, which soil soon plugs (judgement). Tamped earth rubs half
    as much as concrete cast against the ground (judgement).
    """
    posts, soil = now.rack.posts, now.rack.site.soil
    footing, od = posts.footing, posts.pipe.od
    cast = footing.backfill == "concrete"
    width = footing.hole if cast else max(od, footing.foot)
    heavier = CONCRETE - soil.unit_weight_dry
    plug = plug_weight(od, footing.hole, footing.depth, heavier) if cast else 0.0
    force = load.down + plug + posts.pipe.weight * footing.depth
    friction = workable_friction(soil.vertical, soil.vertical, "concrete")
    sides = np.pi * (footing.hole if cast else od) * (footing.depth - footing.ignored)
    grip = friction if cast else TAMPED_SHARE * friction
    check = bearing(force, np.pi / 4 * width**2, soil.vertical, sides, grip)
    return replace(check, note=SETTLES)


def _lifted(now: Situation, load: AtGrade, *, wet: bool) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing, od = posts.footing, posts.pipe.od
    cast = footing.backfill == "concrete"
    unit_weight = CONCRETE - WATER if wet else CONCRETE
    plug = plug_weight(od, footing.hole, footing.depth, unit_weight) if cast else 0.0
    wished = FRICTION_CLAY if soil.cu_soft > 0 else FRICTION_SAND
    return uplift(
        -load.down,
        plug + posts.pipe.weight * footing.depth,
        footing.hole if cast else od,
        footing.depth,
        workable_friction(wished, soil.vertical, footing.backfill),
        footing.ignored,
    )


def _turned(now: Situation, load: AtGrade, *, wet: bool) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    if soil.cu_soft > 0:
        adhesion = adhesion_clay(soil.cu_soft if wet else soil.cu_stiff)
    else:
        adhesion = adhesion_sand(
            soil.unit_weight_wet if wet else soil.unit_weight_dry,
            soil.phi_soft if wet else soil.phi_stiff,
            footing.depth,
            footing.ignored,
        )
    return turning(
        load.torque,
        adhesion,
        bearing_width(posts.pipe.od, footing.hole, footing.backfill),
        footing.depth,
        footing.ignored,
        touching_share(footing.backfill),
    )
