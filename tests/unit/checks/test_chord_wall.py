"""The chord wall at round T and Y joints: limits, limits to zero, step by step."""

import numpy as np
import pytest

from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.round_joint import BranchLoads, RoundJoint, covered, out_of_plane
from frame.checks.welds.wall_use import chord_factor
from frame.units import KSI
from tests.step_check import assert_steps

KNEE = {
    "chord_od": 0.1143,
    "chord_wall": 0.0056,
    "branch_od": 0.0603,
    "branch_wall": 0.0036,
    "chord_yield": 35 * KSI,
    "chord_tensile": 60 * KSI,
    "branch_yield": 35 * KSI,
    "angle": np.pi / 4,
}


def joint(**change):
    return RoundJoint(**{**KNEE, **change})


@pytest.mark.parametrize(
    "change",
    [
        {"angle": np.radians(29)},
        {"branch_od": 0.02},
        {"branch_od": 0.15},  # wider than the chord, and slanting
        {"chord_wall": 0.002},
        {"branch_wall": 0.001},
        {"chord_yield": 55 * KSI, "chord_tensile": 75 * KSI},
        {"chord_tensile": 40 * KSI},
        {"to_end": 0.05},
    ],
)
def test_outside_the_limits_there_is_no_number(change):
    assert covered(joint())
    assert not covered(joint(**change))
    check = chord_wall(BranchLoads(axial=1e3, in_plane=10.0, out_of_plane=10.0), joint(**change))
    assert np.isnan(check.utilisation)


def test_the_end_of_the_chord_is_far_enough_off_from_where_the_table_says():
    """AISC 360-22 Table K3.1A (from memory): D (1.25 - beta / 2), here 4.5 in. and beta 0.528."""
    least = 4.5 * (1.25 - 0.0603 / 0.1143 / 2) * 0.0254
    assert covered(joint(to_end=1.001 * least))
    assert not covered(joint(to_end=0.999 * least))


def test_a_branch_wider_than_the_chord_is_no_stronger_than_one_as_wide():
    square = {"angle": np.pi / 2, "branch_wall": 0.006}
    loads = BranchLoads(axial=1e4, in_plane=900.0, out_of_plane=-300.0, chord_stress=5e7)
    even = chord_wall(loads, joint(branch_od=0.1143, **square))
    for wider in (0.115, 0.14, 0.2):
        check = chord_wall(loads, joint(branch_od=wider, **square))
        assert check.covered
        assert even.utilisation <= check.utilisation < 1.1 * even.utilisation
        assert "judgement" in check.source
        assert_steps(check)


def test_steps_of_branches_on_both_sides_of_the_chord_width():
    diameters = np.array([0.08, 0.1143, 0.13])
    loads = BranchLoads(axial=1e4, in_plane=900.0, out_of_plane=-300.0)
    check = chord_wall(loads, joint(branch_od=diameters, angle=np.pi / 2, branch_wall=0.006))
    assert np.all(check.covered)
    for index in range(3):
        assert_steps(check, index)


def test_chord_factor_ends():
    """1 in tension and at rest, 0.4 at a fully used chord: 1 - 0.3 * 1 * 2."""
    stress = np.array([-1e8, 0.0, 1e8, 3e8])
    assert chord_factor(stress, 1e8) == pytest.approx([1.0, 1.0, 0.4, 0.0])


def test_no_load_no_use():
    check = chord_wall(BranchLoads(axial=0.0, in_plane=0.0, out_of_plane=0.0), joint())
    assert check.utilisation == 0
    assert check.let_go == 0


def test_axial_alone_is_its_ratio():
    check = chord_wall(BranchLoads(axial=-5e3, in_plane=0.0, out_of_plane=0.0), joint())
    assert check.utilisation == pytest.approx(5e3 / check.extra["axial"])
    assert check.utilisation / check.let_go == pytest.approx(1.67)


def test_let_go_counts_the_chord_at_its_full_yield():
    """By hand: fc = 0.6 Fy leaves 0.4 at allowable, 1 - 0.3 x 0.6 x 1.6 = 0.712 at nominal."""
    loads = BranchLoads(axial=5e3, in_plane=0.0, out_of_plane=0.0, chord_stress=21 * KSI)
    check = chord_wall(loads, joint(chord_wall=0.0036))
    assert check.utilisation / check.let_go == pytest.approx(1.67 * 0.712 / 0.4)


def test_where_nothing_is_allowed_the_nominal_use_is_solved_by_itself():
    """By hand: fc = 0.9 Fy leaves 0 at allowable, 1 - 0.3 x 0.9 x 1.9 = 0.487 at nominal.

    P = Fy t^2 (3.1 + 15.6 b^2) g^0.2 / s, with b = 60.3/114.3 and g = 114.3/7.2 (Table K3.1).
    """
    check = chord_wall(
        BranchLoads(axial=5e3, in_plane=0.0, out_of_plane=0.0, chord_stress=31.5 * KSI),
        joint(chord_wall=0.0036),
    )
    b, g = 60.3 / 114.3, 114.3 / 7.2
    P = 35 * KSI * 0.0036**2 * (3.1 + 15.6 * b**2) * g**0.2 / np.sin(np.pi / 4)
    assert check.utilisation == np.inf
    assert check.let_go == pytest.approx(5e3 / (0.487 * P))
    idle = BranchLoads(axial=0.0, in_plane=0.0, out_of_plane=0.0, chord_stress=31.5 * KSI)
    assert chord_wall(idle, joint()).let_go == 0


def test_squeezed_past_its_yield_the_chord_counts_as_at_its_yield():
    """1 - 0.3 x 1 x 2 = 0.4: past it the chord itself has gone, which its own check tells."""
    at, past = (
        chord_wall(
            BranchLoads(axial=5e3, in_plane=9.0, out_of_plane=9.0, chord_stress=f * 35 * KSI),
            joint(),
        ).let_go
        for f in (1.0, 1.8)
    )
    assert past == pytest.approx(at)


def test_expected_strength_is_the_nominal_one_at_what_is_expected():
    loads = BranchLoads(axial=2e4, in_plane=600.0, out_of_plane=200.0, chord_stress=8e7)
    tested = np.array([0.9, 1.2, 1.5])
    made = chord_wall(loads, joint(chord_wall=np.array([0.0054, 0.0056, 0.0058])), expected=tested)
    assert made.utilisation == pytest.approx(made.let_go)
    same = chord_wall(loads, joint(), expected=1.0)
    assert same.utilisation == pytest.approx(chord_wall(loads, joint()).let_go)
    assert np.all(np.diff(made.let_go) < 0)
    for index in range(3):
        assert_steps(made, index)


def test_lets_go_later_than_allowed():
    loads = BranchLoads(axial=2e4, in_plane=600.0, out_of_plane=200.0, chord_stress=8e7)
    check = chord_wall(loads, joint())
    assert 0 < check.let_go < check.utilisation


@pytest.mark.parametrize("branch_od", [0.0603, 0.1143])
def test_steps(branch_od):
    axial = np.array([0.0, -2e4, 9e4])
    loads = BranchLoads(axial=axial, in_plane=600.0, out_of_plane=-200.0, chord_stress=6e7)
    check = chord_wall(loads, joint(branch_od=branch_od, chord_wall=0.0036))
    for index in range(3):
        assert_steps(check, index)


def test_steps_where_punching_governs():
    check = chord_wall(
        BranchLoads(axial=2e4, in_plane=100.0, out_of_plane=50.0),
        joint(branch_od=0.09, chord_wall=0.011, angle=np.pi / 2, chord_yield=240e6),
    )
    punching = 0.6 * 240e6 * 0.011 * np.pi * 0.09 / 1.58
    assert check.extra["axial"] == pytest.approx(punching)
    assert_steps(check)


@pytest.mark.parametrize("degrees", [30, 45, 70, 90])
def test_a_torque_bends_the_wall_by_its_part_about_the_chord(degrees):
    """Vectors: branch along (cos, 0, sin), chord along x; M square to the branch."""
    a = np.radians(degrees)
    torque = 70.0 * np.array([np.cos(a), 0.0, np.sin(a)])
    moment = 110.0 * np.array([np.sin(a), 0.0, -np.cos(a)])
    about_chord = float((torque + moment)[0])
    assert out_of_plane(-110.0, 70.0, a) * np.sin(a) == pytest.approx(about_chord)
