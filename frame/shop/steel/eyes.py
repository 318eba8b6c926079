"""Where pins sit: the eyes of lugs for guys, stays and pinned knees, off real pipe surfaces."""

import math
from dataclasses import dataclass

import numpy as np

from frame.idealize.deck import Slope
from frame.idealize.posts import lug_height
from frame.named.part import FOUR_WAYS, Edge, Side
from frame.parts.rails.rail_ends import end_hole
from frame.parts.welds.tabs import TAB_GAP
from frame.rack.brace import Stays
from frame.rack.guy import BEAM_ENDS, POST_TOP, RAIL_CORNERS, Guys
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.weld import ARM_PER_LENGTH

WAYS = {Edge.FRONT: -1.0, Edge.BACK: 1.0, Side.LEFT: -1.0, Side.RIGHT: 1.0}
"""Sign of x or y of each way that lines go."""
Point = np.ndarray
Way = tuple[Edge, Side]


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """An eye of the rack that a line or stay hangs on.

    On the `edge` and `side` of the rack, `carrier` "post", "beam" or "rail", its `number` from 1;
    `at` [m] along it from its hook end, `around` [rad] as in `Mark`, None on a rail; `point` where
    the middle of the hole is, `foot` where the line meets the ground, global axes [m].
    """

    edge: Edge
    side: Side
    carrier: str
    number: int
    at: float
    around: float | None
    point: Point
    foot: Point

    @property
    def which(self) -> str:
        """Return which way it goes in words: "front left"."""
        return f"{self.edge} {self.side}"


def lug_arm(rack: Rack) -> float:
    """Distance of the middle of a lug's hole from the pipe it stands on [m]."""
    return ARM_PER_LENGTH * rack.welds.lug_length


def tab_reach(rack: Rack) -> float:
    """Distance of the middle of a tab's hole from the end of its pipe [m]."""
    return lug_arm(rack) + TAB_GAP


def eyes(rack: Rack, line: Guys | Stays, tilt: float) -> tuple[Eye, ...]:
    """Return the four eyes of a group of guys or stays at a `tilt` [rad], as in `attachments`.

    Lines aim at the axis of post or beam, as they do in the frame; feet stand `out` and `along`
    from there. A lug stands under the sleeve, or with its length within the beam's end.
    """
    return tuple(_eye(rack, line, tilt, way) for way in FOUR_WAYS)


def _eye(rack: Rack, line: Guys | Stays, tilt: float, which: Way) -> Eye:
    rise = line.rise if isinstance(line, Guys) else 0.0
    away = np.array([WAYS[which[1]] * line.along, WAYS[which[0]] * line.out, 0.0])
    if line.attach == POST_TOP:
        return _post_eye(rack, which, away, rise)
    if line.attach == BEAM_ENDS:
        return _beam_eye(rack, which, away, rise)
    return _rail_eye(rack, which, away, rise, tilt)


def _post_eye(rack: Rack, which: Way, away: Point, rise: float) -> Eye:
    number = 1 if which[1] is Side.LEFT else len(rack.posts.positions)
    axis = np.array([rack.posts.positions[number - 1], 0.0, lug_height(rack)])
    foot = axis + away
    foot[2] = rise
    run = math.hypot(away[0], away[1])
    off = rack.posts.pipe.od / 2 + lug_arm(rack)
    down = max(off * (axis[2] - rise) / run, rack.welds.lug_length / 2)
    point = axis + off * away / run - np.array([0.0, 0.0, down])
    around = math.atan2(away[0], -away[1]) % (2 * math.pi)
    at = rack.posts.footing.depth + point[2]
    return Eye(
        edge=which[0],
        side=which[1],
        carrier="post",
        number=number,
        at=at,
        around=around,
        point=point,
        foot=foot,
    )


def _beam_eye(rack: Rack, which: Way, away: Point, rise: float) -> Eye:
    half, height = rack.beam.length / 2, rack.posts.height
    sign = WAYS[which[1]]
    foot = np.array([sign * half, 0.0, height]) + away
    foot[2] = rise
    x = sign * (half - rack.welds.lug_length / 2)
    across = np.array([0.0, foot[1], foot[2] - height])
    square = across / np.linalg.norm(across)
    off = rack.beam.pipe.od / 2 + lug_arm(rack)
    point = np.array([x, 0.0, height]) + off * square
    around = math.atan2(-square[1], square[2]) % (2 * math.pi)
    return Eye(
        edge=which[0],
        side=which[1],
        carrier="beam",
        number=1,
        at=half + x,
        around=around,
        point=point,
        foot=foot,
    )


def _rail_eye(rack: Rack, which: Way, away: Point, rise: float, tilt: float) -> Eye:
    rails, slope = rack.rails, Slope(tilt)
    number = 1 if which[1] is Side.LEFT else len(rails.positions)
    lower = which[0] is Edge.FRONT
    centre = np.array([rails.positions[number - 1], 0.0, rack.posts.height])
    centre = centre + rack.stand_off * slope.out
    sign, half = (-1.0 if lower else 1.0), rails.length / 2
    foot = centre + sign * half * slope.up + away
    foot[2] = rise
    hole = end_hole(rack)
    return Eye(
        edge=which[0],
        side=which[1],
        carrier="rail",
        number=number,
        at=hole if lower else rails.length - hole,
        around=None,
        point=centre + sign * (half - hole) * slope.up,
        foot=foot,
    )


def rail_end_bolts(rack: Rack, bracing: tuple[str, ...]) -> int:
    """Return how many bolts go through the ends of rails, for guys and stays that start there."""
    places = [group.attach for group in rack.guys_in(bracing)]
    if rack.stays and STAYS in bracing:
        places.append(rack.stays.attach)
    return 4 * places.count(RAIL_CORNERS)


def lug_count(rack: Rack, bracing: tuple[str, ...]) -> int:
    """Return how many lugs are welded on for guys, stays (head and foot) and pinned knees."""
    lugs = sum(4 for g in rack.guys_in(bracing) if g.attach != RAIL_CORNERS)
    if rack.stays and STAYS in bracing:
        lugs += 8 if rack.stays.attach != RAIL_CORNERS else 4
    if rack.knees and KNEES in bracing and rack.knees.ends != "welded":
        lugs += 4 * len(rack.posts.positions)
    return lugs
