"""From the [[sticks]] sections of a file to the odd lengths that pieces are cut from."""

import math
from dataclasses import replace

from frame.casefile.assemble.pipe import build_pipe
from frame.casefile.keys.fields import NO_NUMBER
from frame.casefile.keys.store import StickKeys
from frame.casefile.notes import Notes
from frame.geometry.tube import Tube
from frame.rack.pipe import ERW_DESIGN_WALL, Pipe
from frame.rack.stick import OddLength
from frame.tables.steels import material


def build_sticks(notes: Notes, entries: list[StickKeys]) -> tuple[OddLength, ...]:
    """Make the sticks; what is assumed of their pipe is that of the piece that is cut."""
    found, quiet = [], Notes(notes.system)
    for entry, keys in enumerate(entries):
        home = f"sticks[{entry + 1}]"
        pipe = build_pipe(quiet, home, keys.pipe, keys.steel)
        if keys.wall is not None:
            pipe = _measured(quiet, f"{home}.wall", pipe, keys.wall)
        bad = tuple(sorted((min(s), max(s)) for s in keys.bad or ()))
        for low, high in bad:
            if high > keys.length:
                what = f"{quiet.show(low)} to {quiet.show(high)} runs past its end"
                right = f"the stick is {quiet.show(keys.length)} long"
                quiet.wrong(f"{home}.bad", what, right)
        found.append(
            OddLength(
                pipe=pipe,
                length=keys.length,
                count=keys.count or 1,
                cost=keys.cost or 0.0,
                bad=bad,
                entry=entry,
            )
        )
    notes.problems.extend(quiet.problems)
    return tuple(found)


def _measured(notes: Notes, where: str, pipe: Pipe, wall: float) -> Pipe:
    """Return a pipe with the wall that was measured on this stick."""
    if wall > pipe.od / 2:
        what = f"{notes.show(wall, 'thickness')} does not fit in the pipe"
        notes.wrong(where, what, f"the pipe is {notes.show(pipe.od)} thick")
    if math.isnan(wall + pipe.od) or wall > pipe.od / 2:
        return replace(pipe, wall=NO_NUMBER)
    return replace(
        pipe,
        wall=wall,
        weight=Tube(pipe.od, wall).area * material().unit_weight,
        basis="measured",
        wall_factor=ERW_DESIGN_WALL,
        label=f"{pipe.label}, wall {notes.show(wall, 'thickness')}",
    )
