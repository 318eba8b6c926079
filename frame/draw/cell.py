"""Paint one rack under one load: at rest in grey, moved, hatched where it flexes, with its labels.

Everything with a number is an artist with a name (gid), so that it can be read back.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import numpy as np
from matplotlib.patheffects import withStroke

from frame.draw import palette
from frame.draw.labels import Label, place_labels
from frame.draw.picture import Array
from frame.draw.seen import FRONT, SeenElevation, Strip
from frame.named.part import PartKind
from frame.rack.rack import Rack

SWELL = 0.16
"""How much wider on either side the hatched band of a fully used pipe is [m]."""
LEAST_USED = 0.04
"""Use under which nothing is hatched [1]."""
HATCH = "////////"
LABEL = 9.0
"""Size of words in the drawing [pt]."""
FARTHEST = 62.0
"""How far from its point a label may stand [pt]."""
TICKS = 26
FAR_DOWN = 0.035
SHORTEST = 2.5
"""Length under which an arrow is not seen and not drawn [pt]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A length: between two points (2,) [m], drawn `off` (2,) from them [m], its words."""

    ends: Array
    off: Array
    text: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """An arrow from one point (2,) to another [m]."""

    start: Array
    end: Array
    bold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One drawing: what is seen, drawn moved `times` its movement unless `still`.

    `labels` in the order of what matters; `arrows` and `dimensions` [m]; `swing`: middle of the
    curved arrow about the post, None without; `footing`: width and depth of concrete, else None.
    """

    seen: SeenElevation
    rack: Rack
    times: float
    still: bool
    labels: tuple[Label, ...]
    arrows: tuple[Arrow, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    swing: Array | None = None


def paint(ax: Any, cell: Cell, share: float = 1.0) -> tuple[Label, ...]:
    """Paint a cell on an Axes whose limits are set; return the labels that found no room.

    `share` of the movement is drawn: less than 1 in the moving picture.
    """
    seen, times = cell.seen, 0.0 if cell.still else share * cell.times
    _ground(ax, cell)
    _panels(ax, seen, times)
    for strip in seen.strips:
        _at_rest(ax, strip)
    for wire in seen.wires:
        ends = wire.ends + times * wire.shape
        dash = palette.SLACK_DASH if wire.slack else "solid"
        ax.plot(*ends.T, color=palette.GUY, linewidth=0.9, linestyle=dash, zorder=3, gid="steel")
        ax.plot(*ends[1:].T, marker="v", markersize=4, color=palette.GUY, zorder=3)
    hub = max((s for s in seen.strips if s.end_on), key=lambda s: s.used.max(), default=None)
    for strip in seen.strips:
        _moved(ax, strip, times, 0.0 if cell.still else share)
    if hub is not None:
        _looked_along(ax, hub, times, 0.0 if cell.still else share)
    for arrow in cell.arrows:
        _arrow(ax, arrow)
    if cell.swing is not None:
        _swing(ax, cell.swing, cell.rack.posts.pipe.od)
    taken = [_dimension(ax, d) for d in cell.dimensions]
    steel = [s.outline(times) for s in seen.strips if not s.end_on]
    steel += [s.at + times * s.shape for s in seen.strips if not s.end_on]
    steel += [_round(s, times, SWELL * _most(s)) for s in seen.strips if s.end_on]
    bands = [
        s.outline(times, SWELL) for s in seen.strips if not s.end_on and _most(s) > LEAST_USED
    ]
    wires = [w.ends + times * w.shape for w in seen.wires]
    others = [np.array([a.start, a.end]) for a in cell.arrows if not a.bold]
    steel += [np.array([a.start, a.end]) for a in cell.arrows if a.bold]
    others += [d.ends + d.off for d in cell.dimensions]
    steel += [*bands, *wires]
    if cell.swing is not None:
        steel.append(_around(cell.swing, cell.rack.posts.pipe.od))
    return place_labels(ax, cell.labels, others, steel, taken)


def _most(strip: Strip) -> float:
    return min(float(strip.used.max()), 1.0)


def _ground(ax: Any, cell: Cell) -> None:
    """Draw grade with its strokes, and concrete round the posts."""
    left, right = ax.get_xlim()
    ax.plot([left, right], [0, 0], color=palette.GROUND, linewidth=1.0, zorder=1.5)
    step = (right - left) / TICKS
    places, down = np.arange(left + step / 2, right, step), FAR_DOWN * (right - left) / 2
    # All strokes in one line, broken between them.
    across = np.stack([places, places - down, np.full(len(places), np.nan)], axis=1).ravel()
    ax.plot(
        across, np.tile([0.0, -down, np.nan], len(places)), color=palette.GROUND, linewidth=0.5,
        zorder=1,
    )  # fmt: skip
    footing = cell.rack.posts.footing
    if not footing.cast:
        return
    at = [s.at for s in cell.seen.strips if s.part.kind is PartKind.POST and s.at[0, 1] < 0]
    for x in dict.fromkeys(float(round(p[0, 0], 4)) for p in at):
        half = footing.hole / 2
        box = np.array([[-half, 0], [half, 0], [half, -footing.depth], [-half, -footing.depth]])
        ax.fill(
            *(box + np.array([x, 0])).T, facecolor=palette.CONCRETE, edgecolor=palette.GROUND,
            linewidth=0.5, zorder=1.2,
        )  # fmt: skip


def _panels(ax: Any, seen: SeenElevation, times: float) -> None:
    outline = seen.panels + times * seen.panels_moved
    if seen.view == FRONT:
        ax.fill(
            *outline.T, facecolor=palette.PANEL, edgecolor=palette.PANEL_EDGE, linewidth=0.6,
            alpha=0.6, zorder=1.3,
        )  # fmt: skip
        return
    for points, colour in ((seen.panels, palette.FAINT), (outline, palette.PANEL_EDGE)):
        ax.plot(*points[1:3].T, color=colour, linewidth=3.0, alpha=0.7, zorder=1.8)


def _at_rest(ax: Any, strip: Strip) -> None:
    if strip.end_on:
        return
    outline = strip.outline(0.0)
    n = len(outline) // 2
    ax.fill(*outline[[0, n - 1, n, -1]].T, color=palette.REST, linewidth=0, zorder=2)


def _moved(ax: Any, strip: Strip, times: float, share: float) -> None:
    """Draw the strip at its true width, and the hatched band where it flexes."""
    ax.fill(*strip.outline(times).T, color=palette.MOVED, linewidth=0.3, zorder=4, gid="steel")
    if strip.end_on:
        return
    for working, run in groupby(range(len(strip.used)), lambda i: strip.used[i] > LEAST_USED):
        places = list(run)
        if working and len(places) > 1:
            whole = strip.outline(times, SWELL * share)
            n = len(strip.used)
            first, last = places[0], places[-1] + 1
            _band(ax, np.vstack([whole[first:last], whole[2 * n - last : 2 * n - first]]))


def _looked_along(ax: Any, strip: Strip, times: float, share: float) -> None:
    """Draw the beam end on, where it works hardest."""
    ax.fill(
        *_round(strip, times).T, facecolor="white", edgecolor=palette.MOVED, linewidth=1.3,
        zorder=4.5,
    )  # fmt: skip
    _band(ax, _round(strip, times, SWELL * share * _most(strip)))


def _band(ax: Any, outline: Array) -> None:
    ax.fill(
        *outline.T, facecolor=palette.FLEX_FILL, edgecolor=palette.FLEX, hatch=HATCH,
        linewidth=0.5, zorder=3.5,
    )  # fmt: skip


def _round(strip: Strip, times: float, more: float = 0.0) -> Array:
    turn = np.linspace(0.0, 2 * np.pi, 33)
    middle = strip.at[0] + times * strip.shape[0]
    return np.asarray(
        middle + (strip.width / 2 + more) * np.stack([np.cos(turn), np.sin(turn)], 1)
    )


def _arrow(ax: Any, arrow: Arrow) -> None:
    """Draw an arrow, its point no longer than itself, edged in white where it lies on steel."""
    ends = ax.transData.transform(np.array([arrow.start, arrow.end]))
    long = float(np.hypot(*(ends[1] - ends[0]))) / ax.figure.dpi * 72
    if long < SHORTEST:
        return
    ax.annotate(
        "", tuple(arrow.end), xytext=tuple(arrow.start), annotation_clip=False, zorder=6,
        arrowprops={
            "arrowstyle": "-|>", "color": palette.WIND if arrow.bold else palette.INK,
            "linewidth": 1.8 if arrow.bold else 1.2, "shrinkA": 0, "shrinkB": 0,
            "mutation_scale": min(10.0, 1.6 * long),
            "path_effects": [withStroke(linewidth=3.0, foreground="white")],
        },
    )  # fmt: skip


def _swing(ax: Any, middle: Array, od: float) -> None:
    """Draw most of a flat round about the post, with a point: it turns about its own axis."""
    round_it = _around(middle, od)
    ax.plot(*round_it.T, color=palette.INK, linewidth=1.2, zorder=6)
    _arrow(ax, Arrow(start=round_it[-4], end=round_it[-1]))


def _around(middle: Array, od: float) -> Array:
    turn = np.linspace(-0.75 * np.pi, 0.85 * np.pi, 40)
    round_it = np.stack([2.6 * od * np.cos(turn), 0.9 * od * np.sin(turn)], 1)
    return np.asarray(middle + round_it)


def _dimension(ax: Any, dimension: Dimension) -> Any:
    ends = dimension.ends + dimension.off
    for end, moved in zip(dimension.ends, ends, strict=True):
        ax.plot(*np.array([end, moved]).T, color=palette.LEADER, linewidth=0.4, zorder=1)
    ax.annotate(
        "", tuple(ends[1]), xytext=tuple(ends[0]), annotation_clip=False, zorder=2,
        arrowprops={
            "arrowstyle": "<|-|>", "color": palette.LEADER, "linewidth": 0.6, "shrinkA": 0,
            "shrinkB": 0, "mutation_scale": 5,
        },
    )  # fmt: skip
    way = ends[1] - ends[0]
    upright = abs(way[1]) > abs(way[0])
    return ax.annotate(
        dimension.text, tuple(ends.mean(axis=0)), ha="center", va="center",
        rotation=90 if upright else 0, fontsize=LABEL - 0.5, color=palette.INK, gid=dimension.name,
        bbox={"facecolor": "white", "linewidth": 0, "pad": 0.8}, zorder=2.5,
    )  # fmt: skip


def corners_of(cells: Sequence[Cell]) -> Array:
    """Left, right, bottom and top [m] that hold every one of several cells."""
    points = [np.array([a.start, a.end]) for c in cells for a in c.arrows]
    points += [d.ends + d.off for c in cells for d in c.dimensions]
    for cell in cells:
        left, right, bottom, top = cell.seen.extent(0.0 if cell.still else cell.times)
        points.append(np.array([[left, bottom], [right, top]]))
    every = np.vstack(points)
    (left, bottom), (right, top) = every.min(axis=0), every.max(axis=0)
    return np.array([left, right, bottom, top])
