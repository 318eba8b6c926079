"""Words for what happens to a rack and for gusts, on screens and pictures alike."""

import math
import re
from functools import cache

from frame.tables.reader import rows
from frame.units import MPH, US

NEARLY = 1e-6
"""What a whole number may miss by and still be told as such."""


@cache
def _happenings() -> dict[str, str]:
    return {row["check"]: row["happens"] for row in rows("check_words")}


def happens(part: str, check: str) -> str:
    """Say what happens where a check of a part is reached: "the set bolt slips and ..."."""
    told = _happenings().get(check, "the {part} gives way")
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
