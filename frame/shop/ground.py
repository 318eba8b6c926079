"""The ground round the rack: level, or one even slope."""

import math
from dataclasses import dataclass

import numpy as np

from frame.errors import InputError, Problem
from frame.rack.rack import Rack

WAYS = {"front": (0.0, -1.0), "back": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}
STEEPEST = math.radians(30)


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
        For a slope too steep, or one along a beam on several posts, which then differ in length.
    """
    if not 0 <= ground.slope <= STEEPEST:
        right = "give a slope from 0 to 30 deg"
        raise InputError((Problem("--slope", "is out of range", right),))
    if ground.slope and WAYS[ground.falls][0] and len(rack.posts.positions) > 1:
        what = "along the beam makes posts of different lengths, which one file cannot describe"
        raise InputError((Problem("--slope", what, "level the ground under the posts"),))
