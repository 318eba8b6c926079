"""What is uncertain: the median of every input of a strength, and its 10 to 90 range.

The code's margin takes every unknown at its worst; what lets go is told by medians, with a range
found by putting one input at a time at either end. Every row's range is a judgement of ours unless
its source says otherwise.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from frame.tables.reader import rows

FloatArray = npt.NDArray[np.float64]
Inputs = Mapping[str, FloatArray]
"""Value of every input in every variant, (variants,) each."""


class Variant(NamedTuple):
    """One input at an end of its range, the others at their medians; `key` "" for none."""

    key: str
    high: bool


MEDIANS = 0
"""Position of the variant in which every input is at its median."""


@dataclass(frozen=True, slots=True)
class Spread:
    """An uncertain input: `median`, 10 % and 90 % ends, in `words`, and how to find it out."""

    key: str
    median: float
    low: float
    high: float
    words: str
    find_out: str
    source: str

    def at(self, part: float) -> float:
        """Return its value `part` of the way from the median: -1 the low end, 1 the high one.

        By its logarithm, a spread for either side.
        """
        end = self.low if part < 0 else self.high
        return float(self.median * (end / self.median) ** abs(part))


@cache
def spreads() -> dict[str, Spread]:
    """Return every uncertain input by its key."""
    return {
        row["key"]: Spread(
            key=row["key"],
            median=float(row["median"]),
            low=float(row["low"]),
            high=float(row["high"]),
            words=row["words"],
            find_out=row["find_out"],
            source=row["source"],
        )
        for row in rows("expected")
    }


@cache
def variants() -> tuple[Variant, ...]:
    """Return all medians first, then each input at its low and at its high end."""
    ends = [Variant(key, high) for key in spreads() for high in (False, True)]
    return (Variant("", high=False), *ends)


@cache
def values(key: str) -> FloatArray:
    """Value of an input in every variant, (variants,), read-only."""
    spread = spreads()[key]
    found = np.full(len(variants()), spread.median)
    found[variants().index(Variant(key, high=False))] = spread.low
    found[variants().index(Variant(key, high=True))] = spread.high
    found.setflags(write=False)
    return found


@cache
def one_at_a_time() -> Inputs:
    """Return every input in `variants()`."""
    return {key: values(key) for key in spreads()}
