"""What the wind tables do not cover for a rack, and whether its gaps help: whole sentences."""

import math

from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
from frame.loads.wind import gap_factor, outside
from frame.rack.rack import Rack
from frame.units import DEG


def wind_notes(rack: Rack) -> tuple[str, ...]:
    """Say what lies outside the wind standard at any tilt of the rack, each sentence once.

    ASCE/SEI 7-22 Fig. 27.3-4 to 27.3-7 and 29.3.1. With a pressure given in the file in place of
    the standard's, that is said instead.
    """
    if rack.site.pressure > 0:
        given = (
            "The wind is the pressure that the file gives, taken as that of the map gust: "
            "no table of the standard is used for the panels."
        )
        return (given, gap_sentence(rack))
    found: dict[str, list[float]] = {}
    for tilt in sorted(rack.tilts):
        for sentence in outside(tilt, wind_height(rack, Slope(tilt)), rack.panels.chord):
            found.setdefault(sentence, []).append(tilt)
    told = (_at(s, tilts, len(rack.tilts)) for s, tilts in found.items())
    return (*told, gap_sentence(rack))


def _at(sentence: str, tilts: list[float], of: int) -> str:
    """Put before a sentence which tilts it is for, unless it is for all."""
    if len(tilts) == of:
        return sentence
    named = " and ".join(f"{round(t / DEG, 1):g} deg" for t in tilts)
    return f"Tilted {named}: {sentence[0].lower()}{sentence[1:]}"


def gap_sentence(rack: Rack) -> str:
    """Say how much the gaps between the panels take off the wind, ASCE/SEI 7-22 29.3.1."""
    panels = rack.panels
    solid = panels.area / (panels.spread * panels.chord)
    factor = float(gap_factor(solid))
    if math.isnan(factor):
        return "The gaps between the panels are wider than any table of wind on plates covers."
    return (
        f"The gaps are {100 * (1 - solid):.1f} % of the panels' outline and take "
        f"{100 * (1 - factor):.1f} % off the wind on it: gaps this narrow hardly help."
    )
