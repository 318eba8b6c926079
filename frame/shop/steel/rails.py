"""Rails and ties as pieces, and the marks of eyes on any piece."""

from dataclasses import replace

from frame.named.part import PartKind
from frame.parts.rails.rail_ends import end_hole
from frame.rack.brace import Stays
from frame.rack.guy import Guys
from frame.rack.rack import STAYS, Rack
from frame.shop.steel.eyes import eyes
from frame.shop.steel.pieces import (
    CHANNEL,
    CHANNEL_LINES,
    HOLE,
    Mark,
    Piece,
    on_tape,
)
from frame.shop.steel.straps import LOWER, UPPER, strap_of
from frame.shop.steel.tilt_stop import stop_marks
from frame.tables.channels import Channel


def _channel_piece(name: str, of: PartKind, count: int, channel: Channel, length: float) -> Piece:
    return Piece(
        letter="",
        name=name,
        of=of,
        count=count,
        kind=CHANNEL,
        stock=channel.name,
        od=channel.depth,
        wall=channel.width,
        length=length,
        weight=channel.weight * length,
        lines=CHANNEL_LINES,
    )


def rail_piece(rack: Rack, tilt: float) -> Piece:
    """Return a rail with its marks: panels, clamps, U-bolts, ties, eyes at a `tilt` [rad]."""
    rails = rack.rails
    half, legs = rails.length / 2, (rack.beam.pipe.od + rails.u_bolts.diameter) / 2
    count = len(rails.positions)
    piece = _channel_piece("rail", PartKind.RAIL, count, rails.channel, rails.length)
    strap = strap_of(rack)
    bore = rails.u_bolts.diameter + HOLE if strap is None or strap.through else 0.0
    marks = [
        Mark(name=LOWER, at=half - legs, hole=bore),
        Mark(name="middle of the beam", at=half),
        Mark(name=UPPER, at=half + legs, hole=bore),
    ]
    for j, (low, high) in enumerate(rack.panels.row_edges()):
        row = f" of row {j + 1}" if rack.panels.up > 1 else ""
        marks += [
            Mark(name=f"panel{row}, lower edge", at=half + low),
            Mark(name=f"clamp 1{row}", at=half + low + (high - low) / 4),
            Mark(name=f"clamp 2{row}", at=half + low + 3 * (high - low) / 4),
            Mark(name=f"panel{row}, upper edge", at=half + high),
        ]
    bolt = rack.welds.lug_bolt + HOLE
    for where in rack.ties.at if rack.ties else ():
        at = end_hole(rack) if where == "lower" else rails.length - end_hole(rack)
        marks.append(Mark(name=f"bolt of the {where} tie", at=at, hole=bolt))
    marks += stop_marks(rack, "rail")
    marks += lug_marks(rack, tilt, "rail")
    return replace(piece, marks=marks_in_order([m for m in marks if 0 <= m.at <= rails.length]))


def tie_piece(rack: Rack) -> Piece:
    """Return a tie along the ends of the rails, with a hole at each."""
    ties, places = rack.ties, rack.rails.positions
    assert ties is not None
    edge = rack.rails.channel.width / 2
    length = places[-1] - places[0] + 2 * edge
    bolt = rack.welds.lug_bolt + HOLE
    first, *_ = on_beam = [on_tape(rack.beam.length / 2 + x, rack.units) for x in places]
    marks = [
        Mark(name=f"rail {i + 1}", at=on_tape(edge, rack.units) + x - first, hole=bolt)
        for i, x in enumerate(on_beam)
    ]
    piece = _channel_piece("tie rail", PartKind.TIE, len(ties.at), ties.channel, length)
    return replace(piece, marks=tuple(marks))


def lug_marks(rack: Rack, tilt: float, carrier: str) -> list[Mark]:
    """Return the marks of all eyes on one kind of piece."""
    lines: list[Guys | Stays] = [*rack.guys, *([rack.stays] if rack.stays else [])]
    found = []
    for line in lines:
        name = line.name if isinstance(line, Guys) else STAYS
        for eye in eyes(rack, line, tilt):
            if eye.carrier != carrier:
                continue
            found.append(
                Mark(
                    name=f"eye of {name}, {eye.which}",
                    of=PartKind.LUG,
                    at=eye.at,
                    around=eye.around,
                    off=0.0 if carrier == "rail" else rack.welds.lug_length / 2,
                    hole=rack.welds.lug_bolt + HOLE,
                    on=() if carrier == "beam" else (eye.number,),
                )
            )
    return found


def marks_in_order(marks: list[Mark]) -> tuple[Mark, ...]:
    """Return marks along a piece from its first end, and round it."""
    return tuple(sorted(marks, key=lambda m: (m.at, m.around or 0.0)))
