"""What makes a standing rack move, in words: whether it gets worse, and what cures it."""

from dataclasses import dataclass
from functools import cache

from frame.tables.reader import rows


@dataclass(frozen=True, slots=True)
class Cause:
    """A cause by the part it lies in: in `words`, whether it gets `worse`, what is its `cure`."""

    part: str
    words: str
    worse: str
    cure: str


@cache
def causes() -> dict[str, Cause]:
    """Return every cause by its part."""
    return {
        row["part"]: Cause(row["part"], row["words"], row["worse"], row["cure"])
        for row in rows("causes")
    }
