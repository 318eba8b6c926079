"""The picture to act on: by its own weight, and in a wind it still stands, side by side."""

from textwrap import wrap
from typing import Any

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw import palette
from frame.draw.cell import Cell, corners_of, paint
from frame.draw.labels import Label
from frame.draw.paint import set_stage
from frame.draw.panes import Pane, weight_pane, wind_pane
from frame.draw.picture import Array
from frame.draw.sheet import styled
from frame.draw.titles import titled
from frame.pictured.beside import Beside, Shown

DPI = 210
"""Dots per inch: 1,100 dots across, for a telephone."""
SIDE, BETWEEN = 0.08, 0.06
COLUMN = 2.5
"""Free room at the sides and between columns, width of a column [in]."""
SMALL, TEXT, HEAD, TITLE = 8.5, 9.0, 10.5, 12.5
"""Text sizes [pt]."""
LINE = 1.32 / 72
"""Height of a line per point of its text [in]."""
BESIDE, OVER = 0.1, 0.05
"""Room for labels beside a drawing, over and under it, over its width and height [1]."""
TALLEST, SHORTEST = 3.1, 1.9
"""Heights of a drawing [in]."""
LONGEST = 1.99
"""Most height of the sheet over its width [1], for a telephone."""
WIDE, BOLD = 0.0081, 0.0096
"""Width of a letter per point of its text, plain and bold [in]."""
KEY = (
    "Grey: at rest. Hatched: where the steel flexes; the wider, the harder it works, at its "
    "widest as hard as its listed yield."
)
CAUTION = (
    "An estimate on the numbers in the file; local codes decide. Where people pass under it, a "
    "licensed engineer looks first."
)


def two_panes(beside: Beside, system: str) -> Figure:
    """Draw the racks of `beside`; values in `system`, "us" or "metric"."""
    panes = (weight_pane(beside, system), wind_pane(beside, system))
    count = len(beside.racks)
    columns = max(count, 2)
    width = 2 * SIDE + columns * COLUMN + (columns - 1) * BETWEEN
    # One rack alone has its two panes side by side.
    rows: list[tuple[Pane, ...]] = [panes] if count == 1 else [(pane,) for pane in panes]
    with styled(**{"hatch.linewidth": 0.6}):
        # Drawn once to learn which labels find no room: they are written under the drawing.
        draft = _Sheet(width, beside, rows, {})
        sheet = _Sheet(width, beside, rows, draft.unplaced)
        return sheet.figure


Unplaced = dict[tuple[str, int], tuple[Label, ...]]
"""Labels that found no room, by the pane's head and the drawing's number."""


class _Sheet:
    """A figure filled from the top; heights [in]."""

    def __init__(
        self, width: float, beside: Beside, rows: list[tuple[Pane, ...]], under: Unplaced
    ) -> None:
        self.beside, self.width, self.under = beside, width, under
        self.unplaced: Unplaced = {}
        head = 0.1 + TITLE * LINE
        foot = 0.12 + SMALL * LINE * sum(
            len(self._wrapped(t)) for t in (beside.done, KEY, CAUTION)
        )
        self.tallest = TALLEST
        words = head + foot + sum(self._high(row) - self._tall(row) for row in rows)
        # Drawings are made smaller where a long plan's words take too much of the height.
        self.tallest = max(min(TALLEST, (LONGEST * width - words) / len(rows)), SHORTEST)
        self.height = words + sum(self._tall(row) for row in rows)
        self.figure = Figure(figsize=(width, self.height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(self.figure)
        self.down = 0.08
        down = self.down
        self._words(SIDE, *titled(beside.rack.name, width - 2 * SIDE, TITLE), weight="bold")
        self.down = down + TITLE * LINE
        for row in rows:
            self._add(row)
        self.down = self.height - foot
        for text in (self.beside.done, KEY, CAUTION):
            for line in self._wrapped(text):
                self._words(SIDE, line, SMALL)

    def _add(self, row: tuple[Pane, ...]) -> None:
        """Add panes beside each other: heads, names of the racks, drawings and words under."""
        cells = [(pane, i) for pane in row for i in range(len(pane.cells))]
        self.down += 0.08
        start = self.down
        for column, (pane, i) in enumerate(cells):
            self.down = start
            if i == 0:
                for line in self._head(pane, len(row)):
                    self._words(self._left(column), line, HEAD, weight="bold")
        self.down = start + self._head_high(row)
        start = self.down
        for column, (_, i) in enumerate(cells):
            self.down = start
            for line in _title(self.beside.racks[i]):
                self._words(self._left(column), line, TEXT, style="italic")
        top, tall = start + self._titles_high, self._tall(row)
        for column, (pane, i) in enumerate(cells):
            left = self._left(column)
            box = (left, self.height - top - tall, COLUMN, tall)
            self.unplaced[pane.head, i] = self._drawn(box, pane.cells[i], pane)
            self.down = top + tall
            for line, name in self._said(pane, i):
                self._words(left, line, SMALL, gid=name or None)
        self.down = top + tall + self._words_high(row)

    def _drawn(
        self, box: tuple[float, float, float, float], cell: Cell, pane: Pane
    ) -> tuple[Label, ...]:
        x, y, w, h = box
        ax = self.figure.add_axes(
            (x / self.width, y / self.height, w / self.width, h / self.height)
        )
        set_stage(ax, _room(pane), 0.0)
        return paint(ax, cell)

    def _left(self, column: int) -> float:
        return SIDE + column * (COLUMN + BETWEEN)

    def _said(self, pane: Pane, i: int) -> list[tuple[str, str]]:
        """Return the words under a drawing, in lines, each with its artist's name, if any."""
        letters, lines = int(COLUMN / (SMALL * WIDE)), []
        for label in self.under.get((pane.head, i), ()):
            text = " ".join(label.text.split())
            lines += [
                (line, label.name) for line in wrap(f"{text[0].upper()}{text[1:]}.", letters)
            ]
        return [*lines, *((line, "") for line in wrap(pane.words[i], letters))]

    def _words_high(self, row: tuple[Pane, ...]) -> float:
        return SMALL * LINE * max(len(self._said(p, i)) for p in row for i in range(len(p.cells)))

    def _wrapped(self, text: str) -> list[str]:
        return wrap(text, int((self.width - 2 * SIDE) / (SMALL * WIDE)), break_on_hyphens=False)

    def _high(self, row: tuple[Pane, ...]) -> float:
        return (
            0.08
            + self._head_high(row)
            + self._titles_high
            + self._tall(row)
            + self._words_high(row)
        )

    def _tall(self, row: tuple[Pane, ...]) -> float:
        most = 0.0
        for pane in row:
            left, right, bottom, top = _room(pane)
            shape = (top - bottom) / (right - left)
            most = max(most, min(max(COLUMN * shape, SHORTEST), self.tallest))
        return most

    def _head_high(self, row: tuple[Pane, ...]) -> float:
        many = max(len(self._head(p, len(row))) for p in row)
        return HEAD * LINE * many

    def _head(self, pane: Pane, panes: int) -> list[str]:
        size = "at its true size" if pane.times == 1 else f"drawn {pane.times} times larger"
        wide = (self.width - 2 * SIDE) / panes
        return wrap(f"{pane.head}: movement {size}", int(wide / (HEAD * BOLD)))

    @property
    def _titles_high(self) -> float:
        return TEXT * LINE * max(len(_title(one)) for one in self.beside.racks)

    def _words(self, x: float, text: str, size: float, **look: Any) -> None:
        self.figure.text(
            x / self.width, 1 - self.down / self.height, text, fontsize=size, va="top",
            color=palette.INK, **look,
        )  # fmt: skip
        self.down += size * LINE


def _title(one: Shown) -> list[str]:
    return wrap(one.title, int(COLUMN / (TEXT * WIDE)))


def _room(pane: Pane) -> Array:
    """Left, right, bottom and top [m] of the drawings of a pane and the room round them."""
    left, right, bottom, top = corners_of(pane.cells)
    wide, high = BESIDE * (right - left), OVER * (top - bottom)
    return np.array([left - wide, right + wide, bottom - high, top + high])
