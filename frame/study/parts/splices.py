"""The beam at its welded splices."""

from collections.abc import Iterator

import numpy as np

from frame.checks.pipe import Forces, interaction
from frame.fem.forces import Sections, sections
from frame.study.frames import FloatArray
from frame.study.parts.forces import remark
from frame.study.parts.pipes import PartCheck, beam_length, round_pipe
from frame.study.situation import Situation

NEAR = 1e-9
"""How far past a node a splice may lie and still count to the member before it [m]."""


def splice_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the beam at every splice as a pipe with the strength of its weld."""
    beam = now.rack.beam
    if not beam.splices:
        return
    at = [_cut(now, x) for x in beam.splices]
    names = ("N", "My", "Mz", "Vy", "Vz", "T")
    forces = Forces(**{name: np.stack([getattr(s, name) for s in at], axis=1) for name in names})
    pipe = round_pipe(beam.pipe).spliced(beam.splice_efficiency)
    check = interaction(pipe, forces, beam_length(now), now.second_order[:, None])
    yield "beam at splice", remark(check, beam.pipe.steel)


def _cut(now: Situation, x: float) -> Sections:
    """Section forces of the beam at `x` [m] from its middle, arrays (n,)."""
    model, answer = now.block.frame.ideal.model, now.solved
    for m in model.members_of("beam"):
        left, right = (model.nodes[n].xyz[0] for n in model.members[m].ends)
        if left - NEAR <= x <= right + NEAR:
            share = np.array([(x - left) / (right - left)])
            unit = answer.response.line_loads[:, [m]]
            w: FloatArray = np.tensordot(answer.factors, unit, axes=1)
            found = sections(answer.member_forces[:, [m]], w, answer.response.length[[m]], share)
            names = ("N", "Vy", "Vz", "T", "My", "Mz")
            return Sections(**{name: getattr(found, name)[:, 0, 0] for name in names})
    raise ValueError(f"no beam at {x} m")
