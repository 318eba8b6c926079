"""Posts in the ground at what is expected of it: medians, neither wet nor dry, no factor.

Under a slab the post counts as free: the slab is not reckoned with here, which only helps.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Kind, Numbers, Step
from frame.checks.ground.post_lateral import expected_width
from frame.checks.ground.post_turning import (
    adhesion_clay,
    expected_turning,
    foot_friction,
    overburden,
    tamped_cohesion,
    touching_share,
)
from frame.checks.ground.post_ultimate import TOP_SHARE, ExpectedSand, expected_clay, expected_sand
from frame.checks.ground.post_vertical import (
    CLAY_BEARING,
    SOURCE_CLAY_TIP,
    SOURCE_SAND_TIP,
    bearing_factor,
    expected_bearing,
    expected_uplift,
)
from frame.idealize.posts import post_name
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
from frame.solved.situation import Situation
from frame.tables.soils import CONCRETE_UNIT_WEIGHT

LIFT_SHARE = 0.4
"""Side friction of a post pulled up over the undrained strength of clay [1] (judgement).

That is `cu_expected` of `soils.csv` times `clay` of `expected.csv`; of earth tamped back no more
than `tamped_cohesion` says.
"""
ON_FOOT = 0.5
"""Part of what stands on a post that its foot bears, the sides bearing the rest (judgement)."""
LEANING = 0.5
"""Part of its strength at which ground stays pushed aside [1]: Broms 1964 takes movements for
elastic up to a third to half of the ultimate load (from memory)."""
STAYS_LEANING = "from half its strength on, ground gives and does not come all the way back"


def expected_ground_checks(now: Situation) -> Iterator[PartCheck]:
    """Every post against its ground in the median model.

    The code's presumptive pressures say nothing of what lets go and are no part of it: where its
    rule keeps a post from leaning, half the strength of the ground is what it leans at. Turning
    counts for a single post only: several hold the beam between them.
    """
    for i in range(len(now.rack.posts.positions)):
        name, load = post_name(now.rack, i), at_grade(now, i)
        sideways = _sideways(now, load)
        yield name, _leaning(sideways)
        yield name, sideways
        yield name, _pressed(now, load)
        yield name, _lifted(now, load)
        if len(now.rack.posts.positions) == 1:
            yield name, _turned(now, load)


def _sideways(now: Situation, load: AtGrade) -> Check:
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    width = expected_width(posts.pipe.od, footing.hole, footing.backfill)
    if soil.cu_soft > 0:
        check = expected_clay(
            load.shear,
            load.moment,
            footing.depth,
            width,
            _cohesion(now),
            footing.ignored,
        )
    else:
        check = expected_sand(
            load.shear,
            load.moment,
            footing.depth,
            width,
            ExpectedSand(soil.unit_weight_dry, _angle(now), now.expected("sand_capacity")),
            footing.ignored,
        )
    return replace(check, name=LimitState.POST_SIDEWAYS, extra={"width": width})


def _leaning(sideways: Check) -> Check:
    half = LEANING * np.asarray(sideways.nominal)
    check = replace(
        sideways,
        name=LimitState.POST_LEANING,
        allowable=half,
        nominal=half,
        kind=Kind.LEANS,
        note=STAYS_LEANING,
        extra={},
    )
    steps = [s for s in sideways.steps if s.symbol != "u"]
    demand = "E" if any(s.symbol == "E" for s in steps) else "D"
    return replace(
        check,
        steps=(
            *steps,
            Step("Rl", "strength before it stays leaning", "0.5 * Rn", half, "N m", "Broms 1964"),
            Step("u", "use", f"{demand} / Rl", check.let_go, "1"),
        ),
    )


def _pressed(now: Situation, load: AtGrade) -> Check:
    """Post pressed down; concrete counts by what it weighs more than the soil it replaces."""
    posts, soil = now.rack.posts, now.rack.site.soil
    footing = posts.footing
    force = load.down + below_grade(posts, CONCRETE_UNIT_WEIGHT - soil.unit_weight_dry)
    sides = np.pi * rubbing_width(posts) * (footing.depth - _dead(now))
    if soil.cu_soft > 0:
        tip, source = CLAY_BEARING * _cohesion(now), SOURCE_CLAY_TIP
    else:
        above = soil.unit_weight_dry * footing.depth
        tip = now.expected("sand_capacity") * above * bearing_factor(_angle(now))
        source = SOURCE_SAND_TIP
    grip = touching_share(footing.backfill) * _side_friction(now)
    return expected_bearing(force, foot_area(posts), tip, sides, grip, source)


def _lifted(now: Situation, load: AtGrade) -> Check:
    posts = now.rack.posts
    friction = (
        LIFT_SHARE * tamped_cohesion(_cohesion(now), posts.footing.backfill)
        if _adheres(now)
        else _side_friction(now)
    )
    return expected_uplift(
        -load.down,
        below_grade(posts, CONCRETE_UNIT_WEIGHT),
        rubbing_width(posts),
        posts.footing.depth,
        friction,
        _dead(now),
    )


def _turned(now: Situation, load: AtGrade) -> Check:
    posts = now.rack.posts
    footing, width = posts.footing, rubbing_width(posts)
    friction = _side_friction(now)
    if _adheres(now):
        foot = foot_friction(width, friction)
    else:
        weight = below_grade(posts, CONCRETE_UNIT_WEIGHT) + ON_FOOT * load.down
        foot = foot_friction(width, 0.0, weight, np.tan(_angle(now)))
    return expected_turning(
        load.torque,
        friction,
        width,
        footing.depth,
        _dead(now),
        touching_share(footing.backfill),
        foot,
    )


def _dead(now: Situation) -> float:
    """Return the depth of the top that is expected not to hold [m]."""
    return TOP_SHARE * now.rack.posts.footing.ignored


def _cohesion(now: Situation) -> Numbers:
    return now.rack.site.soil.cu_expected * now.expected("clay")


def _angle(now: Situation) -> Numbers:
    """Angle of friction of the ground, or of gravel filled in round the post [rad]."""
    return (now.rack.site.soil.phi_expected or GRAVEL_ANGLE) * now.expected("sand_angle")


def _adheres(now: Situation) -> bool:
    """Whether what rubs on the sides is clay or rock: the ground is, and the fill not gravel."""
    return now.rack.site.soil.cu_soft > 0 and now.rack.posts.footing.backfill != GRAVEL


def _side_friction(now: Situation) -> Numbers:
    """Mean friction of the sides below the dead top [Pa]."""
    footing, soil = now.rack.posts.footing, now.rack.site.soil
    if _adheres(now):
        return adhesion_clay(tamped_cohesion(_cohesion(now), footing.backfill))
    above = overburden(soil.unit_weight_dry, footing.depth, _dead(now))
    return now.expected("shaft") * above
