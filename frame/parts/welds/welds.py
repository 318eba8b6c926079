"""Welds as lines: the sleeve to the beam, the ends of the braces."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from frame.checks.welds.saddle import SADDLE_THROAT, Saddle, saddle_line
from frame.checks.welds.weld import (
    FILLET_THROAT,
    Lug,
    Metal,
    Ring,
    WeldLine,
    base_metal,
    lug_line,
    ring_line,
    weld_metal,
)
from frame.named.part import Part, PartKind, sleeve, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import metal_between, pipe_wall, remark
from frame.parts.steel.braces import brace_parts
from frame.parts.steel.sleeve import sleeve_forces, sleeve_od, sleeve_pipe
from frame.rack.brace import Knees
from frame.rack.guy import BEAM_ENDS, POST_TOP
from frame.rack.pipe import Pipe
from frame.rack.weld import Welds
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import Steel

ARM_PER_LENGTH = 0.5
"""Hole to weld over the length of a brace's lug (judgement)."""


@dataclass(frozen=True)
class BraceEnd:
    """One end of a brace: forces (n, 6), local axes.

    `angle` [rad] between brace and the pipe it stands on, `carrier`, of the kind `on`.
    """

    force: FloatArray
    angle: float
    carrier: Pipe
    on: PartKind | None


def weld_checks(now: Situation) -> Iterator[PartCheck]:
    """Weld and base metal of every weld that carries load."""
    yield from _saddle(now)
    knees, stays = now.rack.knees, now.rack.stays
    for name, pipe, _ in brace_parts(now):
        if name.kind is PartKind.KNEE and knees is not None:
            for end in knee_ends(now, name, knees):
                line = _ring(now, end, pipe) if knees.ends == "welded" else _lug(now, end)
                yield from _both(now, weld(name, end.on), line, end, pipe)
        elif stays is not None:
            end = _stay_end(now, name)
            yield from _both(now, weld(name), _lug(now, end), end, pipe)


def knee_ends(now: Situation, name: Part, knees: Knees) -> tuple[BraceEnd, BraceEnd]:
    """Return the ends of a knee at post and beam."""
    force = _end_forces(now, name)
    return (
        BraceEnd(force[:, :6], knees.angle, now.rack.posts.pipe, PartKind.POST),
        BraceEnd(force[:, 6:], math.pi / 2 - knees.angle, now.rack.beam.pipe, PartKind.BEAM),
    )


def _end_forces(now: Situation, name: Part) -> FloatArray:
    member = now.block.frame.ideal.model.members_of(name)[0]
    return now.answer.on_members([member])[:, 0]


def _saddle(now: Situation) -> Iterator[PartCheck]:
    """Weld of the sleeve to the beam, along the line where they meet.

    What is expected is a sound fillet; the code's count takes the least of its throats all along.
    """
    rack, forces = now.rack, sleeve_forces(now)
    saddle = Saddle(
        sleeve_od=sleeve_od(rack),
        beam_od=rack.beam.pipe.od,
        leg=rack.welds.leg,
        throat=FILLET_THROAT if now.median else SADDLE_THROAT,
    )
    line = saddle_line(
        (forces.push, forces.side), forces.in_plane, forces.out_of_plane, forces.swing, saddle
    )
    walls = (sleeve_pipe(now, 2), pipe_wall(now, rack.beam.pipe, 2))
    metal = metal_between(now, *walls, ndim=2)
    yield from line_checks(now, weld(sleeve(), PartKind.BEAM), line, metal, *(s for _, s in walls))


def _ring(now: Situation, end: BraceEnd, pipe: Pipe) -> WeldLine:
    N, Vy, Vz, T, My, Mz = (end.force[:, i] for i in range(6))
    ring = Ring(diameter=pipe.design.od, leg=now.rack.welds.leg)
    return ring_line(N, np.hypot(Vy, Vz), np.hypot(My, Mz), T, ring)


def _lug(now: Situation, end: BraceEnd) -> WeldLine:
    """Pull at the hole of a lug that lies in the plane of brace and carrier."""
    normal, along, side = lug_forces(end)
    return lug_line(along, normal, side, welded_lug(now.rack.welds))


def welded_lug(welds: Welds) -> Lug:
    """Return the lug that braces and guys hang on, the hole half its length off the weld."""
    return Lug(
        length=welds.lug_length,
        thickness=welds.lug_plate,
        arm=ARM_PER_LENGTH * welds.lug_length,
        leg=welds.leg,
    )


def lug_forces(end: BraceEnd) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the force on a lug square to its carrier, along it, and out of the plane of both."""
    N, Vy, Vz = (np.abs(end.force[:, i]) for i in range(3))
    sine, cosine = math.sin(end.angle), math.cos(end.angle)
    return N * sine + Vz * cosine, N * cosine + Vz * sine, Vy


def _stay_end(now: Situation, name: Part) -> BraceEnd:
    """Upper end of a stay, its second node."""
    ideal, stays = now.block.frame.ideal, now.rack.stays
    assert stays is not None
    member = ideal.model.members[ideal.model.members_of(name)[0]]
    foot, head = (np.array(ideal.model.nodes[n].xyz) for n in member.ends)
    line = (head - foot) / np.linalg.norm(head - foot)
    axis = {POST_TOP: 2, BEAM_ENDS: 0}.get(stays.attach, 0)
    carrier = now.rack.posts.pipe if stays.attach == POST_TOP else now.rack.beam.pipe
    angle = math.acos(min(1.0, abs(float(line[axis]))))
    return BraceEnd(_end_forces(now, name)[:, 6:], angle, carrier, None)


def _both(
    now: Situation, part: Part, line: WeldLine, end: BraceEnd, pipe: Pipe
) -> Iterator[PartCheck]:
    metal = metal_between(now, pipe_wall(now, pipe), pipe_wall(now, end.carrier))
    yield from line_checks(now, part, line, metal, pipe.steel, end.carrier.steel)


def line_checks(
    now: Situation, part: Part, line: WeldLine, metal: Metal, *steels: Steel
) -> Iterator[PartCheck]:
    """Yield the checks of the weld metal and of the metal beside it."""
    expected = now.expected("weld", np.ndim(line.force)) if now.median else None
    yield part, weld_metal(line, metal, expected)
    yield part, remark(base_metal(line, metal, factored=not now.median), *steels)
