"""Can the panels be hung? Their weight, and the way they lie.

Every comparison is written so that NaN, which stands for a value already reported, is silent.
"""

import math
from dataclasses import replace

from frame.casefile.notes import Notes
from frame.rack.panel import Panels
from frame.rack.rack import Rack
from frame.tables.channels import find_nut
from frame.units import KG_WEIGHT, METRIC, PSF, parse

HEAVIEST, LIGHTEST = 8 * PSF, 1 * PSF
"""Weight of a panel over its area that no panel goes beyond: judgement; most have 2 to 3.5 psf."""
CLEAR_OF_GROUND = "6 in"
SLACK = 1e-9
"""Rounding of lengths that may just meet [m]."""


def check_panels(rack: Rack, notes: Notes) -> None:
    """Check that the beam carries the panels clear of the ground at every tilt."""
    panels = rack.panels
    check_weight(panels, notes)
    if overhang(rack) > 0:
        over = (panels.spread - rack.beam.length) / 2
        what = f"panels reach {notes.show(over)} past each end of the beam"
        right = f"the panels are {notes.show(panels.spread)} wide: make the beam longer"
        notes.wrong("panels.across", what, right + other_way(rack))
    for number, tilt in enumerate(rack.tilts, 1):
        low = low_edge(rack, tilt)
        shown = notes.show(tilt, "angle")
        if low <= 0:
            what = f"at {shown} the low edge is {notes.show(-low)} below grade"
            right = "a lower tilt, or a higher post"
            notes.wrong(f"tilts[{number}]", what, right + other_way(rack))
        elif low < parse(CLEAR_OF_GROUND, "length"):
            notes.warn(f"At {shown} the low edge is only {notes.show(low)} above grade.")
    if panels.clamp_bolt > 0 and find_nut(rack.rails.channel, panels.clamp_bolt) is None:
        shown = notes.show(panels.clamp_bolt)
        notes.warn(f"No channel nut is known for a clamp bolt of {shown}: clamps are not checked.")


def check_weight(panels: Panels, notes: Notes) -> None:
    """Ask where one panel weighs what all do together, or where a point has slipped."""
    each = panels.weight / (panels.width * panels.height)
    shown = f"{notes.show(panels.weight, 'weight')} is {_per_area(each, notes)} for one panel"
    if each > HEAVIEST:
        number, weight = panels.across * panels.up, notes.show(panels.weight, "weight")
        one = notes.show(panels.weight / (panels.across * panels.up), "weight")
        right = f"do all {number} weigh {weight} together? Then one weighs {one}: give that"
        if not each / number > LIGHTEST:
            right = "weigh one on a bathroom scale"
        notes.wrong("panels.weight", shown, right)
    elif each < LIGHTEST:
        right = "has the point slipped, or the size? Weigh one on a bathroom scale"
        notes.wrong("panels.weight", shown, right)


def _per_area(each: float, notes: Notes) -> str:
    if notes.system == METRIC:
        return f"{each / KG_WEIGHT:.2g} kg a square metre"
    return f"{each / PSF:.2g} lb a square foot"


def low_edge(rack: Rack, tilt: float) -> float:
    """Height [m] above grade of the low edge of panels and rails at `tilt` [rad]."""
    longest = max(rack.panels.chord, rack.rails.length)
    return rack.posts.height + rack.stand_off * math.cos(tilt) - longest / 2 * math.sin(tilt)


def overhang(rack: Rack) -> float:
    """Length [m] by which the panels reach too far past each end of the beam, if positive."""
    over = (rack.panels.spread - rack.beam.length) / 2
    return over - max(parse("1 ft", "length"), rack.panels.width / 3) - SLACK


def other_way(rack: Rack) -> str:
    """Name the other way round of the panels, if they would fit so, to go behind an advice."""
    panels = rack.panels
    turned = replace(panels, width=panels.height, height=panels.width)
    as_long = abs(rack.rails.length - panels.chord) < SLACK
    length = turned.chord if as_long else rack.rails.length
    other = replace(rack, panels=turned, rails=replace(rack.rails, length=length))
    if overhang(other) > 0 or length < turned.chord - turned.height / 2 - SLACK:
        return ""
    if panels.width == panels.height or not all(low_edge(other, tilt) > 0 for tilt in rack.tilts):
        return ""
    way = "up the slope" if turned.height > turned.width else "along the beam"
    return f'; or do they lie the other way? With long_side = "{way}" they fit'
