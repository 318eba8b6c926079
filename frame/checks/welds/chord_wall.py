"""The wall of a pipe (chord) where another pipe (branch) is welded to it: T, Y and cross joints.

AISC 360-22 Tables K3.1 (axial) and K4.1 (moments): chord plastification and punching, with the
chord's own stress (Qf) and the three loads together (Eq. K4-8); limits of Tables K3.1A and K4.1A.
From memory of the standard; the same forms stand in EN 1993-1-8 Tables 7.2 and 7.5, against which
they are tested. Lengths m, forces N, moments N m, stresses Pa, angles rad; numbers or arrays.

A branch wider than its chord and square to it (a sleeve on a thinner beam) is outside
those tables. Judgement: it meets the chord in two saddle lines, each as wide as the chord. Every
point of them lies as far from the chord's middle plane as on a branch of the chord's own diameter,
and further out along the chord, so it is no weaker than beta = 1. One line alone is a transverse
plate as wide as the chord (Table K2.1: 5.5 Fy t^2 / (1 - 0.81 Bp/D), 0.5 Bp of that out of plane,
from memory of the standard; EN 1993-1-8 Table 7.3 has 8 % less for one line, and there are two).
The lesser of both counts for axial force and out of plane; in plane the two lines, a diameter
apart, always make the larger couple.
"""

import numpy as np

from frame.checks.check import Check, Numbers, Step, demand_over
from frame.checks.welds.round_joint import BranchLoads, RoundJoint, covered
from frame.checks.welds.wall_use import PLASTIFY_FACTOR, PUNCH_FACTOR, Shares, WallUse, wall_use
from frame.named.limit_state import LimitState

Three = tuple[Numbers, Numbers, Numbers]

SOURCE = "AISC 360-22 Tables K3.1, K4.1, Eq. K4-8 (from memory of the standard)"
WIDE_SOURCE = (
    "AISC 360-22 Tables K2.1, K3.1, K4.1, Eq. K4-8 (from memory of the standard); a branch wider "
    "than its chord counts as one as wide, and no more than one saddle line (judgement)"
)


def chord_wall(
    loads: BranchLoads, joint: RoundJoint, young: float = 200e9, expected: Numbers | None = None
) -> Check:
    """Check the chord wall under axial force and both moments of a branch together.

    |P|/Pc + (Mi/Mic)^2 + Mo/Moc <= 1, each strength the lesser of plastification and punching.
    Not covered outside the limits (see `covered`). How a branch wider than its chord is counted
    stands at the head of this file. With `expected`, tested over nominal strength [1], the use is
    that of the strength to expect of the walls and yields of `joint`, without safety factors.
    """
    plastic, punched = _plastification(joint), _punching(joint)
    loaded = tuple(np.abs(x) for x in (loads.axial, loads.in_plane, loads.out_of_plane))

    def together(shares: Shares) -> Numbers:
        return _together(loaded, _lesser(joint, plastic, punched, shares))

    used = wall_use(together, loads.chord_stress, joint.chord_yield, expected)
    allowed = _lesser(joint, plastic, punched, used.shares)
    steps = (
        *_strength_steps(joint, plastic, punched),
        *_load_steps(loads, loaded),
        *_use_steps(allowed, used),
    )
    return Check(
        name=LimitState.CHORD_WALL,
        demand=used.demand,
        allowable=used.allowable,
        nominal=used.nominal,
        unit="",
        source=WIDE_SOURCE if np.any(joint.wide) else SOURCE,
        covered=covered(joint, young),
        note="outside the limits of the tables the standard gives no strength",
        steps=steps,
        extra=dict(zip(("axial", "in plane", "out of plane"), allowed, strict=True)),
    )


def _plastification(joint: RoundJoint) -> Three:
    """Nominal strength at Qf = 1: axial [N], in plane, out of plane [N m]."""
    t, Db, Fy = joint.chord_wall, joint.counted, joint.chord_yield
    s, b, g = np.sin(joint.angle), joint.beta, joint.gamma
    slope = 1 - 0.81 * b
    axial = (3.1 + 15.6 * b**2) * g**0.2
    if joint.crossed:
        axial = np.minimum(axial, 5.7 / slope)
    axial = np.where(joint.wide, np.minimum(axial, 5.5 / slope), axial)
    out = np.where(joint.wide, np.minimum(3.0, 0.5 * 5.5), 3.0)
    return (
        Fy * t**2 * axial / s,
        5.39 * Fy * t**2 * g**0.5 * b * Db / s,
        Fy * t**2 * Db * out / slope / s,
    )


def _punching(joint: RoundJoint) -> Three:
    """Nominal strength against the branch shearing out of the wall, as `_plastification`."""
    t, Db, Fy, s = joint.chord_wall, joint.counted, joint.chord_yield, np.sin(joint.angle)
    return (
        0.6 * Fy * t * np.pi * Db * (1 + s) / (2 * s**2),
        0.6 * Fy * t * Db**2 * (1 + 3 * s) / (4 * s**2),
        0.6 * Fy * t * Db**2 * (3 + s) / (4 * s**2),
    )


def _lesser(joint: RoundJoint, plastic: Three, punched: Three, share: Shares) -> Three:
    """Lesser of both at their shares; a branch as wide as the bore cannot punch through."""
    can_punch = joint.counted < joint.chord_od - 2 * joint.chord_wall
    first, second, third = (
        np.where(can_punch, np.minimum(a * share[0], b * share[1]), a * share[0])
        for a, b in zip(plastic, punched, strict=True)
    )
    return first, second, third


def _together(loads: tuple[Numbers, ...], strength: Three) -> Numbers:
    """AISC Eq. K4-8; infinite where a load meets no strength."""
    axial, in_plane, out = (
        demand_over(load, most) for load, most in zip(loads, strength, strict=True)
    )
    total: Numbers = axial + in_plane**2 + out
    return total


def _strength_steps(joint: RoundJoint, plastic: Three, punched: Three) -> tuple[Step, ...]:
    P1, I1, O1 = plastic
    P2, I2, O2 = punched
    axial, out, slope = "(3.1 + 15.6*b^2)*g^0.2", "3", "(1 - 0.81*b)"
    if joint.crossed:
        axial = f"min({axial}, 5.7/{slope})"
    branch: tuple[Step, ...] = (Step("Db", "diameter of the branch", "", joint.branch_od, "m"),)
    if np.any(joint.wide):
        branch = (
            Step("Ds", "diameter of the branch", "", joint.branch_od, "m"),
            Step("Db", "counted as no wider than the chord", "min(Ds, D)", joint.counted, "m"),
        )
        line, both = f"min({axial}, 5.5/{slope})", np.all(joint.wide)
        axial = line if both else f"({line} if Ds > D else {axial})"
        out = "min(3, 0.5*5.5)" if both else "(min(3, 0.5*5.5) if Ds > D else 3)"
    return (
        Step("D", "diameter of the chord", "", joint.chord_od, "m"),
        Step("t", "wall of the chord", "", joint.chord_wall, "m"),
        *branch,
        Step("Fy", "yield stress of the chord", "", joint.chord_yield, "Pa"),
        Step("angle", "between branch and chord", "", joint.angle, "rad"),
        Step("s", "sine of the angle", "sin(angle)", np.sin(joint.angle), ""),
        Step("b", "branch over chord", "Db/D", joint.beta, ""),
        Step("g", "radius over wall", "D/(2*t)", joint.gamma, ""),
        Step("P1", "wall yields", f"Fy*t^2*{axial}/s", P1, "N", "K3.1"),
        Step("I1", "same, in plane", "5.39*Fy*t^2*sqrt(g)*b*Db/s", I1, "N m", "K4.1"),
        Step("O1", "same, out of plane", f"Fy*t^2*Db*{out}/{slope}/s", O1, "N m", "K4.1"),
        Step("P2", "punching", "0.6*Fy*t*pi*Db*(1 + s)/(2*s^2)", P2, "N", "K3.1"),
        Step("I2", "same, in plane", "0.6*Fy*t*Db^2*(1 + 3*s)/(4*s^2)", I2, "N m", "K4.1"),
        Step("O2", "same, out of plane", "0.6*Fy*t*Db^2*(3 + s)/(4*s^2)", O2, "N m", "K4.1"),
    )


def _load_steps(loads: BranchLoads, loaded: tuple[Numbers, ...]) -> tuple[Step, ...]:
    P, Mi, Mo = loaded
    fc = np.maximum(loads.chord_stress, 0.0)
    return (
        Step("P", "axial force of the branch", "", P, "N"),
        Step("Mi", "its moment in the plane", "", Mi, "N m"),
        Step("Mo", "its moment out of the plane", "", Mo, "N m"),
        Step("fc", "compression in the chord", "", fc, "Pa"),
    )


def _use_steps(allowed: Three, used: WallUse) -> tuple[Step, ...]:
    kind, yielding = "allowable", f"Q*{{}}1/{PLASTIFY_FACTOR}"
    punching = f"{{}}2/{PUNCH_FACTOR}"
    if used.expected is not None:
        kind, yielding, punching = "expected", "m*Q*{}1", "m*{}2"
    parts = zip(
        ("P", "I", "O"),
        ("axial", "in plane", "out of plane"),
        ("N", "N m", "N m"),
        allowed,
        strict=True,
    )
    strengths = (
        Step(
            f"{x}a",
            f"{kind}, {words}",
            f"min({yielding.format(x)}, {punching.format(x)}) if Db < D - 2*t "
            f"else {yielding.format(x)}",
            value,
            unit,
        )
        for x, words, unit, value in parts
    )
    return (
        used.left_step,
        *used.tested_steps,
        *strengths,
        Step("use", "use of the chord wall", "P/Pa + (Mi/Ia)^2 + Mo/Oa", used.use, "", "K4-8"),
    )
