"""What the wind tables do not cover for a rack, and whether its gaps help: whole sentences."""

import math

from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
from frame.loads.balance import Balance, balance
from frame.loads.gust import Outline
from frame.loads.wind import DIRECTIONALITY, GUST_EFFECT, gap_factor, outside
from frame.rack.rack import Rack
from frame.units import DEG
from frame.verdict.wind_forces import wind_forces


def wind_notes(rack: Rack) -> tuple[str, ...]:
    """Say what lies outside the wind standard at any tilt of the rack, each sentence once.

    ASCE/SEI 7-22 Fig. 27.3-4 to 27.3-7 and 29.3.1. Of a pressure given in the file in place of the
    standard's, what is made of it is said first.
    """
    found: dict[str, list[float]] = {}
    for tilt in sorted(rack.tilts):
        for sentence in outside(tilt, wind_height(rack, Slope(tilt)), rack.panels.chord):
            found.setdefault(sentence, []).append(tilt)
    told = (_at(s, tilts, len(rack.tilts)) for s, tilts in found.items())
    if rack.site.pressure > 0:
        return (given_sentence(rack), *told, gap_sentence(rack))
    return (*told, balance_sentence(rack), gap_sentence(rack))


def given_sentence(rack: Rack) -> str:
    """Say what is made of the pressure that the file gives, and its part of the standard's."""
    shares = [at.share for at in wind_forces(rack)]
    press, lift = _percent([s.pressing for s in shares]), _percent([s.lifting for s in shares])
    return (
        "The wind is the pressure that the file gives, taken as the mean square to all panels in "
        "the map gust, whole, pressing as well as lifting, at every tilt alike: "
        f"{press} of the most that the standard presses with, {lift} of the "
        "most that it lifts with. How it lies on the panels, gusts on one half, wind along the "
        "beam, local gusts on panels, clamps and rails, and wind on pipes are the standard's in "
        "that proportion (judgement); whoever gave it may know better."
    )


def _percent(shares: list[float]) -> str:
    ends = dict.fromkeys(f"{100 * s:.0f}" for s in (min(shares), max(shares)))
    return f"{' to '.join(ends)} %"


def _at(sentence: str, tilts: list[float], of: int) -> str:
    """Put before a sentence which tilts it is for, unless it is for all."""
    if len(tilts) == of:
        return sentence
    named = " and ".join(f"{round(t / DEG, 1):g} deg" for t in tilts)
    return f"Tilted {named}: {sentence[0].lower()}{sentence[1:]}"


def worst_side(rack: Rack) -> Balance:
    """Return what the standard gives and takes in a gust from the worst side, worst tilt."""
    tilts = (Slope(t) for t in rack.tilts)
    blocks = (
        Outline(
            height=wind_height(rack, s),
            width=rack.panels.spread,
            depth=rack.panels.chord * float(s.up[1]),
        )
        for s in tilts
    )
    return max((balance(b, rack.site.exposure) for b in blocks), key=lambda b: b.net)


def balance_sentence(rack: Rack) -> str:
    """Say what the standard gives and takes on a rack as small as this, and the net."""
    found = worst_side(rack)
    by_speed = 100 * (math.sqrt(found.net) - 1)
    net = f"{abs(by_speed):.0f} % {'slower' if by_speed > 0 else 'faster'} than it is"
    if abs(by_speed) < 0.5:
        net = "as fast as it is"
    return (
        "The standard counts at the panels the wind of 15 ft (4.6 m), "
        f"{100 * (1 / found.height - 1):.0f} % too much pressure here, and takes off "
        f"{100 * (1 - GUST_EFFECT):.0f} % because gusts seldom strike all at once "
        f"({100 * (1 - GUST_EFFECT * found.size):.0f} % for a rack this small) and "
        f"{100 * (1 - DIRECTIONALITY):.0f} % because they seldom come from the worst side: one "
        f"that does is counted {net}."
    )


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
