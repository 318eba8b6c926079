"""Curves: gusts against tilt of every bracing; sag and force against the reach of the knees."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw import palette
from frame.draw.sheet import CAUTION, DPI, STYLE
from frame.rack.rack import Rack
from frame.study.asides import KneeChoice
from frame.study.tilts import COVERED, TiltCurve
from frame.units import DEG, FT, INCH, LB, METRIC, MM, MPH, show

SHADES = (palette.MOVED, palette.BRACE, palette.MOMENT_EDGE, palette.GUY, palette.GROUND)
DASHES: tuple[Any, ...] = ("-", (0, (5, 1.5)), (0, (3, 1, 1, 1)), (0, (1.2, 1.2)))
MARKS = "osD^vPX*"
WIDE, HIGH, KNEES_HIGH = 8.2, 3.9, 3.1
"""Size of the sheet and of its rows [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reaches:
    """Knees tried at several reaches: bare sag and its limit [m], and every choice."""

    bare_sag: float
    limit: float
    choices: Sequence[KneeChoice]


def gust_sheet(
    rack: Rack, curves: Sequence[TiltCurve], reaches: Reaches | None, system: str
) -> Figure:
    """Sheet of curves: margin and act-by gust against tilt; knees by reach where given.

    Tilts that a static answer does not cover are shaded and carry no points.
    """
    rows = 1 + (reaches is not None)
    height = 0.9 + HIGH + KNEES_HIGH * (rows - 1)
    with rc_context(STYLE):
        figure = Figure(figsize=(WIDE, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        figure.text(
            0.07, 1 - 0.25 / height, f"{rack.name}: which gust at which tilt",
            fontsize=palette.TITLE, color=palette.INK, weight="bold",
        )  # fmt: skip
        low = KNEES_HIGH * (rows - 1)
        left, right = (
            figure.add_axes((x, (low + 1.05) / height, 0.4, (HIGH - 1.05) / height))
            for x in (0.07, 0.57)
        )
        _tilts(left, curves, "limit_gust", "Margin up to: compare with the map gust", system)
        _tilts(right, curves, "act_by_gust", "Act by: compare with a forecast gust", system)
        _map_line(left, rack, system)
        handles, names = right.get_legend_handles_labels()
        figure.legend(
            handles, names, loc="upper center", bbox_to_anchor=(0.5, (low + 0.68) / height),
            ncols=min(4, len(names)), fontsize=palette.SMALL, frameon=False,
        )  # fmt: skip
        if reaches:
            first, second = (
                figure.add_axes((x, 0.75 / height, 0.4, (KNEES_HIGH - 1.15) / height))
                for x in (0.07, 0.57)
            )
            _reaches((first, second), rack, reaches, system)
        figure.text(
            0.5, 0.12 / height, CAUTION, ha="center", fontsize=palette.SMALL, color=palette.INK
        )
        return figure


def _tilts(ax: Any, curves: Sequence[TiltCurve], gust: str, title: str, system: str) -> None:
    speed, unit = (1.0, "m/s") if system == METRIC else (MPH, "mph")
    most = 0.0
    for i, curve in enumerate(curves):
        shown = [p for p in curve.points if p.covered and math.isfinite(getattr(p, gust))]
        values = [getattr(p, gust) / speed for p in shown]
        most = max([most, *values])
        ax.plot(
            [p.tilt / DEG for p in shown], values, label=curve.title,
            color=SHADES[i % len(SHADES)], linestyle=DASHES[i % len(DASHES)],
            marker=MARKS[i % len(MARKS)], markersize=3, linewidth=palette.MEDIUM,
        )  # fmt: skip
    flat = COVERED[0] / DEG
    ax.axvspan(0, flat, color=palette.FAINT, alpha=0.35, linewidth=0)
    ax.set_xlim(0, 1.02 * max(p.tilt / DEG for c in curves for p in c.points))
    ax.set_ylim(0, 1.12 * most or 1.0)
    ax.text(
        flat / 2, 0.5, "not covered: may gallop", rotation=90, ha="center", va="center",
        transform=ax.get_xaxis_transform(), fontsize=palette.SMALL, color=palette.INK,
    )  # fmt: skip
    _dress(ax, title, "tilt of the panels [deg]", f"gust [{unit}]")


def _map_line(ax: Any, rack: Rack, system: str) -> None:
    speed = 1.0 if system == METRIC else MPH
    gust = rack.site.map_gust / speed
    words = f"map gust {show(rack.site.map_gust, 'speed', system)}"
    top = ax.get_ylim()[1]
    if gust <= 1.5 * top:
        ax.set_ylim(0, max(top, 1.08 * gust))
        ax.axhline(gust, color=palette.INK, linewidth=palette.THIN)
        words = f" {words}"
        ax.text(ax.get_xlim()[1], gust, words, ha="right", va="bottom", fontsize=palette.SMALL)
        return
    ax.text(
        0.98, 0.97, f"{words}: far above this picture", ha="right", va="top",
        transform=ax.transAxes, fontsize=palette.SMALL, color=palette.INK,
    )  # fmt: skip


def _reaches(boxes: tuple[Any, Any], rack: Rack, reaches: Reaches, system: str) -> None:
    sag, force = boxes
    metric = system == METRIC
    length, small, pull = (1e-3, MM, 1e3) if metric else (FT, INCH, LB)
    names = ("mm", "mm", "kN") if metric else ("ft", "in", "lb")
    good = [c for c in reaches.choices if not c.note]
    out = [c.reach / length for c in good]
    assert rack.knees is not None
    for ax, values in (
        (sag, [c.sag / small for c in good]),
        (force, [c.force / pull for c in good]),
    ):
        ax.plot(out, values, color=palette.BRACE, marker="o", markersize=3)
        shown = [v for v in values if math.isfinite(v)]
        if len(shown) < len(values):
            ax.text(
                0.98, 0.85, "not shown: the rack sways over", ha="right", va="top",
                transform=ax.transAxes, fontsize=palette.SMALL, color=palette.INK,
            )  # fmt: skip
        ax.axvline(
            rack.knees.reach / length, color=palette.GUY, linewidth=palette.THIN, linestyle=":"
        )
        ax.text(
            rack.knees.reach / length, 0.94, " as described", transform=ax.get_xaxis_transform(),
            fontsize=palette.SMALL, color=palette.INK,
        )  # fmt: skip
        ax.set_ylim(0, 1.15 * max([*shown, 1e-9]))
    top = max(reaches.bare_sag, reaches.limit) / small
    sag.set_ylim(0, 1.15 * top)
    for value, words in ((reaches.bare_sag, "without knees"), (reaches.limit, "limit")):
        sag.axhline(value / small, color=palette.INK, linewidth=palette.THIN)
        sag.text(
            sag.get_xlim()[1], value / small, words, ha="right", va="bottom",
            fontsize=palette.SMALL, color=palette.INK,
        )  # fmt: skip
    across = f"reach of the knees from the post [{names[0]}]"
    _dress(sag, "Sag left, knees fitted before the panels", across, f"sag [{names[1]}]")
    _dress(force, "Most force in a knee at the map gust", across, f"force [{names[2]}]")


def _dress(ax: Any, title: str, across: str, up: str) -> None:
    ax.set_title(title, fontsize=palette.TEXT, color=palette.INK, loc="left")
    ax.set_xlabel(across, fontsize=palette.SMALL)
    ax.set_ylabel(up, fontsize=palette.SMALL)
    ax.tick_params(labelsize=palette.SMALL)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
