"""Bracing of our own for a file that describes none, so that it gets a decision too."""

import math
from collections.abc import Iterator
from dataclasses import replace

from frame.changes.offered_fastenings import longest_sleeve
from frame.changes.series import written_length
from frame.rack.brace import Knees
from frame.rack.knee_foot import least_drop, on_sleeve, sleeve_foot
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.tables import pipes
from frame.tables.pipes import PipeSize
from frame.units import INCH, METRIC, MM, parse

THIRD = 1 / 3
"""Reach of the knees over the arm [1] (judgement)."""
LOOSEST = 0.75
"""Drop of the knees over the height that is free below the sleeve, at the most [1] (judgement)."""
HALF_STEP = {False: INCH / 32, True: 5 * MM}
"""Half the step that lengths are written in, inch and metric [m]."""
WIRE = "1/4 in EHS strand"
"""Lightest wire that pays for its fittings (judgement)."""


def described(text: str, rack: Rack) -> str:
    """Return the file with jacked knees and post-top guys of our own described at its end."""
    return "\n".join([text.rstrip("\n"), "", *_knees(rack), "", *_guys(rack), ""])


def _knees(rack: Rack) -> Iterator[str]:
    pipe = next(iter(_thinner(rack)), None)
    reach = _as_written(THIRD * min(rack.arms), rack)
    if pipe is None or reach <= (rack.posts.pipe.od + pipe.od) / 2:
        return
    free = rack.posts.height - sleeve_foot(rack)
    knees = _pinned(pipe, reach, rack)
    # A longer sleeve is offered beside knees that may never be fitted: they leave it its room.
    longest = replace(rack, sleeve=replace(rack.sleeve, length=longest_sleeve(rack)))
    least = least_drop(longest, knees) + HALF_STEP[rack.units == METRIC]
    low = max(reach, rack.sleeve.length + 2 * rack.beam.pipe.od, least)
    knees = replace(knees, drop=_as_written(min(low, LOOSEST * free), rack))
    # On a very short post there is no room below the sleeve.
    if on_sleeve(rack, knees):
        return
    yield "[knees]"
    yield f'pipe = "{pipe.name}"'
    yield f'drop = "{written_length(knees.drop, rack.units)}"'
    yield f'reach = "{written_length(knees.reach, rack.units)}"'
    yield f'fitted = "{knees.fitted}"'


def _pinned(size: PipeSize, reach: float, rack: Rack) -> Knees:
    """Return knees at 45 degrees, their ends as a file has them that says nothing of them."""
    pipe = Pipe(
        label=size.name,
        od=size.od,
        wall=size.wall,
        weight=size.weight,
        steel=rack.beam.pipe.steel,
    )
    return Knees(pipe=pipe, drop=reach, reach=reach, ends="pinned", fitted="jacked")


def _as_written(length: float, rack: Rack) -> float:
    """Return a length [m] as the file will have it."""
    return parse(written_length(length, rack.units), "length")


def _thinner(rack: Rack) -> Iterator[PipeSize]:
    """Yield standard pipes at most half as wide as the beam, the widest first."""
    size = rack.beam.pipe.od / 2
    found = [p for p in pipes.pipes() if p.family == pipes.STANDARD and p.od <= size * 1.01]
    yield from sorted(found, key=lambda p: (-p.od, p.wall))


def _guys(rack: Rack) -> Iterator[str]:
    run = (rack.posts.height - sleeve_foot(rack)) / math.sqrt(2)
    yield "[[guys]]"
    yield 'from = "post top"'
    yield f'wire = "{WIRE}"'
    yield f'out = "{written_length(run, rack.units)}"'
    yield f'along = "{written_length(run, rack.units)}"'
