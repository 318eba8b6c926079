"""The ground round the rack: level, or one even slope."""

import math
from dataclasses import dataclass, replace

import numpy as np

from frame.errors import InputError, Problem
from frame.idealize.posts import lug_height
from frame.rack.rack import Rack
from frame.units import INCH

WAYS = {"front": (0.0, -1.0), "back": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}
STEEPEST = math.radians(30)
ROOM = 6 * INCH
"""Least of a post between the ground and what is fixed to it [m] (judgement)."""


@dataclass(frozen=True, slots=True)
class Ground:
    """An even slope [rad] that falls towards "front", "back", "left" or "right" of the rack."""

    slope: float = 0.0
    falls: str = "front"

    def height(self, x: float, y: float) -> float:
        """Height of the ground over that at the middle of the rack [m], places in m."""
        way = WAYS[self.falls]
        return -math.tan(self.slope) * (x * way[0] + y * way[1])

    def point(self, x: float, y: float, rise: float = 0.0) -> np.ndarray:
        """Point `rise` above the ground at a place [m]."""
        return np.array([x, y, self.height(x, y) + rise])


def check_ground(ground: Ground, rack: Rack) -> None:
    """Refuse what cannot be staked out.

    Raises
    ------
    InputError
        For a slope too steep, beside a rise of anchors in the file, or one that leaves a post
        uphill no room under sleeve and knees.
    """
    if not 0 <= ground.slope <= STEEPEST:
        right = "give a slope from 0 to 30 deg"
        raise InputError((Problem("--slope", "is out of range", right),))
    check_rise(ground, rack)
    under = min(lug_height(rack), rack.posts.height - (rack.knees.drop if rack.knees else 0.0))
    if stepped(ground, rack) and under - max(grades(ground, rack)) < ROOM:
        what = "leaves the post uphill no room between the ground and its sleeve or knees"
        raise InputError((Problem("--slope", what, "level the ground, or give taller posts"),))


def check_rise(ground: Ground, rack: Rack) -> None:
    """Refuse a slope where the file tells already how high the anchors of guys stand.

    A rise is counted from the post's grade, and the pulls are worked out so; a slope would put
    the same anchors elsewhere.

    Raises
    ------
    InputError
        For a slope beside a rise.
    """
    raised = [g.name for g in rack.guys if g.rise]
    if ground.slope and raised:
        what = f"and the rise of the anchors of {', '.join(raised)} in the file are two grounds"
        right = "leave --slope out, or take rise out of the file: one of them tells the ground"
        raise InputError((Problem("--slope", what, right),))


def grades(ground: Ground, rack: Rack) -> tuple[float, ...]:
    """Heights of the ground at the posts, over that at the middle of the rack [m]."""
    return tuple(ground.height(x, 0.0) for x in rack.posts.positions)


def stepped(ground: Ground, rack: Rack) -> bool:
    """Whether a level beam asks for posts of different lengths."""
    return len(set(grades(ground, rack))) > 1


def as_tall_as_the_tallest(rack: Rack, ground: Ground) -> Rack:
    """Return the rack with every post as tall as the one furthest downhill.

    On the safe side for posts and ground, which a longer arm bends more.
    """
    if not stepped(ground, rack):
        return rack
    tall = rack.posts.height - min(grades(ground, rack))
    return replace(rack, posts=replace(rack.posts, height=tall))
