"""Where U-bolts along the beam find no room beside what is welded under it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from frame.named.part import PartKind
from frame.rack.rack import Rack
from frame.shop.steel.pieces import Piece
from frame.shop.steel.straps import strap_of
from frame.units import INCH

ROOM = INCH / 8
"""Room beside a weld for a rod [m] (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowded:
    """A `rail`, from 1, whose U-bolts come onto `what`: shifted so far along the beam it is free.

    `shift` [m], towards the beam's far end positive.
    """

    rail: int
    what: str
    shift: float


def crowded(rack: Rack, pieces: tuple[Piece, ...]) -> tuple[Crowded, ...]:
    """Find the rails whose U-bolts come onto a sleeve, a knee or a lug of the beam."""
    strap, rod = strap_of(rack), rack.rails.u_bolts.diameter
    half = (strap.out[-1] if strap else 0.0) + rod / 2 + ROOM
    beam = next(p for p in pieces if p.of is PartKind.BEAM)
    found = []
    for mark in (m for m in beam.marks if m.of is PartKind.RAIL):
        for what, at, taken in _obstacles(rack, pieces, beam):
            over = half + taken - abs(mark.at - at)
            if over > 0:
                sign = 1.0 if mark.at >= at else -1.0
                found.append(Crowded(rail=mark.number, what=what, shift=sign * over))
    return tuple(found)


def _obstacles(
    rack: Rack, pieces: tuple[Piece, ...], beam: Piece
) -> Iterator[tuple[str, float, float]]:
    """Yield the mark of what is welded to the beam, where, half of what it takes along it [m]."""
    leg, lug = rack.welds.leg, rack.welds.lug_length / 2
    sleeve = next(p for p in pieces if p.of is PartKind.SLEEVE)
    knee = next((p for p in pieces if p.of is PartKind.KNEE), None)
    for mark in beam.marks:
        if mark.of is PartKind.SLEEVE:
            yield mark.name, mark.at, sleeve.od / 2 + leg
        elif mark.of is PartKind.KNEE and knee:
            yield mark.name, mark.at, knee.od / 2 / math.sin(knee.ends[1].angle) + leg
        elif mark.of is PartKind.LUG:
            yield mark.name.removeprefix("eye of "), mark.at, lug
