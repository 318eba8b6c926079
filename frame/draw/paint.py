"""Draw a picture on Axes: the frame at rest, moved, or with its forces."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from frame.draw import palette
from frame.draw.labels import Label, place_labels
from frame.draw.picture import Array, DrawnMember, Picture, ValueMark


def set_stage(ax: Any, corners: Array, margin: float) -> None:
    """Show `corners` (left, right, bottom, top) and a margin [m], both ways to one scale.

    The limits are widened one way to fill the Axes, so that labels find room there.
    """
    left, right, bottom, top = corners
    extent = ax.get_window_extent()
    width, height = right - left + 2 * margin, top - bottom + 2 * margin
    per_pixel = max(width / extent.width, height / extent.height)
    x, y = (left + right) / 2, (bottom + top) / 2
    half_width, half_height = per_pixel * extent.width / 2, per_pixel * extent.height / 2
    ax.set_xlim(x - half_width, x + half_width)
    ax.set_ylim(y - half_height, y + half_height)
    ax.axis("off")


def draw_frame(ax: Any, picture: Picture) -> None:
    """Draw the frame at rest, thin, with panels and ground: what everything else lies on."""
    if picture.panels is not None:
        _panels(ax, picture.panels)
    if picture.ground:
        ax.axhline(
            0.0,
            color=palette.GROUND,
            linewidth=palette.THIN,
            linestyle=palette.EMBEDDED_DASH,
            zorder=1,
        )
    for bar in picture.bars:
        ax.plot(*bar.at.T, color=palette.FAINT, linewidth=palette.MEDIUM, zorder=2)


def draw_moved(ax: Any, picture: Picture, exaggeration: float) -> tuple[Label, ...]:
    """Draw the moved shape over the frame at rest; return the labels that found no room."""
    draw_frame(ax, picture)
    steel = []
    for bar in picture.bars:
        steel.append(bar.at + exaggeration * bar.shape)
        ax.plot(*steel[-1].T, zorder=4, solid_capstyle="round", gid="steel", **_stroke(bar))
    steel += [
        _guy(ax, line.ends + exaggeration * line.shape, slack=line.slack) for line in picture.lines
    ]
    return _write(ax, picture.movements, exaggeration, [b.at for b in picture.bars], steel)


def draw_forces(ax: Any, picture: Picture, scale: float) -> tuple[Label, ...]:
    """Draw forces across each bar, `scale` [m per N m or N]; return labels that found no room."""
    draw_frame(ax, picture)
    shown = []
    steel = [bar.at for bar in picture.bars]
    for bar in picture.bars:
        ax.plot(*bar.at.T, zorder=5, solid_capstyle="round", gid="steel", **_stroke(bar))
        if not bar.force.any():
            continue
        edge = bar.at + scale * bar.force[:, None] * bar.stretched
        outline = np.vstack([bar.at[:1], edge, bar.at[-1:]])
        ax.fill(*outline.T, color=palette.MOMENT_FILL, linewidth=0, zorder=3)
        ax.plot(*outline.T, color=palette.MOMENT_EDGE, linewidth=palette.THIN / 2, zorder=4)
        ax.plot(*edge.T, color=palette.MOMENT_EDGE, linewidth=palette.MEDIUM, zorder=4)
        shown.append(outline)
    steel += [_guy(ax, line.ends, slack=line.slack) for line in picture.lines]
    return _write(ax, picture.forces, scale, shown, steel)


def _write(
    ax: Any,
    marks: Sequence[ValueMark],
    scale: float,
    lines: Sequence[Array],
    steel: Sequence[Array],
) -> tuple[Label, ...]:
    points = [mark.at + scale * mark.offset for mark in marks]
    if points:
        ax.plot(
            *np.array(points).T,
            linestyle="none",
            marker="o",
            markersize=2.2,
            color=palette.INK,
            zorder=6,
        )
    labels = [
        Label(text=m.text, point=p, toward=m.toward, name=f"value {i}")
        for i, (m, p) in enumerate(zip(marks, points, strict=True))
    ]
    return place_labels(ax, labels, lines, steel)


def _stroke(bar: DrawnMember) -> dict[str, Any]:
    if bar.rigid:
        return {"color": palette.MOVED, "linewidth": palette.MEDIUM}
    if bar.brace:
        return {"color": palette.BRACE, "linewidth": palette.MEDIUM}
    width = palette.MEDIUM if bar.rail else palette.THICK
    return {"color": palette.MOVED, "linewidth": width}


def _guy(ax: Any, ends: Array, *, slack: bool) -> Array:
    dash = palette.SLACK_DASH if slack else "solid"
    ax.plot(*ends.T, color=palette.GUY, linewidth=palette.THIN, linestyle=dash, zorder=3)
    ax.plot(*ends[1:].T, linestyle="none", marker="v", markersize=3.0, color=palette.GUY, zorder=3)
    return ends


def _panels(ax: Any, outline: Array) -> None:
    flat = min(np.ptp(outline, axis=0)) < 1e-6 or abs(_area(outline)) < 1e-6
    if flat:
        ax.plot(*outline.T, color=palette.PANEL_EDGE, linewidth=3.0, zorder=1, alpha=0.6)
        return
    ax.fill(
        *outline.T,
        facecolor=palette.PANEL,
        edgecolor=palette.PANEL_EDGE,
        linewidth=palette.THIN,
        zorder=1,
        alpha=0.7,
    )


def _area(outline: Array) -> float:
    x, y = outline.T
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2)
