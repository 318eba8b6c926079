"""Every weld and bolted joint: where, how big, how long, in plain words."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from frame.checks.fasteners.tilt_stop import WELDED
from frame.checks.welds.saddle import saddle_shape
from frame.checks.welds.tab import slot_length
from frame.idealize.deck import carrying
from frame.named.part import PartKind
from frame.rack.guy import RAIL_CORNERS
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.steel.eyes import lug_count, rail_end_bolts
from frame.shop.steel.pieces import COPE, PLATE, TAB, Piece, PieceEnd
from frame.shop.steel.straps import strap_words
from frame.shop.steel.templates import Template
from frame.shop.steel.tilt_stop import stop_plate_of
from frame.tables.steels import material
from frame.units import show

NUT_ROUND = 6 * 1.5 / math.sqrt(3)
"""Round of a hexagon nut over its bolt [1]: 1.5 diameters across the flats, ASME B18.2.2."""
LOST = 1 / 3
"""Rod lost as stubs and spatter (common practice: a third of a stick)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weld:
    """A weld, `count` of it to a rack: `leg` of the fillet and `length` of one [m], in words."""

    name: str
    count: int
    leg: float
    length: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolted:
    """A bolted joint, `count` of it to a rack: `torque` [N m], 0 for snug and locked.

    None for the torque that the maker of the part gives.
    """

    name: str
    count: int
    diameter: float
    torque: float | None
    words: str


def welds_of(
    rack: Rack, bracing: tuple[str, ...], pieces: tuple[Piece, ...], found: tuple[Template, ...]
) -> tuple[Weld, ...]:
    """List the welds of one rack, in the order in which they are made."""
    leg = rack.welds.leg
    return tuple(_welds(rack, bracing, pieces, found, leg))


def _welds(
    rack: Rack,
    bracing: tuple[str, ...],
    pieces: tuple[Piece, ...],
    found: tuple[Template, ...],
    leg: float,
) -> Iterator[Weld]:
    size = show(leg, "length", rack.units)
    lugs = sum(4 for g in rack.guys_in(bracing) if g.attach != RAIL_CORNERS)
    if rack.stays and STAYS in bracing:
        lugs += 4 if rack.stays.attach != RAIL_CORNERS else 0
    if lugs:
        yield Weld(
            name="lugs for guys and stays",
            count=lugs,
            leg=leg,
            length=2 * rack.welds.lug_length,
            words=f"{size} fillet along both sides, the plate in line with pipe and guy",
        )
    yield from _coped(found, leg, size)
    yield from _of_sleeve_and_beam(rack, leg, size)
    for piece in pieces:
        tabs = piece.count * sum(end.kind == TAB for end in piece.ends)
        if tabs:
            slot = slot_length(rack.welds.lug_length, piece.od)
            deep = show(slot, "length", rack.units)
            yield Weld(
                name=f"tabs in the slots of {piece.name} {piece.letter}",
                count=tabs,
                leg=leg,
                length=4 * slot,
                words=f"{size} fillet along both sides of the tab, on both faces of the pipe; "
                f"slots {deep} deep",
            )
    if rack.stays and STAYS in bracing:
        yield Weld(
            name="lugs on the feet of stays",
            count=4,
            leg=leg,
            length=2 * rack.welds.lug_length,
            words=f"{size} fillet along both sides, the plate in line with the stay",
        )
    if (
        rack.knees
        and KNEES in bracing
        and not any(e.kind == COPE for e in _ends(pieces, PartKind.KNEE))
    ):
        yield Weld(
            name="lugs for knees",
            count=4 * len(rack.posts.positions),
            leg=leg,
            length=2 * rack.welds.lug_length,
            words=f"{size} fillet along both sides, the plate in line with post and beam",
        )


def _coped(found: tuple[Template, ...], leg: float, size: str) -> Iterator[Weld]:
    for one in found:
        if one.name == "sleeve":
            line = saddle_shape(one.od, one.end.header)
            yield Weld(
                name="beam in the saddle of the sleeve",
                count=one.count,
                leg=leg,
                length=line.length,
                words=f"{size} fillet all along the saddle, both sides, where the pipes open",
            )
        else:
            yield Weld(
                name=f"{one.name} {one.letter} on {one.end.onto}",
                count=one.count,
                leg=leg,
                length=edge_length(one),
                words=f"{size} fillet all round",
            )


def _of_sleeve_and_beam(rack: Rack, leg: float, size: str) -> Iterator[Weld]:
    lock = rack.sleeve.lock
    if not isinstance(lock, Pin):
        yield Weld(
            name="nuts of the set bolts on the sleeve",
            count=lock.count * len(rack.posts.positions),
            leg=leg,
            length=NUT_ROUND * lock.diameter,
            words=f"{size} fillet all round the nut, before the sleeve goes on, a bolt in it",
        )
    for _ in rack.beam.splices[:1]:
        yield Weld(
            name="splices of the beam",
            count=len(rack.beam.splices),
            leg=rack.beam.pipe.wall,
            length=math.pi * rack.beam.pipe.od,
            words="bevelled, backing ring or inside sleeve, full penetration",
        )
    if rack.rails.stops:
        yield Weld(
            name="tilt stops on the beam",
            count=rack.rails.stops,
            leg=leg,
            length=2 * WELDED * rack.beam.pipe.od,
            words=f"{size} fillet on both faces of the plate, over its whole seat",
        )


def _ends(pieces: tuple[Piece, ...], of: PartKind) -> Iterator[PieceEnd]:
    return (end for p in pieces if p.of is of for end in p.ends)


def edge_length(one: Template) -> float:
    """Length of the line where a branch meets its header, along its outer edge [m]."""
    turn = one.across / (one.girth / (2 * math.pi))
    points = np.stack([one.od / 2 * np.cos(turn), one.od / 2 * np.sin(turn), one.outside], axis=1)
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def rod_weight_of(welds: tuple[Weld, ...]) -> float:
    """Weight of the rod that welds take [N]: half the leg squared, a third of a stick lost."""
    volume = sum(w.count * w.length * w.leg**2 / 2 for w in welds)
    return volume * material().unit_weight / (1 - LOST)


def bolted_of(
    rack: Rack, bracing: tuple[str, ...], pieces: tuple[Piece, ...]
) -> tuple[Bolted, ...]:
    """List the bolted joints of one rack."""
    letter = next((p.letter for p in pieces if p.kind == PLATE), "")
    return (*_bolted(rack, bracing, letter), *_hung(rack, bracing))


def _hung(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Bolted]:
    """Yield the bolts that lines and braces hang on, and the clamps of the panels."""
    hung = lug_count(rack, bracing) + rail_end_bolts(rack, bracing)
    if hung:
        yield Bolted(
            name="lugs and rail ends, to guys and braces",
            count=hung,
            diameter=rack.welds.lug_bolt,
            torque=0.0,
            words="snug, locking nuts, so that it can turn",
        )
    yield Bolted(
        name="panel clamps",
        count=clamp_count(rack),
        diameter=rack.panels.clamp_bolt,
        torque=None,
        words="as the panel's maker says, every one before the next panel; again after a month",
    )


def _at_stops(rack: Rack) -> str:
    stop = stop_plate_of(rack)
    if stop is None:
        return (
            "WARNING: two bolts as thick as those of the lugs find no room in a rail's side: the "
            "stops hold nothing, and none is drawn"
        )
    over = show(stop.over, "length", rack.units)
    walls = "both sides of its lower channel" if rack.rails.channel.doubled else "both its sides"
    return (
        f"in the pair of holes of the tilt, right through {walls} {over} over the beam, snug, "
        "locking nuts"
    )


def _bolted(rack: Rack, bracing: tuple[str, ...], letter: str) -> Iterator[Bolted]:
    bolts, lock, posts = rack.rails.u_bolts, rack.sleeve.lock, len(rack.posts.positions)
    yield Bolted(
        name="U-bolts, rail to beam",
        count=len(rack.rails.positions) * bolts.count,
        diameter=bolts.diameter,
        torque=bolts.torque,
        words="both nuts by turns; again after a month and every year" + strap_words(rack, letter),
    )
    if isinstance(lock, Pin):
        yield Bolted(
            name="pin through sleeve and post",
            count=posts,
            diameter=lock.diameter,
            torque=0.0,
            words="drill sleeve and post together, snug, locking nut",
        )
    else:
        yield Bolted(
            name="set bolts in the sleeve",
            count=posts * lock.count,
            diameter=lock.diameter,
            torque=lock.torque,
            words="on bare steel, in a drilled dimple" + (", jam nut" if lock.jam_nuts else ""),
        )
    if rack.rails.stops:
        yield Bolted(
            name="tilt stops, plate to rail",
            count=2 * rack.rails.stops,
            diameter=rack.welds.lug_bolt,
            torque=0.0,
            words=_at_stops(rack),
        )
    if rack.ties and TIES in bracing:
        yield Bolted(
            name="tie rails under the rails",
            count=len(rack.ties.at) * len(rack.rails.positions),
            diameter=rack.welds.lug_bolt,
            torque=0.0,
            words="snug, locking nuts",
        )


def clamp_count(rack: Rack) -> int:
    """Count the panel clamps: two a panel on every rail under it, as the rails are solved.

    On four rails a panel has eight: with four, two of the rails would be lifted with all of it.
    """
    rails = np.array(rack.rails.positions)
    columns = (len(carrying(rails, *edges)) for edges in rack.panels.column_edges())
    return 2 * rack.panels.up * sum(columns)
