"""Cope templates at full size: on tiled pages, and each as one SVG."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import numpy as np
from matplotlib import rc_context
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from frame.draw.shop.paper import (
    BODY,
    FOOT,
    GREY,
    MARGIN,
    SMALL,
    STYLE,
    TITLE,
    Paper,
    broken,
    line_height,
    text_width,
)
from frame.shop.steel.templates import Template
from frame.shop.words import end_words, tape
from frame.units import INCH

OVER, UNDER = 0.75, 1.35
"""Waste above the long point and pipe below the shortest that a template shows [in]."""
OVERLAP = 0.5
"""What two tiles share [in]."""
HEAD = 1.72
"""Height of the words over a tile [in]."""
BAR = {"us": (3.0, "3 in"), "metric": (80 / 25.4, "80 mm")}
"""The check bar: length [in] and words."""
CUT_WIDTH, EDGE_WIDTH = 1.3, 0.8
LABEL = 9.0
CLEAR = 0.36
"""Half the width that a word keeps clear of the cut [in]."""
FLAP = 0.4
"""Paper left beyond the girth to glue [in]."""


@dataclass(frozen=True, slots=True)
class Tile:
    """A window on a template [in]: x from its left edge, y up from the long point."""

    left: float
    right: float
    low: float
    high: float


def tiles(template: Template, width: float, height: float) -> list[Tile]:
    """Cut a template into windows no larger than `width` and `height` [in], side by side first.

    Neighbours share `OVERLAP`.
    """
    girth = template.girth / INCH + FLAP
    low, high = -(template.drawn_below / INCH + UNDER), OVER
    columns = _parts(0.0, girth, width)
    rows = _parts(low, high, height)
    return [Tile(a, b, c, d) for c, d in reversed(rows) for a, b in columns]


def _parts(start: float, stop: float, most: float) -> list[tuple[float, float]]:
    span = stop - start
    if span <= most:
        return [(start, stop)]
    count = math.ceil((span - OVERLAP) / (most - OVERLAP))
    step = (span - OVERLAP) / count
    return [(start + i * step, start + (i + 1) * step + OVERLAP) for i in range(count)]


def write_wraps(paper: Paper, found: tuple[Template, ...], system: str) -> None:
    """Write every template, at full size, each on its own pages."""
    for template in found:
        parts = tiles(template, paper.width, paper.bottom - MARGIN - HEAD)
        for number, tile in enumerate(parts, 1):
            paper.new_page()
            _head(paper, template, (number, len(parts)), system)
            _tile(paper, template, tile)


def _head(paper: Paper, template: Template, place: tuple[int, int], system: str) -> None:
    number, count = place
    paper.put(0, paper.down, title(template), TITLE - 4, weight="bold")
    said = f"cut {template.count} for each rack"
    if count > 1:
        said += f"; sheet {number} of {count}: lay the overlap marks on one another"
    paper.put(0, paper.down + 0.32, said, BODY)
    y = paper.down + 0.58
    for line in broken(instructions(template, system), paper.width, SMALL + 0.5):
        paper.put(0, y, line, SMALL + 0.5)
        y += line_height(SMALL + 0.5)
    length, words = BAR[system]
    y = paper.down + HEAD - 0.22
    paper.rule(0, y, length, y, linewidth=2.0)
    for x in (0.0, length):
        paper.rule(x, y - 0.09, x, y + 0.09, linewidth=1.0)
    paper.put(length + 0.1, y - 0.08, f"this bar measures {words}: print at 100 %", SMALL)


def title(template: Template) -> str:
    """Name a template: the piece, the end, what it sits on."""
    return f"{template.letter}, {template.name}: {template.where}, onto {template.end.onto}"


def instructions(template: Template, system: str) -> str:
    """Say how a template is used."""
    bevel = (
        "Leave the cheeks standing beside the beam."
        if template.end.flanks
        else "Then grind the outside back to the dashed line where that lies on the side you keep."
    )
    return (
        f"For pipe {tape(template.od, system)} thick: {end_words(template.end, system)}. Cut out "
        "along the outside lines and wrap it round the pipe: its two end lines must meet, else "
        "the print or the pipe is off. Its long point goes to the end of the measured length. Cut "
        f"through the wall on the heavy line, which is the inner edge. {bevel}"
    )


def _tile(paper: Paper, template: Template, tile: Tile) -> None:
    figure, (width, height) = paper.pages[-1], paper.size
    across, up = tile.right - tile.left, tile.high - tile.low
    top = MARGIN + HEAD
    box = (MARGIN / width, 1 - (top + up) / height, across / width, up / height)
    ax = figure.add_axes(box)
    draw_template(ax, template, tile)
    girth = template.girth / INCH + FLAP
    if tile.right < girth - 1e-9:
        _overlap(ax, tile, tile.right - OVERLAP)
    if tile.left > 1e-9:
        _overlap(ax, tile, tile.left + OVERLAP)


def _overlap(ax: Any, tile: Tile, x: float) -> None:
    ax.plot([x, x], [tile.low, tile.high], color=GREY, linewidth=0.8, linestyle=(0, (1, 2)))
    for y in (tile.low + 0.3, tile.high - 0.3):
        ax.plot([x - 0.12, x + 0.12], [y, y], color="black", linewidth=1.0)
        ax.plot([x, x], [y - 0.12, y + 0.12], color="black", linewidth=1.0)


def draw_template(ax: Any, template: Template, tile: Tile) -> None:
    """Draw what a window shows of a template, data in inches at full size."""
    ax.set_xlim(tile.left, tile.right)
    ax.set_ylim(tile.low, tile.high)
    ax.axis("off")
    x, cut = template.across / INCH, -template.cut / INCH
    girth, low = template.girth / INCH, -(template.drawn_below / INCH + UNDER)
    ax.fill_between(
        x, cut, OVER, facecolor="none", edgecolor="0.6", hatch="//", linewidth=0.0, zorder=1
    )
    ax.plot(x, cut, color="black", linewidth=CUT_WIDTH, zorder=4)
    outside = -template.outside / INCH
    ax.plot(x, outside, color="black", linewidth=0.7, linestyle=(0, (4, 3)), zorder=3)
    frame = [(0, low), (girth, low), (girth, OVER), (0, OVER), (0, low)]
    ax.plot(*np.transpose(frame), color="black", linewidth=EDGE_WIDTH, zorder=3)
    flap = [(girth, low), (girth + FLAP, low + 0.1), (girth + FLAP, OVER - 0.1), (girth, OVER)]
    ax.plot(*np.transpose(flap), color=GREY, linewidth=0.6, zorder=2)
    ax.plot([0, girth], [low + 0.75] * 2, color=GREY, linewidth=0.6, zorder=2)
    for words, at in _labels(template, girth, low):
        _write(ax, words, at, tile)
    for quarter in range(5):
        place = quarter * girth / 4
        ax.plot(
            [place, place],
            [low, OVER],
            color="black",
            linewidth=0.6,
            zorder=2,
            dashes=(8, 2, 2, 2),
        )


def _labels(
    template: Template, girth: float, low: float
) -> Iterator[tuple[str, tuple[float, float]]]:
    """Words on a template: waste over the cut, keep under it, the quarter lines at its foot."""
    x, cut, outside = (
        template.across / INCH,
        -template.cut / INCH,
        -template.outside / INCH,
    )
    for quarter in range(4):
        middle = (quarter + 0.5) * girth / 4
        yield "WASTE", (middle, OVER - 0.2)
        beside = np.abs(x - middle) < CLEAR
        yield "KEEP", (middle, float(np.minimum(cut, outside)[beside].min()) - 0.14)
    names = quarter_names(template)
    for quarter, name in enumerate([*names, names[0]]):
        yield name, (quarter * girth / 4, low + 0.55)
    for quarter in range(4):
        yield f"{template.letter} {template.where}", ((quarter + 0.5) * girth / 4, low + 0.2)


def quarter_names(template: Template) -> tuple[str, ...]:
    """Name the quarter lines from left to right."""
    if template.end.flanks:
        return ("right", "front", "left", "back")
    if math.isclose(template.end.angle, math.pi / 2):
        return ("1", "2", "3", "4")
    return ("long", "side", "short", "side")


def _write(ax: Any, words: str, at: tuple[float, float], tile: Tile) -> None:
    """Write words centred, moved inside the window where it cuts them, not at all outside."""
    x, y = at
    half = text_width(words, LABEL, bold=True) / 2 + 0.05
    if not (tile.left <= x <= tile.right and tile.low + 0.05 <= y <= tile.high - 0.05):
        return
    shown = min(max(x, tile.left + half), tile.right - half)
    ax.text(
        shown,
        y,
        words,
        fontsize=LABEL,
        ha="center",
        va="center",
        weight="bold",
        zorder=6,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0},
    )


def template_svg(template: Template) -> bytes:
    """Return a template as SVG, its width and height those of the paper to be cut."""
    girth = template.girth / INCH + FLAP
    tile = Tile(0.0, girth, -(template.drawn_below / INCH + UNDER), OVER)
    edge = 0.1
    size = (girth + 2 * edge, tile.high - tile.low + 2 * edge + 0.3)
    with rc_context(STYLE | {"svg.fonttype": "path"}), BytesIO() as made:
        figure = Figure(figsize=size, facecolor="white")
        FigureCanvasSVG(figure)
        box = (edge / size[0], edge / size[1], girth / size[0], (tile.high - tile.low) / size[1])
        draw_template(figure.add_axes(box), template, tile)
        figure.text(edge / size[0], 1 - 0.28 / size[1], title(template), fontsize=SMALL)
        figure.savefig(made, format="svg", metadata={"Date": None, "Creator": None})
        return made.getvalue()


def upright_or_lying(
    paper: tuple[float, float], found: tuple[Template, ...]
) -> tuple[float, float]:
    """Return the paper upright, or lying where all templates fit lying but not upright."""
    short, long = paper
    tall = max((t.drawn_below / INCH + OVER + UNDER for t in found), default=0.0)
    lying = short - 2 * MARGIN - FOOT - HEAD
    return (long, short) if tall <= lying else (short, long)
