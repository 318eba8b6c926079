"""What to buy: everything a rack takes, counted, less what the file says is at hand."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from frame.changes.cost import concrete_volume, cost, rod_weight
from frame.rack.guy import BLOCK, NO_FITTING, RAIL_CORNERS
from frame.rack.rack import STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.lines import CLIPS, GuyLine, clips_of
from frame.shop.pieces import CHANNEL, PIPE, TAB, Piece
from frame.shop.shopping_words import SLEEVE_STOCK, anchor_words, grade_words
from frame.shop.tilt_stop import stop_plate_of
from frame.shop.welds import Weld, rod_weight_of
from frame.tables.soils import CONCRETE
from frame.units import FT, INCH, METRIC, show

BAG = {"us": (0.6 * FT**3, "80 lb"), METRIC: (0.0117, "25 kg")}
"""Concrete made of one bag of dry mix [m3]: bag makers' usual yield (from memory)."""
COVERS = 8.0
"""Area that a litre of paint covers once on pipe by brush [m2/L] (common practice, no source)."""
COATS = 2
LITRE = 1e-3
CLAMPS_A_PANEL = 4
PAST_NUT = INCH
"""Bolt past what it holds: nut, washers, threads [m] (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something to buy: for one rack `amount` pieces, metres, newtons or m3, by `unit`.

    `unit` is "", "length", "weight", "volume" or "liquid" (m3 too); `at_hand` of what all racks
    need; `price` of one unit in the file's currency, None without. `note`: what to look for.
    """

    name: str
    amount: float
    unit: str = ""
    at_hand: float = 0.0
    price: float | None = None
    note: str = ""

    def to_buy(self, racks: int) -> float:
        """Amount to buy for so many racks."""
        return max(self.amount * racks - self.at_hand, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shopping:
    """Items, and cost of one rack with everything counted, None without prices."""

    items: tuple[Item, ...]
    cost: float | None


def shopping(
    rack: Rack,
    bracing: tuple[str, ...],
    pieces: tuple[Piece, ...],
    lines: tuple[GuyLine, ...],
    welds: tuple[Weld, ...],
) -> Shopping:
    """List everything one rack takes."""
    found = [
        *_stock(rack, pieces),
        *_bolts(rack, bracing, pieces),
        *_guys(rack, bracing, lines),
        *_ground(rack, bracing),
        *_rest(rack, pieces, welds),
    ]
    return Shopping(items=tuple(found), cost=cost(rack, bracing))


def _stock(rack: Rack, pieces: tuple[Piece, ...]) -> Iterator[Item]:
    prices, held = rack.prices, rack.stock.pieces if rack.stock else ()
    for kind in (PIPE, CHANNEL):
        mine = [p for p in pieces if p.kind == kind]
        for stock in dict.fromkeys(p.stock for p in mine):
            some = [p for p in mine if p.stock == stock]
            length = sum(p.count * p.length for p in some)
            per = sum(p.count * p.weight for p in some) / length
            at_hand = sum(h.count * h.length for h in held if h.pipe.label == stock)
            price = prices and (prices.pipe * per if kind == PIPE else prices.rail)
            longest = show(max(p.length for p in some), "length", rack.units)
            name = stock
            if stock == SLEEVE_STOCK:
                bore = show(some[0].od - 2 * some[0].wall, "length", rack.units)
                name = f"sleeve pipe, bore {bore}, wall {_thick(some[0].wall, rack)}"
            yield Item(
                name=name,
                amount=length,
                unit="length",
                at_hand=at_hand,
                price=price or None,
                note=f"longest piece {longest}",
            )


def _thick(wall: float, rack: Rack) -> str:
    return show(wall, "thickness", rack.units)


def _bolts(rack: Rack, bracing: tuple[str, ...], pieces: tuple[Piece, ...]) -> Iterator[Item]:
    units, bolts, sleeve = rack.units, rack.rails.u_bolts, rack.sleeve
    many, posts = len(rack.rails.positions) * bolts.count, len(rack.posts.positions)
    size = show(bolts.diameter, "length", units)
    pipe = show(rack.beam.pipe.od, "length", units)
    yield Item(
        name=f"U-bolt, {size} rod, for pipe {pipe} thick",
        amount=many,
        note=f"{grade_words()}; with two locking nuts and washers each",
    )
    yield Item(name=f"locking nut {size} with washer", amount=2 * many)
    lock = sleeve.lock
    size = show(lock.diameter, "length", units)
    if isinstance(lock, Pin):
        long = show(rack.posts.pipe.od + 2 * sleeve.wall + 2 * PAST_NUT, "length", units)
        name = f"bolt {size} x {long}, right through sleeve and post"
        yield Item(name=name, amount=posts, note=f"{grade_words()}; locking nut, two washers")
    else:
        jam = " and a jam nut" if lock.jam_nuts else ""
        yield Item(
            name=f"set bolt {size}, full thread",
            amount=lock.count * posts,
            note=f"with a nut to weld on the sleeve{jam}",
        )
    lug = show(rack.welds.lug_bolt, "length", units)
    if rack.ties and TIES in bracing:
        count = len(rack.ties.at) * len(rack.rails.positions)
        deep = rack.rails.channel.depth + rack.ties.channel.depth + PAST_NUT
        name = f"bolt {lug} x {show(deep, 'length', units)}, tie to rail"
        yield Item(name=name, amount=count, note="locking nut, square washers")
    lugs = _lugs(rack, bracing)
    tabs = sum(p.count for p in pieces for end in p.ends if end.kind == TAB)
    if lugs + tabs:
        side, plate = (show(v, "length", units) for v in (rack.welds.lug_length, _plate(rack)))
        name = f"plate {side} x {side} x {plate}, hole for a {lug} bolt"
        yield Item(name=name, amount=lugs + tabs, note="lugs and tabs, mild steel")
        yield Item(name=f"bolt {lug} for a lug", amount=lugs, note="locking nut, two washers")
    stop = stop_plate_of(rack)
    if stop and stop.count:
        sizes = (2 * stop.half, stop.top, stop.thickness)
        shown = " x ".join(show(v, "length", units) for v in sizes)
        yield Item(name=f"tilt stop plate {shown}", amount=stop.count, note="mild steel")
        name = f"bolt {lug} for a tilt stop"
        yield Item(name=name, amount=2 * stop.count, note="locking nut, two washers")
    panels = rack.panels.across * rack.panels.up
    clamp = show(rack.panels.clamp_bolt, "length", units)
    name = f"panel clamp with {clamp} bolt and channel nut"
    yield Item(
        name=name, amount=CLAMPS_A_PANEL * panels, note="a mid clamp that holds two counts twice"
    )


def _plate(rack: Rack) -> float:
    return rack.welds.lug_plate


def _lugs(rack: Rack, bracing: tuple[str, ...]) -> int:
    """Return how many lugs are welded on for guys, stays (head and foot) and pinned knees."""
    lugs = sum(4 for g in rack.guys_in(bracing) if g.attach != RAIL_CORNERS)
    if rack.stays and STAYS in bracing:
        lugs += 8 if rack.stays.attach != RAIL_CORNERS else 4
    if rack.knees and "knees" in bracing and rack.knees.ends != "welded":
        lugs += 4 * len(rack.posts.positions)
    return lugs


def _guys(rack: Rack, bracing: tuple[str, ...], lines: tuple[GuyLine, ...]) -> Iterator[Item]:
    prices = rack.prices
    coils = rack.stock.coils if rack.stock else ()
    for group in rack.guys_in(bracing):
        mine = [line for line in lines if line.group == group.name]
        at_hand = sum(c.length * c.count for c in coils if c.wire.name == group.wire.name)
        yield Item(
            name=group.wire.name,
            amount=sum(line.cut for line in mine),
            unit="length",
            at_hand=at_hand,
            price=(prices.wire or None) if prices else None,
            note=f"{len(mine)} lengths for {group.name}",
        )
        size = show(group.wire.diameter, "length", rack.units)
        clips = clips_of(group)
        if clips and group.termination in CLIPS:
            name = f"clip {size}, {group.termination.removesuffix(' clips')}"
            yield Item(name=name, amount=2 * clips.count * len(mine))
        else:
            yield Item(name=f"{group.termination} {size}", amount=2 * len(mine))
        yield Item(name=f"thimble {size}", amount=2 * len(mine))
        if group.fitting != NO_FITTING:
            fitting = show(group.fitting_size, "length", rack.units)
            yield Item(
                name=f"{group.fitting} {fitting}",
                amount=len(mine),
                price=(prices.fitting or None) if prices else None,
            )
        stakes = {tuple(line.anchor.round(3)) for line in mine}
        yield Item(
            name=f"anchor: {anchor_words(group, rack.units)}",
            amount=len(stakes),
            price=(prices.anchor or None) if prices else None,
        )


def _ground(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Item]:
    prices, volume = rack.prices, concrete_volume(rack)
    for group in rack.guys_in(bracing):
        if group.anchor == BLOCK:
            volume += 4 * group.hold.weight / CONCRETE
    if volume:
        bag, words = BAG[rack.units]
        yield Item(
            name="concrete",
            amount=volume,
            unit="volume",
            price=(prices.concrete or None) if prices else None,
            note=f"{math.ceil(volume / bag)} bags of {words} dry mix a rack",
        )
    if rack.posts.footing.backfill == "gravel":
        hole = rack.posts.footing.hole**2 - rack.posts.pipe.od**2
        many = len(rack.posts.positions)
        volume = math.pi / 4 * hole * rack.posts.footing.depth * many
        yield Item(name="gravel", amount=volume, unit="volume")


def _rest(rack: Rack, pieces: tuple[Piece, ...], welds: tuple[Weld, ...]) -> Iterator[Item]:
    prices = rack.prices
    yield Item(
        name="welding rod, E7018, dry",
        amount=rod_weight_of(welds),
        unit="weight",
        note="a third of it is lost as stubs and spatter",
    )
    area = sum(p.count * _skin(p) for p in pieces)
    paint = COATS * area / COVERS * LITRE
    yield Item(name="paint", amount=paint, unit="liquid", note=f"{COATS} coats outside")
    if prices and prices.rod:
        yield Item(
            name="rod of pins and U-bolts, if you bend your own",
            amount=rod_weight(rack),
            unit="weight",
            price=prices.rod,
        )


def _skin(piece: Piece) -> float:
    """Outside area of a piece [m2]; galvanised channel is not painted."""
    return math.pi * piece.od * piece.length if piece.kind == PIPE else 0.0
