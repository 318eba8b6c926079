"""Bracing of our own for a file that describes none, so that it gets a decision too."""

import math
from collections.abc import Iterator

from frame.changes.series import written_length
from frame.rack.rack import Rack
from frame.tables import pipes

THIRD = 1 / 3
"""Reach of the knees over the arm [1] (judgement)."""
LOOSEST = 0.75
"""Drop of the knees over the height that is free below the sleeve, at the most [1] (judgement)."""
WIRE = "1/4 in EHS strand"
"""Lightest wire that pays for its fittings (judgement)."""


def described(text: str, rack: Rack) -> str:
    """Return the file with jacked knees and post-top guys of our own described at its end."""
    return "\n".join([text.rstrip("\n"), "", *_knees(rack), "", *_guys(rack), ""])


def _knees(rack: Rack) -> Iterator[str]:
    pipe = next(iter(_thinner(rack)), None)
    reach = THIRD * min(rack.arms)
    free = rack.posts.height - rack.beam.pipe.od / 2 - rack.sleeve.length
    drop = min(max(reach, rack.sleeve.length + 2 * rack.beam.pipe.od), LOOSEST * free)
    # On a very short post there is no room below the sleeve.
    if pipe is None or drop <= rack.sleeve.length + rack.beam.pipe.od / 2:
        return
    yield "[knees]"
    yield f'pipe = "{pipe}"'
    yield f'drop = "{written_length(drop, rack.units)}"'
    yield f'reach = "{written_length(reach, rack.units)}"'
    yield 'fitted = "jacked"'


def _thinner(rack: Rack) -> Iterator[str]:
    """Yield standard pipes at most half as wide as the beam, the widest first."""
    size = rack.beam.pipe.od / 2
    found = [p for p in pipes.pipes() if p.family == pipes.STANDARD and p.od <= size * 1.01]
    for pipe in sorted(found, key=lambda p: (-p.od, p.wall)):
        yield pipe.name


def _guys(rack: Rack) -> Iterator[str]:
    run = (rack.posts.height - rack.beam.pipe.od / 2 - rack.sleeve.length) / math.sqrt(2)
    yield "[[guys]]"
    yield 'from = "post top"'
    yield f'wire = "{WIRE}"'
    yield f'out = "{written_length(run, rack.units)}"'
    yield f'along = "{written_length(run, rack.units)}"'
