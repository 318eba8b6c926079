"""Round tube: area and section properties, exact."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tube:
    """A round tube by outside diameter `od` and `wall` [m]; wall may reach od / 2 (solid)."""

    od: float
    wall: float

    def __post_init__(self) -> None:
        if not 0 < self.wall <= self.od / 2:
            raise ValueError(f"wall {self.wall} m does not fit in a tube of {self.od} m")

    @property
    def bore(self) -> float:
        """Inside diameter [m]."""
        return self.od - 2 * self.wall

    @property
    def area(self) -> float:
        """Cross-section of metal [m2]."""
        return math.pi / 4 * (self.od**2 - self.bore**2)

    @property
    def second_moment(self) -> float:
        """Second moment of area I about any diameter [m4]."""
        return math.pi / 64 * (self.od**4 - self.bore**4)

    @property
    def torsion_constant(self) -> float:
        """St Venant torsion constant J = 2 I [m4]."""
        return 2 * self.second_moment

    @property
    def elastic_modulus(self) -> float:
        """Elastic section modulus S [m3]."""
        return 2 * self.second_moment / self.od

    @property
    def plastic_modulus(self) -> float:
        """Plastic section modulus Z [m3]."""
        return (self.od**3 - self.bore**3) / 6

    @property
    def gyration(self) -> float:
        """Radius of gyration r [m]."""
        return math.sqrt(self.second_moment / self.area)


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
