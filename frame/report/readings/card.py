"""The card for the yard: what to read off a standing rack, with which tool, on one page."""

import textwrap

from frame.diagnosis.expected_readings import Expectation, conditions, expectations
from frame.rack.rack import Rack
from frame.report.readings.words import reading_shown
from frame.report.screen.phrases import WIDTH
from frame.tables.readings import reading_kinds
from frame.units import DEG, show

SAFELY = (
    "In still air only. Nobody under panels or beam, ever; nobody climbs; loosen",
    "nothing. Push and pull by hand, slowly; stop if anything cracks, slips or keeps",
    "moving. Panels are live in daylight: keep off their wires. Two of you.",
    "An estimate is no approval: local codes and a licensed engineer decide.",
)
NAME = 46
"""Letters that the name of a reading takes."""


def yard_card(rack: Rack, file: str) -> list[str]:
    """Return the card of a rack, at most 66 lines of 80 letters."""
    measured, units = conditions(rack), rack.units
    fitted = ", ".join(measured.fitted) or "bare"
    name = rack.name.upper()
    at = f"{fitted}, panels at {measured.tilt / DEG:.0f} deg"
    lines = textwrap.wrap(f"{name}   what to read off it, {at}   date ________", WIDTH)
    lines += ["", *SAFELY, ""]
    lines.append("Any of these helps, two give a rough answer; leave out what you can't tell.")
    forces = [show(f, "force", units, 2) for f in (measured.pull, measured.push, measured.press)]
    lines += textwrap.wrap(
        f"Pull with {forces[0]} level at the beam's height, push with {forces[1]}, press with "
        f"{forces[2]}; or write the force you used: "
        "pull ______ push ______ press ______",
        WIDTH,
    )
    lines.append("")
    for one in expectations(rack):
        lines += _row(one, units)
    lines.append("")
    lines.append("Expected: straight, plumb and without play, on stiff to soft ground.")
    lines.append(f"Write it into the file: rack measure {file} --fill"[:WIDTH])
    return lines


def _row(one: Expectation, units: str) -> list[str]:
    kind = reading_kinds()[one.key]
    stiff, soft = (reading_shown(one.key, value, units) for value in (one.stiff, one.soft))
    expect = stiff if stiff == soft else f"{stiff} to {soft}"
    first = f"{kind.words:<{NAME}} ________ "
    room = WIDTH - len(first)
    told = f"expect {expect}"
    head = f"{first}{told}" if len(told) <= room else f"{first}"
    how = f"{kind.tool}: {kind.how}" + ("" if len(told) <= room else f"; {told}")
    return [head.rstrip(), *textwrap.wrap(how, WIDTH, initial_indent="  ", subsequent_indent="  ")]
