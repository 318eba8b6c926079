"""The bracing sheet: bare beside braced, every row to one scale. The only maker of Figures."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from textwrap import fill
from typing import Any

import numpy as np
from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw import palette
from frame.draw.paint import draw_moments, draw_moved, set_stage
from frame.draw.picture import Picture, shared_corners, shared_exaggeration, shared_moment_scale

CAUTION = (
    "A calculation on the numbers given, no approval of a structure: "
    "let a licensed engineer and the local building office decide."
)
COLUMN, GAP, HEAD, ROW_HEAD, FOOT = 4.0, 0.2, 1.12, 0.3, 0.32
"""Widths and heights on the sheet [in]."""
TALLEST, SHORTEST = 2.6, 1.5
"""Heights of a row of pictures [in]."""
MARGIN = 0.09
"""Free room round a picture, over the larger side of it [1]."""
WRAP = 62
"""Letters in a line of words over a column."""
DPI = 150
STYLE = {"svg.hashsalt": "rack", "svg.fonttype": "path", "font.family": "DejaVu Sans"}
UNDATED: dict[str, dict[str, None]] = {
    "png": {"Software": None},
    "svg": {"Date": None, "Creator": None},
    "pdf": {"CreationDate": None, "Creator": None, "Producer": None},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One column of the sheet: a bracing with its elevations and, if wished, the space view.

    `words` says in a line or two how it fares, values already written with their units.
    """

    title: str
    words: str
    front: Picture
    side: Picture
    space: Picture | None = None


@dataclass(frozen=True, slots=True)
class _Row:
    title: str
    pictures: tuple[Picture, ...]
    draw: Callable[[Any, Picture], tuple[str, ...]]
    corners: np.ndarray
    height: float


def bracing_sheet(heading: str, case: str, left: View, right: View) -> Figure:
    """Sheet of two bracings: front moved, front moments, side moved, side moments, space.

    `heading` names the rack; `case` the wind, tilt and gust in words. Both columns of a row have
    the same scale, exaggeration and limits, stated over the row.
    """
    with rc_context(STYLE):
        rows = _rows((left, right))
        width = 2 * COLUMN + 3 * GAP
        height = HEAD + FOOT + sum(row.height + ROW_HEAD for row in rows)
        figure = Figure(figsize=(width, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        _headings(figure, heading, case, (left, right))
        top = height - HEAD
        for row in rows:
            _write_row_title(figure, row.title, top)
            top -= ROW_HEAD + row.height
            for column, picture in enumerate(row.pictures):
                box = (GAP + column * (COLUMN + GAP), top, COLUMN, row.height)
                _fill_cell(figure, box, row, picture)
        figure.text(
            0.5, 0.12 / height, CAUTION, ha="center", fontsize=palette.SMALL, color=palette.INK
        )
        return figure


def save(figure: Figure, path: Path) -> None:
    """Save a figure as PNG, SVG or PDF by the ending of `path`; same figure, same bytes."""
    kind = path.suffix.lstrip(".").lower()
    with rc_context(STYLE):
        figure.savefig(path, format=kind, metadata=UNDATED[kind])


def _rows(views: tuple[View, ...]) -> tuple[_Row, ...]:
    rows = []
    for name, pictures in (
        ("From the front", tuple(v.front for v in views)),
        ("From the side, front of the rack at the left", tuple(v.side for v in views)),
    ):
        rows += [_moved_row(name, pictures), _moment_row(name.split(",")[0], pictures)]
    space = tuple(v.space for v in views if v.space is not None)
    if len(space) == len(views):
        rows.append(_moved_row("The whole rack, space frame", space))
    return tuple(rows)


def _moved_row(name: str, pictures: tuple[Picture, ...]) -> _Row:
    times = shared_exaggeration(pictures)
    size = "at its true size" if times == 1 else f"{times:g} times larger"
    title = f"{name}: how it moves, drawn {size}; at rest in grey"

    def draw(ax: Any, picture: Picture) -> tuple[str, ...]:
        return draw_moved(ax, picture, times)

    return _row(title, pictures, draw)


def _moment_row(name: str, pictures: tuple[Picture, ...]) -> _Row:
    scale = shared_moment_scale(pictures)
    title = f"{name}: bending moment on the stretched side, one scale; pull and push of braces"

    def draw(ax: Any, picture: Picture) -> tuple[str, ...]:
        return draw_moments(ax, picture, scale)

    return _row(title, pictures, draw)


def _row(
    title: str, pictures: tuple[Picture, ...], draw: Callable[[Any, Picture], tuple[str, ...]]
) -> _Row:
    corners = shared_corners(pictures)
    left, right, bottom, top = corners
    margin = MARGIN * max(right - left, top - bottom)
    shape = (top - bottom + 2 * margin) / (right - left + 2 * margin)
    return _Row(title, pictures, draw, corners, float(np.clip(COLUMN * shape, SHORTEST, TALLEST)))


def _fill_cell(
    figure: Figure, box: tuple[float, float, float, float], row: _Row, picture: Picture
) -> None:
    width, height = figure.get_size_inches()
    x, y, w, h = box
    ax = figure.add_axes((x / width, y / height, w / width, h / height))
    left, right, bottom, top = row.corners
    set_stage(ax, row.corners, MARGIN * max(right - left, top - bottom))
    unplaced = row.draw(ax, picture)
    if unplaced:
        figure.text(x / width, y / height, "also: " + "; ".join(unplaced), fontsize=palette.SMALL)


def _headings(figure: Figure, heading: str, case: str, views: tuple[View, ...]) -> None:
    width, height = figure.get_size_inches()
    figure.text(
        GAP / width,
        1 - 0.24 / height,
        heading,
        fontsize=palette.TITLE,
        color=palette.INK,
        weight="bold",
    )
    figure.text(GAP / width, 1 - 0.42 / height, case, fontsize=palette.TEXT, color=palette.INK)
    for column, view in enumerate(views):
        x = (GAP + column * (COLUMN + GAP)) / width
        figure.text(
            x,
            1 - 0.68 / height,
            view.title,
            fontsize=palette.TEXT + 1,
            weight="bold",
            color=palette.INK,
        )
        figure.text(
            x,
            1 - 0.76 / height,
            fill(view.words, WRAP),
            fontsize=palette.TEXT,
            color=palette.INK,
            va="top",
        )


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
