"""Pieces as they are cut: length, ends, marks along and round them."""

import math
from dataclasses import dataclass

from frame.named.part import PartKind
from frame.rack.pipe import Pipe
from frame.units import INCH, METRIC, MM

HOLE = INCH / 16
"""Hole over bolt [m], AISC 360-22 Table J3.3 (from memory of the standard)."""
PIPE, CHANNEL, PLATE = "pipe", "channel", "plate"
SQUARE, COPE, TAB = "square", "cope", "tab"
POST_LINES = ("front", "right", "back", "left")
BEAM_LINES = ("top", "front", "bottom", "back")
CHANNEL_LINES = ("open face", "side", "web", "side")


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEnd:
    """How one end of a piece is made.

    A "cope" sits on the piece `onto` of outside diameter `header` [m] at `angle` between the axes
    [rad], centre lines `offset` apart [m], its inner edge of diameter `bore` [m] touching all
    round; `flanks` where the branch is wider than the header and holds it between two cheeks that
    reach up to its centre line. A "tab" is a plate in a slot, the middle of its hole `reach` [m]
    beyond the pipe.
    """

    kind: str = SQUARE
    onto: str = ""
    header: float = 0.0
    angle: float = math.pi / 2
    offset: float = 0.0
    bore: float = 0.0
    flanks: bool = False
    reach: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark `at` a distance along the piece from its hook end [m].

    `around` [rad] from the piece's first line, right-handed about the way from hook end to far
    end, None where it goes all round; a mark that stands off the surface, as the eye of a lug,
    does so by `off` [m]. `up`: on the side of a channel, how high over the face that lies on the
    beam, 0 where none is told [m]. `hole`: diameter to drill [m], 0 for none. `on`: numbers, from
    1, of the equal pieces that bear it, empty where all do; `of`: the kind of part that comes
    there, its `number` from 1, where the program asks.
    """

    name: str
    at: float
    around: float | None = None
    off: float = 0.0
    up: float = 0.0
    hole: float = 0.0
    on: tuple[int, ...] = ()
    of: PartKind | None = None
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """`count` equal pieces of one rack.

    `of`: the kind of part it makes; `kind` of stock, `stock` in words; `od` and `wall` of pipe,
    depth and width of a channel, width and thickness of a plate [m]; `length` [m] over
    all, long point to long point; `weight` of one [N], what the copes take off still in it; `ends`
    hook end first; `lines` names the quarter lines in the order of `Mark.around`.
    """

    letter: str
    name: str
    of: PartKind
    count: int
    kind: str
    stock: str
    od: float
    wall: float
    length: float
    weight: float
    ends: tuple[PieceEnd, PieceEnd] = (PieceEnd(), PieceEnd())
    marks: tuple[Mark, ...] = ()
    lines: tuple[str, ...] = ()
    note: str = ""

    def mark(self, name: str) -> Mark:
        """Find a mark by its name."""
        return next(m for m in self.marks if m.name == name)


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePlace:
    """A place on a piece: its `letter`, its `number` among equal ones, from 1, and what is there.

    `where` is the name of a mark, "hook end" or "far end".
    """

    letter: str
    number: int
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Two places that come together: `kind` "seat", "cope", "pin", "U-bolt" or "bolt".

    Centre lines of what lies on one another are `apart` [m].
    """

    name: str
    kind: str
    first: PiecePlace
    second: PiecePlace
    apart: float = 0.0


def on_tape(length: float, system: str) -> float:
    """Return a length [m] as it is read off a tape: to 1/16 in, or to the mm."""
    step = MM if system == METRIC else INCH / 16
    return round(length / step) * step


HOOK_END, FAR_END = "hook end", "far end"
SEAT, COPED, PIN, U_BOLT, BOLT = "seat", "cope", "pin", "U-bolt", "bolt"


def pipe_piece(of: PartKind, count: int, pipe: Pipe, length: float, which: str = "") -> Piece:
    """Return a piece of pipe of `length` [m], square at both ends and without marks.

    `which` of several unlike ones of a kind.
    """
    return Piece(
        letter="",
        name=f"{of}, {which}" if which else of,
        of=of,
        count=count,
        kind=PIPE,
        stock=pipe.label,
        od=pipe.od,
        wall=pipe.wall,
        length=length,
        weight=pipe.weight * length,
    )
