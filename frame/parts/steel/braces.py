"""Knee braces and stays."""

from collections.abc import Iterator

from frame.checks.steel.brace import bent, buckling, pull
from frame.checks.steel.pipe import Forces
from frame.checks.steel.slotted import SlottedEnd
from frame.checks.welds.tab import slot_length
from frame.named.part import Part, PartKind
from frame.parts.checker import PartCheck
from frame.parts.steel.pipes import pipe_in
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.solved.situation import Situation
from frame.units import INCH

SLOT_ROOM = INCH / 16
"""Slot wider than the tab in it [m] (common practice, no source)."""


def brace_parts(now: Situation) -> Iterator[tuple[Part, Pipe, float]]:
    """Every brace fitted: as a part, its pipe and length between work points [m]."""
    model, rack = now.block.frame.ideal.model, now.rack
    names = dict.fromkeys(m.part for m in model.members)
    for name in names:
        if name.kind is PartKind.KNEE and KNEES in now.block.bracing and rack.knees:
            yield name, rack.knees.pipe, rack.knees.work_length
        elif name.kind is PartKind.STAY and STAYS in now.block.bracing and rack.stays:
            length = float(now.block.frame.response.length[model.members_of(name)[0]])
            yield name, rack.stays.pipe, length


def is_pinned(rack: Rack, name: Part) -> bool:
    """Whether a brace hangs on pins by tabs in its slotted ends; stays always do."""
    knees = rack.knees
    return name.kind is PartKind.STAY or (knees is not None and knees.ends != "welded")


def _slotted(now: Situation, name: Part, pipe: Pipe) -> SlottedEnd | None:
    if not is_pinned(now.rack, name):
        return None
    welds = now.rack.welds
    return SlottedEnd(
        length=slot_length(welds.lug_length, pipe.od),
        width=welds.lug_plate + SLOT_ROOM,
        plate=welds.lug_plate,
        expected=now.median,
    )


def brace_checks(now: Situation) -> Iterator[PartCheck]:
    """Buckling, pull, and axial force with bending of every brace."""
    for name, pipe, length in brace_parts(now):
        at, tube = now.inside(name), pipe_in(now, pipe, 3)
        yield name, buckling(tube, at.N, length)
        yield name, pull(tube, at.N, _slotted(now, name, pipe))
        forces = Forces(N=at.N, My=at.My, Mz=at.Mz, Vy=at.Vy, Vz=at.Vz, T=at.T)
        yield name, bent(tube, forces, length)
