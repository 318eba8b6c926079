"""Forces on joints, and what steel counts beside a weld, for several kinds of part."""

from collections.abc import Sequence
from dataclasses import replace
from functools import reduce

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.welds.weld import Metal
from frame.geometry.tube import RoundTube, Tube, Tubes
from frame.named.part import Part, PartKind
from frame.rack.guy import RAIL_CORNERS
from frame.rack.pipe import Pipe
from frame.rack.rack import STAYS
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import Steel

UNIDENTIFIED = (
    "steel not identified: AISC 360-22 A3.1b keeps it out of parts whose failure weakens the "
    "structure, so this is an estimate"
)
EXPECTED_TENSILE = 1.2
"""Tensile strength expected over the least of a steel [1]: Rt of AISC 341 for A53 and A36, from
memory of the standard, used for all."""
Wall = tuple[Numbers, Steel]


def connections(now: Situation, kind: PartKind) -> list[int]:
    """Positions of the connections that parts of a `kind` make, in order."""
    return now.block.frame.ideal.model.connections_of(kind)


def pulled_at_corners(block: Block) -> bool:
    """Whether guys or stays pull on the ends of the outer rails."""
    rack, bracing = block.rack, block.bracing
    stayed = STAYS in bracing and rack.stays is not None and rack.stays.attach == RAIL_CORNERS
    return stayed or any(g.attach == RAIL_CORNERS for g in rack.guys_in(bracing))


def wall_counted_on(pipe: Pipe) -> Wall:
    """Wall counted on [m] and steel of a pipe."""
    return pipe.design.wall, pipe.steel


def section(now: Situation, pipe: Pipe, ndim: int = 1) -> Tube | Tubes:
    """Return the section of a pipe: as the code counts it, or as expected in every case.

    Expected walls are of `ndim` dimensions, see `Situation.expected`.
    """
    if not now.median:
        return pipe.design
    return RoundTube(od=np.asarray(pipe.design.od), wall=now.wall_of(pipe, ndim))


def pipe_wall(now: Situation, pipe: Pipe, ndim: int = 1) -> Wall:
    """Wall [m] and steel of a pipe: as the code counts it, or as expected in every case."""
    return section(now, pipe, ndim).wall, pipe.steel


def tensile_of(now: Situation, steel: Steel, ndim: int = 1) -> Numbers:
    """Tensile strength [Pa]: the least, or as expected in every case, no less than the yield."""
    if not now.median:
        return steel.fu
    return np.maximum(EXPECTED_TENSILE * steel.fu, now.yield_of(steel, ndim))


def coded_metal(now: Situation, *walls: Wall) -> Metal:
    """Metal of a weld between `walls` as the code counts it, in either model."""
    steels = [steel for _, steel in walls]
    return Metal(
        electrode=now.rack.welds.electrode,
        yield_stress=min(steel.fy for steel in steels),
        tensile=min(steel.fu for steel in steels),
        wall=_least([wall for wall, _ in walls]),
        identified=all(steel.identified for steel in steels),
    )


def metal_between(now: Situation, *walls: Wall, ndim: int = 1) -> Metal:
    """Metal of a weld between `walls`: the thinnest and the weakest of them together.

    In the median model as expected in every case, of `ndim` dimensions, whatever its papers.
    """
    if not now.median:
        return coded_metal(now, *walls)
    steels = [steel for _, steel in walls]
    return Metal(
        electrode=now.rack.welds.electrode,
        yield_stress=_least([now.yield_of(steel, ndim) for steel in steels]),
        tensile=_least([tensile_of(now, steel, ndim) for steel in steels]),
        wall=_least([wall for wall, _ in walls]),
        identified=True,
    )


def _least(values: Sequence[Numbers]) -> Numbers:
    least: Numbers = reduce(np.minimum, values)
    return least


def remark(check: Check, *steels: Steel) -> Check:
    """Add to the note of a check what the standard says of steel nobody has identified."""
    if all(steel.identified for steel in steels):
        return check
    return replace(check, note="; ".join(n for n in (check.note, UNIDENTIFIED) if n))


def squeeze(now: Situation, part: Part, nodes: Sequence[int], pipe: Pipe) -> FloatArray:
    """Largest compression [Pa] in a round `part` beside each of `nodes`, (n, nodes).

    Axial force and bending together, the worse of the members that meet there; tension counts as
    nil.
    """
    model, tube = now.block.frame.ideal.model, section(now, pipe)
    found = []
    for node in nodes:
        worst = np.zeros(len(now.case))
        for m in model.members_of(part):
            if node in model.members[m].ends:
                end = model.members[m].ends.index(node)
                force = now.answer.on_members([m])[:, 0, 6 * end : 6 * end + 6]
                push = force[:, 0] * (1 if end == 0 else -1)
                moment = np.hypot(force[:, 4], force[:, 5])
                worst = np.maximum(worst, push / tube.area + moment / tube.elastic_modulus)
        found.append(worst)
    return np.stack(found, axis=1)
