"""Post and beam as pipes."""

from collections.abc import Iterator

import numpy as np

from frame.checks.check import Check
from frame.checks.steel.pipe import Forces, interaction
from frame.checks.steel.pipe_strength import RoundPipe
from frame.idealize.posts import post_name
from frame.named.part import BEAM, Part
from frame.parts.checker import PartCheck
from frame.parts.forces import section, tensile_of
from frame.rack.pipe import Pipe
from frame.solved.situation import Situation
from frame.tables.steels import material


def round_pipe(pipe: Pipe) -> RoundPipe:
    """Return the design section and steel of a pipe, as the checks take it."""
    return RoundPipe(tube=pipe.design, Fy=pipe.steel.fy, Fu=pipe.steel.fu, E=material().E)


def pipe_in(now: Situation, pipe: Pipe, ndim: int) -> RoundPipe:
    """Return a pipe as the model counts it, arrays of `ndim` dimensions in the median one."""
    if not now.median:
        return round_pipe(pipe)
    return RoundPipe(
        tube=section(now, pipe, ndim),
        Fy=now.yield_of(pipe.steel, ndim),
        Fu=tensile_of(now, pipe.steel, ndim),
        E=material().E,
        safety=1.0,
        rupture_safety=1.0,
    )


def pipe_checks(now: Situation) -> Iterator[PartCheck]:
    """Bending, axial force, shear and torque together, of every post and of the beam.

    Effective length with K = 1, since the forces of second order carry the frame's sway: the post
    from grade to the beam's centre line, the beam its longest arm or span. The post counts down to
    its foot: below grade its moment still grows until the ground has taken the push.
    """
    rack = now.rack
    for i in range(len(rack.posts.positions)):
        name = post_name(rack, i)
        yield name, _pipe(now, name, rack.posts.pipe, rack.posts.height)
    yield BEAM, _pipe(now, BEAM, rack.beam.pipe, beam_length(now))


def beam_length(now: Situation) -> float:
    """Longest arm or span of the beam [m]."""
    spans = np.diff(now.rack.posts.positions)
    return float(max((*now.rack.arms, *spans)))


def _pipe(now: Situation, part: Part, pipe: Pipe, length: float) -> Check:
    at = now.along(part)
    forces = Forces(N=at.N, My=at.My, Mz=at.Mz, Vy=at.Vy, Vz=at.Vz, T=at.T)
    return interaction(pipe_in(now, pipe, 3), forces, length)
