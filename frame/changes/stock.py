"""The pipe and wire a size search may take: the catalog's, or what the builder has at hand."""

import math
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from frame.casefile.write import Value
from frame.changes.cost import TURNED_BACK, guy_runs
from frame.errors import InputError, Problem
from frame.rack.brace import Stays
from frame.rack.guy import RAIL_CORNERS
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.stock import StockPiece
from frame.tables import pipes, wires
from frame.tables.wires import Wire
from frame.units import INCH, show

SAW = INCH / 8
"""Lost at each cut [m] (common practice)."""
WIDEST = 9 * INCH
"""Widest pipe that is offered to be bought [m]: 8 in. nominal (judgement).

What is wider is neither coped nor set in a home shop; who has some lists it as stock.
"""
ALL_CATALOG = "Pipe and wire are offered from the catalog."
FROM_STOCK = (
    "Pipe and wire are offered from [[stock]]{too}, beside what is described, and cut from its "
    "lengths one piece after the other, longest first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnOffer:
    """A pipe on offer: its `name`, `weight` [N/m], outside diameter `od` [m], and how to write it.

    `steel` None leaves the steel of the place as it is; "" takes the key away. `longest`
    piece at hand [m].
    """

    name: str
    weight: float
    od: float
    written: Value
    steel: str | None = None
    longest: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Everything on offer; `limited` where lengths at hand bound what can be cut."""

    pipes: tuple[OnOffer, ...]
    wires: tuple[Wire, ...]
    limited: bool
    words: str


def catalog_pipes() -> tuple[OnOffer, ...]:
    """Every standard pipe of the catalog, up to the `WIDEST`."""
    return tuple(
        OnOffer(name=p.name, weight=p.weight, od=p.od, written=p.name)
        for p in pipes.pipes()
        if p.family == pipes.STANDARD and p.od <= WIDEST
    )


def supply(rack: Rack, text: str, *, catalog: bool = False) -> Supply:
    """Return what may be taken for the rack file `text`: its stock, else the catalog.

    `catalog` adds the catalog to the stock: what is not at hand can then be bought.
    """
    stock = rack.stock
    if stock is None:
        return Supply(pipes=catalog_pipes(), wires=wires.wires(), limited=False, words=ALL_CATALOG)
    entries: list[dict[str, Any]] = tomllib.loads(text.replace("\r\n", "\n"))["stock"]
    own: dict[Pipe, OnOffer] = {}
    for piece in stock.pieces:
        entry = entries[piece.entry]
        longest = max(p.length for p in stock.pieces if p.pipe == piece.pipe)
        steel = entry.get("steel", "")
        name = f"{piece.pipe.label}{f', {steel}' if steel else ''}"
        own[piece.pipe] = OnOffer(
            name=name,
            weight=piece.pipe.weight,
            od=piece.pipe.od,
            written=entry["pipe"],
            steel=steel,
            longest=math.inf if catalog else longest,
        )
    coils = tuple(dict.fromkeys(c.wire for c in stock.coils))
    return Supply(
        pipes=(*own.values(), *(catalog_pipes() if catalog or not own else ())),
        wires=(*coils, *(wires.wires() if catalog or not coils else ())),
        limited=not catalog,
        words=FROM_STOCK.format(too=" and the catalog" if catalog else ""),
    )


def check_stock(rack: Rack, bracing: tuple[str, ...]) -> None:
    """Refuse a rack that cannot be cut from the lengths at hand.

    Pipe and wire that the stock does not list is taken to be bought to length.

    Raises
    ------
    InputError
        Naming what is short of what.
    """
    stock = rack.stock
    if stock is None:
        return
    problems = []
    cuts: dict[Pipe, list[float]] = {}
    for pipe, length in needed(rack, bracing):
        cuts.setdefault(pipe, []).append(length)
    for pipe, lengths in cuts.items():
        have = [piece for piece in stock.pieces if piece.pipe == pipe]
        short = first_not_cut(have, lengths) if have else 0.0
        if short:
            what = f"has no {show(short, 'length', rack.units)} of {pipe.label} left for the rack"
            problems.append(Problem("stock", what, "list a longer piece, or another pipe"))
    wire: dict[Wire, float] = {}
    for group, runs in guy_runs(rack, bracing):
        wire[group.wire] = wire.get(group.wire, 0.0) + sum(runs) + TURNED_BACK * len(runs)
    for kind, length in wire.items():
        coils = [c.count * c.length for c in stock.coils if c.wire == kind]
        if coils and sum(coils) < length:
            what = f"has less than the {show(length, 'length', rack.units)} of {kind.name} needed"
            problems.append(Problem("stock", what, "list another coil, or another wire"))
    if problems:
        raise InputError(tuple(problems))


def needed(rack: Rack, bracing: tuple[str, ...]) -> Iterator[tuple[Pipe, float]]:
    """Every length of pipe [m] that the rack is cut from, the sleeves left out."""
    many = len(rack.posts.positions)
    for _ in range(many):
        yield rack.posts.pipe, post_length(rack)
    for length in beam_lengths(rack):
        yield rack.beam.pipe, length
    if rack.knees and KNEES in bracing:
        for _ in range(2 * many):
            yield rack.knees.pipe, rack.knees.work_length
    if rack.stays and STAYS in bracing:
        for _ in range(4):
            yield rack.stays.pipe, stay_length(rack, rack.stays)


def post_length(rack: Rack) -> float:
    """Length of a post, buried part and all [m]."""
    return rack.posts.height + rack.posts.footing.depth


def beam_lengths(rack: Rack) -> tuple[float, ...]:
    """Lengths between the splices of the beam [m]."""
    half = rack.beam.length / 2
    return tuple(b - a for a, b in pairwise((-half, *rack.beam.splices, half)))


def stay_length(rack: Rack, stays: Stays) -> float:
    """Length of the longest stay at the steepest tilt, feet on level ground [m]."""
    high = rack.posts.height
    if stays.attach == RAIL_CORNERS:
        tilt = max(rack.tilts)
        high += rack.stand_off * math.cos(tilt) + rack.rails.length / 2 * math.sin(tilt)
    return math.hypot(stays.out, stays.along, high)


def first_not_cut(have: list[StockPiece], lengths: list[float]) -> float:
    """Length of the first piece that cannot be cut [m], longest first; 0 where all can.

    Each comes from the shortest rest it fits: a rule of thumb that may miss a cutting plan, never
    one that claims too much.
    """
    rests = [piece.length for piece in have for _ in range(piece.count)]
    for length in sorted(lengths, reverse=True):
        fits = [i for i, rest in enumerate(rests) if rest >= length]
        if not fits:
            return length
        shortest = min(fits, key=lambda i: rests[i])
        rests[shortest] -= length + SAW
    return 0.0
