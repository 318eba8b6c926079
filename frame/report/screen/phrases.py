"""Words of the first screen: lengths, movements, and paragraphs behind a short head."""

import textwrap
from collections.abc import Iterable

from frame.named.aim import Key
from frame.plan.phrases import gust, happens, number
from frame.units import head_unit, show, show_number

__all__ = [
    "INDENT",
    "WIDTH",
    "gust",
    "happens",
    "in_one_unit",
    "movement",
    "no_rule",
    "number",
    "paragraph",
    "taped",
]
WIDTH = 80
INDENT = 10
"""Letters that the head of a paragraph has."""
RISE = 1.03
"""Rise of a gust worth telling [1] (judgement)."""


def taped(value: float, units: str) -> str:
    """Return a length [m] off a tape."""
    return show(value, "length", units)


def movement(value: float, units: str) -> str:
    """Return a small movement [m]."""
    return show(value, "movement", units)


def in_one_unit(kind: str, units: str, *values: float) -> list[str]:
    """Return quantities to be compared, all in one unit."""
    told = [show(value, kind, units) for value in values]
    if len({words.partition(" ")[2] for words in told}) == 1:
        return told
    unit = head_unit(kind, units)
    return [f"{show_number(value, kind, units)} {unit}" for value in values]


def no_rule(uncovered: Iterable[Key]) -> str:
    """Say of checks that no rule covers what then is not known."""
    what = " or ".join(sorted({happens(*key, several=True) for key in uncovered}))
    return f"no rule here tells when {what}"


def paragraph(head: str, text: str, indent: int = INDENT) -> list[str]:
    """Set text behind a short head, wrapped, the lines after the first indented."""
    first = f"{head:<{indent - 1}} "
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=" " * indent, break_long_words=False
    )
