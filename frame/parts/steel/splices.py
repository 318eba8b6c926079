"""The beam at its welded splices."""

from collections.abc import Iterator

import numpy as np

from frame.checks.steel.pipe import Forces, interaction
from frame.fem.forces import Sections
from frame.named.part import BEAM, SPLICE
from frame.parts.checker import PartCheck
from frame.parts.forces import remark
from frame.parts.steel.pipes import beam_length, pipe_in
from frame.solved.situation import Situation

NAMES = ("N", "Vy", "Vz", "T", "My", "Mz")
NEAR = 1e-9
"""How far past a node a splice may lie and still count to the member before it [m]."""


def splice_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the beam at every splice as a pipe with the strength of its weld.

    What is expected of the weld scatters as welds do, but no weld is stronger than the pipe.
    """
    beam = now.rack.beam
    if not beam.splices:
        return
    at = [_cut(now, x) for x in beam.splices]
    forces = Forces(**{name: np.stack([getattr(s, name) for s in at], axis=1) for name in NAMES})
    share = beam.splice_efficiency * now.expected("weld", 2) if now.median else 0.0
    efficiency = np.minimum(share, 1.0) if now.median else beam.splice_efficiency
    pipe = pipe_in(now, beam.pipe, 2).spliced(efficiency)
    check = interaction(pipe, forces, beam_length(now))
    yield SPLICE, remark(check, beam.pipe.steel)


def _cut(now: Situation, x: float) -> Sections:
    """Section forces of the beam at `x` [m] from its middle, arrays (n,)."""
    model = now.block.frame.ideal.model
    for m in model.members_of(BEAM):
        left, right = (model.nodes[n].xyz[0] for n in model.members[m].ends)
        if left - NEAR <= x <= right + NEAR:
            found = now.answer.cut([m], np.array([(x - left) / (right - left)]))
            return Sections(**{name: getattr(found, name)[:, 0, 0] for name in NAMES})
    raise ValueError(f"no beam at {x} m")
