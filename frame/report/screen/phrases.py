"""Words of the first screen: lengths, movements, and paragraphs behind a short head."""

import textwrap

from frame.plan.phrases import gust, happens, number
from frame.units import show

__all__ = ["WIDTH", "gust", "happens", "movement", "number", "paragraph", "taped"]
WIDTH = 80


def taped(value: float, units: str) -> str:
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
