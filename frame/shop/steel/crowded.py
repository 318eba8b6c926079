"""U-bolts along the beam that find no room beside what is welded under it: they make way."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from frame.named.part import PartKind
from frame.rack.rack import Rack
from frame.shop.steel.pieces import Mark, Piece
from frame.shop.steel.straps import strap_of
from frame.units import INCH, METRIC, MM

ROOM = INCH / 8
"""Room beside a weld for a rod [m] (judgement)."""
SLACK = INCH / 16
"""How much of that room may be missing: a mark is read off a tape to so much [m] (judgement)."""
FARTHEST = 0.25
"""How far a rail makes way at most, of the way to the rail next to it [1]: further, they share
the panels otherwise than the file means them to (judgement)."""
CLAMP = 1.0
"""Middle of a rail to the edge of its panel, in widths of the rail: it lies whole under the
panel, and a clamp finds half a width beside it (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowded:
    """A `rail`, from 1, whose U-bolts come onto `what`: shifted so far along the beam it is free.

    `shift` [m], towards the beam's far end positive. `place`: the nearest place under the same
    panel where it is free of all that is welded there [m], from the beam's middle, None where
    there is none.
    """

    rail: int
    what: str
    shift: float
    place: float | None = None


@dataclass(frozen=True, slots=True)
class _Obstacle:
    """What is welded to the beam, `at` so far from its hook end, `half` of what it takes [m]."""

    what: str
    at: float
    half: float


def crowded(rack: Rack, pieces: tuple[Piece, ...]) -> tuple[Crowded, ...]:
    """Find the rails whose U-bolts come onto a sleeve, a knee or a lug of the beam."""
    half, beam = _half(rack), _beam(pieces)
    found = []
    for mark in (m for m in beam.marks if m.of is PartKind.RAIL):
        for one in _obstacles(rack, pieces, beam):
            over = half + one.half - abs(mark.at - one.at)
            if over > SLACK:
                sign = 1.0 if mark.at >= one.at else -1.0
                place = _free_place(rack, pieces, mark.number - 1)
                found.append(
                    Crowded(rail=mark.number, what=one.what, shift=sign * over, place=place)
                )
    return tuple(found)


def make_way(rack: Rack, pieces: tuple[Piece, ...]) -> tuple[Rack, tuple[Crowded, ...]]:
    """Move the rails of a rack off what is welded to its beam, as far as they can be.

    Returns the rack with its rails there, and which of them moved, by so much. A rail stays under
    its panel, with room for a clamp, apart from its neighbours, and does not move
    further than `FARTHEST` says; what cannot is left where it is.
    """
    moved = []
    now = rack
    for one in {c.rail: c for c in crowded(rack, pieces)}.values():
        index, places = one.rail - 1, list(now.rails.positions)
        place = _free_place(now, pieces, index)
        x = places[index]
        near = min((abs(x - o) for i, o in enumerate(places) if i != index), default=0.0)
        if place is None or abs(place - x) > FARTHEST * near:
            continue
        moved.append(replace(one, shift=place - x, place=place))
        places[index] = place
        now = replace(now, rails=replace(now.rails, positions=tuple(places)))
    return now, tuple(moved)


def _free_place(rack: Rack, pieces: tuple[Piece, ...], index: int) -> float | None:
    """Return the nearest place of a rail, from 0, with room all round [m]; None without any."""
    beam, half = _beam(pieces), _half(rack)
    x, middle = rack.rails.positions[index], rack.beam.length / 2
    step = MM if rack.units == METRIC else INCH / 16
    in_the_way = list(_obstacles(rack, pieces, beam))

    def free(place: float) -> bool:
        clear = all(abs(middle + place - o.at) >= o.half + half - 1e-9 for o in in_the_way)
        return clear and _under_its_panel(rack, x, place) and _apart(rack, index, place)

    ends = [o.at - middle + s * (o.half + half) for o in in_the_way for s in (-1, 1)]
    whole = [x + math.copysign(math.ceil(abs(e - x) / step - 1e-6) * step, e - x) for e in ends]
    return min((p for p in whole if free(p)), key=lambda p: abs(p - x), default=None)


def _under_its_panel(rack: Rack, x: float, place: float) -> bool:
    """Whether a rail moved from `x` to a `place` [m] keeps its panel and room for its clamps.

    One that has less room where it is gets no less. A rail between two panels holds both: it
    keeps its place.
    """
    width = rack.rails.channel.width
    for left, right in rack.panels.column_edges():
        if left <= x <= right:
            least = min(CLAMP * width, x - left, right - x)
            return left + least - 1e-9 <= place <= right - least + 1e-9
    return False


def _apart(rack: Rack, index: int, place: float) -> bool:
    """Whether straps and nuts of a rail at a `place` [m] keep off its neighbours'."""
    strap, places = strap_of(rack), rack.rails.positions
    apart = strap.length if strap else rack.rails.channel.width + INCH
    near = places[max(index - 1, 0) : index] + places[index + 1 : index + 2]
    on_beam = abs(place) + rack.rails.channel.width / 2 <= rack.beam.length / 2
    before = places[index]
    return on_beam and all(
        abs(place - other) >= min(apart, abs(before - other))
        and (place > other) == (before > other)
        for other in near
    )


def _half(rack: Rack) -> float:
    """Half of what the U-bolts of a rail take along the beam, with room [m]."""
    strap = strap_of(rack)
    return (strap.out[-1] if strap else 0.0) + rack.rails.u_bolts.diameter / 2 + ROOM


def _beam(pieces: tuple[Piece, ...]) -> Piece:
    return next(p for p in pieces if p.of is PartKind.BEAM)


def _obstacles(rack: Rack, pieces: tuple[Piece, ...], beam: Piece) -> Iterator[_Obstacle]:
    sleeve = next(p for p in pieces if p.of is PartKind.SLEEVE)
    knee = next((p for p in pieces if p.of is PartKind.KNEE), None)
    for mark in beam.marks:
        half = _taken(rack, mark, sleeve, knee)
        if half:
            yield _Obstacle(mark.name.removeprefix("eye of "), mark.at, half)


def _taken(rack: Rack, mark: Mark, sleeve: Piece, knee: Piece | None) -> float:
    """Half of what is welded at a mark takes along the beam [m], 0 for nothing."""
    leg = rack.welds.leg
    if mark.of is PartKind.SLEEVE:
        return sleeve.od / 2 + leg
    if mark.of is PartKind.KNEE and knee:
        return knee.od / 2 / math.sin(knee.ends[1].angle) + leg
    return rack.welds.lug_length / 2 if mark.of is PartKind.LUG else 0.0
