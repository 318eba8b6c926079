"""The heads of stays: lugs welded to a post or the beam, and the walls under them."""

import math
from collections.abc import Iterator

import numpy as np

from frame.checks.welds.lug_wall import LugPull
from frame.named.part import Part, PartKind, wall, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import squeeze
from frame.parts.steel.braces import brace_parts
from frame.parts.welds.lug_walls import carrier_of, wall_under_lug
from frame.parts.welds.welds import BraceEnd, lug_forces, lug_weld
from frame.rack.brace import Stays
from frame.rack.guy import BEAM_ENDS, POST_TOP, RAIL_CORNERS
from frame.solved.situation import Situation


def stay_head_checks(now: Situation) -> Iterator[PartCheck]:
    """Weld and base metal of the lug of every stay and the wall under it.

    A stay from a rail's corner is bolted to the rail and has no lug there.
    """
    stays = now.rack.stays
    for name, _, _ in brace_parts(now):
        if name.kind is PartKind.STAY and stays is not None and stays.attach != RAIL_CORNERS:
            yield from _on_lug(now, name, stays)


def _on_lug(now: Situation, name: Part, stays: Stays) -> Iterator[PartCheck]:
    ideal = now.block.frame.ideal
    member = ideal.model.members[ideal.model.members_of(name)[0]]
    foot, head = (np.array(ideal.model.nodes[n].xyz) for n in member.ends)
    line = (head - foot) / np.linalg.norm(head - foot)
    part, carrier = carrier_of(now.rack, stays.attach, name)
    axis = 2 if stays.attach == POST_TOP else 0
    angle = math.acos(min(1.0, abs(float(line[axis]))))
    end = BraceEnd(_head(now, name), angle, carrier, None)
    yield from lug_weld(now, weld(name), end)
    under = wall_under_lug(
        now,
        LugPull(*lug_forces(end)),
        carrier,
        squeeze(now, part, [member.ends[1]], carrier)[:, 0],
        crossed=True,
        open_end=stays.attach == BEAM_ENDS,
    )
    yield wall(part.kind, name), under


def _head(now: Situation, name: Part) -> np.ndarray:
    """Return the forces on the upper end of a stay, its second node, (n, 6), local axes."""
    member = now.block.frame.ideal.model.members_of(name)[0]
    return now.answer.on_members([member])[:, 0, 6:]
