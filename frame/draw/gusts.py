"""Bars: at which gust each bracing slips and breaks at each tilt, and when to act; knees below."""

import math
from collections.abc import Sequence
from textwrap import wrap

from matplotlib.figure import Figure

from frame.draw.bars import LETTERS, Bar, bar_sheet
from frame.draw.reaches import Reaches
from frame.plan.phrases import happens
from frame.rack.rack import Rack
from frame.units import DEG, show_no_more
from frame.whatif.tilts import STILL, AtTilt, TiltCurve

MOST_BRACINGS = 8


def gust_sheet(
    rack: Rack, curves: Sequence[TiltCurve], reaches: Reaches | None, system: str
) -> Figure:
    """Sheet of bars, one for each bracing and tilt that a static answer covers.

    `curves`: that of the card first, shown at every tilt, then others at the file's. Knees by
    their reach below where given.
    """
    shown = [(c.title, _bars(c, system, every=i == 0)) for i, c in enumerate(curves)]
    shown = [group for group in shown if group[1]][: MOST_BRACINGS + 1]
    title = f"{rack.name}: when it slips, when it breaks, when to act"
    return bar_sheet(rack, title, shown, system, reaches)


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
        said.append(f"{happens(breaks.part, breaks.check)} at about {told(breaks.gust)}")
    if slip:
        said.append(f"{happens(slip.part, slip.check)} at about {told(slip.gust)}")
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
