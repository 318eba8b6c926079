"""What the builder has at hand."""

from dataclasses import dataclass

from frame.rack.pipe import Pipe
from frame.tables.wires import Wire


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPiece:
    """`count` equal pieces of `pipe`, each of `length` [m]; `entry` of the file, from 0."""

    pipe: Pipe
    length: float
    count: int
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Coil:
    """`count` coils of `wire`, each of `length` [m], infinite if not given; `entry` as above."""

    wire: Wire
    length: float
    count: int
    entry: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Pipe and wire at hand, in the order of the file."""

    pieces: tuple[StockPiece, ...]
    coils: tuple[Coil, ...]
