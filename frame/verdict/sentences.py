"""The three gusts of a bracing and its first part to go, as sentences that every page shares."""

import math

from frame.checks.check import Kind
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.records.results import BracingResult
from frame.units import DEG, show, show_no_more
from frame.verdict.wind_notes import worst_side
from frame.whatif.tilts import COVERED, lies_flat

TOO_FAR = 10.0
"""Use past which the number itself says nothing [1]."""
STILL = 0.5
"""Gust below which the air is called still [m/s]."""
GAIN = 1.02
"""Rise of a gust below which nothing is gained [1]."""
FLAT = COVERED[0] / DEG
"""Tilt below which panels may gallop [deg]."""
FLUTTER = (
    f"under {FLAT:g} deg: they can flutter off far below any gust here. Tilt them more, or take "
    "them off."
)
GUSTS = "`rack gusts FILE`"
HAPPENS = {
    Kind.TURNS: "it turns, nothing breaks yet",
    Kind.TILTS: "the panels tilt, nothing breaks yet",
    Kind.LEANS: "it leans, nothing breaks yet",
    Kind.BREAKS: "it breaks",
}


def percent_of(use: float) -> str:
    """Put a use as a builder reads it, before "what it can take"."""
    return "more than ten times" if use > TOO_FAR else f"{100 * use:.0f} % of"


def speed(gust: float, rack: Rack) -> str:
    """Return a gust [m/s] in the rack's units, never more than it is."""
    return show_no_more(gust, "speed", rack.units)


def mapped(rack: Rack) -> str:
    """Return the gust mapped for the site in the rack's units."""
    return show(rack.site.map_gust, "speed", rack.units)


def margin(rack: Rack, gust: float | None) -> str:
    """Say how far the code's margin reaches: what compares with the map's gust [m/s]."""
    if gust is None:
        return "it has the code's margin at any mapped gust looked at"
    if gust < STILL:
        return "it lacks the code's margin even in still air"
    return f"it has the code's margin for a site mapped at up to {speed(gust, rack)}"


def act_by_words(rack: Rack, result: BracingResult) -> str:
    """Say before which forecast gust to do what."""
    gust = result.act_by_gust
    if lies_flat(rack):
        return f"No gust to act before can be told of panels laid {FLUTTER}"
    if gust is None:
        return "Nothing is expected to tilt or break in any gust looked at."
    if gust < STILL:
        return _in_still_air(rack)
    here = speed(gust, rack)
    return f"Before a forecast gust of {here} take the panels off{_or_lower(rack, result)}"


def _in_still_air(rack: Rack) -> str:
    """Say what to do where something is expected to tilt or break under the weight alone."""
    if rack.stands:
        return (
            "By the file something should have tilted or broken under the weight alone, yet it "
            "stands: some number in the file is wrong. Find it before you trust any gust here, "
            "and keep from under it."
        )
    return "The weight alone is expected to be too much for it: mend that before the panels go on."


def _or_lower(rack: Rack, result: BracingResult) -> str:
    """Say what else than taking the panels off would do: up to which gust, at which tilt."""
    low, gust = result.lowered, result.act_by_gust or 0.0
    if low is None:
        return (
            f"; {GUSTS} tells what a flatter tilt would stand. Never lay them flat "
            f"(under {FLAT:g} deg)."
        )
    at = f"{round(low.tilt / DEG, 1):g} deg"
    if low.act_by_gust is not None and low.act_by_gust < GAIN * gust:
        return f": at {at} it stands no more. Never lay them flat (under {FLAT:g} deg)."
    anew = " (guys and stays fitted anew at that tilt)" if low.rigged_anew else ""
    good = (
        "which no gust looked at is too much for"
        if low.act_by_gust is None
        else f"which is good up to {speed(low.act_by_gust, rack)} and no more"
    )
    return f", or set them at {at}{anew}, {good}. Never flat (under {FLAT:g} deg)."


def first_to_go(rack: Rack, result: BracingResult) -> str:
    """Say which part goes first: at which gust, in which wind, and its use at the map gust."""
    first = result.ladder[0]
    going = first.going
    if going is None:
        return f"No part is expected to go in any gust up to the highest looked at ({first.part})."
    used = f"At the map gust it uses {percent_of(first.utilisation)} what the code lets it take."
    if going.gust < STILL:
        return f"The {first.part} is expected to go in still air ({first.check}). {used}"
    return (
        f"In a real gust of {ranged_gust(rack, going)} the {first.part} is expected to go first: "
        f"{HAPPENS[going.kind]} ({first.check}; {_wind(going)}). {used}{_breaks(rack, result)}"
    )


def ranged_gust(rack: Rack, going: Going) -> str:
    """Return the gust at which something is expected to go, with its range in brackets."""
    low, high = (speed(gust, rack).partition(" ")[0] for gust in (going.low, going.high))
    return f"about {speed(going.gust, rack)} ({low} to {high})"


def _breaks(rack: Rack, result: BracingResult) -> str:
    """Say what breaks first and when, where something that only slips goes before it."""
    going = result.first_break
    if going is None:
        return " No gust looked at is expected to break anything."
    if not result.ladder[0].going or not result.ladder[0].going.slips:
        return ""
    at = ranged_gust(rack, going)
    return f" The first to break is the {going.part}, at {at} ({going.check})."


def movements_over_limit(result: BracingResult) -> str:
    """Return "sags (120 % of its limit) and sways (131 % of its limit)"; empty if it does not."""
    flags = (("sags", result.sags, result.sag.use), ("sways", result.sways, result.sway.use))
    return " and ".join(
        f"{word} ({percent_of(use)} its limit)" if math.isfinite(use) else "sways over"
        for word, on, use in flags
        if on
    )


def _wind(going: Going) -> str:
    return f"{going.words}; tilt {round(going.tilt / DEG, 1):g} deg"


def barely(rack: Rack, best: BracingResult) -> str:
    """Say by how little a bracing holds, where a gust from the worst side would use that up."""
    limit, mapped_gust = best.limit_gust, rack.site.map_gust
    if not best.holds or rack.site.pressure > 0 or limit is None:
        return ""
    faster = math.sqrt(worst_side(rack).net)
    if limit >= faster * mapped_gust:
        return ""
    return (
        f" It holds by {100 * (limit / mapped_gust - 1):.0f} % only: the standard trusts that the "
        "gust of the map hardly ever comes from just the worst side; one that does is some "
        f"{100 * (faster - 1):.0f} % faster at a rack this small than counted, and uses the "
        "margin up."
    )
