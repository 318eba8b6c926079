"""What a rack's readings are fitted with, and what is thought of it before they are taken."""

import math
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

from frame.tables.reader import rows
from frame.units import column_factor

TENTH = NormalDist().inv_cdf(0.9)
"""Standard deviations from the middle to either end of a 10 to 90 range."""


@dataclass(frozen=True, slots=True)
class Range:
    """A range from 10 to 90 % [SI or 1] round a median, in `words`."""

    low: float
    median: float
    high: float
    words: str

    @property
    def log_spread(self) -> float:
        """Standard deviation of the logarithm."""
        return math.log(self.high / self.low) / (2 * TENTH)

    @property
    def spread(self) -> float:
        """Standard deviation [SI or 1]."""
        return (self.high - self.low) / (2 * TENTH)


@cache
def fitted_ranges() -> dict[str, Range]:
    """Return every range by its key; that of the ground is open, the kind of soil sets it."""
    return {row["key"]: _range(row) for row in rows("fitted")}


def _range(row: dict[str, str]) -> Range:
    factor = column_factor(f"x_{row['unit']}")
    low, median, high = (
        float(row[c]) * factor if row[c] else 1.0 for c in ("low", "median", "high")
    )
    return Range(low, median, high, row["words"])
