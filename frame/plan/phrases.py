"""Words for what happens to a rack and for gusts, on screens and pictures alike."""

import math
import re

from frame.named.limit_state import LimitState
from frame.named.part import Part
from frame.tables.limit_states import by_limit_state
from frame.units import MPH, US

NEARLY = 1e-6
"""What a whole number may miss by and still be told as such."""


def happens(part: Part, check: LimitState) -> str:
    """Say what happens where a check of a part is reached: "the set bolt slips and ..."."""
    row = by_limit_state("check_words").get(check)
    told = row["happens"] if row else "the {part} gives way"
    return told.format(part=re.sub(r"(?<=\w), (left|right)\b", r" on the \1", part))


def number(gust: float | None, units: str) -> str:
    """Return a gust [m/s] without its unit, never more than it is; none found is over the highest.

    In whole numbers, rounded down: panels are taken off before it.
    """
    if gust is None or gust > 199.5 * MPH:
        return ">200" if units == US else ">89"
    return f"{math.floor((gust / MPH if units == US else gust) + NEARLY)}"


def gust(speed: float, units: str) -> str:
    """Return a gust [m/s] with its unit, in whole numbers."""
    told = number(speed, units).replace(">", "over ")
    return f"{told} {'mph' if units == US else 'm/s'}"
