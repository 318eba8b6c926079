"""The plate that stops a rail from tilting: its size, and a pair of holes for every tilt."""

import math
from dataclasses import dataclass
from itertools import combinations

from frame.checks.fasteners.tilt_stop import EDGE, TiltStop
from frame.rack.rack import Rack
from frame.shop.steel.pieces import HOLE, Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPlate:
    """A plate on edge beside a rail, coped over the beam: `count` of it to a rack, 0 if none.

    Sizes in the plate's own plane, from the beam's axis, square to the slope at the middle of the
    tilts [m]: `half` its width to either side, `top` where it ends. `holes` by tilt [rad]: lower
    and upper hole of the pair, (along the slope of the middle tilt, square to it) [m]. `over`: how
    high the bolts pass through both side walls of the rail, over the beam [m]. `crowded`: holes of
    neighbouring tilts are less than a bolt apart, and go into plates of two rails by turns, for
    bolts through both sides of a rail leave no room for a second one there. Only one pair is
    loaded at a time.
    """

    count: int
    thickness: float
    half: float
    top: float
    hole: float
    middle: float
    over: float
    holes: dict[float, tuple[tuple[float, float], tuple[float, float]]]
    crowded: bool


def stop_plate_of(rack: Rack) -> StopPlate | None:
    """Work out the plate; None where two bolts find no room side by side on it, or up the rail.

    Two bolts pass through the side walls of the channel that lies on the beam, halfway up them:
    at half the depth of two back to back they would run into the seam of the backs. They are as
    far apart as the check counts on.
    """
    bolt, od, over = rack.welds.lug_bolt, rack.beam.pipe.od, rack.rails.channel.side_middle
    stop = _stop(rack)
    spread, radius = float(stop.bolt_spacing), od / 2 + over
    if spread < 2 * bolt or not stop.clears_back:
        return None
    middle = (min(rack.tilts) + max(rack.tilts)) / 2
    holes = {}
    for tilt in rack.tilts:
        turned = tilt - middle
        out = (-math.sin(turned), math.cos(turned))
        up = (math.cos(turned), math.sin(turned))
        pair = [
            (radius * out[0] + s * up[0], radius * out[1] + s * up[1])
            for s in (-spread / 2, spread / 2)
        ]
        holes[tilt] = (pair[0], pair[1])
    every = [p for pair in holes.values() for p in pair]
    apart = min((math.dist(a, b) for a, b in combinations(every, 2)), default=math.inf)
    reach = EDGE * bolt
    return StopPlate(
        count=rack.rails.stops,
        thickness=rack.welds.lug_plate,
        half=max(od / 2, max(abs(x) for x, _ in every) + reach),
        top=max(y for _, y in every) + reach,
        hole=bolt + HOLE,
        middle=middle,
        over=over,
        holes=holes,
        crowded=apart < 2 * bolt,
    )


def stopped_rails(rack: Rack) -> tuple[int, ...]:
    """Return which rails have a stop, from 1: the outer ones first, left and right by turns."""
    numbers = list(range(1, len(rack.rails.positions) + 1))
    order = [numbers.pop(0 if i % 2 == 0 else -1) for i in range(len(numbers))]
    return tuple(sorted(order[: rack.rails.stops]))


def stop_marks(rack: Rack, carrier: str) -> list[Mark]:
    """Return the marks of the stops on the "beam", or of their bolts on the "rail".

    A plate stands beside its rail on the side of the beam's middle.
    """
    plate, rails = stop_plate_of(rack), rack.rails
    if plate is None or not plate.count:
        return []
    numbers = stopped_rails(rack)
    if carrier == "rail":
        on = () if len(numbers) == len(rails.positions) else numbers
        return [
            Mark(
                name=f"bolt of the tilt stop, {where}",
                at=rails.length / 2 + sign * float(_stop(rack).bolt_spacing) / 2,
                around=math.pi / 2,
                up=plate.over,
                hole=plate.hole,
                on=on,
            )
            for where, sign in (("lower", -1), ("upper", 1))
        ]
    beside = (rails.channel.width + plate.thickness) / 2
    middle = rack.beam.length / 2
    return [
        Mark(
            name=f"tilt stop beside rail {n}",
            at=middle + x - math.copysign(beside, x),
            around=0.0,
        )
        for n in numbers
        for x in (rails.positions[n - 1],)
    ]


def _stop(rack: Rack) -> TiltStop:
    """Return the stop as the check counts on it, in size alone."""
    return TiltStop(
        beam_od=rack.beam.pipe.od,
        beam_wall=rack.beam.pipe.wall,
        beam_yield=0.0,
        plate=rack.welds.lug_plate,
        plate_yield=0.0,
        bolt=rack.welds.lug_bolt,
        bolt_shear=0.0,
        rail_wall=rack.rails.channel.wall,
        rail_tensile=0.0,
        rail_edge=rack.rails.channel.side_middle,
    )
