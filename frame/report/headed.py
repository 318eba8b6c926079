"""Lines at the top of a rack file that the program writes, to say how it came about."""

from collections.abc import Iterable
from textwrap import wrap

WIDE = 96
"""Longest of those lines."""


def headed(text: str, top: str, said: Iterable[str]) -> str:
    """Return a file's text with what is `said` above it, each line begun with `top`.

    Lines begun so that an earlier writing has left there are taken away.
    """
    lines = text.split("\n")
    while lines and lines[0].startswith(top):
        del lines[0]
    return "\n".join(
        [*(top + line for one in said for line in wrap(one, WIDE - len(top))), *lines]
    )
