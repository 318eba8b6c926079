"""What to buy: everything a rack takes, counted, less what the file says is at hand."""

import math
from collections.abc import Iterator
from dataclasses import replace

from frame.changes.cost import channel_price, concrete_volume, cost, rod_weight
from frame.named.backfill import GRAVEL
from frame.rack.guy import BLOCK, NO_FITTING
from frame.rack.rack import Rack
from frame.shop.buying.bolts import bolts
from frame.shop.buying.items import Item, Shopping
from frame.shop.buying.there import NOTHING_THERE, There
from frame.shop.buying.words import SLEEVE_STOCK, anchor_words, eye_words, rod_words
from frame.shop.cutting.cut_plan import PilePlan
from frame.shop.steel.pieces import CHANNEL, PIPE, PLATE, Piece
from frame.shop.steel.welds import Weld, rod_weight_of
from frame.shop.yard.lines import GuyLine, clips_of, guy_lines
from frame.tables.soils import CONCRETE_UNIT_WEIGHT
from frame.tables.wires import CLIPS
from frame.units import FT, METRIC, show

BAG = {"us": (0.6 * FT**3, "80 lb"), METRIC: (0.0117, "25 kg")}
"""Concrete made of one bag of dry mix [m3]: bag makers' usual yield (from memory)."""
COVERS = 8.0
"""Area that a litre of paint covers once on pipe by brush [m2/L] (common practice, no source)."""
COATS = 2
LITRE = 1e-3


def shopping(
    rack: Rack,
    bracing: tuple[str, ...],
    pieces: tuple[Piece, ...],
    lines: tuple[GuyLine, ...],
    welds: tuple[Weld, ...],
    cuts: PilePlan | None = None,
    there: There = NOTHING_THERE,
) -> Shopping:
    """List everything one rack takes; pipe that is cut by a plan is bought by it.

    What is `there` already, bolts and guys too where what they hold stays, is not bought.
    """
    hung = _hung_there(there)
    found = [
        *_stock(rack, there.to_cut(pieces), cuts),
        *(
            replace(item, at_hand=item.at_hand + hung.get(item.name, 0.0))
            for item in (*bolts(rack, bracing, pieces), *_guys(rack, bracing, lines))
        ),
        *_ground(rack, bracing, there.concrete),
        *_rest(rack, there.to_cut(pieces), welds),
    ]
    return Shopping(items=tuple(found), cost=cost(rack, bracing))


def _hung_there(there: There) -> dict[str, float]:
    """Count bolts, wire, fittings and anchors of a rack that stands, as far as they stay on it."""
    found, old = dict[str, float](), there.standing
    if old is None:
        return found
    lines = guy_lines(old.rack, old.bracing, there.ground)
    for item in (
        *bolts(old.rack, old.bracing, there.pieces),
        *_guys(old.rack, old.bracing, lines),
    ):
        if there.kept.issuperset(item.on):
            found[item.name] = found.get(item.name, 0.0) + item.amount
    return found


def _planned(cuts: PilePlan | None, some: list[Piece]) -> tuple[float | None, str]:
    """Return the length of a stock that a cut plan buys [m], and in how many sticks."""
    letters, new = {p.letter for p in some}, f"new {some[0].stock}"
    groups = [g for g in (cuts.groups if cuts else ()) if letters & set(g.letters)]
    if not groups or any(g.plan is None for g in groups):
        return None, ""
    found = [
        s.length
        for group in groups
        for i, s in enumerate(group.pile.sticks)
        if group.plan and s.name == new and group.plan.of_stick(i)
    ]
    return sum(found), f"{len(found)} new by the cut plan" if found else "all from the pile"


def _stock(rack: Rack, pieces: tuple[Piece, ...], cuts: PilePlan | None) -> Iterator[Item]:
    prices, held = rack.prices, rack.stock.pieces if rack.stock else ()
    for kind in (PIPE, CHANNEL, PLATE):
        mine = [p for p in pieces if p.kind == kind]
        for stock in dict.fromkeys(p.stock for p in mine):
            some = [p for p in mine if p.stock == stock]
            length = sum(p.count * p.length for p in some)
            per = sum(p.count * p.weight for p in some) / length
            at_hand = sum(h.count * h.length for h in held if h.pipe.label == stock)
            price = prices and {PIPE: prices.pipe * per, CHANNEL: channel_price(rack)}.get(
                kind, 0.0
            )
            longest = show(max(p.length for p in some), "length", rack.units)
            name, (planned, how) = stock, _planned(cuts, some)
            if stock == SLEEVE_STOCK:
                bore = show(some[0].od - 2 * some[0].wall, "thickness", rack.units)
                name = f"sleeve pipe, bore {bore}, wall {_thick(some[0].wall, rack)}"
            yield Item(
                name=name,
                amount=length,
                unit="length",
                at_hand=at_hand,
                planned=planned,
                price=price or None,
                note="; ".join(filter(None, (f"longest piece {longest}", how))),
            )


def _thick(wall: float, rack: Rack) -> str:
    return show(wall, "thickness", rack.units)


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
            note=eye_words(group),
        )


def _ground(rack: Rack, bracing: tuple[str, ...], poured: float) -> Iterator[Item]:
    prices, volume = rack.prices, max(concrete_volume(rack) - poured, 0.0)
    for group in rack.guys_in(bracing):
        if group.anchor == BLOCK:
            volume += 4 * group.hold.weight / CONCRETE_UNIT_WEIGHT
    if volume:
        bag, words = BAG[rack.units]
        yield Item(
            name="concrete",
            amount=volume,
            unit="volume",
            price=(prices.concrete or None) if prices else None,
            note=f"{math.ceil(volume / bag)} bags of {words} dry mix a rack",
        )
    if rack.posts.footing.backfill == GRAVEL:
        hole = rack.posts.footing.hole**2 - rack.posts.pipe.od**2
        many = len(rack.posts.positions)
        volume = math.pi / 4 * hole * rack.posts.footing.depth * many
        yield Item(name="gravel", amount=volume, unit="volume")


def _rest(rack: Rack, pieces: tuple[Piece, ...], welds: tuple[Weld, ...]) -> Iterator[Item]:
    prices = rack.prices
    yield Item(
        name=f"welding rod, {rod_words(rack.welds.electrode)}",
        amount=rod_weight_of(welds),
        unit="weight",
        note="a third of it is lost as stubs and spatter",
    )
    area = sum(p.count * _skin(p) for p in pieces)
    paint = COATS * area / COVERS * LITRE
    if paint:
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
