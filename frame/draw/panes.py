"""The two panes: every rack by its own weight, and in the gust, with its words."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from frame.draw.cell import Cell
from frame.draw.notes import (
    arrow_of_top,
    flexing,
    guy_reach,
    in_wind,
    knee_note,
    sag_note,
    sizes,
    spun_at,
    sway_note,
    wind_arrows,
)
from frame.draw.seen import FRONT, SIDE, SeenElevation, seen
from frame.pictured.beside import Beside, Shown
from frame.plan.phrases import gust, happens
from frame.units import show

MOST_TIMES = (50, 20, 10, 5, 2, 1)
"""By how many times movements may be drawn larger."""
SHARE = 0.1
"""What the largest movement may take of the drawing's height or width, the smaller [1]."""
PANELS = 3.0
"""How much more than that the panels' corners may take [1]: guys at their rails haul them far."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pane:
    """Drawings of the racks under one load, side by side; movements `times` larger."""

    head: str
    cells: tuple[Cell, ...]
    words: tuple[str, ...]
    times: int


def weight_pane(beside: Beside, system: str) -> Pane:
    """Every rack by its own weight, from the front."""
    views = [seen(one.weight, FRONT) for one in beside.racks]
    times = _times(views)
    cells, words = [], []
    for i, (one, view) in enumerate(zip(beside.racks, views, strict=True)):
        label, arrows = sag_note(one, view, times, system)
        cells.append(
            Cell(
                seen=view,
                rack=one.rack,
                times=times,
                still=False,
                labels=(label, *knee_note(one, system), *flexing(one, one.weight, view, times)),
                arrows=arrows,
                dimensions=sizes(one, view, system, first=beside.racks[0] if i else None),
            )
        )
        words.append(_droops(one, system))
    return Pane(head="By its own weight", cells=tuple(cells), words=tuple(words), times=times)


def wind_pane(beside: Beside, system: str) -> Pane:
    """Every rack in the gust, seen so that the post top moves across the paper."""
    view = _view(beside)
    views = [seen(one.wind, view) for one in beside.racks]
    standing = [v for v, one in zip(views, beside.racks, strict=True) if not one.gone]
    times = _times(standing or views)
    cells = []
    for one, what in zip(beside.racks, views, strict=True):
        moved = () if one.gone else sway_note(one, what, times, system)
        spun = spun_at(one, what, times)
        cells.append(
            Cell(
                seen=what,
                rack=one.rack,
                times=times,
                still=bool(one.gone),
                labels=(*moved, *in_wind(one, what, times, system, spun)),
                arrows=(*arrow_of_top(one, what, times), *wind_arrows(one, what, beside.gust)),
                dimensions=guy_reach(one, what, system),
                swing=spun,
            )
        )
    speed = gust(beside.gust, system)
    head = f"In a gust of {speed}, {beside.why}" if beside.gust else "In still air"
    words = tuple(_blows(one, system) for one in beside.racks)
    return Pane(head=head, cells=tuple(cells), words=words, times=times)


def _times(views: Sequence[SeenElevation]) -> int:
    corners = np.array([v.extent(0.0) for v in views])
    width = corners[:, 1].max() - corners[:, 0].min()
    height = corners[:, 3].max() - corners[:, 2].min()
    panels = max(float(np.hypot(*v.panels_moved.T).max()) for v in views)
    most = max(panels / PANELS, *(v.longest_movement for v in views))
    room = SHARE * min(width, height)
    return next((t for t in MOST_TIMES if t * most <= room), 1)


def _view(beside: Beside) -> str:
    """From the side, unless the post top moves more along the beam."""
    some = next((one for one in beside.racks if not one.gone), beside.racks[0])
    along, across = np.abs(some.wind.moved[some.top, :2])
    return SIDE if across >= along else FRONT


def _droops(one: Shown, system: str) -> str:
    limit = show(one.sag.limit, "movement", system)
    return f"{'Over' if one.sag.use > 1.0 else 'Within'} its limit, {limit}."


def _blows(one: Shown, system: str) -> str:
    """Say which wind it is, at which tilt, and what the drawing leaves out."""
    tilt = show(one.wind.block.frame.ideal.tilt, "angle", system)
    said = f"Tilt {tilt}, {one.sway.words}."
    if one.gone:
        return said
    limit = show(one.sway.limit, "movement", system)
    said += f" {'Over' if one.sway.use > 1.0 else 'Within'} its limit, {limit}."
    if one.slipped:
        slip = one.slipped
        about = gust(slip.gust, system)
        what = happens(slip.part, slip.check)
        said += f" From about {about} {what}: how far it then moves on is not drawn."
    return said
