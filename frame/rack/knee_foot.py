"""Where the upper end of a knee's seat is on the post, and whether the sleeve leaves it room."""

import math
from dataclasses import dataclass

from frame.rack.brace import Knees
from frame.rack.rack import Rack
from frame.rack.weld import ARM_PER_LENGTH

NEARLY = 1e-6
"""Length [m] that no tape shows: a place read back from its text may be off by less."""


@dataclass(frozen=True, slots=True)
class _Seat:
    """What of a knee has to stay `under` the sleeve's foot by so much [m].

    The upper edge of its pipe, or of its lug, `off` from the post's axis; `radius` of the pipe, 0
    for the eye of a lug [m].
    """

    off: float
    radius: float
    under: float


def sleeve_foot(rack: Rack) -> float:
    """Distance of the bottom of the sleeve under the beam's centre line [m]."""
    return rack.beam.pipe.od / 2 + rack.sleeve.length


def seat_top(knees: Knees, off: float, radius: float) -> float:
    """Distance [m] under the beam's centre line of the upper edge of a knee's seat.

    Where a pipe of `radius` [m] enters a round surface of radius `off` [m] about the post's axis.
    With a the angle between knee and post, cot a = drop / reach and 1 / sin a = length / reach:
    the axis enters off cot a above the work point, the edge radius / sin a further up. Exact for
    two cylinders whose axes meet: beside that plane the surface lies nearer to the post's axis,
    and the seat lower.
    """
    return knees.drop - (off * knees.drop + radius * knees.work_length) / knees.reach


def deepest_sleeve_foot(rack: Rack, knees: Knees) -> float:
    """Distance [m] under the beam's centre line down to which `knees` leave room for a sleeve."""
    return min(seat_top(knees, s.off, s.radius) - s.under for s in _seats(rack, knees))


def on_sleeve(rack: Rack, knees: Knees) -> bool:
    """Whether `knees` come onto the sleeve of a rack, or leave no room for the weld under it."""
    return sleeve_foot(rack) > deepest_sleeve_foot(rack, knees) + NEARLY


def least_drop(rack: Rack, knees: Knees) -> float:
    """Least drop [m] of `knees` that clears the sleeve, their reach kept; infinite if none does.

    The drop d at which `seat_top` is s = `sleeve_foot` and what the seat keeps under it. With
    k = 1 - off / reach and q = radius / reach it solves k d - q sqrt(reach^2 + d^2) = s, of which
    the upper root counts. From k <= q on a lower knee only gets steeper, and never clears.
    """
    found = []
    for seat in _seats(rack, knees):
        s = sleeve_foot(rack) + seat.under
        k, q = 1 - seat.off / knees.reach, seat.radius / knees.reach
        if k <= q:
            return math.inf
        free = k**2 - q**2
        found.append((k * s + q * math.sqrt(s**2 + free * knees.reach**2)) / free)
    return max(found)


def _seats(rack: Rack, knees: Knees) -> tuple[_Seat, ...]:
    """Return what of a knee has to clear the sleeve.

    Of a welded one its seat on the post by a fillet's leg, and its pipe the sleeve itself, which
    stands off the post by its wall, and by all of its play where the post leans on the other side.
    Of a pinned one the upper end of its lug, by a fillet's leg; its slotted pipe starts further
    off the post than a sleeve is thick.
    """
    radius, leg, sleeve = rack.posts.pipe.od / 2, rack.welds.leg, rack.sleeve
    if knees.ends == "welded":
        outside = radius + (sleeve.as_built or sleeve.clearance) + sleeve.wall
        pipe = knees.pipe.od / 2
        return _Seat(radius, pipe, leg), _Seat(outside, pipe, 0.0)
    length = rack.welds.lug_length
    return (_Seat(radius + ARM_PER_LENGTH * length, 0.0, length / 2 + leg),)
