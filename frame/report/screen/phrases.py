"""Words for what happens to a rack, as a builder says it."""

import math
import re
import textwrap
from functools import cache

from frame.tables.reader import rows
from frame.units import MPH, US, show

WIDTH = 80
TOP = "over 200 mph"
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


def length(value: float, units: str) -> str:
    """Return a length [m] off a tape."""
    return show(value, "length", units)


def movement(value: float, units: str) -> str:
    """Return a small movement [m]."""
    return show(value, "movement", units)


def paragraph(head: str, text: str, indent: int = 10) -> list[str]:
    """Set text behind a short head, wrapped, the lines after the first indented."""
    first = f"{head:<{indent - 1}} "
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=" " * indent, break_long_words=False
    )
