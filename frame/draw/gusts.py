"""Bars: at which gust each bracing slips and breaks at each tilt, and when to act; knees below."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch, Rectangle

from frame.draw import palette
from frame.draw.reaches import Reaches, draw_reaches
from frame.draw.sheet import CAUTION, DPI, STYLE
from frame.rack.rack import Rack
from frame.units import DEG, METRIC, MPH, show, show_no_more
from frame.whatif.tilts import STILL, AtTilt, TiltCurve

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
HEAD, KNEES = 1.6, 2.3
"""Heights of title and key, and of a chart of the knees [in]."""
MOST_BRACINGS = 8
SOON, LATE = "////", "xxxxxx"
"""Hatches, told apart in grey too: it may go; it is gone more likely than not."""
FAR = 1.8
"""Gust over the map's beyond which nothing is drawn [1]."""
OPEN = "white"


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


def gust_sheet(
    rack: Rack, curves: Sequence[TiltCurve], reaches: Reaches | None, system: str
) -> Figure:
    """Sheet of bars, one for each bracing and tilt that a static answer covers.

    `curves`: that of the card first, shown at every tilt, then others at the file's. Knees by
    their reach below where given.
    """
    shown = [(c.title, _bars(c, system, every=i == 0)) for i, c in enumerate(curves)]
    shown = [group for group in shown if group[1]][: MOST_BRACINGS + 1]
    bars_high = sum(LINE + FREE + sum(map(_high, bars)) for _, bars in shown)
    low = (KNEES + 0.1) * 2 * (reaches is not None) + 0.3
    height = HEAD + bars_high + BETWEEN + 0.4 + low
    with rc_context({**STYLE, "hatch.linewidth": 0.7}):
        figure = Figure(figsize=(WIDE, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        _title(figure, rack, height)
        left, foot = SIDE / WIDE, (low + 0.4 + BETWEEN) / height
        ax = figure.add_axes((left, foot, 1 - 2 * left, bars_high / height))
        _draw(ax, rack, shown, bars_high, system)
        _key(figure, rack, height, system)
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


def _bars(curve: TiltCurve, system: str, *, every: bool) -> list[Bar]:
    """Return a bar for each tilt covered, steepest first; all tilts or the file's."""
    points = [p for p in curve.points if p.covered and (every or p.own)]
    return [_bar(p, system) for p in sorted(points, key=lambda p: -p.tilt)]


def _bar(point: AtTilt, system: str) -> Bar:
    breaks, slip = point.first_break, point.first_slip
    last = breaks or point.act_by

    def told(gust: float) -> str:
        return show_no_more(gust, "speed", system).partition(" ")[0]

    said = []
    if point.act_by is None:
        said.append("nothing is expected to tilt or break in any gust looked at")
    elif point.act_by_gust < STILL:
        said.append(f"DO NOT LOAD: the {point.act_by_part} goes in still air")
    else:
        said.append(f"panels off before {told(point.act_by_gust)}")
    if breaks and point.act_by_gust >= STILL:
        said.append(f"{breaks.part} breaks about {told(breaks.gust)}")
    if slip:
        said.append(f"{slip.part} {slip.kind} about {told(slip.gust)}")
    text = f"{round(point.tilt / DEG, 1):g} deg: {'; '.join(said)}"
    finite = (_finite(g) for g in (point.act_by_gust, point.limit_gust))
    act_by, margin = finite
    return Bar(
        lines=tuple(wrap(text, LETTERS, subsequent_indent="   ")),
        act_by=act_by,
        middle=last.gust if last else None,
        high=last.high if last else None,
        slip=slip.gust if slip else None,
        margin=margin,
    )


def _finite(gust: float) -> float | None:
    return gust if math.isfinite(gust) else None


def _title(figure: Figure, rack: Rack, height: float) -> None:
    figure.text(
        SIDE / WIDE, 1 - 0.3 / height, f"{rack.name}: when it slips, when it breaks, when to act",
        fontsize=TITLE, color=palette.INK, weight="bold",
    )  # fmt: skip


def _key(figure: Figure, rack: Rack, height: float, system: str) -> None:
    """Say what bars and marks are."""
    mapped = show(rack.site.map_gust, "speed", system)
    mark: dict[str, Any] = {"linestyle": "none", "color": palette.INK, "markersize": 7}
    handles: list[Any] = [
        Patch(facecolor=OPEN, edgecolor=palette.INK, hatch=SOON),
        Patch(facecolor=palette.FAINT, edgecolor=palette.INK, hatch=LATE),
        Line2D([], [], marker="o", markerfacecolor=OPEN, **mark),
        Line2D([], [], marker="D", **mark),
        Line2D([], [], color=palette.INK, linewidth=palette.MEDIUM, linestyle=(0, (5, 2))),
    ]
    names = [
        "it may break or tilt: panels off before it begins",
        "it has broken, more likely than not, up to nine in ten",
        "the first slip, about: it turns, leans or tilts",
        "the code's margin ends: compare with the map gust only",
        f"map gust, {mapped}",
    ]
    figure.legend(
        handles, names, loc="upper left", bbox_to_anchor=(SIDE / WIDE - 0.01, 1 - 0.38 / height),
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
        down += LINE + 0.04
        _words(ax, down - 0.07, title, weight="bold", size=TEXT + 1)
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
