"""Place labels so that none covers another, and few cover a line of the drawing."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np

from frame.draw.palette import INK, LEADER, SMALL, THIN
from frame.draw.picture import Array

RINGS = (6.0, 10.0, 15.0, 21.0, 28.0, 37.0, 48.0, 62.0, 80.0, 102.0, 130.0)
"""Distances from point to text that are tried [pt]."""
DIRECTIONS = 16
PAD = 2.0
"""Clear space around every label [pt]."""
LEADER_FROM = 9.0
"""Texts farther than this from their point get a thin line to it [pt]."""
POINT = 72.0
PER_LINE, PER_RING, PER_TURN, PER_CROSSING = 3.0, 0.5, 3.0, 40.0
"""What a place costs: for each 3 px of line covered, pt of distance, radian, and crossing."""


@dataclass(frozen=True, slots=True)
class LabelBox:
    """A rectangle on the screen [px]."""

    left: float
    bottom: float
    right: float
    top: float

    def overlaps(self, other: "LabelBox") -> bool:
        """Whether two boxes share any area."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def is_within(self, other: "LabelBox") -> bool:
        """Whether this box lies wholly within another."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.bottom >= other.bottom
            and self.top <= other.top
        )

    def count_within(self, points: Array) -> int:
        """How many of the points (n, 2) lie within."""
        x, y = points.T
        hit = (x > self.left) & (x < self.right) & (y > self.bottom) & (y < self.top)
        return int(np.count_nonzero(hit))


@dataclass
class _Board:
    """What is on the Axes already, in pixels: frame, labels, lines and leaders."""

    frame: LabelBox
    unit: float
    drawn: Array
    steel: Array
    boxes: list[LabelBox] = field(default_factory=list)
    leaders: list[Array] = field(default_factory=list)

    def crossings(self, leader: Array) -> int:
        """How many leaders and labels a new leader (2, 2) would run across."""
        points = leader[0] + np.linspace(0.0, 1.0, 25)[:, None] * (leader[1] - leader[0])
        over = sum(1 for box in self.boxes if box.count_within(points))
        return over + sum(1 for other in self.leaders if _cross(leader, other))

    def free(self, box: LabelBox) -> bool:
        """Whether a box lies on the Axes, on no label and on no steel."""
        taken = any(box.overlaps(other) for other in self.boxes)
        return box.is_within(self.frame) and not taken and not box.count_within(self.steel)

    def add(self, leader: Array, box: LabelBox) -> None:
        """Take a place."""
        self.boxes.append(box)
        self.leaders.append(leader)
        self.drawn = np.vstack([self.drawn, _sampled([leader])])


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words at a point of the drawing (2,), data units; the text goes toward `toward` (2,) first.

    `name` is the artist's, by which its number can be read back; `farthest` how far from its
    point the text may stand [pt].
    """

    text: str
    point: Array
    toward: Array
    name: str = ""
    size: float = SMALL
    farthest: float = RINGS[-1]


def place_labels(
    ax: Any,
    labels: Sequence[Label],
    lines: Sequence[Array],
    steel: Sequence[Array] = (),
    taken: Sequence[Any] = (),
) -> tuple[Label, ...]:
    """Write labels on an Axes whose limits are set; return those that found no room.

    Parameters
    ----------
    ax : matplotlib Axes
        With its final limits and size, on a figure with an Agg canvas.
    labels : sequence of Label
        Earlier ones go first.
    lines : sequence of array (n, 2)
        Polylines in data units that labels should leave visible.
    steel : sequence of array (n, 2)
        Those that no label may cover.
    taken : sequence of matplotlib Text
        Texts that stand already.
    """
    renderer = ax.figure.canvas.get_renderer()
    extent = ax.get_window_extent(renderer)
    board = _Board(
        frame=LabelBox(extent.x0, extent.y0, extent.x1, extent.y1),
        unit=ax.figure.dpi / POINT,
        drawn=_sampled([ax.transData.transform(line) for line in (*lines, *steel)]),
        steel=_sampled([ax.transData.transform(line) for line in steel]),
        boxes=[box_of(text, renderer) for text in taken],
    )
    unplaced = []
    for label in labels:
        text = ax.annotate(
            label.text,
            tuple(label.point),
            xytext=(0, 0),
            textcoords="offset points",
            fontsize=label.size,
            color=INK,
            ha="center",
            va="center",
            annotation_clip=False,
            bbox={"facecolor": "white", "alpha": 0.7, "linewidth": 0, "pad": 0.5},
            zorder=8,
            gid=label.name or None,
        )
        size = text.get_window_extent(renderer)
        centre = ax.transData.transform(label.point)
        box = np.array([size.width, size.height])
        shift = _place(board, centre, box, label.toward, label.farthest)
        if shift is None:
            text.remove()
            unplaced.append(label)
            continue
        text.set_position(tuple(shift))
        _leader(ax, label.point, shift, (size.width / board.unit, size.height / board.unit))
    return tuple(unplaced)


def box_of(text: Any, renderer: Any) -> LabelBox:
    """Return the rectangle that a text takes [px]."""
    extent = text.get_window_extent(renderer)
    return LabelBox(extent.x0, extent.y0, extent.x1, extent.y1)


def _place(
    board: _Board, centre: Array, size: Array, toward: Array, farthest: float
) -> Array | None:
    """Take the best free place for a text of `size` [px]; return its offset [pt], or None."""
    first = math.atan2(toward[1], toward[0])
    best: tuple[float, Array, Array, LabelBox] | None = None
    half = size / 2 + PAD * board.unit
    for ring, k in ((r, k) for r in RINGS if r <= farthest for k in range(DIRECTIONS)):
        turn = (k + 1) // 2 * (1 if k % 2 else -1) * 2 * math.pi / DIRECTIONS
        way = np.array([math.cos(first + turn), math.sin(first + turn)])
        # The near edge of the text, not its middle, stands `ring` away from the point.
        reach = ring + float(np.min(size / 2 / np.maximum(np.abs(way), 1e-9))) / board.unit
        middle = centre + reach * board.unit * way
        box = LabelBox(*(middle - half), *(middle + half))
        if not board.free(box):
            continue
        leader = np.array([centre, middle])
        cost = PER_LINE * box.count_within(board.drawn) + PER_RING * ring + PER_TURN * abs(turn)
        cost += PER_CROSSING * board.crossings(leader)
        if best is None or cost < best[0]:
            best = cost, reach * way, leader, box
    if best is None:
        return None
    _, shift, leader, box = best
    board.add(leader, box)
    return shift


def _cross(one: Array, other: Array) -> bool:
    """Whether two segments (2, 2) cross."""

    def side(line: Array, point: Array) -> float:
        (ax, ay), (bx, by) = line
        return float((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax))

    return (
        side(one, other[0]) * side(one, other[1]) < 0
        and side(other, one[0]) * side(other, one[1]) < 0
    )


def _sampled(lines: Sequence[Array]) -> Array:
    """Points every few pixels along polylines [px]."""
    points = [np.zeros((0, 2))]
    for line in lines:
        for a, b in pairwise(line):
            n = max(2, int(np.hypot(*(b - a)) / 3))
            points.append(a + np.linspace(0.0, 1.0, n)[:, None] * (b - a))
    return np.vstack(points)


def _leader(ax: Any, point: Array, shift: Array, size: tuple[float, float]) -> None:
    """Draw a thin line from the point to the near edge of a text that stands far off."""
    reach = float(np.hypot(*shift))
    way = shift / reach
    edge = min(s / 2 / abs(w) for s, w in zip(size, way, strict=True) if abs(w) > 1e-9)
    if reach - edge < LEADER_FROM:
        return
    ax.annotate(
        "",
        tuple(point),
        xytext=tuple((reach - edge) * way),
        textcoords="offset points",
        arrowprops={
            "arrowstyle": "-",
            "color": LEADER,
            "linewidth": THIN,
            "shrinkA": 0,
            "shrinkB": 1,
        },
        annotation_clip=False,
        zorder=7,
    )
