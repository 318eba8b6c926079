"""A piece drawn as a strip with its running marks, each with its measure."""

from collections.abc import Sequence
from itertools import pairwise

from frame.draw.shop.paper import GREY, SMALL, Paper
from frame.shop.steel.pieces import CHANNEL, COPE, TAB, Piece, PieceEnd
from frame.shop.words import tape

HALF = 0.11
"""Half the height of a strip [in]."""
TURNED = 0.72
"""Height of a measure written upright over its mark [in]."""
APART = 0.15
"""Least distance of two upright measures [in]."""
HOOK, END_ROOM = 0.5, 0.45


def draw_strip(paper: Paper, piece: Piece, system: str) -> None:
    """Draw a piece with its measures upright over it, number by number as in the table below."""
    paper.need(TURNED + 2 * HALF + 0.6)
    left, right = HOOK, paper.width - END_ROOM
    per = (right - left) / piece.length
    middle = paper.down + TURNED + 0.22 + HALF
    _outline(paper, piece, (left, right), middle)
    told = {tape(m.at, system): left + m.at * per for m in piece.marks}
    places = spread_apart(list(told.values()), APART, (0.08, paper.width - 0.08))
    for (text, x), shown in zip(told.items(), places, strict=True):
        top = middle - HALF
        paper.rule(x, middle + HALF, x, top - 0.04, linewidth=0.9)
        paper.rule(x, top - 0.04, shown, top - 0.18, linewidth=0.5)
        paper.put(
            shown, top - 0.21, text, SMALL, rotation=90, va="bottom", ha="center", weight="bold"
        )
    paper.put(0, middle - 0.07, "hook", SMALL, weight="bold")
    paper.down = middle + HALF + 0.12


def spread_apart(
    places: Sequence[float], apart: float, within: tuple[float, float]
) -> list[float]:
    """Move places, in order, as little as need be until they are `apart` and inside."""
    moved = list(places)
    for _ in range(200):
        shifted = False
        for i in range(len(moved) - 1):
            short = apart - (moved[i + 1] - moved[i])
            if short > 1e-6:
                moved[i] -= short / 2
                moved[i + 1] += short / 2
                shifted = True
        if moved and moved[0] < within[0]:
            moved[0], shifted = within[0], True
        if moved and moved[-1] > within[1]:
            moved[-1], shifted = within[1], True
        if not shifted:
            break
    return moved


def _outline(paper: Paper, piece: Piece, span: tuple[float, float], middle: float) -> None:
    left, right = span
    for y in (middle - HALF, middle + HALF):
        paper.rule(left, y, right, y, linewidth=1.4)
    if piece.kind == CHANNEL:
        paper.rule(left, middle, right, middle, linewidth=0.5, color=GREY, linestyle=(0, (6, 4)))
    _end(paper, piece.ends[0], left, middle, 1.0)
    _end(paper, piece.ends[1], right, middle, -1.0)


def _end(paper: Paper, end: PieceEnd, x: float, middle: float, inward: float) -> None:
    """Draw an end: square, with the hollow of a cope, or with its tab."""
    if end.kind == COPE:
        nose = [(0.0, -HALF), (0.05, -HALF / 2), (0.07, 0.0), (0.05, HALF / 2), (0.0, HALF)]
        for (a, u), (b, v) in pairwise(nose):
            paper.rule(x + inward * a, middle + u, x + inward * b, middle + v, linewidth=1.4)
        return
    paper.rule(x, middle - HALF, x, middle + HALF, linewidth=1.4)
    if end.kind == TAB:
        out = x - inward * 0.2
        for y in (middle - HALF / 2, middle + HALF / 2):
            paper.rule(x, y, out, y, linewidth=1.0)
        paper.rule(out, middle - HALF / 2, out, middle + HALF / 2, linewidth=1.0)
