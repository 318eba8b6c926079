"""Nominal strengths of a round pipe to AISC 360-22, each with its steps by hand.

Lengths [m], walls and yield stresses are numbers or arrays that broadcast. A length shorter than
the diameter is taken as the diameter.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from frame.checks.check import Numbers
from frame.checks.sheet import Sheet
from frame.geometry.tube import Tube, Tubes

SAFETY = 1.67
"""Omega on yielding and buckling, AISC 360-22 D2, E1, F1, G1, H3.1."""
RUPTURE_SAFETY = 2.0
"""Omega on tensile rupture, AISC 360-22 D2."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundPipe:
    """Section of a pipe and its steel: yield Fy, tensile Fu, modulus E [Pa].

    `safety` on yielding and buckling and `rupture_safety` [1] are the code's. Both are 1 for the
    strength to expect of an expected wall and yield.
    """

    tube: Tube | Tubes
    Fy: Numbers
    Fu: Numbers
    E: float
    safety: float = SAFETY
    rupture_safety: float = RUPTURE_SAFETY

    @property
    def thinness(self) -> Numbers:
        """D/t [1]."""
        return self.tube.od / self.tube.wall

    @property
    def covered(self) -> bool | npt.NDArray[np.bool_]:
        """Whether D/t is within the limit of validity, 0.45 E/Fy (AISC 360-22 E7.2, F8)."""
        return self.thinness < 0.45 * self.E / self.Fy

    def spliced(self, efficiency: Numbers) -> "RoundPipe":
        """Return the pipe at a welded splice: strengths times the weld's `efficiency` [1]."""
        return replace(self, Fy=self.Fy * efficiency, Fu=self.Fu * efficiency)


def begun(pipe: RoundPipe) -> Sheet:
    """Begin with what every check of a pipe begins with."""
    sheet = Sheet()
    sheet.given("D", "outside diameter", pipe.tube.od, "m")
    sheet.given("t", "design wall", pipe.tube.wall, "m")
    sheet.work("d", "bore", "D - 2*t", "m")
    sheet.work("A", "area of metal", "pi/4*(D^2 - d^2)", "m2")
    sheet.given("E", "modulus of elasticity", pipe.E, "Pa")
    sheet.given("Fy", "yield stress", pipe.Fy, "Pa")
    return sheet


def column_strength(sheet: Sheet, length: Numbers) -> Numbers:
    """Pn [N] over effective `length` Lc: AISC 360-22 E3, with the effective area of E7.2.

    Ae/A is held to 1, which Eq. E7-7 passes by 1 % at the limit of a slender wall.
    """
    sheet.given("Lc", "effective length", length, "m")
    sheet.work("r", "radius of gyration", "sqrt(D^2 + d^2)/4", "m")
    sheet.work("lam", "slenderness", "max(Lc, D)/r", "")
    sheet.work("Fe", "elastic buckling stress", "pi^2*E/lam^2", "Pa", "AISC 360-22 Eq. E3-4")
    stress = "0.658^(Fy/Fe)*Fy if Fy/Fe <= 2.25 else 0.877*Fe"
    sheet.work("Fn", "buckling stress", stress, "Pa", "AISC 360-22 Eq. E3-2, E3-3")
    area = "A*min(1, 0.038*E/(Fy*D/t) + 2/3) if D/t > 0.11*E/Fy else A"
    sheet.work("Ae", "effective area", area, "m2", "AISC 360-22 Eq. E7-6, E7-7")
    return sheet.work("Pn", "nominal buckling load", "Fn*Ae", "N", "AISC 360-22 Eq. E3-1")


def bending_strength(sheet: Sheet) -> Numbers:
    """Mn [N m]: AISC 360-22 F8, yielding (F8-1) and local buckling (F8-2 to F8-4)."""
    sheet.work("S", "elastic modulus", "pi/32*(D^4 - d^4)/D", "m3")
    sheet.work("Z", "plastic modulus", "(D^3 - d^3)/6", "m3")
    strength = (
        "Fy*Z if D/t <= 0.07*E/Fy else (min(Fy*Z, (0.021*E/(D/t) + Fy)*S)"
        " if D/t <= 0.31*E/Fy else 0.33*E/(D/t)*S)"
    )
    source = "AISC 360-22 Eq. F8-1, F8-2, F8-3"
    return sheet.work("Mn", "nominal bending strength", strength, "N m", source)


def shear_strength(sheet: Sheet, length: Numbers) -> Numbers:
    """Vn [N], `length` Lv from the greatest to nil shear: AISC 360-22 G5."""
    sheet.given("Lv", "length from most shear to none", length, "m")
    stress = "min(0.6*Fy, max(1.60*E/(sqrt(max(Lv, D)/D)*(D/t)^1.25), 0.78*E/(D/t)^1.5))"
    sheet.work("Fv", "shear stress at failure", stress, "Pa", "AISC 360-22 Eq. G5-2a, G5-2b")
    return sheet.work("Vn", "nominal shear strength", "Fv*A/2", "N", "AISC 360-22 Eq. G5-1")


def twisting_strength(sheet: Sheet, length: Numbers) -> Numbers:
    """Tn [N m] of a member of `length` L: AISC 360-22 H3.1, C the exact 2 J/D."""
    sheet.given("L", "length of the member", length, "m")
    sheet.work("C", "torsional modulus", "pi/16*(D^4 - d^4)/D", "m3")
    stress = "min(0.6*Fy, max(1.23*E/(sqrt(max(L, D)/D)*(D/t)^1.25), 0.60*E/(D/t)^1.5))"
    words, source = "shear stress of torsion at failure", "AISC 360-22 Eq. H3-2a, H3-2b"
    sheet.work("Ft", words, stress, "Pa", source)
    return sheet.work("Tn", "nominal torsional strength", "Ft*C", "N m", "AISC 360-22 Eq. H3-1")
