"""Welds as lines: rings round a pipe and lugs, weld metal and base metal, limits of the leg.

Lengths m, forces N, moments N m, stresses Pa. Every force, moment and size is a number or an array
and they broadcast. Signs of forces do not matter: the worst point of the weld is found.
Sources: AISC 360-22 J2.2b, J2.4, J4.2, K5 (from memory of the standard); weld as a line after
Blodgett, Design of Welded Structures, 7.4 and Shigley, Tables 9-1 and 9-2.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers, Step, over
from frame.units import INCH, KSI

FILLET_THROAT = 0.707
"""Throat of an equal-leg fillet per leg."""

SADDLE_THROAT = 0.5
"""Throat per leg counted on a coped saddle: the fillet runs out at the crotch (judgement)."""

WELD_FACTOR, YIELD_FACTOR, RUPTURE_FACTOR = 2.0, 1.5, 2.0
YIELD_CAP, RUPTURE_CAP = 35 * KSI, 48 * KSI
"""Most that steel of unknown make counts for beside a weld: 35 and 48 ksi (judgement)."""

SMALLEST_LEG = ((INCH / 4, INCH / 8), (INCH / 2, INCH * 3 / 16), (INCH * 3 / 4, INCH / 4))
LARGEST_MINIMUM = INCH * 5 / 16
"""AISC 360-22 Table J2.4: thickness up to, smallest leg [m]; beyond the last, the largest."""
CYCLIC_LEG = INCH * 3 / 16

SOURCE = "AISC 360-22 J2.4 (from memory of the standard), no credit for direction of load"
BASE_SOURCE = "AISC 360-22 J4.2 on the thinner wall (from memory of the standard)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """Metal of a joint: `electrode` strength FEXX, `yield_stress`, `tensile` of the base [Pa].

    `wall` [m] is the thinner of the parts joined (design wall). Where the steel is not
    `identified` the base metal counts for no more than 35 ksi yield, 48 ksi tensile (judgement).
    """

    electrode: Numbers
    yield_stress: Numbers
    tensile: Numbers
    wall: Numbers
    identified: bool = False

    @property
    def counted_yield(self) -> Numbers:
        """Yield stress counted on beside the weld [Pa]."""
        return self.yield_stress if self.identified else np.minimum(self.yield_stress, YIELD_CAP)

    @property
    def counted_tensile(self) -> Numbers:
        """Tensile strength counted on beside the weld [Pa]."""
        return self.tensile if self.identified else np.minimum(self.tensile, RUPTURE_CAP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """Weld all round a pipe: `diameter` of the ring, `leg` [m], `throat` per leg [1].

    For a pipe end cut off at a slant the ring of the pipe's own diameter is on the safe side.
    """

    diameter: Numbers
    leg: Numbers
    throat: float = FILLET_THROAT


@dataclass(frozen=True, slots=True, kw_only=True)
class Lug:
    """Flat lug welded along both faces: `length`, plate `thickness`, `arm` hole to weld [m]."""

    length: Numbers
    thickness: Numbers
    arm: Numbers
    leg: Numbers
    throat: float = FILLET_THROAT


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Greatest force on a weld per length [N/m], and the steps that lead to it (last: `f`)."""

    force: Numbers
    leg: Numbers
    throat: float
    steps: tuple[Step, ...]


def saddle_diameter(sleeve_od: Numbers, beam_od: Numbers) -> Numbers:
    """Diameter [m] of the ring that stands for the saddle weld of a sleeve on a beam.

    The smaller of both: a sleeve wider than the beam holds it along two half rounds of the beam's
    diameter, as long as that ring, as stiff about the beam and stiffer every other way.
    """
    return np.minimum(sleeve_od, beam_od)


def ring_line(
    axial: Numbers, shear: Numbers, bending: Numbers, torsion: Numbers, ring: Ring
) -> Line:
    """Force per length of a ring weld under the resultants on the joint plane.

    `axial` N square to the ring's plane, `shear` V in it, `bending` M about a diameter, `torsion`
    T about the ring's axis. f^2 = (N/L + M/S)^2 + (2 V/L + T r/J)^2 with L = pi d, S = pi d^2/4,
    J/r = pi d^2/2: all peaks at one point, which is never less than the true worst point.
    """
    d = ring.diameter
    N, V, M, T = np.abs(axial), np.abs(shear), np.abs(bending), np.abs(torsion)
    L = np.pi * d
    S = np.pi * d**2 / 4
    across = N / L + M / S
    along = 2 * V / L + T / (2 * S)
    f = np.hypot(across, along)
    steps = (
        Step("d", "diameter of the ring", "", d, "m"),
        Step("N", "force square to the ring", "", N, "N"),
        Step("V", "force in its plane", "", V, "N"),
        Step("M", "bending on the joint", "", M, "N m"),
        Step("T", "twist on the joint", "", T, "N m"),
        Step("L", "length of weld", "pi*d", L, "m"),
        Step("S", "modulus of the line in bending", "pi*d^2/4", S, "m2", "Blodgett 7.4"),
        Step("fn", "pull or push per length", "N/L + M/S", across, "N/m"),
        Step("fs", "shear per length, peak of the ring", "2*V/L + T/(2*S)", along, "N/m"),
        Step("f", "force per length", "sqrt(fn^2 + fs^2)", f, "N/m"),
    )
    return Line(force=f, leg=ring.leg, throat=ring.throat, steps=steps)


def lug_line(along: Numbers, normal: Numbers, side: Numbers, lug: Lug) -> Line:
    """Force per length of the two fillets of a flat lug pulled at its hole.

    `along` the weld, `normal` to the pipe, `side` ways out of the plate [N]. Two lines of length l
    a thickness b apart: L = 2 l, S = l^2/3 bent in the plate's plane, b l bent out of it. Peaks
    are added at one end of one line. The weld at the plate's ends is not counted.
    """
    size, b, a = lug.length, lug.thickness, lug.arm
    H, N, Q = np.abs(along), np.abs(normal), np.abs(side)
    L = 2 * size
    across = N / L + 3 * H * a / size**2 + Q * a / (b * size)
    f = np.sqrt(across**2 + (H / L) ** 2 + (Q / L) ** 2)
    steps = (
        Step("l", "length of lug on the pipe", "", size, "m"),
        Step("b", "thickness of the lug", "", b, "m"),
        Step("a", "hole to weld", "", a, "m"),
        Step("H", "pull along the weld", "", H, "N"),
        Step("N", "pull square to the pipe", "", N, "N"),
        Step("Q", "pull sideways", "", Q, "N"),
        Step("L", "length of weld, two lines", "2*l", L, "m"),
        Step("S1", "modulus in the plate's plane", "l^2/3", size**2 / 3, "m2", "Shigley T. 9-2"),
        Step("S2", "modulus sideways", "b*l", b * size, "m2", "Shigley T. 9-2"),
        Step("fn", "pull per length, worst end", "N/L + H*a/S1 + Q*a/S2", across, "N/m"),
        Step("f", "force per length", "sqrt(fn^2 + (H/L)^2 + (Q/L)^2)", f, "N/m"),
    )
    return Line(force=f, leg=lug.leg, throat=lug.throat, steps=steps)


def weld_metal(line: Line, metal: Metal) -> Check:
    """Check the weld metal: 0.60 FEXX on the throat, factor 2.00 (AISC J2.4)."""
    nominal = 0.60 * metal.electrode * line.throat * line.leg
    allowable = nominal / WELD_FACTOR
    steps = (
        *line.steps,
        Step("w", "leg of the weld", "", line.leg, "m"),
        Step("k", "throat per leg", "", line.throat, ""),
        Step("FEXX", "strength of the rod", "", metal.electrode, "Pa"),
        Step("r", "strength per length", "0.60*FEXX*k*w", nominal, "N/m", "J2.4"),
        Step("ra", "allowable per length", f"r/{WELD_FACTOR}", allowable, "N/m", "J2.4"),
        Step("use", "use of the weld", "f/ra", over(line.force, allowable), ""),
    )
    return Check(
        name="weld metal",
        demand=line.force,
        allowable=allowable,
        nominal=nominal,
        unit="N/m",
        source=SOURCE,
        steps=steps,
    )


def base_metal(line: Line, metal: Metal) -> Check:
    """Check the base metal beside the weld: yield or rupture in shear (AISC J4.2).

    Yield 0.60 Fy t over 1.50, rupture 0.60 Fu t over 2.00, taken for pull square to the wall too,
    where it is the safe side of 0.9 to 1.0 Fy t.
    """
    Fy, Fu, t = metal.counted_yield, metal.counted_tensile, metal.wall
    yielding, rupture = 0.6 * Fy * t, 0.6 * Fu * t
    allowable = np.minimum(yielding / YIELD_FACTOR, rupture / RUPTURE_FACTOR)
    steps = (
        *line.steps,
        Step("t", "thinner wall", "", t, "m"),
        Step("Fy", "yield stress counted", "", Fy, "Pa", _cap_source(metal)),
        Step("Fu", "tensile strength counted", "", Fu, "Pa", _cap_source(metal)),
        Step("ry", "yield in shear per length", "0.6*Fy*t", yielding, "N/m", "J4-3"),
        Step("ru", "rupture in shear per length", "0.6*Fu*t", rupture, "N/m", "J4-4"),
        Step(
            "ra",
            "allowable per length",
            f"min(ry/{YIELD_FACTOR}, ru/{RUPTURE_FACTOR})",
            allowable,
            "N/m",
        ),
        Step("use", "use of the base metal", "f/ra", over(line.force, allowable), ""),
    )
    return Check(
        name="base metal at weld",
        demand=line.force,
        allowable=allowable,
        nominal=np.minimum(yielding, rupture),
        unit="N/m",
        source=BASE_SOURCE,
        steps=steps,
    )


def _cap_source(metal: Metal) -> str:
    if metal.identified:
        return "as identified"
    return "not identified: no more than 35 and 48 ksi counted beside a weld (judgement)"


def leg_needed(line: Line, electrode: Numbers) -> Numbers:
    """Leg [m] at which the weld metal just carries the line force at the allowable."""
    return line.force * WELD_FACTOR / (0.60 * electrode * line.throat)


def smallest_leg(thinner: Numbers, thicker: Numbers, *, low_hydrogen: bool = True) -> Numbers:
    """Smallest leg [m] by thickness: AISC 360-22 Table J2.4 (from memory of the standard).

    By the thinner part; by the thicker one where the rod is not low-hydrogen and the steel is not
    preheated (AWS D1.1), but never more than the thinner part is thick. A rack rocks in the wind:
    3/16 in is the least for cyclic load where the wall allows it.
    """
    by = np.asarray(thinner if low_hydrogen else thicker, dtype=float)
    steps = [by <= upto * (1 + 1e-9) for upto, _ in SMALLEST_LEG]
    by_table = np.select(steps, [leg for _, leg in SMALLEST_LEG], LARGEST_MINIMUM)
    leg: Numbers = np.minimum(np.maximum(by_table, CYCLIC_LEG), thinner)
    return leg


def largest_leg(edge: Numbers) -> Numbers:
    """Largest leg [m] along the edge of a part `edge` thick: AISC 360-22 J2.2b.

    The whole thickness below 1/4 in, else 1/16 in less, so that the edge still shows. From memory
    of the standard. It binds at lap edges (lugs, caps, sleeve over post), not at a branch's foot.
    """
    edge = np.asarray(edge, dtype=float)
    return np.where(edge < INCH / 4 * (1 - 1e-9), edge, edge - INCH / 16)
