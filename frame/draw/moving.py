"""The moving picture: racks struck by one gust, each swinging at its own beat, to one scale."""

import math
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path
from textwrap import wrap
from typing import Any

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from frame.bracing.shaking import shaking
from frame.draw import palette
from frame.draw.cell import Cell, corners_of, paint
from frame.draw.paint import set_stage
from frame.draw.panes import wind_pane
from frame.draw.picture import Array
from frame.draw.sheet import styled
from frame.draw.titles import titled
from frame.pictured.beside import Beside
from frame.plan.gone import BROKEN, TOPPLES
from frame.plan.phrases import gust
from frame.solved.blocks import split
from frame.units import show

DPI, COLUMN, SIDE = 105, 2.6, 0.1
HEAD, FOOT = 0.74, 0.58
"""Heights over and under the drawings [in]."""
HEADS, TEXT, SMALL = 11.0, 9.5, 8.0
FRAMES = 48
"""Pictures in one round."""
STEP = 0.08
"""Time that one picture stands [s]."""
LEAST = 9
"""Pictures that one swing takes at least."""
DAMPING = 0.05
"""Share of critical damping of a bolted and guyed frame in earth: judgement."""
COLOURS = 40
GONE = {TOPPLES: "topples", BROKEN: "has broken already"}
NOTE = (
    "Struck at once and let swing out (a quarter less each time: judgement); the farthest is "
    "the movement told."
)


def save_moving(beside: Beside, path: Path, system: str) -> None:
    """Write the moving picture as a GIF.

    Parameters
    ----------
    beside : Beside
        The racks and their gust.
    path : Path
        Where to write.
    system : str
        "us" or "metric".
    """
    reel = _Reel(
        beside=beside,
        cells=tuple(_unlabelled(cell) for cell in wind_pane(beside, system).cells),
        beats=tuple(shaking(split(one.blocks)[0]).at_rest[0] for one in beside.racks),
        system=system,
    )
    with styled(**{"hatch.linewidth": 0.6}):
        shots = [reel.shot(k * STEP / reel.slower) for k in range(FRAMES)]
    first, *rest = [s.quantize(COLOURS, dither=Image.Dither.NONE) for s in shots]
    first.save(
        path, save_all=True, append_images=rest, duration=round(1000 * STEP), loop=0, optimize=True
    )


def swung(time: float, beat: float) -> float:
    """Share of its farthest movement [1] that a rack has at a time [s] after a gust strikes.

    A single mass on a spring of natural frequency `beat` [Hz], struck by a constant force: it goes
    to and fro about its rest under the force (any textbook of vibrations, response to a step).
    """
    turn = 2 * np.pi * beat
    slow = turn * np.sqrt(1 - DAMPING**2)
    decay = np.exp(-DAMPING * turn * time)
    moved = 1 - decay * (np.cos(slow * time) + DAMPING * turn / slow * np.sin(slow * time))
    return float(moved / (1 + np.exp(-DAMPING * np.pi / np.sqrt(1 - DAMPING**2))))


def _unlabelled(cell: Cell) -> Cell:
    bold = tuple(arrow for arrow in cell.arrows if arrow.bold)
    return replace(cell, labels=(), dimensions=(), swing=None, arrows=bold)


@dataclass(frozen=True, kw_only=True)
class _Reel:
    beside: Beside
    cells: tuple[Cell, ...]
    beats: tuple[float, ...]
    system: str

    @property
    def slower(self) -> int:
        """How many times slower than true it runs, so that a swing is seen as one."""
        return max(1, math.ceil(max(self.beats) * STEP * LEAST))

    def shot(self, time: float) -> Image.Image:
        """Return the picture at a time [s] after the gust strikes."""
        left, right, bottom, top = _room(self.cells)
        tall = COLUMN * (top - bottom) / (right - left)
        width, height = 2 * SIDE + COLUMN * len(self.cells), HEAD + tall + FOOT
        figure = Figure(figsize=(width, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        self._heads(figure, width, height)
        for i, (cell, beat) in enumerate(zip(self.cells, self.beats, strict=True)):
            box = (SIDE + i * COLUMN) / width, FOOT / height, COLUMN / width, tall / height
            ax = figure.add_axes(box)
            set_stage(ax, np.array([left, right, bottom, top]), 0.0)
            paint(ax, cell, swung(time, beat))
        with BytesIO() as made:
            figure.savefig(made, format="png")
            return Image.open(made).convert("RGB")

    def _heads(self, figure: Figure, width: float, height: float) -> None:
        def write(x: float, down: float, text: str, size: float, **look: Any) -> None:
            figure.text(
                x / width, 1 - down / height, text, fontsize=size, color=palette.INK, **look
            )

        pace = "in true time" if self.slower == 1 else f"{self.slower} times slower than true"
        speed, times = gust(self.beside.gust, self.system), self.cells[0].times
        size = "true size" if times == 1 else f"movement {times} times larger"
        struck = f"{self.beside.rack.name} struck by a gust of {speed}"
        write(SIDE, 0.24, *titled(struck, width - 2 * SIDE, HEADS), weight="bold")
        for i, (one, beat) in enumerate(zip(self.beside.racks, self.beats, strict=True)):
            x = SIDE + i * COLUMN
            moved = f"top moves {show(one.sway.top, 'movement', self.system)}"
            write(x, 0.46, f"{one.title}: {GONE.get(one.gone, moved)}", TEXT)
            write(x, 0.64, f"{beat:.1f} swings a second", TEXT)
        for i, line in enumerate(
            wrap(f"{size[0].upper()}{size[1:]}, {pace}. {NOTE}", int(width * 15))
        ):
            write(SIDE, height - FOOT + 0.16 * (i + 1), line, SMALL)


def _room(cells: tuple[Cell, ...]) -> Array:
    left, right, bottom, top = corners_of(cells)
    wide, high = 0.08 * (right - left), 0.04 * (top - bottom)
    return np.array([left - wide, right + wide, bottom - high, top + high])
