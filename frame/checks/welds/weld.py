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

from frame.checks.check import Check, Numbers, Step, over
from frame.named.limit_state import LimitState
from frame.units import KSI

FILLET_THROAT = 0.707
"""Throat of an equal-leg fillet per leg."""

WELD_FACTOR = 2.0
PULL_FACTOR, SHEAR_FACTOR, RUPTURE_FACTOR = 1.67, 1.5, 2.0
YIELD_CAP, RUPTURE_CAP = 35 * KSI, 48 * KSI
"""Most that steel of unknown make counts for beside a weld: 35 and 48 ksi (judgement)."""

KDS = "min(1 + 0.5*max(1 - (fs/f)^2, 0)^0.75, f/fs if fs > 0 else 2) if f > 0 else 1.5"
"""Step for `direction_factor`."""

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
    """Greatest force on a weld per length [N/m], and the steps that lead to it (last: `f`).

    `along` [N/m] is the part of it along the weld (step `fs`).
    """

    force: Numbers
    along: Numbers
    leg: Numbers
    throat: float
    steps: tuple[Step, ...]


def ring_line(
    axial: Numbers, shear: Numbers, bending: Numbers, torsion: Numbers, ring: Ring
) -> WeldLine:
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
    return WeldLine(force=f, along=along, leg=ring.leg, throat=ring.throat, steps=steps)


def lug_line(along: Numbers, normal: Numbers, side: Numbers, lug: Lug) -> WeldLine:
    """Force per length of the two fillets of a flat lug pulled at its hole.

    `along` the weld, `normal` to the pipe, `side` ways out of the plate [N]. Two lines of length l
    a thickness b apart: L = 2 l, S = l^2/3 bent in the plate's plane, b l bent out of it. Peaks
    are added at one end of one line. The weld at the plate's ends is not counted.
    """
    size, b, a = lug.length, lug.thickness, lug.arm
    H, N, Q = np.abs(along), np.abs(normal), np.abs(side)
    L = 2 * size
    pull = N / L + 3 * H * a / size**2 + Q * a / (b * size)
    shear = H / L
    f = np.sqrt(pull**2 + (Q / L) ** 2 + shear**2)
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
        Step("fn", "pull per length, worst end", "N/L + H*a/S1 + Q*a/S2", pull, "N/m"),
        Step("fs", "shear along the weld, per length", "H/L", shear, "N/m"),
        Step("f", "force per length", "sqrt(fn^2 + (Q/L)^2 + fs^2)", f, "N/m"),
    )
    return WeldLine(force=f, along=shear, leg=lug.leg, throat=lug.throat, steps=steps)


def direction_factor(line: WeldLine) -> Numbers:
    """Factor kds [1] at the worst point of a weld: 1 along, 1.5 across (AISC 360-22 J2.4).

    1 + 0.5 sin^1.5, but never so much that a pull across added to a force along would leave more
    room than the force along alone does.
    """
    f, fs = np.asarray(line.force), np.asarray(line.along)
    share = np.divide(fs, f, out=np.zeros(np.broadcast(f, fs).shape), where=f > 0)
    most = np.divide(1.0, share, out=np.full(share.shape, np.inf), where=share > 0)
    sine = np.sqrt(np.maximum(1 - share**2, 0.0))
    factor: Numbers = np.minimum(1 + 0.5 * sine**1.5, most)
    return factor


def weld_metal(line: WeldLine, metal: Metal, expected: Numbers | None = None) -> Check:
    """Check the weld metal: 0.60 FEXX kds on the throat, factor 2.00 (AISC J2.4).

    With `expected`, of sound welds over nominal strength [1], against the strength to expect,
    without the factor.
    """
    factor = direction_factor(line)
    plain = 0.60 * metal.electrode * line.throat * line.leg * factor
    if expected is None:
        nominal, allowable = plain, plain / WELD_FACTOR
        last = Step("ra", "allowable per length", f"r/{WELD_FACTOR}", allowable, "N/m", "J2.4")
        lead: tuple[Step, ...] = ()
    else:
        nominal = allowable = plain * expected
        last = Step("ra", "expected per length", "m*r", allowable, "N/m")
        lead = (Step("m", "expected over nominal strength", "", expected, "", "judgement"),)
    steps = (
        *line.steps,
        Step("w", "leg of the weld", "", line.leg, "m"),
        Step("k", "throat per leg", "", line.throat, ""),
        Step("FEXX", "strength of the rod", "", metal.electrode, "Pa"),
        Step("kds", "more across than along", KDS, factor, "", "J2-5"),
        Step("r", "strength per length", "0.60*FEXX*k*w*kds", plain, "N/m"),
        *lead,
        last,
        Step("use", "use of the weld", "f/ra", over(line.force, allowable), ""),
    )
    return Check(
        name=LimitState.WELD_METAL,
        demand=line.force,
        allowable=allowable,
        nominal=nominal,
        unit="N/m",
        source=SOURCE,
        steps=steps,
    )


def base_metal(line: WeldLine, metal: Metal, *, factored: bool = True) -> Check:
    """Check the base metal beside the weld under pull and shear together (AISC J4.1, J4.2).

    Pull square to the weld: yield Fy t over 1.67, rupture Fu t over 2.00. Shear along it: 0.60 Fy
    t over 1.50, 0.60 Fu t over 2.00. Both together by the sum of squares. Not `factored`: against
    the strength to expect of the wall and yield of `metal`, without the factors.
    """
    Fy, Fu, t = metal.counted_yield, metal.counted_tensile, metal.wall
    if not factored:
        Fy, Fu = metal.yield_stress, metal.tensile
    plain = np.minimum(Fy * t, Fu * t)
    pull, shear = plain, 0.6 * plain
    pull_step, shear_step = "min(Fy, Fu)*t", "0.6*min(Fy, Fu)*t"
    if factored:
        pull = np.minimum(Fy * t / PULL_FACTOR, Fu * t / RUPTURE_FACTOR)
        shear = 0.6 * np.minimum(Fy * t / SHEAR_FACTOR, Fu * t / RUPTURE_FACTOR)
        pull_step = f"min(Fy/{PULL_FACTOR}, Fu/{RUPTURE_FACTOR})*t"
        shear_step = f"0.6*min(Fy/{SHEAR_FACTOR}, Fu/{RUPTURE_FACTOR})*t"
    f, fs = np.asarray(line.force), np.asarray(line.along)
    across = np.sqrt(np.maximum(f**2 - fs**2, 0.0))
    use = np.hypot(across / pull, fs / shear)
    gone = np.hypot(across / plain, fs / (0.6 * plain))
    with np.errstate(divide="ignore", invalid="ignore"):
        allowable, nominal = (
            np.where(f > 0, np.divide(f, u), least)
            for u, least in ((use, shear), (gone, 0.6 * plain))
        )
    word, cap = ("allowable", _cap_source(metal)) if factored else ("expected", "")
    steps = (
        *line.steps,
        Step("t", "thinner wall", "", t, "m"),
        Step("Fy", "yield stress counted", "", Fy, "Pa", cap),
        Step("Fu", "tensile strength counted", "", Fu, "Pa", cap),
        Step("ta", f"{word} per length in pull", pull_step, pull, "N/m", "J4-1, J4-2"),
        Step("sa", f"{word} per length in shear", shear_step, shear, "N/m", "J4-3, J4-4"),
        Step("fa", "part of the force across the weld", "sqrt(max(f^2 - fs^2, 0))", across, "N/m"),
        Step("use", "use of the base metal", "sqrt((fa/ta)^2 + (fs/sa)^2)", use, ""),
    )
    return Check(
        name=LimitState.BASE_METAL,
        demand=line.force,
        allowable=allowable,
        nominal=nominal,
        unit="N/m",
        source=BASE_SOURCE,
        steps=steps,
    )


def _cap_source(metal: Metal) -> str:
    if metal.identified:
        return "as identified"
    return "not identified: no more than 35 and 48 ksi counted beside a weld (judgement)"
