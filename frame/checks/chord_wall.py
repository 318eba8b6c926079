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

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step, over
from frame.units import KSI

PLASTIFY_FACTOR, PUNCH_FACTOR = 1.67, 1.58
MOST_YIELD = 52 * KSI
"""Yield stress beyond which the tables do not hold [Pa]."""

CHORD_LEFT = "max(1 - 0.3*fc/(0.6*Fy)*(1 + fc/(0.6*Fy)), 0)"
"""Step for `chord_factor` at allowable strength."""

Three = tuple[Numbers, Numbers, Numbers]

SOURCE = "AISC 360-22 Tables K3.1, K4.1, Eq. K4-8 (from memory of the standard)"
WIDE_SOURCE = (
    "AISC 360-22 Tables K2.1, K3.1, K4.1, Eq. K4-8 (from memory of the standard); a branch wider "
    "than its chord counts as one as wide, and no more than one saddle line (judgement)"
)
SQUARE = 1 - 1e-9
"""Least sine of the angle at which a branch counts as square to its chord."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundJoint:
    """A branch welded to a chord at `angle` between their axes [rad].

    Diameters and walls are those counted on (design wall) [m]. `chord_yield`, `chord_tensile` and
    `branch_yield` [Pa] as counted beside a weld: no more than 35 ksi for steel of unknown make.
    `to_end` is the clear distance from the branch to the open end of the chord [m]. `crossed`:
    another branch pushes from the other side at the same place, so the lesser of the T and the
    cross joint counts.
    """

    chord_od: Numbers
    chord_wall: Numbers
    branch_od: Numbers
    branch_wall: Numbers
    chord_yield: Numbers
    chord_tensile: Numbers
    branch_yield: Numbers
    angle: Numbers = np.pi / 2
    to_end: Numbers = np.inf
    crossed: bool = False

    @property
    def counted(self) -> Numbers:
        """Branch diameter counted on [m]: no more than the chord's."""
        return np.minimum(self.branch_od, self.chord_od)

    @property
    def beta(self) -> Numbers:
        """Branch over chord diameter [1], as counted."""
        return self.counted / self.chord_od

    @property
    def wide(self) -> npt.NDArray[np.bool_]:
        """Whether the branch is wider than the chord."""
        return np.asarray(self.branch_od > self.chord_od)

    @property
    def gamma(self) -> Numbers:
        """Chord radius over its wall [1]."""
        return self.chord_od / (2 * self.chord_wall)


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchLoads:
    """What the branch brings: `axial` [N], moments in and out of the joint's plane [N m].

    `chord_stress` is the chord's own compressive stress at the joint, axial and bending together
    [Pa], the larger side; tension counts as nil.
    """

    axial: Numbers
    in_plane: Numbers
    out_of_plane: Numbers
    chord_stress: Numbers = 0.0


def covered(joint: RoundJoint, young: float = 200e9) -> npt.NDArray[np.bool_]:
    """Whether the joint lies within Tables K3.1A and K4.1A (from memory of the standard).

    30 deg <= angle <= 90 deg; 0.2 < Db/D, above 1 only square to the chord (judgement); D/t <= 50;
    Db/tb <= 50 and <= 0.05 E/Fyb; Fy <= 52 ksi; Fy/Fu <= 0.8; distance to the chord's end
    >= D (1.25 - beta/2).
    """
    slim = joint.branch_od / joint.branch_wall
    inside = (
        (np.sin(joint.angle) >= 0.5 * (1 - 1e-9)),
        (joint.beta > 0.2),
        (~joint.wide | (np.sin(joint.angle) >= SQUARE)),
        (2 * joint.gamma <= 50),
        (slim <= 50),
        (slim <= 0.05 * young / joint.branch_yield),
        (np.maximum(joint.chord_yield, joint.branch_yield) <= MOST_YIELD),
        (joint.chord_yield <= 0.8 * joint.chord_tensile),
        (joint.to_end >= joint.chord_od * (1.25 - joint.beta / 2)),
    )
    all_hold: npt.NDArray[np.bool_] = np.logical_and.reduce(np.broadcast_arrays(*inside))
    return all_hold


def chord_factor(stress: Numbers, full: Numbers) -> Numbers:
    """Qf [1]: what the chord's own compression leaves, 1 - 0.3 U (1 + U), U = stress / full.

    AISC Eq. K2-4 with `full` = 0.60 Fy at allowable, Fy at nominal strength; 1 in tension, never
    below 0. U counts the more compressed side of the joint, the standard the less compressed one.
    """
    U = np.maximum(stress, 0.0) / full
    factor: Numbers = np.maximum(1 - 0.3 * U * (1 + U), 0.0)
    return factor


def chord_wall(loads: BranchLoads, joint: RoundJoint, young: float = 200e9) -> Check:
    """Check the chord wall under axial force and both moments of a branch together.

    |P|/Pc + (Mi/Mic)^2 + Mo/Moc <= 1, each strength the lesser of plastification and punching.
    Not covered outside the limits (see `covered`). How a branch wider than its chord is counted
    stands at the head of this file.
    """
    Qa = chord_factor(loads.chord_stress, 0.6 * joint.chord_yield)
    Qn = chord_factor(loads.chord_stress, joint.chord_yield)
    plastic, punched = _plastification(joint), _punching(joint)
    allowed = _lesser(joint, plastic, punched, (Qa / PLASTIFY_FACTOR, 1 / PUNCH_FACTOR))
    loaded = tuple(np.abs(x) for x in (loads.axial, loads.in_plane, loads.out_of_plane))
    use = _together(loaded, allowed)
    gone = _together(loaded, _lesser(joint, plastic, punched, (Qn, 1.0)))
    with np.errstate(divide="ignore", invalid="ignore"):
        nominal = np.where(np.isfinite(use) & (gone > 0), np.divide(use, gone), PLASTIFY_FACTOR)
    steps = (
        *_strength_steps(joint, plastic, punched),
        *_load_steps(loads, loaded, Qa),
        *_use_steps(allowed, use),
    )
    return Check(
        name="chord wall",
        demand=use,
        allowable=1.0,
        nominal=nominal,
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


def _lesser(
    joint: RoundJoint, plastic: Three, punched: Three, share: tuple[Numbers, Numbers]
) -> Three:
    """Lesser of both at their factors; a branch as wide as the bore cannot punch through."""
    can_punch = joint.counted < joint.chord_od - 2 * joint.chord_wall
    first, second, third = (
        np.where(can_punch, np.minimum(a * share[0], b * share[1]), a * share[0])
        for a, b in zip(plastic, punched, strict=True)
    )
    return first, second, third


def _together(loads: tuple[Numbers, ...], strength: Three) -> Numbers:
    """AISC Eq. K4-8; infinite where a load meets no strength."""
    axial, in_plane, out = (over(load, most) for load, most in zip(loads, strength, strict=True))
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


def _load_steps(loads: BranchLoads, loaded: tuple[Numbers, ...], Qa: Numbers) -> tuple[Step, ...]:
    P, Mi, Mo = loaded
    fc = np.maximum(loads.chord_stress, 0.0)
    return (
        Step("P", "axial force of the branch", "", P, "N"),
        Step("Mi", "its moment in the plane", "", Mi, "N m"),
        Step("Mo", "its moment out of the plane", "", Mo, "N m"),
        Step("fc", "compression in the chord", "", fc, "Pa"),
        Step("Q", "share left by it", CHORD_LEFT, Qa, "", "K2-4"),
    )


def _use_steps(allowed: Three, use: Numbers) -> tuple[Step, ...]:
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
            f"allowable, {words}",
            f"min(Q*{x}1/{PLASTIFY_FACTOR}, {x}2/{PUNCH_FACTOR}) if Db < D - 2*t "
            f"else Q*{x}1/{PLASTIFY_FACTOR}",
            value,
            unit,
        )
        for x, words, unit, value in parts
    )
    together = "P/Pa + (Mi/Ia)^2 + Mo/Oa"
    return (*strengths, Step("use", "use of the chord wall", together, use, "", "K4-8"))
