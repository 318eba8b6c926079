"""The bracing sheet: bare beside braced, every row to one scale. The only maker of Figures."""

import re
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path
from textwrap import fill
from typing import Any

import numpy as np
from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from frame.draw import palette
from frame.draw.elevation import AXIAL, MOMENTS, SHEAR
from frame.draw.labels import Label
from frame.draw.paint import draw_forces, draw_moved, set_stage
from frame.draw.picture import Picture, shared_corners, shared_exaggeration, shared_force_scale
from frame.draw.titles import titled

PLANES = (
    "Each elevation takes only what acts in its plane: for the guys' pulls see the space view."
)
CAUTION = (
    "A calculation on the numbers given, no approval of a structure: "
    "let a licensed engineer and the local building office decide."
)
COLUMN, GAP, ROW_HEAD, FOOT = 4.0, 0.2, 0.3, 0.47
"""Widths and heights on the sheet [in]."""
TALLEST, SHORTEST = 2.6, 1.5
"""Heights of a row of pictures [in]."""
MARGIN = 0.09
"""Free room round a picture, over the larger side of it [1]."""
PULLS = "; pull of the guys"
DRAWN = {
    MOMENTS: "bending moment on the stretched side; pull and push of braces",
    SHEAR: "shear",
    AXIAL: "axial force, pull on one side of a pipe and push on the other",
}
WRAP, WRAP_CASE = 66, 132
"""Letters in a line of words over a column, and over both."""
LINE = 0.145
"""Height of a line of words [in]."""
DPI, COLOURS = 150, 255
STYLE: dict[str, Any] = {
    "svg.hashsalt": "rack",
    "svg.fonttype": "path",
    "font.family": "DejaVu Sans",
    "text.parse_math": False,
}
"""A name from a file is text, dollars in it too."""
LONG = re.compile(r"-?\d+\.\d{2,}")
"""A number longer than a tenth."""
UNDATED: dict[str, dict[str, None]] = {
    "png": {"Software": None},
    "svg": {"Date": None, "Creator": None},
    "pdf": {"CreationDate": None, "Creator": None, "Producer": None},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetColumn:
    """One column of the sheet: a rack with its elevations, the space view, or both.

    `words` says in a line or two how it fares, values already written with their units.
    """

    title: str
    words: str
    front: Picture | None = None
    side: Picture | None = None
    space: Picture | None = None


@dataclass(frozen=True, slots=True)
class _Head:
    """Words over the pictures, broken into lines; heights [in] from the top of the sheet."""

    title: str
    case: str
    words: tuple[str, ...]

    @property
    def columns(self) -> float:
        """Height at which the words of the columns begin."""
        return 0.64 + LINE * self.case.count("\n")

    @property
    def height(self) -> float:
        """Height of all of it."""
        return self.columns + 0.1 + LINE * max(len(w.splitlines()) for w in self.words)


@dataclass(frozen=True, slots=True)
class _Row:
    title: str
    pictures: tuple[Picture, ...]
    draw: Callable[[Any, Picture], tuple[Label, ...]]
    corners: np.ndarray
    height: float
    under: int = 0
    """Lines of words under it, of labels that find no room."""


@contextmanager
def styled(**more: Any) -> Iterator[None]:
    """Draw in the look of all sheets; letters that the font lacks are drawn as boxes."""
    with rc_context({**STYLE, **more}), warnings.catch_warnings():
        warnings.filterwarnings("ignore", r"Glyph .* missing from")
        warnings.filterwarnings("ignore", "Matplotlib currently does not support")
        yield


def bracing_sheet(
    heading: str, case: str, views: tuple[SheetColumn, ...], what: str = MOMENTS
) -> Figure:
    """Sheet of one or two racks: forces of a kind front and side, or the whole in space.

    `what`: "moments", "shear" or "axial". `heading` names the rack; `case` the wind, tilt and
    gust in words. All columns of a row have the same scale, exaggeration and limits, stated over
    the row.
    """
    with styled():
        rows = _rows(views, what)
        figure, under = _drawn(heading, case, views, rows)
        if not any(under):
            return figure
        # Labels that find no room are written under the drawings, which takes room itself.
        rows = tuple(replace(row, under=n) for row, n in zip(rows, under, strict=True))
        return _drawn(heading, case, views, rows)[0]


def _drawn(
    heading: str, case: str, views: tuple[SheetColumn, ...], rows: tuple[_Row, ...]
) -> tuple[Figure, list[int]]:
    """Draw a sheet; and of how many lines the words under each row are."""
    with styled():
        width = 2 * COLUMN + 3 * GAP
        head = _Head(heading, fill(case, WRAP_CASE), tuple(fill(v.words, WRAP) for v in views))
        height = head.height + FOOT + sum(r.height + ROW_HEAD + LINE * r.under for r in rows)
        figure = Figure(figsize=(width, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        _headings(figure, head, views)
        top, under = height - head.height, []
        for row in rows:
            _write_row_title(figure, row.title, top)
            top -= ROW_HEAD + row.height
            found = [0]
            for column, picture in enumerate(row.pictures):
                box = (GAP + column * (COLUMN + GAP), top, COLUMN, row.height)
                found.append(_fill_cell(figure, box, row, picture))
            under.append(max(found))
            top -= LINE * row.under
        flat = PLANES if any(v.front for v in views) else ""
        for up, text in ((0.27, flat), (0.12, CAUTION)):
            figure.text(
                0.5, up / height, text, ha="center", fontsize=palette.SMALL, color=palette.INK
            )
        return figure, under


def save(figure: Figure, path: Path) -> None:
    """Save a figure as PNG, SVG or PDF by the ending of `path`; same figure, same bytes."""
    kind = path.suffix.lstrip(".").lower()
    with styled():
        if kind == "png":
            _save_pixels(figure, path)
        else:
            figure.savefig(path, format=kind, metadata=UNDATED[kind])


def as_svg(figure: Figure) -> str:
    """Return a figure as the text of an SVG file for a page: small, its letters left to the page.

    Paths to a tenth of a point. Verdana is as wide as the letters measured with; what else a
    page may have is narrower.
    """
    with styled(**{"svg.fonttype": "none"}), BytesIO() as made:
        figure.savefig(made, format="svg", metadata=UNDATED["svg"])
        text = made.getvalue().decode("utf-8")
    text = re.sub(r"<!--.*?-->", "", text, flags=re.DOTALL)
    text = text.replace("'DejaVu Sans'", "'DejaVu Sans', Verdana, sans-serif")
    return re.sub(r'(?<= d=")[^"]*', lambda path: LONG.sub(_rounded, path[0]), text)


def _rounded(number: re.Match[str]) -> str:
    return f"{float(number[0]):.1f}".rstrip("0").rstrip(".")


def _save_pixels(figure: Figure, path: Path) -> None:
    """Write a PNG of few colours: a third of the size, and no different to the eye."""
    with BytesIO() as made:
        figure.savefig(made, format="png", metadata=UNDATED["png"])
        picture = Image.open(made).convert("RGB")
    picture.quantize(COLOURS, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE).save(
        path, "PNG", optimize=True
    )


def _rows(views: tuple[SheetColumn, ...], what: str) -> tuple[_Row, ...]:
    rows = []
    for name, found in (
        ("From the front", [v.front for v in views]),
        ("From the side, front of the rack at the left", [v.side for v in views]),
    ):
        pictures = tuple(p for p in found if p is not None)
        if pictures:
            rows.append(_force_row(name, pictures, what))
    space = tuple(v.space for v in views if v.space is not None)
    if space:
        rows.append(_moved_row("The whole rack, space frame", space, PULLS))
    return tuple(rows)


def _moved_row(name: str, pictures: tuple[Picture, ...], also: str = "") -> _Row:
    guyed = any(picture.lines for picture in pictures)
    times = shared_exaggeration(pictures)
    size = "at its true size" if times == 1 else f"{times:g} times larger"
    title = f"{name}: how it moves, drawn {size}; at rest in grey{also if guyed else ''}"

    def draw(ax: Any, picture: Picture) -> tuple[Label, ...]:
        return draw_moved(ax, picture, times)

    return _row(title, pictures, draw)


def _force_row(name: str, pictures: tuple[Picture, ...], what: str) -> _Row:
    scale = shared_force_scale(pictures)
    dashed = any(line.slack for picture in pictures for line in picture.lines)
    title = f"{name}: {DRAWN[what]}, one scale{'; dashed guys hang slack' if dashed else ''}"

    def draw(ax: Any, picture: Picture) -> tuple[Label, ...]:
        return draw_forces(ax, picture, scale)

    return _row(title, pictures, draw)


def _row(
    title: str, pictures: tuple[Picture, ...], draw: Callable[[Any, Picture], tuple[Label, ...]]
) -> _Row:
    corners = shared_corners(pictures)
    left, right, bottom, top = corners
    margin = MARGIN * max(right - left, top - bottom)
    shape = (top - bottom + 2 * margin) / (right - left + 2 * margin)
    return _Row(title, pictures, draw, corners, float(np.clip(COLUMN * shape, SHORTEST, TALLEST)))


def _fill_cell(
    figure: Figure, box: tuple[float, float, float, float], row: _Row, picture: Picture
) -> int:
    """Draw one picture of a row; return of how many lines the words under it are."""
    width, height = figure.get_size_inches()
    x, y, w, h = box
    ax = figure.add_axes((x / width, y / height, w / width, h / height))
    left, right, bottom, top = row.corners
    set_stage(ax, row.corners, MARGIN * max(right - left, top - bottom))
    unplaced = row.draw(ax, picture)
    if not unplaced:
        return 0
    also = fill("also: " + "; ".join(u.text.replace("\n", " ") for u in unplaced), WRAP)
    figure.text(x / width, y / height, also, fontsize=palette.SMALL, va="top")
    return len(also.splitlines())


def _headings(figure: Figure, head: _Head, views: tuple[SheetColumn, ...]) -> None:
    width, height = figure.get_size_inches()

    def write(x: float, down: float, text: str, **style: Any) -> None:
        figure.text(x / width, 1 - down / height, text, color=palette.INK, **style)

    title, size = titled(head.title, width - 2 * GAP, palette.TITLE)
    write(GAP, 0.24, title, fontsize=size, weight="bold")
    write(GAP, 0.33, head.case, fontsize=palette.TEXT, va="top")
    for column, (view, words) in enumerate(zip(views, head.words, strict=True)):
        x = GAP + column * (COLUMN + GAP)
        write(x, head.columns, view.title, fontsize=palette.TEXT + 1, weight="bold")
        write(x, head.columns + 0.08, words, fontsize=palette.TEXT, va="top")


def _write_row_title(figure: Figure, title: str, top: float) -> None:
    width, height = figure.get_size_inches()
    figure.text(
        GAP / width,
        (top - 0.22) / height,
        title,
        fontsize=palette.TEXT,
        color=palette.INK,
        style="italic",
    )
