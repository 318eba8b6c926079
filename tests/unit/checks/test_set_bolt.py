"""Grip of set bolts: statics of several bolts, yield lines under a point, friction by hand."""

import numpy as np
import pytest

from frame.checks.check import Kind
from frame.checks.fasteners.set_bolt import (
    EXPECTED_TOP_FRICTION,
    TOP_FRICTION,
    Grip,
    expected_set_bolt_grip,
    set_bolt_grip,
)
from frame.units import FT_LB, IN_LB, INCH, KSI, LB
from tests.step_check import assert_steps, printed

HALF_INCH = {
    "count": 1,
    "diameter": 0.5 * INCH,
    "torque": 30 * FT_LB,
    "seating_torque": 620 * IN_LB,
    "holding": 1500 * LB,
    "post_od": 4.5 * INCH,
    "post_wall": 0.237 * INCH,
    "post_yield": 35 * KSI,
}


def low(grip: Grip) -> float:
    """Least torque about the post that slips the sleeve [N m]."""
    return float(set_bolt_grip(1.0, grip).nominal)


def test_half_inch_bolt_by_hand():
    """By hand: 360/620 of 1500 lb at 2.25 in is 1960 in-lb; of 3600 lb of thrust 0.5 is 4050."""
    grip = Grip(**HALF_INCH)
    assert low(grip) == pytest.approx(1960 * IN_LB, rel=1e-3)
    assert expected_set_bolt_grip(1.0, grip, 0.5).nominal == pytest.approx(4050 * IN_LB, rel=1e-3)


def test_torque_beyond_the_table_adds_nothing():
    """A wall thick enough not to dent: 1500 lb at 2.25 in, whatever the torque."""
    thick = {**HALF_INCH, "post_wall": 0.5 * INCH, "torque": 200 * FT_LB}
    assert low(Grip(**thick)) == pytest.approx(3375 * IN_LB, rel=1e-9)


def held(directions) -> float:
    """Friction of equal thrusts and of the far wall that balances them, over that of one thrust.

    Each thrust P rubs at its point; the far wall presses back with their vector sum and rubs as
    hard at the same coefficient: n P + |sum| against 2 P of one bolt.
    """
    radians = np.radians(directions)
    far = np.hypot(np.cos(radians).sum(), np.sin(radians).sum())
    return float((len(directions) + far) / 2)


def together(count: int) -> float:
    """What bolts hold over what one holds."""
    return low(Grip(**{**HALF_INCH, "count": count})) / low(Grip(**HALF_INCH))


def test_two_bolts_at_a_right_angle_by_statics():
    assert together(2) == pytest.approx(held([0, 90]), rel=0.005)


@pytest.mark.parametrize(
    "directions", [[0, 0], [0, 0, 0], [0, 90, 90], [0, 0, 90], [0, 90, 0, 90], [0, 45, 90]]
)
def test_no_more_is_counted_than_bolts_on_one_side_hold(directions):
    assert together(len(directions)) <= held(directions)


def test_a_bolt_that_faces_another_adds_nothing():
    """By statics; the note says so, for the count in a file does not tell."""
    assert held([0, 180]) == pytest.approx(held([0]))
    assert "faces it adds nothing" in set_bolt_grip(1.0, Grip(**HALF_INCH)).note


def test_denting_by_yield_lines_added_up():
    """Second route: a plate held all round, pushed down at a point by a pyramid of many sides.

    Each triangle turns about its side; every line takes Mp = Fy t^2 / 4 per length times how far
    the pieces beside it turn against one another. P does work on a unit of its own way.
    """
    sides, Mp = 720, 35 * KSI * (0.237 * INCH) ** 2 / 4
    corner = 2 * np.pi * np.arange(sides) / sides
    middle = corner + np.pi / sides
    reach = np.cos(np.pi / sides)  # from the middle to a side, the corners 1 away
    slopes = np.stack([np.cos(middle), np.sin(middle)], axis=1) / reach
    along_sides = 2 * np.sin(np.pi / sides) * np.linalg.norm(slopes, axis=1)
    between = np.linalg.norm(slopes - np.roll(slopes, 1, axis=0), axis=1)
    work = Mp * (along_sides.sum() + between.sum())
    assert Grip(**HALF_INCH).denting == pytest.approx(work, rel=1e-4)


def test_no_thrust_beyond_what_dents_the_wall():
    """By hand: pi x 35 ksi x 0.1^2 = 1100 lb, of 7200 lb asked for at 60 ft-lb on 1/2 in."""
    thin = Grip(**{**HALF_INCH, "post_wall": 0.1 * INCH, "torque": 60 * FT_LB})
    assert printed(set_bolt_grip(1.0, thin).steps, "P") == pytest.approx(1100 * LB, rel=1e-3)
    assert low(thin) == pytest.approx(1500 * LB * 1100 / 6200 * 2.25 * INCH, rel=1e-3)


def test_weight_on_the_post_by_hand():
    """600 lb at 2/3 of 2.25 in: 0.15 of it 135 in-lb, 0.25 of it 225. The radius by integration:
    even pressure on a disc rubs with the mean of r^2 over the mean of r.
    """
    r = np.linspace(0, 2.25 * INCH, 10001)
    disc = np.trapezoid(r**2, r) / np.trapezoid(r, r)
    grip = Grip(**HALF_INCH)
    assert printed(set_bolt_grip(1.0, grip).steps, "r") == pytest.approx(disc, rel=1e-6)
    assert (TOP_FRICTION, EXPECTED_TOP_FRICTION) == (0.15, 0.25)
    least = set_bolt_grip(1.0, grip, weight=600 * LB).nominal - low(grip)
    middle = (
        expected_set_bolt_grip(1.0, grip, 0.5, weight=600 * LB).nominal
        - expected_set_bolt_grip(1.0, grip, 0.5).nominal
    )
    assert least == pytest.approx(135 * IN_LB, rel=1e-3)
    assert middle == pytest.approx(225 * IN_LB, rel=1e-3)
    lifted = set_bolt_grip(1.0, grip, weight=-600 * LB)
    assert lifted.nominal == set_bolt_grip(1.0, grip).nominal


def test_factor_two_and_nominal_low():
    check = set_bolt_grip(100.0, Grip(**HALF_INCH), weight=500.0)
    assert check.nominal == pytest.approx(2 * check.allowable)
    assert check.kind is Kind.TURNS
    assert "jam nut" in check.note


def test_expected_grip_by_hand():
    """3/4 in at 75 ft-lb, 0.7 kept: 630 / 0.15 = 4200 lb; 0.5 of it at 2 in is 4200 in-lb."""
    three_quarters = {
        **HALF_INCH,
        "diameter": 0.75 * INCH,
        "torque": 75 * FT_LB,
        "post_od": 4 * INCH,
        "kept": 0.7,
    }
    check = expected_set_bolt_grip(100.0, Grip(**three_quarters), 0.5)
    assert check.nominal == check.allowable == pytest.approx(4200 * IN_LB, rel=1e-3)
    two = expected_set_bolt_grip(100.0, Grip(**{**three_quarters, "count": 2}), 0.5)
    assert two.nominal == pytest.approx(1.7 * check.nominal)
    assert check.kind is Kind.TURNS


@pytest.mark.parametrize(
    ("size", "torque", "holding"),
    [
        (1 / 4, 87, 400),
        (5 / 16, 165, 700),
        (3 / 8, 290, 1000),
        (1 / 2, 620, 1500),
        (5 / 8, 1325, 2000),
    ],
)
def test_the_code_counts_less_than_is_expected(size, torque, holding):
    """Low chart, all rows, against friction 0.5 (from memory of the chart): at equal torque."""
    row = {
        **HALF_INCH,
        "diameter": size * INCH,
        "seating_torque": torque * IN_LB,
        "torque": torque / 2 * IN_LB,
        "holding": holding * LB,
        "post_wall": 0.5 * INCH,
    }
    grip = Grip(**row)
    assert low(grip) < expected_set_bolt_grip(1.0, grip, 0.5).nominal


def test_lift_shares_the_friction():
    """3-4-5: lift of 4 at the surface with swing of 3 is 5."""
    grip = Grip(**{**HALF_INCH, "post_od": 2.0})
    assert set_bolt_grip(-3.0, grip, lift=4.0).demand == pytest.approx(5.0)
    assert set_bolt_grip(3.0, grip, lift=-4.0).demand == pytest.approx(3.0)
    assert expected_set_bolt_grip(-3.0, grip, 0.5, lift=4.0).demand == pytest.approx(5.0)


def test_no_bolt_and_no_torque():
    none = Grip(**{**HALF_INCH, "count": 0})
    assert set_bolt_grip(0.0, none).utilisation == 0
    assert set_bolt_grip(1.0, none).utilisation == np.inf
    assert set_bolt_grip(0.0, Grip(**HALF_INCH)).utilisation == 0


def test_steps():
    swing, weight = np.array([0.0, 120.0, -400.0]), np.array([0.0, 2e3, -1e3])
    two = Grip(**{**HALF_INCH, "count": 2})
    thin = Grip(**{**HALF_INCH, "post_wall": 0.002, "torque": 80 * FT_LB, "kept": 0.5})
    for index in range(3):
        assert_steps(set_bolt_grip(swing, two, 300.0, weight), index)
        assert_steps(set_bolt_grip(swing, thin, 300.0, weight), index)
        assert_steps(expected_set_bolt_grip(swing, two, 0.5, 300.0, weight), index)
        assert_steps(expected_set_bolt_grip(swing, thin, 0.5, 300.0, weight), index)
