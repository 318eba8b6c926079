"""Round joints against EN 1993-1-8:2005 Tables 7.2, 7.3, 7.5 and Eq. 7.3, another code's text.

The European design resistance holds a partial factor of 1.0; AISC's LRFD strength is phi times
nominal with phi = 0.90 (plastification) and 0.95 (punching) and ASD 1.67 and 1.58 (1.5 / phi up to
rounding). Both codes fit the same tests, so phi Rn must agree to 2 %.
"""

import numpy as np
import pytest

from frame.checks.fasteners.sleeve import BearingWall, Couple, wall_bearing
from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.lug_wall import LugPull, LugWall, lug_wall
from frame.checks.welds.round_joint import MOST_YIELD, BranchLoads, RoundJoint, yield_in_tables
from tests.step_check import assert_steps

PHI_OVER_ALLOWABLE = 0.90 * 1.67
PHI_OVER_ALLOWABLE_PUNCHING = 0.95 * 1.58
FY = 240e6


def european(D, t, d, Fy, angle, n=0.0):
    """Resistances N, M in plane, M out of plane as EN 1993-1-8 prints them: wall, punching."""
    g, b, s = D / 2 / t, d / D, np.sin(angle)
    kp = 1 - 0.3 * n * (1 + n)
    wall = (
        g**0.2 * kp * Fy * t**2 / s * (2.8 + 14.2 * b**2),
        4.85 * Fy * t**2 * d / s * np.sqrt(g) * b * kp,
        Fy * t**2 * d / s * 2.7 / (1 - 0.81 * b) * kp,
    )
    shear = Fy / np.sqrt(3) * t
    punching = (
        shear * np.pi * d * (1 + s) / (2 * s**2),
        shear * d**2 * (1 + 3 * s) / (4 * s**2),
        shear * d**2 * (3 + s) / (4 * s**2),
    )
    return wall, punching


def at_allowable(D, t, d, Fy, angle, n=0.0):
    """The lesser of wall and punching of `european`, brought from design to allowable."""
    wall, punching = european(D, t, d, Fy, angle, n)
    through = 1.0 if d < D - 2 * t else np.inf
    return [
        min(plastic / PHI_OVER_ALLOWABLE, punched * through / PHI_OVER_ALLOWABLE_PUNCHING)
        for plastic, punched in zip(wall, punching, strict=True)
    ]


def pushed(D, t, d, branch_wall=0.004, **more):
    """Check of the chord's wall under a branch that pushes with 1 N."""
    joint = RoundJoint(
        chord_od=D,
        chord_wall=t,
        branch_od=d,
        branch_wall=branch_wall,
        chord_yield=FY,
        chord_tensile=400e6,
        branch_yield=FY,
        **more,
    )
    return chord_wall(BranchLoads(axial=1.0, in_plane=0.0, out_of_plane=0.0), joint)


@pytest.mark.parametrize("angle", np.radians([30, 45, 60, 90]))
@pytest.mark.parametrize(
    ("D", "t", "d"),
    [
        (0.1143, 0.0056, 0.0603),
        (0.0889, 0.0051, 0.0732),
        (0.1143, 0.003, 0.1143),
        (0.0889, 0.011, 0.0483),
    ],
)
def test_strengths(D, t, d, angle):
    check = pushed(D, t, d, angle=angle)
    assert check.covered
    ours, theirs = check.extra.values(), at_allowable(D, t, d, FY, angle)
    assert list(ours) == pytest.approx(theirs, rel=0.02)


@pytest.mark.parametrize("d", [0.05, 0.0603, 0.08, 0.1])
def test_cross_joint(d):
    """Table 7.2, X joints: 5.2 / (1 - 0.81 beta) kp fy t^2 / sin, where less than a T joint's."""
    D, t = 0.1143, 0.0056
    check = pushed(D, t, d, crossed=True)
    cross = 5.2 / (1 - 0.81 * d / D) * FY * t**2 / PHI_OVER_ALLOWABLE
    both = min(cross, at_allowable(D, t, d, FY, np.pi / 2)[0])
    assert check.extra["axial"] == pytest.approx(both, rel=0.02)
    assert_steps(check)


@pytest.mark.parametrize("t", [0.003, 0.0056, 0.008])
@pytest.mark.parametrize("d", [0.12, 0.15, 0.22])
def test_branch_wider_than_the_chord(d, t):
    """A saddle line is a transverse plate as wide as the chord, EN 1993-1-8 Table 7.3.

    N = (4 + 20 beta^2) fy t^2 = 24 fy t^2, M out of plane = 0.5 b N, none in plane for one line;
    two lines carry twice that, and in plane N times what they lie apart at their nearest, on the
    sides of the chord. What is counted lies between one line and two; nor is it more than a
    branch as wide as the chord takes by Tables 7.2 and 7.5.
    """
    D = 0.1143
    check = pushed(D, t, d, branch_wall=0.006)
    assert check.covered
    N, Mi, Mo = (PHI_OVER_ALLOWABLE * x for x in check.extra.values())
    plate = 24 * FY * t**2
    assert plate <= N <= 2 * plate
    assert 0.5 * D * plate <= Mo <= D * plate
    if d > 1.5 * D:
        assert Mi <= plate * np.sqrt(d**2 - D**2)
    as_wide, _ = european(D, t, D, FY, np.pi / 2)
    assert all(x <= 1.02 * y for x, y in zip((N, Mi, Mo), as_wide, strict=True))


def test_chord_stress_and_interaction():
    """kp of Table 7.2 at half the chord's strength, and the sum of Eq. 7.3."""
    joint = RoundJoint(
        chord_od=0.1143,
        chord_wall=0.0056,
        branch_od=0.0603,
        branch_wall=0.004,
        chord_yield=FY,
        chord_tensile=400e6,
        branch_yield=FY,
    )
    N, Mi, Mo = at_allowable(0.1143, 0.0056, 0.0603, FY, np.pi / 2, n=0.5)
    loads = BranchLoads(
        axial=0.3 * N, in_plane=0.5 * Mi, out_of_plane=0.2 * Mo, chord_stress=0.5 * 0.6 * FY
    )
    assert chord_wall(loads, joint).utilisation == pytest.approx(0.3 + 0.25 + 0.2, rel=0.02)


@pytest.mark.parametrize(("D", "t", "long"), [(0.1143, 0.0056, 0.0762), (0.1413, 0.006, 0.12)])
def test_wall_under_a_lug(D, t, long):
    """Table 7.3, longitudinal plate: N = 5 kp fy t^2 (1 + 0.25 eta), M in plane = h N, ours 0.8 h.

    Out of plane it gives nothing: two strips of wall beside the lug, Z = l t^2 / 4 each.
    """
    n = 0.5
    kp = 1 - 0.3 * n * (1 + n)
    N = 5 * kp * FY * t**2 * (1 + 0.25 * long / D)
    wall = LugWall(od=D, wall=t, length=long, arm=long / 2, yield_stress=FY, tensile=400e6)
    stress = n * 0.6 * FY
    normal, along, side = (
        lug_wall(LugPull(*load), wall, stress).utilisation / PHI_OVER_ALLOWABLE
        for load in ((1e3, 0, 0), (0, 1e3, 0), (0, 0, 1e3))
    )
    assert normal == pytest.approx(1e3 / N, rel=0.02)
    assert along == pytest.approx(1e3 * long / 2 / (0.8 * long * N), rel=0.02)
    strips = 2 * 0.9 * kp * FY * long * t**2 / 4
    assert side == pytest.approx(1e3 * long / 2 / strips, rel=0.02)
    together = lug_wall(LugPull(-2e3, 3e3, -4e3), wall, stress)
    assert together.utilisation / PHI_OVER_ALLOWABLE == pytest.approx(
        2 * normal + 3 * along + 4 * side
    )
    assert_steps(together)


def test_wall_under_a_longitudinal_line():
    """Table 7.3, plate along a round chord: 5 Fy t^2 (1 + 0.25 h/d), h a third of the sleeve."""
    wall = BearingWall(od=0.1143, wall=0.0056, yield_stress=240e6, open_end=False)
    check = wall_bearing(Couple(moment=1.0, shear=0.0, length=0.15), wall)
    assert 0.90 * check.nominal == pytest.approx(
        5 * 240e6 * 0.0056**2 * (1 + 0.25 * 0.05 / 0.1143), rel=0.02
    )


@pytest.mark.parametrize(
    ("steel", "eurocode"), [(355e6, 355e6), (379e6, 0.9 * 379e6), (552e6, 0.8 * 552e6)]
)
def test_stronger_steel_counts_for_no_more(steel: float, eurocode: float) -> None:
    """Walls of steel beyond the tables count for no more than EN 1993 takes of them.

    Nothing taken off up to 355 MPa, 0.9 of the resistance up to 460 (EN 1993-1-8 7.1.1), 0.8 up
    to 700 (EN 1993-1-12): from memory of the standards. The steels are those of structural pipe
    and of casing J-55 and N-80.
    """
    counted = float(yield_in_tables(steel))
    assert counted <= eurocode
    assert counted >= 0.8 * eurocode
    assert counted <= MOST_YIELD
