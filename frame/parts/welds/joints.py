"""The walls of post and beam where braces and the sleeve are welded to them."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check
from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.lug_wall import LugPull
from frame.checks.welds.round_joint import (
    BranchLoads,
    RoundJoint,
    covered,
    out_of_plane,
    yield_in_tables,
)
from frame.idealize.braces import knee_name
from frame.idealize.posts import beam_mark, post_name
from frame.named.part import BEAM, PartKind, Side, sleeve, wall
from frame.parts.checker import PartCheck
from frame.parts.forces import coded_metal, pipe_wall, remark, squeeze, wall_counted_on
from frame.parts.steel.sleeve import sleeve_forces, sleeve_od, sleeve_wall
from frame.parts.welds.lug_walls import wall_under_lug
from frame.parts.welds.welds import BraceEnd, knee_ends, lug_forces
from frame.rack.brace import Knees
from frame.rack.knee_foot import seat_top
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, Rack
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import material


def joint_checks(now: Situation) -> Iterator[PartCheck]:
    """Chord wall of the beam at the sleeves, of post and beam at every knee."""
    yield wall(PartKind.BEAM, sleeve()), _at_sleeve(now)
    knees = now.rack.knees
    if KNEES not in now.block.bracing or knees is None:
        return
    for i in range(len(now.rack.posts.positions)):
        post = post_name(now.rack, i)
        for side in Side:
            name = knee_name(now.rack, i, side)
            places = (f"{post} at knees", f"beam at knee of {post}, {side}")
            ends = knee_ends(now, name, knees)
            for end, mark, carrier in zip(ends, places, (post, BEAM), strict=True):
                stress = squeeze(now, carrier, [now.block.frame.ideal.marks[mark]], end.carrier)[
                    :, 0
                ]
                yield wall(carrier.kind, name), _at_knee(now, end, knees, stress)


def _joint(now: Situation, chord: Pipe, branch: Pipe, angle: float, to_end: float) -> RoundJoint:
    """Return the joint as the code counts it."""
    metal = coded_metal(now, wall_counted_on(chord))
    return RoundJoint(
        chord_od=chord.design.od,
        chord_wall=chord.design.wall,
        branch_od=branch.design.od,
        branch_wall=branch.design.wall,
        chord_yield=yield_in_tables(metal.counted_yield),
        chord_tensile=metal.counted_tensile,
        branch_yield=coded_metal(now, wall_counted_on(branch)).counted_yield,
        angle=angle,
        to_end=to_end,
    )


def _chord_wall(now: Situation, loads: BranchLoads, joint: RoundJoint, chord: Pipe) -> Check:
    """Check the wall of a joint; expected are walls and yields, on joints that the code covers.

    The limits of its tables are on the least yield of a grade, not on what is expected of it.
    """
    if not now.median:
        return chord_wall(loads, joint, material().E)
    ndim = np.ndim(loads.axial)
    expected = replace(
        joint,
        chord_wall=pipe_wall(now, chord, ndim)[0],
        chord_yield=now.yield_of(chord.steel, ndim),
    )
    check = chord_wall(loads, expected, material().E, now.expected("chord_wall", ndim))
    return replace(check, covered=covered(joint, material().E))


def _at_knee(now: Situation, end: BraceEnd, knees: Knees, stress: FloatArray) -> Check:
    """Axial force and moments of a welded knee on the wall, or what the lug of a pinned one does.

    The other knee pushes the post from the opposite side, as in a cross joint. The knee lies in
    the plane of post and beam with its local y square to it, so My bends in that plane and Mz out
    of it; its torque has a part out of it too (`out_of_plane`).
    """
    N, T, My, Mz = (end.force[:, i] for i in (0, 3, 4, 5))
    if knees.ends != "welded":
        pull = LugPull(*lug_forces(end))
        return wall_under_lug(now, pull, end.carrier, stress, crossed=end.on is PartKind.POST)
    room = _to_end(now.rack, end, knees)
    joint = replace(
        _joint(now, end.carrier, knees.pipe, end.angle, room), crossed=end.on is PartKind.POST
    )
    bent = out_of_plane(Mz, T, end.angle)
    loads = BranchLoads(axial=N, in_plane=My, out_of_plane=bent, chord_stress=stress)
    check = _chord_wall(now, loads, joint, end.carrier)
    return remark(check, end.carrier.steel, knees.pipe.steel)


def _to_end(rack: Rack, end: BraceEnd, knees: Knees) -> float:
    """Clear distance [m] along post or beam from the knee to its end."""
    if end.on is PartKind.POST:
        top = seat_top(knees, rack.posts.pipe.od / 2, knees.pipe.design.od / 2)
        return top - rack.beam.pipe.od / 2
    half = knees.pipe.design.od / 2 / float(np.sin(end.angle))
    return min(rack.arms) - knees.reach - half


def _at_sleeve(now: Situation) -> Check:
    """Sleeve as the branch on the beam, square to it and often wider.

    Its swing is a twist about its own axis: shear in the wall round its foot, which the check of
    the metal beside the weld counts, and no bending of the wall.
    """
    rack, forces, marks = now.rack, sleeve_forces(now), now.block.frame.ideal.marks
    posts = range(len(rack.posts.positions))
    nodes = [marks[beam_mark(rack, i)] for i in posts]
    thick, steel = sleeve_wall(rack)
    room = min(rack.arms) - sleeve_od(rack) / 2
    joint = replace(
        _joint(now, rack.beam.pipe, rack.beam.pipe, np.pi / 2, room),
        branch_od=sleeve_od(rack),
        branch_wall=thick,
        branch_yield=coded_metal(now, (thick, steel)).counted_yield,
    )
    loads = BranchLoads(
        axial=forces.push,
        in_plane=forces.in_plane,
        out_of_plane=forces.out_of_plane,
        chord_stress=squeeze(now, BEAM, nodes, rack.beam.pipe),
    )
    check = _chord_wall(now, loads, joint, rack.beam.pipe)
    return remark(check, rack.beam.pipe.steel, steel)
