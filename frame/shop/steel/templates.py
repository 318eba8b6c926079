"""Templates to wrap round a pipe: where it is cut to sit on another, laid flat."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.errors import InputError, Problem
from frame.geometry.cope import cheeked, saddle
from frame.shop.steel.pieces import COPE, FAR_END, HOOK_END, Piece, PieceEnd

FloatArray = npt.NDArray[np.float64]
PAPER = 0.1e-3
"""Thickness of common paper, 80 g/m2 [m] (common practice, no source)."""
POINTS = 721


@dataclass(frozen=True, kw_only=True)
class Template:
    """A wrap for one end of a piece, seen from outside with the pipe it is coped onto upwards.

    `across` from its left edge, which is the first line of the piece's end, and the `cut` there:
    how far below the long point it lies [m]; `outside` is where the outer edge of the finished
    cope lies. Beyond the cut, upwards, is waste. `girth` [m] is that of the paper's middle.
    `distance` from the header's centre line to the long point [m].
    """

    letter: str
    name: str
    where: str
    count: int
    end: PieceEnd
    od: float
    girth: float
    across: FloatArray
    cut: FloatArray
    outside: FloatArray
    distance: float

    @property
    def depth(self) -> float:
        """From the long point to the shortest, along the pipe [m]."""
        return float(self.cut.max())

    @property
    def drawn_below(self) -> float:
        """How far below the long point anything is drawn [m]."""
        return max(self.depth, float(self.outside.max()))


def templates(pieces: tuple[Piece, ...]) -> tuple[Template, ...]:
    """Return a template for every coped end.

    Raises
    ------
    InputError
        Where a branch is bigger than what it is to sit on.
    """
    return tuple(
        wrap(piece, where)
        for piece in pieces
        for where, end in zip((HOOK_END, FAR_END), piece.ends, strict=True)
        if end.kind == COPE
    )


def wrap(piece: Piece, where: str, paper: float = PAPER) -> Template:
    """Work out the template of one coped end, on paper of a thickness [m].

    The paper's middle lies half its thickness off the pipe, so its girth is pi (od + paper).

    Raises
    ------
    InputError
        Where the branch is bigger than the header and not held between cheeks.
    """
    end = piece.ends[0 if where == HOOK_END else 1]
    if not end.flanks and piece.od / 2 + abs(end.offset) > end.header / 2 * (1 + 1e-9):
        what = "is bigger than the pipe it is to sit on where they meet"
        raise InputError((Problem(f"{piece.letter}: {piece.name}", what, "swap the two"),))
    radius = (piece.od + paper) / 2
    across = np.linspace(0.0, 2 * math.pi * radius, POINTS)
    around = -across / radius
    inner, outer = (_edge(end, r, around) for r in (end.bore / 2, piece.od / 2))
    nearest = float(inner.min())
    return Template(
        letter=piece.letter,
        name=piece.name,
        where=where,
        count=piece.count,
        end=end,
        od=piece.od,
        girth=2 * math.pi * radius,
        across=across,
        cut=inner - nearest,
        outside=outer - nearest,
        distance=nearest,
    )


def _edge(end: PieceEnd, radius: float, around: FloatArray) -> FloatArray:
    """Return the distance from the header's centre line of an edge of the branch [m]."""
    if end.flanks:
        return cheeked(end.header / 2, radius, around, end.offset)
    return saddle(end.header / 2, radius, end.angle, around, end.offset)
