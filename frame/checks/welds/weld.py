"""Welds as lines: rings round a pipe and lugs, weld metal and base metal, limits of the leg.

Lengths m, forces N, moments N m, stresses Pa. Every force, moment and size is a number or an array
and they broadcast. Signs of forces do not matter: the worst point of the weld is found.
Sources: AISC 360-22 J2.2b, J2.4, J4.1, J4.2 (from memory of the standard); weld as a line after
Blodgett, Design of Welded Structures, 7.4 and Shigley, Tables 9-1 and 9-2.

A fillet loaded across bears half as much again as one loaded along (J2.4). The standard allows
it where the strains of the parts of the weld go together, and not at the ends of rectangular HSS.
The line of a weld is elastic: its strains go together, no point but the worst is at its strength,
and every pipe of a rack is round. So each weld here takes it, by the direction at its worst point.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState
from frame.units import KSI

FILLET_THROAT = 0.707
"""Throat of an equal-leg fillet per leg."""

WELD_FACTOR = 2.0
PULL_FACTOR, SHEAR_FACTOR, RUPTURE_FACTOR = 1.67, 1.5, 2.0
YIELD_CAP, RUPTURE_CAP = 35 * KSI, 48 * KSI
"""Most that steel of unknown make counts for beside a weld: 35 and 48 ksi (judgement)."""

KDS = "min(1 + 0.5*max(1 - (fs/f)^2, 0)^0.75, f/fs if fs > 0 else 2) if f > 0 else 1.5"
"""What a fillet bears more across than along (AISC 360-22 J2.4): 1 along, 1.5 across.

1 + 0.5 sin^1.5, but never so much that a pull across added to a force along would leave more room
than the force along alone does."""

SOURCE = "AISC 360-22 J2.4 with the direction of the load (from memory of the standard)"
BASE_SOURCE = (
    "AISC 360-22 J4.1, J4.2 on the thinner wall (from memory of the standard); pull and shear "
    "together as the squares of their uses (von Mises)"
)


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
class WeldLine:
    """The steps that lead to the greatest force on a weld per length, and the weld's size.

    The last is `f` [N/m], that force; `fs` [N/m] is the part of it along the weld.
    """

    leg: Numbers
    throat: float
    steps: tuple[Step, ...]

    @property
    def force(self) -> Numbers:
        """Greatest force on the weld per length [N/m]."""
        return self.steps[-1].value

    @property
    def sheet(self) -> Sheet:
        """Return a sheet that goes on from these steps."""
        return Sheet(*self.steps)


def ring_line(
    axial: Numbers, shear: Numbers, bending: Numbers, torsion: Numbers, ring: Ring
) -> WeldLine:
    """Force per length of a ring weld under the resultants on the joint plane.

    `axial` N square to the ring's plane, `shear` V in it, `bending` M about a diameter, `torsion`
    T about the ring's axis. f^2 = (N/L + M/S)^2 + (2 V/L + T r/J)^2 with L = pi d, S = pi d^2/4,
    J/r = pi d^2/2: all peaks at one point, which is never less than the true worst point.
    """
    sheet = Sheet()
    sheet.given("d", "diameter of the ring", ring.diameter, "m")
    sheet.given("N", "force square to the ring", np.abs(axial), "N")
    sheet.given("V", "force in its plane", np.abs(shear), "N")
    sheet.given("M", "bending on the joint", np.abs(bending), "N m")
    sheet.given("T", "twist on the joint", np.abs(torsion), "N m")
    sheet.work("L", "length of weld", "pi*d", "m")
    sheet.work("S", "modulus of the line in bending", "pi*d^2/4", "m2", "Blodgett 7.4")
    sheet.work("fn", "pull or push per length", "N/L + M/S", "N/m")
    sheet.work("fs", "shear per length, peak of the ring", "2*V/L + T/(2*S)", "N/m")
    sheet.work("f", "force per length", "sqrt(fn^2 + fs^2)", "N/m")
    return WeldLine(leg=ring.leg, throat=ring.throat, steps=tuple(sheet.steps))


def lug_line(along: Numbers, normal: Numbers, side: Numbers, lug: Lug) -> WeldLine:
    """Force per length of the two fillets of a flat lug pulled at its hole.

    `along` the weld, `normal` to the pipe, `side` ways out of the plate [N]. Two lines of length l
    a thickness b apart: L = 2 l, S = l^2/3 bent in the plate's plane, b l bent out of it. Peaks
    are added at one end of one line. The weld at the plate's ends is not counted.
    """
    sheet = Sheet()
    sheet.given("l", "length of lug on the pipe", lug.length, "m")
    sheet.given("b", "thickness of the lug", lug.thickness, "m")
    sheet.given("a", "hole to weld", lug.arm, "m")
    sheet.given("H", "pull along the weld", np.abs(along), "N")
    sheet.given("N", "pull square to the pipe", np.abs(normal), "N")
    sheet.given("Q", "pull sideways", np.abs(side), "N")
    sheet.work("L", "length of weld, two lines", "2*l", "m")
    sheet.work("S1", "modulus in the plate's plane", "l^2/3", "m2", "Shigley T. 9-2")
    sheet.work("S2", "modulus sideways", "b*l", "m2", "Shigley T. 9-2")
    sheet.work("fn", "pull per length, worst end", "N/L + H*a/S1 + Q*a/S2", "N/m")
    sheet.work("fs", "shear along the weld, per length", "H/L", "N/m")
    sheet.work("f", "force per length", "sqrt(fn^2 + (Q/L)^2 + fs^2)", "N/m")
    return WeldLine(leg=lug.leg, throat=lug.throat, steps=tuple(sheet.steps))


def weld_metal(line: WeldLine, metal: Metal, expected: Numbers | None = None) -> Check:
    """Check the weld metal: 0.60 FEXX kds on the throat, factor 2.00 (AISC J2.4).

    With `expected`, of sound welds over nominal strength [1], against the strength to expect,
    without the factor.
    """
    sheet = line.sheet
    sheet.given("w", "leg of the weld", line.leg, "m")
    sheet.given("k", "throat per leg", line.throat, "")
    sheet.given("FEXX", "strength of the rod", metal.electrode, "Pa")
    sheet.work("kds", "more across than along", KDS, "", "J2-5")
    nominal = sheet.work("r", "strength per length", "0.60*FEXX*k*w*kds", "N/m")
    if expected is None:
        sheet.work("ra", "allowable per length", f"r/{WELD_FACTOR}", "N/m", "J2.4")
    else:
        sheet.given("m", "expected over nominal strength", expected, "", "judgement")
        nominal = sheet.work("ra", "expected per length", "m*r", "N/m")
    sheet.use("use", "use of the weld", "f", "ra")
    return Check(
        name=LimitState.WELD_METAL,
        demand=sheet["f"],
        allowable=sheet["ra"],
        nominal=nominal,
        unit="N/m",
        source=SOURCE,
        steps=tuple(sheet.steps),
    )


def base_metal(line: WeldLine, metal: Metal, *, factored: bool = True) -> Check:
    """Check the base metal beside the weld under pull and shear together (AISC J4.1, J4.2).

    Pull square to the weld: yield Fy t over 1.67, rupture Fu t over 2.00. Shear along it: 0.60 Fy
    t over 1.50, 0.60 Fu t over 2.00. Both together by the sum of squares. Not `factored`: against
    the strength to expect of the wall and yield of `metal`, without the factors.
    """
    Fy, Fu, cap = metal.counted_yield, metal.counted_tensile, _cap_source(metal)
    pulling = f"min(Fy/{PULL_FACTOR}, Fu/{RUPTURE_FACTOR})"
    shearing = f"0.6*min(Fy/{SHEAR_FACTOR}, Fu/{RUPTURE_FACTOR})"
    if not factored:
        Fy, Fu, cap = metal.yield_stress, metal.tensile, ""
        pulling, shearing = "min(Fy, Fu)", "0.6*min(Fy, Fu)"
    word = "allowable" if factored else "expected"
    sheet = line.sheet
    sheet.given("t", "thinner wall", metal.wall, "m")
    sheet.given("Fy", "yield stress counted", Fy, "Pa", cap)
    sheet.given("Fu", "tensile strength counted", Fu, "Pa", cap)
    sheet.work("ta", f"{word} per length in pull", f"{pulling}*t", "N/m", "J4-1, J4-2")
    sheet.work("sa", f"{word} per length in shear", f"{shearing}*t", "N/m", "J4-3, J4-4")
    sheet.work("fa", "part of the force across the weld", "sqrt(max(f^2 - fs^2, 0))", "N/m")
    sheet.work("use", "use of the base metal", "sqrt((fa/ta)^2 + (fs/sa)^2)", "")
    gone = "sqrt((fa/(min(Fy, Fu)*t))^2 + (fs/(0.6*min(Fy, Fu)*t))^2)"
    return Check(
        name=LimitState.BASE_METAL,
        demand=sheet["f"],
        allowable=sheet.value("f/use if f > 0 else sa"),
        nominal=sheet.value(f"f/{gone} if f > 0 else 0.6*min(Fy, Fu)*t"),
        unit="N/m",
        source=BASE_SOURCE,
        steps=tuple(sheet.steps),
    )


def _cap_source(metal: Metal) -> str:
    if metal.identified:
        return "as identified"
    return "not identified: no more than 35 and 48 ksi counted beside a weld (judgement)"
