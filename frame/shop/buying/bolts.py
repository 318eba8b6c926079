"""What holds the pieces together: U-bolts, bolts, plates and clamps to buy."""

from collections.abc import Iterator

from frame.checks.welds.tab import slot_length
from frame.named.part import PartKind
from frame.rack.rack import STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.buying.items import Item
from frame.shop.buying.words import grade_words
from frame.shop.steel.eyes import lug_arm, lug_count, rail_end_bolts
from frame.shop.steel.pieces import TAB, Piece
from frame.shop.steel.straps import strap_of
from frame.shop.steel.tilt_stop import stop_plate_of
from frame.shop.steel.welds import clamp_count
from frame.units import INCH, show, show_size

PAST_NUT = INCH
"""Bolt past what it holds: nut, washers, threads [m] (common practice, no source)."""
ON_BEAM = PartKind.BEAM, PartKind.RAIL
IN_SLEEVE = PartKind.POST, PartKind.SLEEVE
ON_RAIL = (PartKind.RAIL,)
ON_LUG = PartKind.POST, PartKind.BEAM


def bolts(rack: Rack, bracing: tuple[str, ...], pieces: tuple[Piece, ...]) -> Iterator[Item]:
    """Yield what is bolted, with the plates that bolts go through."""
    units, rods, sleeve = rack.units, rack.rails.u_bolts, rack.sleeve
    many, posts = len(rack.rails.positions) * rods.count, len(rack.posts.positions)
    size = show_size(rods.diameter, units)
    pipe = show(rack.beam.pipe.od, "length", units)
    long = show(_leg(rack), "length", units)
    yield Item(
        name=f"U-bolt, {size} rod, for pipe {pipe} thick, inside of the bow to the ends {long}",
        amount=many,
        note=f"{grade_words()}; with two locking nuts and washers each",
        on=ON_BEAM,
    )
    yield Item(name=f"locking nut {size} with washer", amount=2 * many, on=ON_BEAM)
    lock = sleeve.lock
    size = show_size(lock.diameter, units)
    if isinstance(lock, Pin):
        long = show(rack.posts.pipe.od + 2 * sleeve.wall + 2 * PAST_NUT, "length", units)
        name = f"bolt {size} x {long}, right through sleeve and post"
        note = f"{grade_words()}; locking nut, two washers"
        yield Item(name=name, amount=posts, note=note, on=IN_SLEEVE)
    else:
        jam = " and a jam nut" if lock.jam_nuts else ""
        yield Item(
            name=f"set bolt {size}, full thread",
            amount=lock.count * posts,
            note=f"with a nut to weld on the sleeve{jam}",
            on=IN_SLEEVE,
        )
    lug = show_size(rack.welds.lug_bolt, units)
    if rack.ties and TIES in bracing:
        count = len(rack.ties.at) * len(rack.rails.positions)
        deep = rack.rails.channel.depth + rack.ties.channel.depth + PAST_NUT
        name = f"bolt {lug} x {show(deep, 'length', units)}, tie to rail"
        yield Item(name=name, amount=count, note="locking nut, square washers", on=ON_RAIL)
    yield from _hung(rack, bracing, pieces)
    stop = stop_plate_of(rack)
    if stop and stop.count:
        sizes = (2 * stop.half, stop.top, stop.thickness)
        shown = " x ".join(show(v, "length", units) for v in sizes)
        plates, note = f"tilt stop plate {shown}", "locking nut, two washers"
        yield Item(name=plates, amount=stop.count, note="mild steel", on=ON_BEAM)
        through = rack.rails.channel.width + stop.thickness + PAST_NUT
        long = show(through, "length", units)
        name = f"bolt {lug} x {long} for a tilt stop, through both sides of the rail"
        yield Item(name=name, amount=2 * stop.count, note=note, on=ON_BEAM)
    clamp = show_size(rack.panels.clamp_bolt, units)
    name = f"panel clamp with {clamp} bolt and channel nut"
    yield Item(
        name=name,
        amount=clamp_count(rack),
        note="a mid clamp that holds two counts twice",
        on=ON_RAIL,
    )


def _hung(rack: Rack, bracing: tuple[str, ...], pieces: tuple[Piece, ...]) -> Iterator[Item]:
    """Yield the plates and bolts that lines and pinned braces hang on."""
    units = rack.units
    lug = show_size(rack.welds.lug_bolt, units)
    lugs, ends = lug_count(rack, bracing), rail_end_bolts(rack, bracing)
    if lugs:
        side, plate = (show(v, "length", units) for v in (rack.welds.lug_length, _plate(rack)))
        name = f"plate {side} x {side} x {plate}, hole for a {lug} bolt"
        yield Item(name=name, amount=lugs, note="lugs, mild steel", on=ON_LUG)
        name, note = f"bolt {lug} for a lug", "locking nut, two washers"
        yield Item(name=name, amount=lugs, note=note, on=ON_LUG)
    if ends:
        long = show(rack.rails.channel.depth + PAST_NUT, "length", units)
        name = f"bolt {lug} x {long}, through a rail's end"
        note = "locking nut, square washers; for guys or stays"
        yield Item(name=name, amount=ends, note=note, on=ON_RAIL)
    if rack.stays and STAYS in bracing:
        yield Item(name="foot of a stay", amount=4, note="in the ground, for the pull test told")
    yield from _tabs(rack, pieces)


def _tabs(rack: Rack, pieces: tuple[Piece, ...]) -> Iterator[Item]:
    """Yield the plates in the ends of pinned braces: through the pipe, with room for the welds."""
    units, welds = rack.units, rack.welds
    for piece in pieces:
        ends = [end for end in piece.ends if end.kind == TAB]
        if not ends:
            continue
        wide = max(welds.lug_length, piece.od + 4 * welds.leg)
        long = slot_length(welds.lug_length, piece.od) + ends[0].reach + lug_arm(rack)
        sizes = " x ".join(show(v, "length", units) for v in (wide, long, welds.lug_plate))
        hole = show_size(welds.lug_bolt, units)
        name = f"plate {sizes}, hole for a {hole} bolt"
        note = f"tabs of {piece.name} {piece.letter}, mild steel"
        yield Item(name=name, amount=piece.count * len(ends), note=note, on=(piece.of,))


def _leg(rack: Rack) -> float:
    """Length of a U-bolt from the inside of its bow to the ends of its legs [m]."""
    channel, strap = rack.rails.channel, strap_of(rack)
    grip = channel.depth / 2 + channel.wall if channel.doubled else channel.wall
    if strap:
        grip = channel.depth + strap.thickness
    return rack.beam.pipe.od + grip + 2 * rack.rails.u_bolts.diameter


def _plate(rack: Rack) -> float:
    return rack.welds.lug_plate
