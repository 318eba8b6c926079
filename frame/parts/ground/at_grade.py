"""What a post hands to the ground at grade, and what it weighs below."""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Numbers
from frame.checks.ground.post_vertical import plug_weight
from frame.idealize.posts import post_name
from frame.rack.post import Posts
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation

GRAVEL_ANGLE = float(np.radians(35.0))
"""Angle of friction of gravel filled in round a post, hardly tamped [rad] (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtGrade:
    """What one post hands to the ground at grade, (n,) each.

    `shear` and `moment` are resultants over both directions [N], [N m]; `down` [N], plumb,
    pressing positive; `torque` about +z [N m]. A post that leans hands down a larger moment, but
    no larger level force than the loads and guys have.
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
    down, *level = now.answer.as_it_stood(above).T
    return AtGrade(
        shear=np.hypot(*level),
        moment=np.hypot(force[:, 4], force[:, 5]),
        down=down,
        torque=-force[:, 3],
    )


def below_grade(posts: Posts, unit_weight: float) -> Numbers:
    """Weight of the buried post and the concrete round it, of `unit_weight` [N/m3], [N]."""
    footing, pipe = posts.footing, posts.pipe
    plug = plug_weight(pipe.od, footing.hole, footing.depth, unit_weight) if footing.cast else 0.0
    return plug + pipe.weight * footing.depth


def foot_area(posts: Posts) -> float:
    """Area that bears under the foot [m2].

    The whole hole where that is full of concrete; else the plate or stone under the foot, or the
    outline of the pipe, which soil soon plugs (judgement).
    """
    footing = posts.footing
    width = footing.hole if footing.cast else max(posts.pipe.od, footing.foot)
    return float(np.pi / 4 * width**2)


def rubbing_width(posts: Posts) -> float:
    """Diameter of the sides that rub on the ground [m]: the hole full of concrete, or the pipe."""
    return posts.footing.hole if posts.footing.cast else posts.pipe.od
