"""The ends of the outer rails, where guys or stays pull on a bolt through the rail's back."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check
from frame.checks.fasteners.lug import bolted_lug
from frame.named.limit_state import LimitState
from frame.named.part import PartKind, rail_end, rail_ends
from frame.parts.checker import PartCheck
from frame.parts.guys.guys import fitted_guys
from frame.parts.rails.rails import CHANNEL_STEEL
from frame.parts.steel.braces import brace_parts
from frame.parts.welds.lugs import bolted_plate
from frame.rack.guy import RAIL_CORNERS
from frame.rack.rack import Rack
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import find

NOTE = (
    "a round hole of its own, half the rail's width from its end, and a square washer: a slot of "
    "the back ends nearer; counted as a flat plate as wide as the rail"
)


def end_hole(rack: Rack) -> float:
    """Distance of the bolt for tie, guy or stay from the rail's end [m] (judgement)."""
    return rack.rails.channel.width / 2


def rail_end_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the rail ends that each group of guys pulls on, the worst of it, and each stay's.

    A line from a rail's corner is bolted to the rail and has no lug there.
    """
    pulls = {line.name: line.pull for line in fitted_guys(now)}
    for group in now.rack.guys_in(now.block.bracing):
        if group.attach == RAIL_CORNERS:
            mine = [pull for name, pull in pulls.items() if name.group == group.name]
            yield rail_ends(group.name), _rail_end(now, np.stack(mine, axis=1))
    stays = now.rack.stays
    if stays is None or stays.attach != RAIL_CORNERS:
        return
    for name, _, _ in brace_parts(now):
        if name.kind is PartKind.STAY:
            member = now.block.frame.ideal.model.members_of(name)[0]
            head = now.answer.on_members([member])[:, 0, 6:9]
            yield rail_end(name), _rail_end(now, np.linalg.norm(head, axis=1))


def _rail_end(now: Situation, pull: FloatArray) -> Check:
    """Check the back of a rail and the bolt through it under the whole `pull` of a line [N].

    Counted in the plane of the back, as on a lug, whichever way it points: a bolt holds more
    along itself than across, and a washer more than the edge of a hole (judgement, safe side).
    Doubled rails stand back to back and both backs count.
    """
    channel = now.rack.rails.channel
    plate = bolted_plate(
        now,
        find(CHANNEL_STEEL),
        (channel.width, channel.wall * (2 if channel.doubled else 1)),
        end_hole(now.rack),
        ndim=pull.ndim,
    )
    check = bolted_lug(pull, plate, factored=not now.median)
    return replace(check, name=LimitState.RAIL_END, note=NOTE)
