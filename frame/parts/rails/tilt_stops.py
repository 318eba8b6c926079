"""The stops that keep the rails from turning on the beam when their U-bolts slip."""

from collections.abc import Iterator

import numpy as np

from frame.checks.fasteners.tilt_stop import TiltStop, stop_line, stop_plate, stop_wall
from frame.checks.fasteners.u_bolt import expected_u_bolt_grip, u_bolt_grip
from frame.checks.welds.round_joint import yield_in_tables
from frame.named.part import BEAM, TILT_STOP, PartKind, wall, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import coded_metal, metal_between, pipe_wall, remark, squeeze, tensile_of
from frame.parts.rails.rails import CHANNEL_STEEL
from frame.parts.rails.u_bolts import counted_u_bolt, slipping_loads
from frame.parts.welds.plates import PLATE_STEEL
from frame.parts.welds.welds import line_checks
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import find


def tilt_stop_checks(now: Situation) -> Iterator[PartCheck]:
    """Plate, bolts, weld and the beam's wall of the stop that is turned most.

    The U-bolts go on gripping while they slip, and the stops get the rest, each its share: the
    panels tie the rails together.
    """
    rack = now.rack
    if not rack.rails.stops:
        return
    M, stop = _turning(now), _stop(now)
    yield TILT_STOP, stop_plate(M, stop, factored=not now.median)
    beam, plate = pipe_wall(now, rack.beam.pipe), (rack.welds.lug_plate, find(PLATE_STEEL))
    metal = metal_between(now, beam, plate)
    line = stop_line(M, stop, rack.welds.leg)
    yield from line_checks(
        now, weld(TILT_STOP), line, metal, rack.beam.pipe.steel, find(PLATE_STEEL)
    )
    marks = now.block.frame.ideal.marks
    rails = [marks[f"beam at rail {i + 1}"] for i in range(len(rack.rails.positions))]
    stress = squeeze(now, BEAM, rails, rack.beam.pipe).max(axis=1)
    expected = now.expected("chord_wall") if now.median else None
    stopped = stop_wall(M, stop, stress, expected)
    yield wall(PartKind.BEAM, TILT_STOP), remark(stopped, rack.beam.pipe.steel)


def _turning(now: Situation) -> FloatArray:
    """Return what the friction counted on leaves to the stop that gets most of it [N m], (n,).

    As the grip is counted without stops: in the code's count rails that turn against one another
    add up, and half of the friction is counted on.
    """
    loads, rack = slipping_loads(now), now.rack
    turning, sliding = loads.as_one if now.median else loads.opposed
    gripping = expected_u_bolt_grip if now.median else u_bolt_grip
    grip = gripping(loads, counted_u_bolt(now), rack.rails.u_bolts.count).allowable
    left = np.sqrt(np.maximum(np.square(grip) - np.square(sliding), 0.0))
    held = left * rack.beam.pipe.od / 2
    return np.asarray(np.maximum(turning - held, 0.0) / rack.rails.stops)


def _stop(now: Situation) -> TiltStop:
    rack, plate, rail, grade = (
        now.rack,
        find(PLATE_STEEL),
        find(CHANNEL_STEEL),
        find_grade("unmarked"),
    )
    beam = rack.beam.pipe
    wall, steel = pipe_wall(now, beam)
    return TiltStop(
        beam_od=beam.design.od,
        beam_wall=wall,
        beam_yield=now.yield_of(steel)
        if now.median
        else yield_in_tables(coded_metal(now, (wall, steel)).counted_yield),
        plate=rack.welds.lug_plate,
        plate_yield=now.yield_of(plate) if now.median else plate.fy,
        bolt=rack.welds.lug_bolt,
        bolt_shear=grade.expected_shear * now.expected("rod_shear") if now.median else grade.shear,
        rail_wall=rack.rails.channel.wall,
        rail_tensile=tensile_of(now, rail),
        rail_edge=rack.rails.channel.side_middle,
    )
