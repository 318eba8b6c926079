"""Warnings that every page prints and every JSON document carries, in the same words."""

from frame.checks.welds.weld import YIELD_CAP
from frame.rack.rack import Rack
from frame.tables.steels import Steel
from frame.units import show
from frame.verdict.torque_notes import torque_notes
from frame.verdict.wind_notes import wind_notes


def warnings(rack: Rack) -> tuple[str, ...]:
    """Return all that is to be warned of: the file, torques, the wind tables, unknown steel."""
    return (*rack.warnings, *torque_notes(rack), *wind_notes(rack), *_unidentified(rack))


def welded_steels(rack: Rack) -> tuple[Steel, ...]:
    """Return the steels that are welded."""
    pipes = [rack.posts.pipe, rack.beam.pipe, *(p.pipe for p in (rack.knees, rack.stays) if p)]
    return (*(p.steel for p in pipes), rack.sleeve.steel)


def _unidentified(rack: Rack) -> tuple[str, ...]:
    """Say what the standard says of steel without papers."""
    if all(steel.identified for steel in welded_steels(rack)):
        return ()
    cap = show(YIELD_CAP, "stress", rack.units)
    told = (
        "Some of the pipe is steel of unknown make. AISC 360-22 A3.1b allows that only where a "
        "failure would not weaken the structure, so not in posts, beams and braces: every use of "
        f"it here is an estimate at a low yield, and no more than {cap} is counted at welds."
    )
    return (told,)
