"""The plate that stops a rail from tilting: its size, and a pair of holes for every tilt."""

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from frame.checks.fasteners.tilt_stop import EDGE, TiltStop
from frame.rack.rack import Rack
from frame.units import INCH

HOLE = INCH / 16
"""Hole over bolt [m], AISC 360-22 Table J3.3 (from memory of the standard)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPlate:
    """A plate on edge beside a rail, coped over the beam: `count` of it to a rack, 0 if none.

    Sizes in the plate's own plane, from the beam's axis, square to the slope at the middle of the
    tilts [m]: `half` its width to either side, `top` where it ends. `holes` by tilt [rad]: lower
    and upper hole of the pair, (along the slope of the middle tilt, square to it) [m]. `crowded`:
    holes of neighbouring tilts run into one another; then only the outer tilts get theirs.
    """

    count: int
    thickness: float
    half: float
    top: float
    hole: float
    middle: float
    holes: dict[float, tuple[tuple[float, float], tuple[float, float]]]
    crowded: bool


def stop_plate_of(rack: Rack) -> StopPlate | None:
    """Work out the plate; None where two bolts find no room side by side on it.

    Two bolts hold the rail's side on its centre line, as far apart as the check counts on.
    """
    bolt, od = rack.welds.lug_bolt, rack.beam.pipe.od
    spread = float(_spread(rack))
    if spread < 2 * bolt:
        return None
    middle = (min(rack.tilts) + max(rack.tilts)) / 2
    holes = {}
    for tilt in rack.tilts:
        turned = tilt - middle
        out = (-math.sin(turned), math.cos(turned))
        up = (math.cos(turned), math.sin(turned))
        pair = [
            (rack.stand_off * out[0] + s * up[0], rack.stand_off * out[1] + s * up[1])
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
        holes=holes,
        crowded=apart < 2 * bolt,
    )


def _spread(rack: Rack) -> float:
    """Return the distance between the two bolts that the check counts on [m]."""
    stop = TiltStop(
        beam_od=rack.beam.pipe.od,
        beam_wall=rack.beam.pipe.wall,
        beam_yield=0.0,
        plate=rack.welds.lug_plate,
        plate_yield=0.0,
        bolt=rack.welds.lug_bolt,
        bolt_shear=0.0,
        rail_wall=rack.rails.channel.wall,
        rail_tensile=0.0,
    )
    return float(np.asarray(stop.spread))
