"""Grip of set bolts: no outside worked example; plain friction is the second route."""

import numpy as np
import pytest

from frame.checks.set_bolt import Grip, friction_grip, set_bolt_grip
from frame.units import FT_LB, IN_LB, INCH, LB
from tests.step_check import assert_steps

HALF_INCH = {
    "count": 1,
    "torque": 30 * FT_LB,
    "seating_torque": 620 * IN_LB,
    "holding_low": 1500 * LB,
    "holding_high": 3000 * LB,
    "post_od": 4.5 * INCH,
}


def test_half_inch_bolt_by_hand():
    """By hand: 360/620 of 1500 lb at 2.25 in is 1960 in-lb, of 3000 lb 3919."""
    grip = Grip(**HALF_INCH)
    assert grip.low == pytest.approx(1960 * IN_LB, rel=1e-3)
    assert grip.high == pytest.approx(3919 * IN_LB, rel=1e-3)


def test_band_holds_the_friction_route():
    """Second route: thrust times friction 0.15 on two faces lies between low and high."""
    grip = Grip(**HALF_INCH)
    assert grip.low < friction_grip(30 * FT_LB, INCH / 2, 4.5 * INCH, 0.15) < grip.high


def test_torque_beyond_the_table_adds_nothing():
    assert Grip(**{**HALF_INCH, "torque": 200 * FT_LB}).low == pytest.approx(
        3375 * IN_LB, rel=1e-9
    )


def test_second_bolt_adds_least_in_the_low_band():
    one, two = Grip(**HALF_INCH), Grip(**{**HALF_INCH, "count": 2})
    assert two.low == pytest.approx(1.3 * one.low)
    assert two.high == pytest.approx(2 * one.high)


def test_factor_two_and_nominal_low():
    check = set_bolt_grip(100.0, Grip(**HALF_INCH))
    assert check.nominal == pytest.approx(2 * check.allowable)
    assert check.nominal == check.extra["grip_low"]
    assert "jam nut" in check.note


def test_lift_shares_the_friction():
    """3-4-5: lift of 4 at the surface with swing of 3 is 5."""
    grip = Grip(**{**HALF_INCH, "post_od": 2.0})
    assert set_bolt_grip(-3.0, grip, lift=4.0).demand == pytest.approx(5.0)
    assert set_bolt_grip(3.0, grip, lift=-4.0).demand == pytest.approx(3.0)


def test_no_bolt_and_no_torque():
    none = Grip(**{**HALF_INCH, "count": 0})
    assert set_bolt_grip(0.0, none).utilisation == 0
    assert set_bolt_grip(1.0, none).utilisation == np.inf
    assert set_bolt_grip(0.0, Grip(**HALF_INCH)).utilisation == 0


def test_steps():
    swing = np.array([0.0, 120.0, -400.0])
    for index in range(3):
        assert_steps(set_bolt_grip(swing, Grip(**{**HALF_INCH, "count": 2}), lift=300.0), index)
    assert_steps(set_bolt_grip(50.0, Grip(**{**HALF_INCH, "torque": 80 * FT_LB, "kept": 0.5})))
