"""Curves of the knees: what each reach leaves of the sag, and the force it brings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.bracing.movement import worst_sag
from frame.draw import palette
from frame.draw.sheet import CAUTION, DPI, styled
from frame.draw.titles import titled
from frame.rack.rack import Rack
from frame.records.what_if import KneeChoice
from frame.solved.blocks import solved_blocks
from frame.units import FT, INCH, LB, METRIC, MM
from frame.whatif.knee_card import knee_card

WIDE, CHART = 1100 / DPI, 2.6
"""Width of the sheet of knees and height of a chart in it [in]."""
PARTS = tuple(n / 24 for n in range(3, 17))
"""Reaches that are tried, as parts of the arm [1]."""
SMALL, TEXT = 9.0, 9.5
"""Text sizes [pt]."""
CLEAR = 2
"""Gap between a line and its words [pt]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reaches:
    """Knees tried at several reaches: bare sag and its limit [m], and every choice."""

    bare_sag: float
    limit: float
    choices: Sequence[KneeChoice]


def draw_reaches(boxes: tuple[Any, Any], rack: Rack, reaches: Reaches, system: str) -> None:
    """Draw sag and force against the reach on two axes; a rack that topples has no force."""
    assert rack.knees is not None
    metric = system == METRIC
    length, small, pull = (1e-3, MM, 1e3) if metric else (FT, INCH, LB)
    names = ("mm", "mm", "kN") if metric else ("ft", "in", "lb")
    good = [c for c in reaches.choices if not c.note]
    sags = [(c.reach / length, c.sag / small) for c in good]
    forces = [(c.reach / length, c.force / pull) for c in good if math.isfinite(c.force)]
    for ax, line in zip(boxes, (sags, forces), strict=True):
        if line:
            ax.plot(*zip(*line, strict=True), color=palette.BRACE, marker="o", markersize=4)
        ax.axvline(rack.knees.reach / length, color=palette.GUY, linewidth=0.8, linestyle=":")
        left, right = ax.get_xlim()
        late = rack.knees.reach / length > (left + right) / 2
        ax.text(
            rack.knees.reach / length, 0.9, "as described " if late else " as described",
            ha="right" if late else "left", transform=ax.get_xaxis_transform(),
            fontsize=SMALL, color=palette.INK,
        )  # fmt: skip
        ax.set_ylim(
            min([0.0, *(1.1 * y for _, y in line)]), 1.2 * max([1e-9, *(y for _, y in line)])
        )
    sag, force = boxes
    force.set_xlim(sag.get_xlim())
    if not forces:
        force.set_yticks([])
    if len(forces) < len(good):
        force.text(
            0.98, 0.06, "no point: the rack topples at the map gust", ha="right",
            transform=force.transAxes, fontsize=SMALL, color=palette.INK,
        )  # fmt: skip
    limits = ((reaches.bare_sag, "without knees"), (reaches.limit, "limit"))
    low, top = sag.get_ylim()
    sag.set_ylim(low, max(top, 1.3 * max(reaches.bare_sag, reaches.limit) / small))
    first, second = sorted(limits, reverse=True)
    for (value, words), side, up in ((first, "bottom", CLEAR), (second, "top", -CLEAR)):
        sag.axhline(value / small, color=palette.INK, linewidth=palette.THIN)
        sag.annotate(
            f"{words} ", (sag.get_xlim()[1], value / small), (0, up), ha="right", va=side,
            textcoords="offset points", fontsize=SMALL, color=palette.INK,
        )  # fmt: skip
    across = f"reach of the knees from the post [{names[0]}]"
    _dress(sag, f"Sag left, knees fitted before the panels [{names[1]}]", across)
    _dress(force, f"Most force in a knee at the map gust [{names[2]}]", across)


def reaches_of(rack: Rack) -> Reaches | None:
    """Try the knees of a rack at many reaches; None where it has none."""
    if rack.knees is None:
        return None
    bare = worst_sag(solved_blocks(rack, ()))
    return Reaches(
        bare_sag=bare.dead,
        limit=bare.limit,
        choices=knee_card(rack, bare.dead, rack.tilts, PARTS),
    )


def knee_sheet(rack: Rack, reaches: Reaches, system: str) -> Figure:
    """Sheet of the knees alone."""
    height = 0.6 + 2 * CHART
    with styled():
        figure = Figure(figsize=(WIDE, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        title, size = titled(f"{rack.name}: how far out to set the knees", 0.92 * WIDE, 12.0)
        figure.text(0.04, 1 - 0.3 / height, title, fontsize=size, weight="bold", color=palette.INK)
        boxes = [
            figure.add_axes((0.1, (0.75 + n * CHART) / height, 0.87, (CHART - 0.95) / height))
            for n in (1, 0)
        ]
        draw_reaches((boxes[0], boxes[1]), rack, reaches, system)
        figure.text(0.5, 0.1 / height, CAUTION, ha="center", fontsize=7.4, color=palette.INK)
        return figure


def _dress(ax: Any, title: str, across: str) -> None:
    ax.set_title(title, fontsize=TEXT, color=palette.INK, loc="left")
    ax.set_xlabel(across, fontsize=SMALL)
    ax.tick_params(labelsize=SMALL)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
