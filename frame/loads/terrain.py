"""Terrain constants of the wind standard, by exposure."""

from dataclasses import dataclass
from functools import cache

from frame.tables.reader import rows

EXPOSURES = ("B", "C", "D")


@dataclass(frozen=True, slots=True, kw_only=True)
class Terrain:
    """Constants of one exposure, ASCE/SEI 7-22 Table 26.11-1.

    `alpha` and `gradient_height` [m] shape the gust profile; `mean_exponent`, `mean_factor`,
    `turbulence`, `scale` [m], `scale_exponent` and `least_height` [m] the mean wind and its
    turbulence (alpha-bar, b-bar, c, l, epsilon-bar, z-min).
    """

    alpha: float
    gradient_height: float
    mean_exponent: float
    mean_factor: float
    turbulence: float
    scale: float
    scale_exponent: float
    least_height: float


@cache
def terrain(exposure: str) -> Terrain:
    """Return the constants of exposure "B", "C" or "D"."""
    for row in rows("exposures"):
        if row["exposure"] == exposure:
            return Terrain(
                alpha=float(row["alpha"]),
                gradient_height=float(row["gradient_height_m"]),
                mean_exponent=float(row["mean_exponent"]),
                mean_factor=float(row["mean_factor"]),
                turbulence=float(row["turbulence"]),
                scale=float(row["scale_m"]),
                scale_exponent=float(row["scale_exponent"]),
                least_height=float(row["least_height_m"]),
            )
    raise ValueError(f"exposure {exposure!r} is not one of {', '.join(EXPOSURES)}")
