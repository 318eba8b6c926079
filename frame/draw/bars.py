"""Bars of gusts: from when to act over the middle to the high end, with words over each."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch, Rectangle

from frame.draw import palette
from frame.draw.reaches import Reaches, draw_reaches
from frame.draw.sheet import CAUTION, DPI, styled
from frame.draw.titles import titled
from frame.rack.rack import Rack
from frame.units import METRIC, MPH, show

WIDE = 1100 / DPI
"""Width of the sheet [in]: 1100 dots, for a telephone."""
SIDE, BETWEEN = 0.3, 0.2
"""Free room left and right of the bars, and under the lowest [in]."""
SMALL, TEXT, TITLE = 9.0, 9.5, 12.0
"""Text sizes [pt]."""
LINE, BAR, FREE = 0.17, 0.15, 0.13
"""Heights of a line of words, a bar, and the room under it [in]."""
LETTERS = 98
"""Letters of the words over a bar that fit on a line."""
HEAD, MARK, KNEES = 0.65, 0.19, 2.3
"""Heights of the title, of a line of the key, and of a chart of the knees [in]."""
SOON, LATE = "////", "xxxxxx"
"""Hatches, told apart in grey too: it may go; it is gone more likely than not."""
FAR = 1.8
"""Gust over the map's beyond which nothing is drawn [1]."""
OPEN = "white"
BEGINS = "it may break or tilt: panels off before it begins"
ENDS = "it has broken, more likely than not, up to nine in ten"
MAY_GO = "it may go: nine racks in ten would stand where it begins"
GONE = "it has gone, more likely than not, up to nine in ten"
SLIPS = "the first slip, about: it turns, leans or tilts"
MARGIN = "the code's margin ends: compare with the map gust only"
MAPPED = "map gust"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar: the `lines` of words over it, and the gusts [m/s] drawn, None where there is none.

    From `act_by` over the `middle` to the `high` end of what breaks; marks at `slip` and `margin`.
    """

    lines: tuple[str, ...]
    act_by: float | None
    middle: float | None
    high: float | None
    slip: float | None
    margin: float | None

    @property
    def gusts(self) -> tuple[float, ...]:
        """Every gust that is drawn [m/s]."""
        some = (self.act_by, self.middle, self.high, self.slip, self.margin)
        return tuple(g for g in some if g is not None)


Groups = Sequence[tuple[str, Sequence[Bar]]]


def bar_sheet(
    rack: Rack,
    title: str,
    groups: Groups,
    system: str,
    reaches: Reaches | None = None,
    key: Sequence[str] = (BEGINS, ENDS, SLIPS, MARGIN, MAPPED),
) -> Figure:
    """Sheet of groups of bars, each with its title; knees by their reach below where given.

    `key`: which marks are explained.
    """
    titles = [1 + title.count("\n") for title, _ in groups]
    bars_high = sum(n * (LINE + 0.04) + FREE for n in titles)
    bars_high += sum(_high(bar) for _, bars in groups for bar in bars)
    low = (KNEES + 0.1) * 2 * (reaches is not None) + 0.3
    height = HEAD + MARK * len(key) + bars_high + BETWEEN + 0.4 + low
    with styled(**{"hatch.linewidth": 0.7}):
        figure = Figure(figsize=(WIDE, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        _title(figure, title, height)
        left, foot = SIDE / WIDE, (low + 0.4 + BETWEEN) / height
        ax = figure.add_axes((left, foot, 1 - 2 * left, bars_high / height))
        _draw(ax, rack, groups, bars_high, system)
        _key(figure, rack, height, system, key)
        if reaches:
            boxes = [
                figure.add_axes(
                    (0.1, (low - (KNEES + 0.1) * n + 0.4) / height, 0.87, (KNEES - 1) / height)
                )
                for n in (1, 2)
            ]
            draw_reaches((boxes[0], boxes[1]), rack, reaches, system)
        figure.text(0.5, 0.1 / height, CAUTION, ha="center", fontsize=7.4, color=palette.INK)
        return figure


def _high(bar: Bar) -> float:
    return LINE * len(bar.lines) + BAR + FREE


def _title(figure: Figure, title: str, height: float) -> None:
    text, size = titled(title, WIDE - 2 * SIDE, TITLE)
    figure.text(
        SIDE / WIDE, 1 - 0.3 / height, text, fontsize=size, color=palette.INK, weight="bold",
    )  # fmt: skip


def _key(figure: Figure, rack: Rack, height: float, system: str, key: Sequence[str]) -> None:
    """Say what bars and marks are."""
    mapped = show(rack.site.map_gust, "speed", system)
    mark: dict[str, Any] = {"linestyle": "none", "color": palette.INK, "markersize": 7}
    handles: dict[str, Any] = {
        BEGINS: Patch(facecolor=OPEN, edgecolor=palette.INK, hatch=SOON),
        ENDS: Patch(facecolor=palette.FAINT, edgecolor=palette.INK, hatch=LATE),
        MAY_GO: Patch(facecolor=OPEN, edgecolor=palette.INK, hatch=SOON),
        GONE: Patch(facecolor=palette.FAINT, edgecolor=palette.INK, hatch=LATE),
        SLIPS: Line2D([], [], marker="o", markerfacecolor=OPEN, **mark),
        MARGIN: Line2D([], [], marker="D", **mark),
        MAPPED: Line2D([], [], color=palette.INK, linewidth=palette.MEDIUM, linestyle=(0, (5, 2))),
    }
    names = [f"map gust, {mapped}" if name == MAPPED else name for name in key]
    figure.legend(
        [handles[name] for name in key], names, loc="upper left",
        bbox_to_anchor=(SIDE / WIDE - 0.01, 1 - 0.38 / height),
        fontsize=SMALL, frameon=False, labelspacing=0.35, handlelength=2.6, borderpad=0.1,
    )  # fmt: skip


def _draw(
    ax: Any, rack: Rack, shown: Sequence[tuple[str, Sequence[Bar]]], high: float, system: str
) -> None:
    speed, unit = (1.0, "m/s") if system == METRIC else (MPH, "mph")
    mapped = rack.site.map_gust
    gusts = [g for _, bars in shown for bar in bars for g in bar.gusts]
    most = min(FAR * mapped, max([1.1 * mapped, *(1.03 * g for g in gusts)])) / speed
    ax.set_xlim(0, most)
    ax.set_ylim(high, 0)
    ax.set_yticks([])
    ax.grid(axis="x", color=palette.FAINT, linewidth=0.4)
    ax.set_axisbelow(True)
    ax.axvline(
        mapped / speed,
        color=palette.INK,
        linewidth=palette.MEDIUM,
        linestyle=(0, (5, 2)),
        zorder=1,
    )
    for side in ("top", "right", "left"):
        ax.spines[side].set_visible(False)
    ax.tick_params(labelsize=SMALL)
    ax.set_xlabel(f"gust of 3 seconds [{unit}]", fontsize=SMALL, color=palette.INK)
    down = 0.0
    for title, bars in shown:
        for line in title.split("\n"):
            down += LINE + 0.04
            _words(ax, down - 0.07, line, weight="bold", size=TEXT + 1)
        for bar in bars:
            for line in bar.lines:
                down += LINE
                _words(ax, down - 0.04, line)
            _draw_bar(ax, bar, down, most, speed)
            down += BAR + FREE
        down += FREE - 0.04


def _words(ax: Any, down: float, text: str, size: float = TEXT, **look: str) -> None:
    ax.text(
        0, down, text, fontsize=size, color=palette.INK, va="baseline", zorder=4, **look,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6},
    )  # fmt: skip


def _draw_bar(ax: Any, bar: Bar, down: float, most: float, speed: float) -> None:
    def at(gust: float | None) -> float:
        return min(gust / speed, most) if gust is not None else most

    look: dict[str, Any] = {"edgecolor": palette.INK, "linewidth": palette.THIN, "zorder": 2}
    middle = down + BAR / 2
    ax.plot([0, most], [middle, middle], color=palette.FAINT, linewidth=0.5, zorder=1)
    if bar.act_by is not None and bar.middle is not None:
        start, centre, end = (at(g) for g in (bar.act_by, bar.middle, bar.high))
        for left, right, face, hatch in (
            (start, centre, OPEN, SOON),
            (centre, end, palette.FAINT, LATE),
        ):
            if right > left:
                box = Rectangle(
                    (left, down), right - left, BAR, facecolor=face, hatch=hatch, **look
                )
                ax.add_patch(box)
    for gust, mark, face in ((bar.slip, "o", OPEN), (bar.margin, "D", palette.INK)):
        if gust is not None and gust / speed <= most:
            ax.plot(
                [gust / speed], [middle], marker=mark, markersize=7, zorder=5, clip_on=False,
                markerfacecolor=face, markeredgecolor=palette.INK, linestyle="none",
            )  # fmt: skip
