"""Sheets of paper filled from the top: headings, words, tables, pictures to a scale."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from io import BytesIO
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.lines import Line2D

LETTER, A4 = (8.5, 11.0), (8.27, 11.69)
SIZES = {"letter": LETTER, "a4": A4}
MARGIN = 0.5
"""Free edge that every printer leaves [in]."""
FOOT = 0.62
"""Height of the foot of a page [in]."""
BODY, SMALL, HEAD, TITLE = 11.0, 8.5, 14.0, 20.0
"""Sizes of type [pt]."""
LEADING = 1.3
"""Height of a line over its type [1]."""
POINTS = 72.0
FINE = 16
"""Text is measured so many times finer than it is drawn, free of hinting."""
BLACK, GREY = "black", "0.45"
CELL = 0.06
"""Free room at the sides of a cell [in]."""
STYLE = {"pdf.fonttype": 42, "font.family": "DejaVu Sans", "svg.hashsalt": "rack"}
UNDATED: dict[str, None] = {"CreationDate": None, "Creator": None, "Producer": None}


@cache
def _renderer() -> RendererAgg:
    return RendererAgg(10, 10, FINE * POINTS)


@cache
def _font(size: float, *, bold: bool) -> FontProperties:
    return FontProperties(family="DejaVu Sans", size=size, weight="bold" if bold else "normal")


@cache
def text_width(text: str, size: float = BODY, *, bold: bool = False) -> float:
    """Return how wide a line of text is [in]."""
    across, _, _ = _renderer().get_text_width_height_descent(text, _font(size, bold=bold), False)
    return float(across) / (FINE * POINTS)


def broken(text: str, width: float, size: float = BODY, *, bold: bool = False) -> list[str]:
    """Break text into lines no wider than `width` [in]; a longer word stands by itself."""
    lines: list[str] = []
    for part in text.split("\n"):
        line = ""
        for word in part.split():
            longer = f"{line} {word}".strip()
            if line and text_width(longer, size, bold=bold) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines


def line_height(size: float) -> float:
    """Return the height of a line of type of a `size` [pt], in inches."""
    return LEADING * size / POINTS


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its `head`, `width` [in], and whether it stands in bold."""

    head: str
    width: float
    bold: bool = False


@dataclass
class Paper:
    """Pages of one paper size, the same `title` and `caution` on each.

    `left` of the page [in] is what is free above the foot; measures are from the top left.
    """

    size: tuple[float, float]
    title: str
    caution: str
    pages: list[Figure] = field(default_factory=list)
    down: float = 0.0

    @property
    def width(self) -> float:
        """Width between the margins [in]."""
        return self.size[0] - 2 * MARGIN

    @property
    def bottom(self) -> float:
        """Where the foot begins, down from the top [in]."""
        return self.size[1] - MARGIN - FOOT

    @property
    def room(self) -> float:
        """What is free on the page [in]."""
        return self.bottom - self.down

    def new_page(self) -> None:
        """Begin a page."""
        figure = Figure(figsize=self.size, facecolor="white")
        FigureCanvasAgg(figure)
        self.pages.append(figure)
        self.down = MARGIN

    def need(self, height: float) -> None:
        """Begin a page where less than `height` [in] is free."""
        if not self.pages or self.room < height:
            self.new_page()

    def put(self, x: float, y: float, text: str, size: float = BODY, **style: Any) -> None:
        """Write at a place, from the left margin and from the top of the page [in]."""
        width, height = self.size
        self.pages[-1].text(
            (MARGIN + x) / width,
            1 - y / height,
            text,
            fontsize=size,
            color=style.pop("color", BLACK),
            va=style.pop("va", "top"),
            parse_math=False,
            **style,
        )

    def rule(self, x0: float, y0: float, x1: float, y1: float, **style: Any) -> None:
        """Draw a straight line between two places as for `put`."""
        width, height = self.size
        line = Line2D(
            [(MARGIN + x0) / width, (MARGIN + x1) / width],
            [1 - y0 / height, 1 - y1 / height],
            color=style.pop("color", BLACK),
            linewidth=style.pop("linewidth", 0.8),
            **style,
        )
        self.pages[-1].add_artist(line)

    def heading(self, text: str, size: float = HEAD, keep: float = 1.0) -> None:
        """Write a heading with at least `keep` [in] free under it."""
        high = line_height(size)
        self.need(high + keep)
        self.down += 0.06
        for line in broken(text, self.width, size, bold=True):
            self.put(0, self.down, line, size, weight="bold")
            self.down += high
        self.down += 0.04

    def paragraph(self, text: str, size: float = BODY, indent: float = 0.0) -> None:
        """Write a paragraph."""
        for line in broken(text, self.width - indent, size):
            self.need(line_height(size))
            self.put(indent, self.down, line, size)
            self.down += line_height(size)
        self.down += 0.05

    def leave_room(self, height: float) -> None:
        """Leave room [in]."""
        self.down += height

    def table(
        self, columns: Sequence[Column], rows: Sequence[Sequence[str]], size: float = BODY
    ) -> None:
        """Write a table, its head again on every page it runs on to."""
        cells = [self._broken(columns, row, size) for row in rows]
        self.need(3 * line_height(size) + 0.1)
        self._row_of_heads(columns, size)
        for row in cells:
            height = self._height(row, size)
            if self.room < height:
                self.new_page()
                self._row_of_heads(columns, size)
            self._row(columns, row, size)
        self.down += 0.1

    def _broken(
        self, columns: Sequence[Column], row: Sequence[str], size: float
    ) -> list[list[str]]:
        return [
            broken(text, column.width - 2 * CELL, size, bold=column.bold)
            for column, text in zip(columns, row, strict=True)
        ]

    def _height(self, row: Sequence[Sequence[str]], size: float) -> float:
        return max(len(lines) for lines in row) * line_height(size) + 0.08

    def _row_of_heads(self, columns: Sequence[Column], size: float) -> None:
        head = size - 1.5
        cells = [broken(c.head, c.width - 2 * CELL, head, bold=True) for c in columns]
        self._row([Column(c.head, c.width, bold=True) for c in columns], cells, head)
        across = sum(c.width for c in columns)
        self.rule(0, self.down, across, self.down, linewidth=1.4)

    def _row(self, columns: Sequence[Column], row: Sequence[Sequence[str]], size: float) -> None:
        x, top = 0.0, self.down
        for column, lines in zip(columns, row, strict=True):
            for i, line in enumerate(lines):
                self.put(
                    x + CELL,
                    top + 0.04 + i * line_height(size),
                    line,
                    size,
                    weight="bold" if column.bold else "normal",
                )
            x += column.width
        self.down = top + self._height(row, size)
        self.rule(0, self.down, x, self.down, linewidth=0.4, color=GREY)

    def finish(self) -> list[Figure]:
        """Write the foot of every page and return the pages."""
        count = len(self.pages)
        for number, page in enumerate(self.pages, 1):
            _foot(self, page, f"page {number} of {count}")
        return self.pages


def _foot(paper: Paper, page: Figure, place: str) -> None:
    """Write the title, the `place` of a page among all, and the caution at its foot."""
    width, height = paper.size
    y = paper.bottom + 0.1
    page.add_artist(
        Line2D(
            [MARGIN / width, 1 - MARGIN / width],
            [1 - y / height] * 2,
            color=BLACK,
            linewidth=0.8,
        )
    )
    lines = [f"{paper.title}, {place}", *broken(paper.caution, paper.width, SMALL)]
    for i, line in enumerate(lines):
        page.text(
            MARGIN / width,
            1 - (y + 0.04 + i * line_height(SMALL)) / height,
            line,
            fontsize=SMALL,
            va="top",
            color=BLACK,
            weight="bold" if i == 0 else "normal",
            parse_math=False,
        )


def as_pdf(pages: Sequence[Figure]) -> bytes:
    """Return pages as one PDF; same pages, same bytes."""
    with BytesIO() as made, rc_context(STYLE):
        with PdfPages(made, metadata=UNDATED) as book:
            for page in pages:
                book.savefig(page)
        return made.getvalue()


def as_png(page: Figure, dots: float) -> bytes:
    """Return a page as a picture of so many `dots` to the inch."""
    with BytesIO() as made, rc_context(STYLE):
        page.savefig(made, format="png", dpi=dots, metadata={"Software": None})
        return made.getvalue()
