"""Nominal strengths of a round pipe to AISC 360-22, each with its steps by hand.

Lengths [m], walls and yield stresses are numbers or arrays that broadcast. A length shorter than
the diameter is taken as the diameter.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from frame.checks.check import Numbers, Step
from frame.geometry.tube import Tube, Tubes

Strength = tuple[tuple[Step, ...], Numbers]

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


def section_steps(pipe: RoundPipe) -> tuple[Step, ...]:
    """Return the steps that every check of a pipe begins with."""
    D, t = pipe.tube.od, pipe.tube.wall
    return (
        Step("D", "outside diameter", "", D, "m"),
        Step("t", "design wall", "", t, "m"),
        Step("d", "bore", "D - 2*t", pipe.tube.bore, "m"),
        Step("A", "area of metal", "pi/4*(D^2 - d^2)", pipe.tube.area, "m2"),
        Step("E", "modulus of elasticity", "", pipe.E, "Pa"),
        Step("Fy", "yield stress", "", pipe.Fy, "Pa"),
    )


def column_strength(pipe: RoundPipe, length: Numbers) -> Strength:
    """Pn [N] over effective `length` Lc: AISC 360-22 E3, with the effective area of E7.2.

    Ae/A is held to 1, which Eq. E7-7 passes by 1 % at the limit of a slender wall.
    """
    D, t, A, r = pipe.tube.od, pipe.tube.wall, pipe.tube.area, pipe.tube.gyration
    Fy, E = pipe.Fy, pipe.E
    slender = np.maximum(length, D) / r
    Fe = np.pi**2 * E / slender**2
    Fn = np.where(Fy / Fe <= 2.25, 0.658 ** (Fy / Fe) * Fy, 0.877 * Fe)
    slim = np.minimum(1.0, 0.038 * E / (Fy * D / t) + 2 / 3)
    share = np.where(D / t > 0.11 * E / Fy, slim, 1.0)
    Pn = Fn * (A * share)
    steps = (
        Step("Lc", "effective length", "", length, "m"),
        Step("r", "radius of gyration", "sqrt(D^2 + d^2)/4", r, "m"),
        Step("lam", "slenderness", "max(Lc, D)/r", slender, ""),
        Step("Fe", "elastic buckling stress", "pi^2*E/lam^2", Fe, "Pa", "AISC 360-22 Eq. E3-4"),
        Step(
            "Fn",
            "buckling stress",
            "0.658^(Fy/Fe)*Fy if Fy/Fe <= 2.25 else 0.877*Fe",
            Fn,
            "Pa",
            "AISC 360-22 Eq. E3-2, E3-3",
        ),
        Step(
            "Ae",
            "effective area",
            "A*min(1, 0.038*E/(Fy*D/t) + 2/3) if D/t > 0.11*E/Fy else A",
            A * share,
            "m2",
            "AISC 360-22 Eq. E7-6, E7-7",
        ),
        Step("Pn", "nominal buckling load", "Fn*Ae", Pn, "N", "AISC 360-22 Eq. E3-1"),
    )
    return steps, Pn


def tensile_strengths(pipe: RoundPipe, net: float) -> tuple[Numbers, Numbers]:
    """Return allowable and nominal pull [N] by AISC 360-22 D2; `net` is net over gross area."""
    yielding, rupture = pipe.Fy * pipe.tube.area, pipe.Fu * pipe.tube.area * net
    allowed = np.minimum(yielding / pipe.safety, rupture / pipe.rupture_safety)
    return allowed, np.minimum(yielding, rupture)


def bending_strength(pipe: RoundPipe) -> Strength:
    """Mn [N m]: AISC 360-22 F8, yielding (F8-1) and local buckling (F8-2 to F8-4)."""
    ratio, Fy, E = pipe.thinness, pipe.Fy, pipe.E
    S, Z = pipe.tube.elastic_modulus, pipe.tube.plastic_modulus
    middling = np.minimum(Fy * Z, (0.021 * E / ratio + Fy) * S)
    Mn = np.select(
        [ratio <= 0.07 * E / Fy, ratio <= 0.31 * E / Fy],
        [Fy * Z, middling],
        0.33 * E / ratio * S,
    )
    steps = (
        Step("S", "elastic modulus", "pi/32*(D^4 - d^4)/D", S, "m3"),
        Step("Z", "plastic modulus", "(D^3 - d^3)/6", Z, "m3"),
        Step(
            "Mn",
            "nominal bending strength",
            "Fy*Z if D/t <= 0.07*E/Fy else (min(Fy*Z, (0.021*E/(D/t) + Fy)*S)"
            " if D/t <= 0.31*E/Fy else 0.33*E/(D/t)*S)",
            Mn,
            "N m",
            "AISC 360-22 Eq. F8-1, F8-2, F8-3",
        ),
    )
    return steps, Mn


def shear_strength(pipe: RoundPipe, length: Numbers) -> Strength:
    """Vn [N], `length` Lv from the greatest to nil shear: AISC 360-22 G5."""
    D, t, E, Fy = pipe.tube.od, pipe.tube.wall, pipe.E, pipe.Fy
    Lv = np.maximum(length, D)
    buckling = np.maximum(
        1.60 * E / (np.sqrt(Lv / D) * (D / t) ** 1.25), 0.78 * E / (D / t) ** 1.5
    )
    stress = np.minimum(0.6 * Fy, buckling)
    Vn = stress * pipe.tube.area / 2
    steps = (
        Step("Lv", "length from most shear to none", "", length, "m"),
        Step(
            "Fv",
            "shear stress at failure",
            "min(0.6*Fy, max(1.60*E/(sqrt(max(Lv, D)/D)*(D/t)^1.25), 0.78*E/(D/t)^1.5))",
            stress,
            "Pa",
            "AISC 360-22 Eq. G5-2a, G5-2b",
        ),
        Step("Vn", "nominal shear strength", "Fv*A/2", Vn, "N", "AISC 360-22 Eq. G5-1"),
    )
    return steps, Vn


def twisting_strength(pipe: RoundPipe, length: Numbers) -> Strength:
    """Tn [N m] of a member of `length` L: AISC 360-22 H3.1, C the exact 2 J/D."""
    D, t, E, Fy = pipe.tube.od, pipe.tube.wall, pipe.E, pipe.Fy
    L = np.maximum(length, D)
    buckling = np.maximum(1.23 * E / (np.sqrt(L / D) * (D / t) ** 1.25), 0.60 * E / (D / t) ** 1.5)
    stress = np.minimum(0.6 * Fy, buckling)
    C = 2 * pipe.tube.torsion_constant / D
    Tn = stress * C
    steps = (
        Step("L", "length of the member", "", length, "m"),
        Step("C", "torsional modulus", "pi/16*(D^4 - d^4)/D", C, "m3"),
        Step(
            "Ft",
            "shear stress of torsion at failure",
            "min(0.6*Fy, max(1.23*E/(sqrt(max(L, D)/D)*(D/t)^1.25), 0.60*E/(D/t)^1.5))",
            stress,
            "Pa",
            "AISC 360-22 Eq. H3-2a, H3-2b",
        ),
        Step("Tn", "nominal torsional strength", "Ft*C", Tn, "N m", "AISC 360-22 Eq. H3-1"),
    )
    return steps, Tn
