"""Round pipe as a member: AISC 360-22 ASD, chapters D, E, F, G and H.

Forces and lengths are numbers or arrays that broadcast to one shape, usually (cases, stations).
SI units. Axial force N is positive in tension; signs of the others do not matter. The two bending
moments of a round pipe act as their resultant; they hold what sway adds. The code's section is the
design section: 0.93 of a listed wall or the measured wall, less rust. Over D/t = 0.45 E/Fy nothing
is covered. Without safety factors a pipe (see `RoundPipe`) gives the use of strengths to expect.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.checks.sheet import Sheet
from frame.checks.steel.pipe_strength import (
    RoundPipe,
    begun,
    bending_strength,
    column_strength,
    shear_strength,
    twisting_strength,
)
from frame.checks.steel.slotted import SlottedEnd, net_share
from frame.named.limit_state import LimitState

ALL = "p + m + (v + w)^2 if w > 0.2 else max(v, p + 8/9*m if p >= 0.2 else p/2 + m)"
"""Shares of axial force, bending, shear and torque together, AISC 360-22 H1-1, H3-6.

Where torque is so little that it may be neglected, H1 leaves shear out: it counts by itself, G5.
"""


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
    sheet = begun(pipe)
    column_strength(sheet, length)
    sheet.work("Pc", "push allowed", f"Pn/{pipe.safety:g}", "N", "AISC 360-22 E1")
    sheet.given("P", "push", np.maximum(push, 0.0), "N")
    return _check(LimitState.BUCKLING, sheet, pipe, ("P", "Pc", "Pn"), "AISC 360-22 E3, E7")


def tension(pipe: RoundPipe, pull: Numbers, slotted: SlottedEnd | None = None) -> Check:
    """Pull [N] (a push counts as nil) on a pipe whose ends are `slotted`, or whole.

    AISC 360-22 D2: yielding of the gross section, rupture of the net one.
    """
    sheet = begun(pipe)
    sheet.given("Fu", "tensile strength", pipe.Fu, "Pa")
    if slotted is None:
        sheet.given("net", "net area over gross area", 1.0, "")
    else:
        net_share(sheet, slotted)
    sheet.work("Py", "yielding", "Fy*A", "N", "AISC 360-22 Eq. D2-1")
    sheet.work("Pu", "rupture", "Fu*A*net", "N", "AISC 360-22 Eq. D2-2")
    allowed = f"min(Py/{pipe.safety:g}, Pu/{pipe.rupture_safety:g})"
    sheet.work("Pt", "pull allowed", allowed, "N", "AISC 360-22 D2")
    sheet.given("P", "pull", np.maximum(pull, 0.0), "N")
    names = "P", "Pt", "min(Py, Pu)"
    return _check(LimitState.PULL, sheet, pipe, names, "AISC 360-22 D2")


def interaction(
    pipe: RoundPipe,
    forces: Forces,
    length: Numbers,
    shear_length: Numbers | None = None,
) -> Check:
    """Axial force, bending, shear and torque together.

    Up to a fifth of the torque allowed, AISC 360-22 H1.1 or H1.2 (Eq. H1-1a, H1-1b), or shear by
    itself (G5) if that is more; beyond it Eq. H3-6. `length` Lc [m] for buckling and torsion, and
    for shear too unless `shear_length` Lv is given (the longer, the safer).
    """
    sheet = all_strengths(pipe, length, length if shear_length is None else shear_length)
    sheet.given("N", "axial force, pull positive", forces.N, "N")
    sheet.given("My", "bending about y", forces.My, "N m")
    return all_together(sheet, pipe, forces)


def all_strengths(pipe: RoundPipe, length: Numbers, shear_length: Numbers) -> Sheet:
    """Begin with every strength that `all_together` sets forces against, see `interaction`."""
    sheet = begun(pipe)
    column_strength(sheet, length)
    bending_strength(sheet)
    shear_strength(sheet, shear_length)
    twisting_strength(sheet, length)
    return sheet


def all_together(sheet: Sheet, pipe: RoundPipe, forces: Forces) -> Check:
    """Go on from `all_strengths`, axial force `N` and bending `My` with all of the forces."""
    sheet.given("Mz", "bending about z", forces.Mz, "N m")
    sheet.work("M", "bending, resultant", "sqrt(My^2 + Mz^2)", "N m")
    sheet.given("Vy", "shear along y", forces.Vy, "N")
    sheet.given("Vz", "shear along z", forces.Vz, "N")
    sheet.work("V", "shear, resultant", "sqrt(Vy^2 + Vz^2)", "N")
    sheet.given("T", "torque", forces.T, "N m")
    sheet.given("Fu", "tensile strength", pipe.Fu, "Pa")
    axial = "min(Fy*A/{0:g}, Fu*A/{1:g}) if N > 0 else Pn/{0:g}"
    allowed = axial.format(pipe.safety, pipe.rupture_safety)
    sheet.work("Pc", "axial force allowed", allowed, "N", "AISC 360-22 D2, E1")
    sheet.work("p", "share of axial force", "abs(N)/Pc", "")
    sheet.work("m", "share of bending", f"M/(Mn/{pipe.safety:g})", "")
    sheet.work("v", "share of shear", f"V/(Vn/{pipe.safety:g})", "")
    sheet.work("w", "share of torque", f"abs(T)/(Tn/{pipe.safety:g})", "")
    source = "AISC 360-22 Eq. H3-6, H1-1a, H1-1b, G1"
    use = np.asarray(sheet.work("U", "use, all together", ALL, "", source))
    gone = Sheet(
        Step("p", "", "", sheet.value(f"abs(N)/({axial.format(1, 1)})"), ""),
        Step("m", "", "", sheet.value("M/Mn"), ""),
        Step("v", "", "", sheet.value("V/Vn"), ""),
        Step("w", "", "", sheet.value("abs(T)/Tn"), ""),
    ).value(ALL)
    with np.errstate(divide="ignore", over="ignore"):
        # Torque by itself, over a fifth of what is allowed and under one of the strength: endless.
        nominal = np.divide(use, gone, out=np.full_like(use, pipe.safety), where=use > 0)
    return Check(
        name=LimitState.INTERACTION,
        demand=use,
        allowable=1.0,
        nominal=nominal,
        unit="",
        source="AISC 360-22 G5, H1, H3.2",
        steps=tuple(sheet.steps),
        covered=pipe.covered,
    )


def _check(
    name: LimitState, sheet: Sheet, pipe: RoundPipe, symbols: tuple[str, str, str], source: str
) -> Check:
    """End with the use; `symbols` of demand and allowable, and what the nominal strength is."""
    demand, allowable, nominal = symbols
    unit = next(step.unit for step in sheet.steps if step.symbol == demand)
    sheet.use("U", "use", demand, allowable)
    return Check(
        name=name,
        demand=sheet[demand],
        allowable=sheet[allowable],
        nominal=sheet.value(nominal),
        unit=unit,
        source=source,
        steps=tuple(sheet.steps),
        covered=pipe.covered,
    )
