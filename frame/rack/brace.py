"""Knee braces from post to beam, and stays from the rack to the ground."""

import math
from dataclasses import dataclass

from frame.rack.pipe import Pipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Knees:
    """Knee braces on both sides of every post, in the plane of post and beam.

    `drop` [m] from the beam's centre line down to the work point on the post, `reach` [m] from the
    post's centre line out to the work point on the beam. `ends` "pinned" or "welded". `fitted`
    "before" the panels, "after" them, or "jacked" (after, the beam lifted to shape first).
    """

    pipe: Pipe
    drop: float
    reach: float
    ends: str
    fitted: str

    @property
    def work_length(self) -> float:
        """Length between the work points [m]."""
        return math.hypot(self.drop, self.reach)

    @property
    def angle(self) -> float:
        """Angle between brace and post [rad]."""
        return math.atan2(self.reach, self.drop)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stays:
    """Stiff pipes to the ground, pinned at both ends, from `attach` to `out` and `along` [m].

    `attach` is "post top", "beam ends" or "rail corners". The foot stands `out` across the beam
    (towards the side it starts from) and `along` it, measured from the attachment.
    """

    pipe: Pipe
    attach: str
    out: float
    along: float
    fitted: str
