"""Wind speeding up over a hill, ridge or escarpment: the factor Kzt."""

import math
from dataclasses import dataclass

from frame.tables.reader import TableRow, rows

SHAPES = ("ridge", "escarpment", "hill")
UPWIND, DOWNWIND = "upwind", "downwind"
STEEPEST = 0.5
"""H/Lh from which the speed-up grows no more, ASCE/SEI 7-22 Fig. 26.8-1 note 2."""
GENTLEST = 0.2
"""H/Lh under which there is none, ASCE/SEI 7-22 26.8.1."""
LOWEST = {"B": 18.0, "C": 4.5, "D": 4.5}
"""Height of hill under which there is no speed-up [m] (60 and 15 ft), ASCE/SEI 7-22 26.8.1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """A rise of the ground.

    `shape` "ridge", "escarpment" or "hill"; `height` H [m] of the crest over the land upwind;
    `half_length` Lh [m], level distance from the crest upwind to where the ground is H/2 lower.
    """

    shape: str
    height: float
    half_length: float


def hill_factor(
    hill: Rise, exposure: str, above_ground: float, distance: float = 0.0, side: str = UPWIND
) -> float:
    """Kzt [1] at `above_ground` z [m], `distance` x [m] level from the crest.

    `side` "upwind" or "downwind" of the crest. Kzt = (1 + K1 K2 K3)^2, ASCE/SEI 7-22 Eq. 26.8-1
    and Fig. 26.8-1 (from memory of the standard). Safe side: shelter by other hills upwind and
    a place on the lower half of the slope do not set it to 1, as the standard lets them.
    """
    slope = hill.height / hill.half_length
    if slope < GENTLEST or hill.height < LOWEST[exposure]:
        return 1.0
    row = _row(hill.shape)
    length = hill.half_length if slope <= STEEPEST else 2 * hill.height
    K1 = float(row[f"k1_{exposure.lower()}"]) * min(slope, STEEPEST)
    K2 = max(0.0, 1 - abs(distance) / (float(row[f"mu_{side}"]) * length))
    K3 = math.exp(-float(row["gamma"]) * above_ground / length)
    return (1 + K1 * K2 * K3) ** 2


def _row(shape: str) -> TableRow:
    for row in rows("hills"):
        if row["shape"] == shape:
            return row
    raise ValueError(f"hill shape {shape!r} is not one of {', '.join(SHAPES)}")
