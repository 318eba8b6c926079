"""Forces on joints, and what steel counts beside a weld, for several kinds of part."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from frame.checks.check import Check
from frame.checks.weld import Metal
from frame.rack.guy import RAIL_CORNERS
from frame.rack.pipe import Pipe
from frame.rack.rack import STAYS
from frame.study.frames import Block, FloatArray
from frame.study.situation import Situation
from frame.tables.steels import Steel

UNIDENTIFIED = (
    "steel not identified: AISC 360-22 A3.1b keeps it out of parts whose failure weakens the "
    "structure, so this is an estimate"
)
Wall = tuple[float, Steel]


def connections(now: Situation, kind: str) -> list[int]:
    """Positions of the connections whose names begin with `kind`, in order."""
    found = now.block.frame.ideal.model.connections
    return [i for i, c in enumerate(found) if c.name.startswith(kind)]


def pulled_at_corners(block: Block) -> bool:
    """Whether guys or stays pull on the ends of the outer rails."""
    rack, bracing = block.rack, block.bracing
    stayed = STAYS in bracing and rack.stays is not None and rack.stays.attach == RAIL_CORNERS
    return stayed or any(g.attach == RAIL_CORNERS for g in rack.guys_in(bracing))


def wall_of(pipe: Pipe) -> Wall:
    """Wall counted on [m] and steel of a pipe."""
    return pipe.design.wall, pipe.steel


def metal_between(now: Situation, *walls: Wall) -> Metal:
    """Metal of a weld between `walls`: the thinnest and the weakest of them together."""
    return Metal(
        electrode=now.rack.welds.electrode,
        yield_stress=min(steel.fy for _, steel in walls),
        tensile=min(steel.fu for _, steel in walls),
        wall=min(wall for wall, _ in walls),
        identified=all(steel.identified for _, steel in walls),
    )


def remark(check: Check, *steels: Steel) -> Check:
    """Add to the note of a check what the standard says of steel nobody has identified."""
    if all(steel.identified for steel in steels):
        return check
    return replace(check, note="; ".join(n for n in (check.note, UNIDENTIFIED) if n))


def squeeze(now: Situation, part: str, nodes: Sequence[int], pipe: Pipe) -> FloatArray:
    """Largest compression [Pa] in a round `part` beside each of `nodes`, (n, nodes).

    Axial force and bending together, moments with the second-order factor, the worse of the
    members that meet there; tension counts as nil.
    """
    model, tube = now.block.frame.ideal.model, pipe.design
    factor = now.second_order
    found = []
    for node in nodes:
        worst = np.zeros(len(now.case))
        for m in model.members_of(part):
            if node in model.members[m].ends:
                end = model.members[m].ends.index(node)
                force = now.answer.on_members([m])[:, 0, 6 * end : 6 * end + 6]
                push = force[:, 0] * (1 if end == 0 else -1)
                moment = factor * np.hypot(force[:, 4], force[:, 5])
                worst = np.maximum(worst, push / tube.area + moment / tube.elastic_modulus)
        found.append(worst)
    return np.stack(found, axis=1)
