"""Round pipe as a member: AISC 360-22 ASD, chapters D, E, F, G and H.

Forces and lengths are numbers or arrays that broadcast to one shape, usually (cases, stations).
SI units. Axial force N is positive in tension; signs of the others do not matter. The two bending
moments of a round pipe act as their resultant; they hold what sway adds. The code's section is the
design section: 0.93 of a listed wall or the measured wall, less rust. Over D/t = 0.45 E/Fy nothing
is covered. Without safety factors a pipe (see `RoundPipe`) gives the use of strengths to expect.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step
from frame.checks.steel.pipe_strength import (
    RoundPipe,
    bending_strength,
    column_strength,
    section_steps,
    shear_strength,
    tensile_strengths,
    twisting_strength,
)
from frame.named.limit_state import LimitState

SLENDEREST = 200.0
"""Lc/r advised at most in compression, AISC 360-22 E2 user note."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Forces:
    """Forces on cross-sections of a pipe: N (tension positive), Vy, Vz [N]; T, My, Mz [N m]."""

    N: Numbers
    My: Numbers = 0.0
    Mz: Numbers = 0.0
    Vy: Numbers = 0.0
    Vz: Numbers = 0.0
    T: Numbers = 0.0


def compression(pipe: RoundPipe, push: Numbers, length: Numbers) -> Check:
    """Buckling under `push` [N] (a pull counts as nil) over effective `length` Lc [m].

    AISC 360-22 E3 flexural buckling; E7 effective area of a thin wall.
    """
    P = np.maximum(push, 0.0)
    steps, Pn = column_strength(pipe, length)
    Pc = Pn / pipe.safety
    return Check(
        name=LimitState.BUCKLING,
        demand=P,
        allowable=Pc,
        nominal=Pn,
        unit="N",
        source="AISC 360-22 E3, E7",
        steps=(
            *section_steps(pipe),
            *steps,
            Step("Pc", "push allowed", f"Pn/{pipe.safety:g}", Pc, "N", "AISC 360-22 E1"),
            *_use("P", "push", P, "N", "Pc", Pc),
        ),
        covered=pipe.covered,
    )


def tension(pipe: RoundPipe, pull: Numbers, net: float = 1.0) -> Check:
    """Pull [N] (a push counts as nil); `net` is the effective net area over the gross one [1].

    AISC 360-22 D2: yielding of the gross section, rupture of the net one.
    """
    P = np.maximum(pull, 0.0)
    allowed, nominal = tensile_strengths(pipe, net)
    Py, Pu = pipe.Fy * pipe.tube.area, pipe.Fu * pipe.tube.area * net
    return Check(
        name=LimitState.PULL,
        demand=P,
        allowable=allowed,
        nominal=nominal,
        unit="N",
        source="AISC 360-22 D2",
        steps=(
            *section_steps(pipe),
            Step("Fu", "tensile strength", "", pipe.Fu, "Pa"),
            Step("net", "net area over gross area", "", net, ""),
            Step("Py", "yielding", "Fy*A", Py, "N", "AISC 360-22 Eq. D2-1"),
            Step("Pu", "rupture", "Fu*A*net", Pu, "N", "AISC 360-22 Eq. D2-2"),
            Step(
                "Pt",
                "pull allowed",
                f"min(Py/{pipe.safety:g}, Pu/{pipe.rupture_safety:g})",
                allowed,
                "N",
                "AISC 360-22 D2",
            ),
            *_use("P", "pull", P, "N", "Pt", allowed),
        ),
        covered=pipe.covered,
    )


def flexure(pipe: RoundPipe, My: Numbers, Mz: Numbers) -> Check:
    """Bending [N m]: AISC 360-22 F8, yielding and local buckling of the wall."""
    M = np.hypot(My, Mz)
    steps, Mn = bending_strength(pipe)
    Mc = Mn / pipe.safety
    return Check(
        name=LimitState.BENDING,
        demand=M,
        allowable=Mc,
        nominal=Mn,
        unit="N m",
        source="AISC 360-22 F8",
        steps=(
            *section_steps(pipe),
            *steps,
            Step("Mc", "bending allowed", f"Mn/{pipe.safety:g}", Mc, "N m", "AISC 360-22 F1"),
            *_use("M", "bending", M, "N m", "Mc", Mc),
        ),
        covered=pipe.covered,
    )


def shear(pipe: RoundPipe, Vy: Numbers, Vz: Numbers, length: Numbers) -> Check:
    """Shear [N]; `length` Lv [m] from the greatest to nil shear. AISC 360-22 G5."""
    V = np.hypot(Vy, Vz)
    steps, Vn = shear_strength(pipe, length)
    Vc = Vn / pipe.safety
    return Check(
        name=LimitState.SHEAR,
        demand=V,
        allowable=Vc,
        nominal=Vn,
        unit="N",
        source="AISC 360-22 G5",
        steps=(
            *section_steps(pipe),
            *steps,
            Step("Vc", "shear allowed", f"Vn/{pipe.safety:g}", Vc, "N", "AISC 360-22 G1"),
            *_use("V", "shear", V, "N", "Vc", Vc),
        ),
        covered=pipe.covered,
    )


def torsion(pipe: RoundPipe, twist: Numbers, length: Numbers) -> Check:
    """Torque `twist` [N m] over a member of `length` [m]. AISC 360-22 H3.1.

    The torsional modulus is the exact 2 J/D, about 5 % under the thin-wall formula of the user
    note: the safe side.
    """
    T = np.abs(twist)
    steps, Tn = twisting_strength(pipe, length)
    Tc = Tn / pipe.safety
    return Check(
        name=LimitState.TWIST,
        demand=T,
        allowable=Tc,
        nominal=Tn,
        unit="N m",
        source="AISC 360-22 H3.1",
        steps=(
            *section_steps(pipe),
            *steps,
            Step("Tc", "torque allowed", f"Tn/{pipe.safety:g}", Tc, "N m", "AISC 360-22 H3.1"),
            *_use("T", "torque", T, "N m", "Tc", Tc),
        ),
        covered=pipe.covered,
    )


def interaction(
    pipe: RoundPipe,
    forces: Forces,
    length: Numbers,
    shear_length: Numbers | None = None,
) -> Check:
    """Axial force, bending, shear and torque together.

    Up to a fifth of the torque allowed, AISC 360-22 H1.1 or H1.2 (Eq. H1-1a, H1-1b); beyond it
    Eq. H3-6. `length` Lc [m] for buckling and torsion, and for shear too unless `shear_length` Lv
    is given (the longer, the safer).
    """
    column, Pn = column_strength(pipe, length)
    bending, Mn = bending_strength(pipe)
    shearing, Vn = shear_strength(pipe, length if shear_length is None else shear_length)
    twisting, Tn = twisting_strength(pipe, length)
    pull_allowed, pull_nominal = tensile_strengths(pipe, 1.0)
    N = np.asarray(forces.N, dtype=np.float64)
    P, T = np.abs(N), np.abs(forces.T)
    M = np.hypot(forces.My, forces.Mz)
    V = np.hypot(forces.Vy, forces.Vz)
    Pc = np.where(N > 0, pull_allowed, Pn / pipe.safety)
    pull = f"min(Fy*A/{pipe.safety:g}, Fu*A/{pipe.rupture_safety:g})"
    shares = P / Pc, M / (Mn / pipe.safety), V / (Vn / pipe.safety), T / (Tn / pipe.safety)
    use = _together(*shares)
    held = _together(P / np.where(N > 0, pull_nominal, Pn), M / Mn, V / Vn, T / Tn)
    nominal = np.divide(use, held, out=np.full_like(use, pipe.safety), where=held > 0)
    return Check(
        name=LimitState.INTERACTION,
        demand=use,
        allowable=1.0,
        nominal=nominal,
        unit="",
        source="AISC 360-22 H1, H3.2",
        steps=(
            *section_steps(pipe),
            *column,
            *bending,
            *shearing,
            *twisting,
            *_force_steps(forces, M, V),
            Step("Fu", "tensile strength", "", pipe.Fu, "Pa"),
            Step(
                "Pc",
                "axial force allowed",
                f"{pull} if N > 0 else Pn/{pipe.safety:g}",
                Pc,
                "N",
                "AISC 360-22 D2, E1",
            ),
            Step("p", "share of axial force", "abs(N)/Pc", shares[0], ""),
            Step("m", "share of bending", f"M/(Mn/{pipe.safety:g})", shares[1], ""),
            Step("v", "share of shear", f"V/(Vn/{pipe.safety:g})", shares[2], ""),
            Step("w", "share of torque", f"abs(T)/(Tn/{pipe.safety:g})", shares[3], ""),
            Step(
                "U",
                "use, all together",
                "p + m + (v + w)^2 if w > 0.2 else (p + 8/9*m if p >= 0.2 else p/2 + m)",
                use,
                "",
                "AISC 360-22 Eq. H3-6, H1-1a, H1-1b",
            ),
        ),
        covered=pipe.covered,
    )


def slenderness(pipe: RoundPipe, length: Numbers) -> Check:
    """Lc/r against the 200 advised in compression; advice, so nothing lets go at any value.

    AISC 360-22 E2 user note; `length` Lc [m].
    """
    ratio = np.asarray(length) / pipe.tube.gyration
    return Check(
        name=LimitState.SLENDERNESS,
        demand=ratio,
        allowable=SLENDEREST,
        nominal=np.inf,
        unit="",
        source="AISC 360-22 E2 user note",
        steps=(
            Step("Lc", "effective length", "", length, "m"),
            Step("r", "radius of gyration", "", pipe.tube.gyration, "m"),
            Step("U", "slenderness over the 200 advised", "Lc/r/200", ratio / SLENDEREST, ""),
        ),
        note="advice of the standard, not a limit",
    )


def _together(p: Numbers, m: Numbers, v: Numbers, w: Numbers) -> npt.NDArray[np.float64]:
    """Sum of the shares of axial force, bending, shear and torque, AISC 360-22 H1-1, H3-6."""
    plain = np.where(np.greater_equal(p, 0.2), p + 8 / 9 * m, p / 2 + m)
    return np.where(np.greater(w, 0.2), p + m + np.square(v + w), plain)


def _use(
    symbol: str, meaning: str, value: Numbers, unit: str, against: str, allowed: Numbers
) -> tuple[Step, Step]:
    return (
        Step(symbol, meaning, "", value, unit),
        Step("U", "use", f"{symbol}/{against}", np.divide(value, allowed), ""),
    )


def _force_steps(forces: Forces, M: Numbers, V: Numbers) -> tuple[Step, ...]:
    return (
        Step("N", "axial force, pull positive", "", forces.N, "N"),
        Step("My", "bending about y", "", forces.My, "N m"),
        Step("Mz", "bending about z", "", forces.Mz, "N m"),
        Step("M", "bending, resultant", "sqrt(My^2 + Mz^2)", M, "N m"),
        Step("Vy", "shear along y", "", forces.Vy, "N"),
        Step("Vz", "shear along z", "", forces.Vz, "N"),
        Step("V", "shear, resultant", "sqrt(Vy^2 + Vz^2)", V, "N"),
        Step("T", "torque", "", forces.T, "N m"),
    )
