"""The tilt stop at full size: where its plate is coped and drilled."""

from itertools import pairwise

import numpy as np

from frame.draw.shop.paper import BODY, GREY, SMALL, TITLE, Paper, line_height
from frame.draw.shop.wraps import BAR
from frame.shop.job import Job
from frame.shop.steel.tilt_stop import StopPlate
from frame.shop.words import tape
from frame.units import DEG, INCH, METRIC, MM

CROSS, TABLE = 0.12, 4.7
"""Half a cross, and the width of the table of holes [in]."""
TURN = np.linspace(0.0, 2 * np.pi, 73)


def write_stop(paper: Paper, job: Job) -> None:
    """Draw the plate on a new page; nothing where the rack has no room for it."""
    stop, system = job.stop, job.rack.units
    if stop is None:
        return
    paper.new_page()
    paper.heading("Tilt stop: plate beside a rail", TITLE - 4)
    paper.paragraph(_said(stop, job), SMALL + 0.5)
    length, words = BAR[system]
    y = paper.down + 0.15
    paper.rule(0, y, length, y, linewidth=2.0)
    for x in (0.0, length):
        paper.rule(x, y - 0.09, x, y + 0.09, linewidth=1.0)
    paper.put(length + 0.1, y - 0.08, f"this bar measures {words}: print at 100 %", SMALL)
    paper.down = y + 0.25
    _plate(paper, stop, job.rack.beam.pipe.od, system)


def _said(stop: StopPlate, job: Job) -> str:
    system = job.rack.units
    many = (
        f"{stop.count} to a rack, as the file says"
        if stop.count
        else "the file has none, and none is counted on; worth having while U-bolts are loose"
    )
    crowded = (
        " Holes of neighbouring tilts run into one another: drill every second tilt here, and the "
        "others in as many plates again beside other rails, for the bolts leave no room on the "
        "far side of this one. At a tilt without its own plates friction alone holds."
        if stop.crowded
        else ""
    )
    over = tape(stop.over, system)
    where = (
        f"both side walls of the rail's lower channel, halfway up it, {over} over the beam: never "
        "where the two backs meet"
        if job.rack.rails.channel.doubled
        else f"both side walls of the rail, halfway up it, {over} over the beam, clear of its back"
    )
    return (
        f"{many[0].upper()}{many[1:]}. Plate {tape(stop.thickness, system)} thick, square to the "
        "beam, coped over it, welded on both faces; the rail lies at its side. Drill rail and "
        f"plate together, {tape(stop.hole, system)}, one pair of holes for each tilt. The bolts "
        f"pass through {where}.{crowded}"
    )


def _plate(paper: Paper, stop: StopPlate, od: float, system: str) -> None:
    half, top, radius = stop.half / INCH, stop.top / INCH, od / 2 / INCH
    x0, y0 = half + 0.1, paper.down + top + 0.05
    corners = [(-half, 0.0), (-half, top), (half, top), (half, 0.0)]
    for (a, b), (c, d) in pairwise(corners):
        paper.rule(x0 + a, y0 - b, x0 + c, y0 - d, linewidth=1.4)
    for sign in (-1, 1):
        paper.rule(x0 + sign * radius, y0, x0 + sign * half, y0, linewidth=1.4)
    _circle(paper, x0, y0, radius, upper=True)
    paper.rule(x0, y0 - top, x0, y0 + 0.3, linewidth=0.5, color=GREY)
    paper.put(x0 + 0.06, y0 - radius / 2, "beam: cut away", SMALL)
    letters = {}
    for letter, (tilt, pair) in zip("abcdefghijklmnopqrst", stop.holes.items(), strict=False):
        letters[letter] = tilt
        for side, (x, y) in zip((-1, 1), pair, strict=True):
            px, py = x0 + x / INCH, y0 - y / INCH
            _circle(paper, px, py, radius_of(stop))
            paper.rule(px - CROSS, py, px + CROSS, py, linewidth=0.6)
            paper.rule(px, py - CROSS, px, py + CROSS, linewidth=0.6)
            beside = px + side * (radius_of(stop) + 0.04)
            how = "left" if side > 0 else "right"
            paper.put(beside, py - 0.08, letter, SMALL, weight="bold", ha=how)
    beside = x0 + half + 0.5
    below = paper.width - beside < TABLE
    _table(paper, stop, letters, (0.0, y0 + 0.5) if below else (beside, paper.down), system)


def radius_of(stop: StopPlate) -> float:
    """Radius of a hole on paper [in]."""
    return stop.hole / 2 / INCH


def _table(
    paper: Paper,
    stop: StopPlate,
    letters: dict[str, float],
    place: tuple[float, float],
    system: str,
) -> None:
    """Write beside the plate where its holes are, from the beam's middle along the grey line."""
    x, y = place
    heads = (("", 0.0), ("tilt", 0.3), ("lower hole: over, up", 1.2), ("upper hole", 3.2))
    for head, across in heads:
        paper.put(x + across, y, head, SMALL, weight="bold")
    for row, (letter, tilt) in enumerate(letters.items(), 1):
        down = y + row * 1.2 * line_height(BODY - 1)
        told = (
            letter,
            f"{tilt / DEG:.1f}".removesuffix(".0") + " deg",
            *_where(stop, tilt, system),
        )
        for text, (_, across) in zip(told, heads, strict=True):
            paper.put(x + across, down, text, BODY - 1)


def _where(stop: StopPlate, tilt: float, system: str) -> tuple[str, str]:
    unit, places, name = (MM, 0, "mm") if system == METRIC else (INCH, 2, "in")
    low, high = (
        f"{x / unit:+.{places}f}, {y / unit:.{places}f} {name}" for x, y in stop.holes[tilt]
    )
    return low, high


def _circle(paper: Paper, x: float, y: float, radius: float, *, upper: bool = False) -> None:
    turn = TURN[:37] if upper else TURN
    points = [(x + radius * np.cos(a), y - radius * np.sin(a)) for a in turn]
    for (a, b), (c, d) in pairwise(points):
        paper.rule(a, b, c, d, linewidth=1.2)
