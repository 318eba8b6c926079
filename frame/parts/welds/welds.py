"""Welds as lines: the sleeve to the beam, the ends of the braces."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from frame.checks.welds.saddle import SADDLE_THROAT, Saddle, saddle_line
from frame.checks.welds.weld import (
    FILLET_THROAT,
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
from frame.parts.welds.plates import PLATE_STEEL, lug_metal, welded_lug
from frame.rack.brace import Knees
from frame.rack.pipe import Pipe
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import Steel, find


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
    """Weld and base metal of the sleeves' welds and of the knees'; stays have theirs apart."""
    yield from _saddle(now)
    knees = now.rack.knees
    for name, pipe, _ in brace_parts(now):
        if name.kind is not PartKind.KNEE or knees is None:
            continue
        for end in knee_ends(now, name, knees):
            if knees.ends == "welded":
                yield from _ring(now, weld(name, end.on), end, pipe)
            else:
                yield from lug_weld(now, weld(name, end.on), end)


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


def _ring(now: Situation, part: Part, end: BraceEnd, pipe: Pipe) -> Iterator[PartCheck]:
    N, Vy, Vz, T, My, Mz = (end.force[:, i] for i in range(6))
    ring = Ring(diameter=pipe.design.od, leg=now.rack.welds.leg)
    line = ring_line(N, np.hypot(Vy, Vz), np.hypot(My, Mz), T, ring)
    metal = metal_between(now, pipe_wall(now, pipe), pipe_wall(now, end.carrier))
    yield from line_checks(now, part, line, metal, pipe.steel, end.carrier.steel)


def lug_weld(now: Situation, part: Part, end: BraceEnd) -> Iterator[PartCheck]:
    """Weld of a lug pulled at its hole, in the plane of the brace and its carrier."""
    normal, along, side = lug_forces(end)
    line = lug_line(along, normal, side, welded_lug(now.rack.welds))
    metal = lug_metal(now, end.carrier)
    yield from line_checks(now, part, line, metal, end.carrier.steel, find(PLATE_STEEL))


def lug_forces(end: BraceEnd) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the force on a lug square to its carrier, along it, and out of the plane of both."""
    N, Vy, Vz = (np.abs(end.force[:, i]) for i in range(3))
    sine, cosine = math.sin(end.angle), math.cos(end.angle)
    return N * sine + Vz * cosine, N * cosine + Vz * sine, Vy


def line_checks(
    now: Situation, part: Part, line: WeldLine, metal: Metal, *steels: Steel
) -> Iterator[PartCheck]:
    """Yield the checks of the weld metal and of the metal beside it."""
    expected = now.expected("weld", np.ndim(line.force)) if now.median else None
    yield part, weld_metal(line, metal, expected)
    yield part, remark(base_metal(line, metal, factored=not now.median), *steels)
