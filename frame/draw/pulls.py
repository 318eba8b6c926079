"""Chart of the guys: pull against gust, and in which gusts each hangs slack."""

from typing import Any

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw import palette
from frame.draw.bars import SIDE, SMALL, TEXT, TITLE, WIDE
from frame.draw.labels import Label, place_labels
from frame.draw.sheet import CAUTION, DPI, styled
from frame.draw.titles import titled
from frame.pictured.pulls import Pulls
from frame.units import LB, METRIC, MPH, show

HEAD, CHART, ROW, FOOT = 1.05, 3.4, 0.26, 0.75
"""Heights of the title, the chart, a guy's slack range and the foot [in]."""
DASHES = ("solid", (0, (6, 2)), (0, (2, 1.5)), (0, (7, 2, 1.5, 2)))
"""Lines told apart without colour; more guys than these take them again."""
SAMPLE = 0.45
"""Length of the sample of a guy's line before its name [in]."""
CODE = "The pull that rack compare tells is in the code's share of it, worst of all winds."
LEAST, MOST, LETTER = 1.45, 0.45 * WIDE, 0.0085
"""Room for the names at the right, least and most [in]; width of a letter per point [in]."""


def pull_sheet(found: Pulls, system: str) -> Figure:
    """Draw the pull of every guy; values in `system`, "us" or "metric"."""
    speed, unit = (1.0, "m/s") if system == METRIC else (MPH, "mph")
    force, force_unit = (1e3, "kN") if system == METRIC else (LB, "lb")
    count = len(found.names)
    height = HEAD + CHART + 0.55 + ROW * count + FOOT
    with styled():
        figure = Figure(figsize=(WIDE, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        _head(figure, found, height, system)
        left, wide = 0.75 / WIDE, (WIDE - 0.75 - _room(found)) / WIDE
        chart = figure.add_axes((left, (height - HEAD - CHART) / height, wide, CHART / height))
        below = figure.add_axes((left, FOOT / height, wide, ROW * count / height))
        gusts, values = found.gusts / speed, found.pulls / force
        for ax in (chart, below):
            ax.set_xlim(0, gusts[-1])
            ax.tick_params(labelsize=SMALL)
            for side in ("top", "right"):
                ax.spines[side].set_visible(False)
        chart.set_ylim(0, 1.12 * max(float(np.nanmax(values)), 1e-9))
        chart.set_title(f"pull [{force_unit}]", fontsize=TEXT, loc="left", color=palette.INK)
        for i in range(count):
            dash = DASHES[i % len(DASHES)]
            chart.plot(gusts, values[:, i], color=palette.MOVED, linestyle=dash, linewidth=1.4)
        below.set_xlabel(f"gust of 3 seconds [{unit}]", fontsize=SMALL)
        _slack(below, found, speed)
        _names(figure, chart, found, (speed, force), system)
        figure.text(0.5, 0.1 / height, CAUTION, ha="center", fontsize=7.4, color=palette.INK)
        return figure


def _room(found: Pulls) -> float:
    """Return the room that the names need at the right [in]."""
    letters = max(len(_told(found, i)) for i in range(len(found.names)))
    return min(max(letters * SMALL * LETTER + 0.25 + SAMPLE, LEAST), MOST)


def _told(found: Pulls, i: int) -> str:
    """Return the name of a guy, and whether it never hangs slack."""
    name = found.names[i].removeprefix("guy, ")
    return name if found.slack(i) else f"{name}: never"


def _head(figure: Figure, found: Pulls, height: float, system: str) -> None:
    one = found.shown
    tilt = show(one.wind.block.frame.ideal.tilt, "angle", system)
    title = titled(f"{one.rack.name}, {one.title}: what the guys pull", WIDE - 2 * SIDE, TITLE)
    lines = (
        (*title, "bold", 0.3),
        (f"Tilt {tilt}, {one.sway.words}, the whole wind.", TEXT, "normal", 0.52),
        (CODE, TEXT, "normal", 0.7),
    )
    for text, size, weight, down in lines:
        figure.text(
            SIDE / WIDE, 1 - down / height, text, fontsize=size, weight=weight, color=palette.INK
        )


def _names(
    figure: Figure, chart: Any, found: Pulls, scale: tuple[float, float], system: str
) -> None:
    """Name every line at its end, beside the chart, with its last pull."""
    speed, force = scale
    page = figure.add_axes((0, 0, 1, 1))
    page.set_xlim(0, 1)
    page.set_ylim(0, 1)
    page.axis("off")
    back = page.transData.inverted()
    labels, lines = [], []
    for i, name in enumerate(found.names):
        known = np.flatnonzero(np.isfinite(found.pulls[:, i]))
        if not len(known) or found.pulls[known[-1], i] <= 0.0:
            continue
        at = known[-1]
        ends = np.stack([found.gusts[known] / speed, found.pulls[known, i] / force], axis=1)
        lines.append(back.transform(chart.transData.transform(ends)))
        pull = float(found.pulls[at, i])
        text = f"{name.removeprefix('guy, ')}\n{show(pull, 'force', system)}"
        labels.append(
            Label(
                text=text,
                point=lines[-1][-1],
                toward=np.array([1.0, 0.15]),
                name=f"pull {name}",
                size=SMALL,
            )
        )
    place_labels(page, labels, [], lines)


def _slack(ax: Any, found: Pulls, speed: float) -> None:
    """Draw in which gusts each guy hangs slack, its line as in the chart, and its name."""
    ax.set_ylim(len(found.names), 0)
    ax.set_yticks([])
    ax.set_title("hangs slack", fontsize=TEXT, loc="left", color=palette.INK)
    sample = SAMPLE / (ax.get_position().width * WIDE)
    for i in range(len(found.names)):
        for low, high in found.slack(i):
            ax.plot(
                [low / speed, high / speed], [i + 0.5] * 2, color=palette.GUY, linewidth=5,
                linestyle=palette.SLACK_DASH, solid_capstyle="butt",
            )  # fmt: skip
        ax.plot(
            [1.01, 1.01 + sample], [i + 0.5] * 2, color=palette.MOVED, linewidth=1.4,
            linestyle=DASHES[i % len(DASHES)], transform=ax.get_yaxis_transform(), clip_on=False,
        )  # fmt: skip
        ax.annotate(
            _told(found, i), (1.02 + sample, i + 0.5), va="center",
            xycoords=("axes fraction", "data"),
            fontsize=SMALL, color=palette.INK, annotation_clip=False,
        )  # fmt: skip
