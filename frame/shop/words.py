"""A shop's numbers in words: ends, marks, lengths on a tape."""

import math

from frame.shop.steel.pieces import COPE, PIPE, TAB, Mark, Piece, PieceEnd
from frame.units import DEG, show

CAUTION = (
    "A calculation on the numbers in the file, not an approval: local codes decide, and where "
    "people pass under it a licensed engineer looks first. Check every length on the steel before "
    "you cut it."
)
HOOK = "All marks are running measures from the hook end: hook the tape once, never chain."
ON_LINE = math.radians(0.5)


def tape(value: float, system: str) -> str:
    """Return a length as read off a tape: to 1/16 in, or to the mm."""
    return show(value, "length", system)


def end_words(end: PieceEnd, system: str) -> str:
    """Say how an end is made."""
    if end.kind == COPE:
        if end.flanks:
            return f"saddle for {end.onto}, {tape(end.header, system)} thick, square"
        angle = f"{end.angle / DEG:.1f}".removesuffix(".0")
        how = "square" if angle == "90" else f"at {angle} deg"
        return f"cope onto {end.onto}, {tape(end.header, system)} thick, {how}"
    if end.kind == TAB:
        return f"square, slot for a tab, its hole {tape(end.reach, system)} beyond the end"
    return "square"


def ends_words(piece: Piece, system: str) -> str:
    """Say how both ends are made."""
    first, second = (end_words(end, system) for end in piece.ends)
    if first == second:
        return f"both {first}"
    return f"hook end {first}; far end {second}"


def around_words(mark: Mark, piece: Piece, system: str) -> str:
    """Say where round a piece a mark lies: on a quarter line, or so far round from one."""
    if mark.around is None:
        return "all round" if piece.kind == PIPE else ""
    quarter = math.pi / 2
    line = round(mark.around / quarter)
    rest = mark.around - line * quarter
    name = piece.lines[line % 4]
    if mark.up:
        return f"{name}, {tape(mark.up, system)} over the beam"
    if abs(rest) <= ON_LINE:
        return f"{name} line"
    way = piece.lines[(line + (1 if rest > 0 else -1)) % 4]
    return f"{tape(abs(rest) * piece.od / 2, system)} round from the {name} line to the {way}"


def hole_words(mark: Mark, system: str) -> str:
    """Say what is drilled at a mark, and how far off the surface the hole of a lug is."""
    if not mark.hole:
        return ""
    if mark.off:
        return f"hole of the lug {tape(mark.off, system)} off the pipe"
    return f"drill {tape(mark.hole, system)}"


def stock_words(piece: Piece, system: str) -> str:
    """Say what a piece is cut from."""
    if piece.stock != "sleeve stock":
        return piece.stock
    bore, wall = (show(v, "thickness", system) for v in (piece.od - 2 * piece.wall, piece.wall))
    return f"pipe of bore {bore}, wall {wall}"


def on_words(mark: Mark, piece: Piece) -> str:
    """Say which of several equal pieces bear a mark."""
    if not mark.on or piece.count == 1:
        return ""
    return ", ".join(f"{piece.letter}{n}" for n in mark.on)
