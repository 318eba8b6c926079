"""Which end of each band a model is built for."""

import math
from dataclasses import dataclass

SOFT, MIDDLE, STIFF = "soft", "middle", "stiff"
LOW, HIGH = "low", "high"


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """One corner of the unknowns.

    `soil` and `guys` (wire, terminations and anchor give) are "soft", "middle" or "stiff";
    `pretension` is "low" (heat, bedding-in), "middle" (as the file says) or "high" (cold).
    """

    soil: str = MIDDLE
    guys: str = MIDDLE
    pretension: str = MIDDLE


def between(low: float, high: float, where: str) -> float:
    """Value at the soft or low end, the geometric middle, or the stiff or high end of a band."""
    middle = math.sqrt(low * high)
    return {SOFT: low, LOW: low, MIDDLE: middle, STIFF: high, HIGH: high}[where]
