"""Round tube: area and section properties, exact."""

import math
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np
import numpy.typing as npt

Size = TypeVar("Size", float, npt.NDArray[np.float64])


@dataclass(frozen=True, slots=True)
class RoundTube(Generic[Size]):
    """Round tubes by outside diameter `od` and `wall` [m], numbers or arrays of one shape."""

    od: Size
    wall: Size

    @property
    def bore(self) -> Size:
        """Inside diameter [m]."""
        return self.od - 2 * self.wall

    @property
    def area(self) -> Size:
        """Cross-section of metal [m2]."""
        return math.pi / 4 * (self.od**2 - self.bore**2)

    @property
    def second_moment(self) -> Size:
        """Second moment of area I about any diameter [m4]."""
        return math.pi / 64 * (self.od**4 - self.bore**4)

    @property
    def torsion_constant(self) -> Size:
        """St Venant torsion constant J = 2 I [m4]."""
        return 2 * self.second_moment

    @property
    def elastic_modulus(self) -> Size:
        """Elastic section modulus S [m3]."""
        return 2 * self.second_moment / self.od

    @property
    def plastic_modulus(self) -> Size:
        """Plastic section modulus Z [m3]."""
        return (self.od**3 - self.bore**3) / 6

    @property
    def gyration(self) -> Size:
        """Radius of gyration r [m]."""
        root: Size = (self.second_moment / self.area) ** 0.5
        return root


@dataclass(frozen=True, slots=True)
class Tube(RoundTube[float]):
    """One round tube; its wall may reach od / 2 (solid)."""

    def __post_init__(self) -> None:
        if not 0 < self.wall <= self.od / 2:
            raise ValueError(f"wall {self.wall} m does not fit in a tube of {self.od} m")


Tubes = RoundTube[npt.NDArray[np.float64]]
"""Tubes of many cases."""


def wall_from_weight(od: float, weight: float, unit_weight: float) -> float:
    """Average wall [m] of a tube of diameter `od` [m] that weighs `weight` [N/m].

    `unit_weight` is that of the metal [N/m3]. Solves pi (od - t) t gamma = weight for the thinner
    root (exact; the trade's rule w = 10.69 (D - t) t in lb/ft and inches is the same formula).
    """
    metal = weight / (math.pi * unit_weight)
    inside = od**2 - 4 * metal
    if metal <= 0 or inside < 0:
        raise ValueError("no tube of this diameter has this weight")
    return (od - math.sqrt(inside)) / 2
