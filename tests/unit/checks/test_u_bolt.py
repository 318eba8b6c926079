"""U-bolts: prying by equilibrium with a contact that only pushes, grip step by step."""

import numpy as np
import pytest
from scipy.optimize import linprog

from frame.checks.u_bolt import UBolt, leg_pull, u_bolt_grip, u_bolt_tension
from frame.units import FT_LB, INCH, KSI, LB
from tests.step_check import assert_steps

BOLT = UBolt(
    diameter=3 / 8 * INCH,
    torque=15 * FT_LB,
    tensile=48 * KSI,
    proof=2500 * LB,
    beam_od=3.5 * INCH,
)


@pytest.mark.parametrize("lift", [0.0, 500.0, 2000.0])
@pytest.mark.parametrize("turning", [0.0, 20.0, 90.0, 400.0])
def test_leg_pull_by_equilibrium(lift, turning):
    """Second route: least worst-leg pull with T1, T2, C >= 0, T1+T2-C = U, (T1-T2) s/2 = M."""
    s = 0.1
    answer = linprog(
        [1, 0, 0],
        A_eq=[[1, 1, -1], [s / 2, -s / 2, 0]],
        b_eq=[lift, turning],
        bounds=[(0, None)] * 3,
    )
    assert leg_pull(lift, turning, s) == pytest.approx(answer.fun, abs=1e-9)


def test_preload_by_hand():
    """15 ft-lb on 3/8 in at nut factor 0.2: 180 / 0.075 = 2400 lb."""
    assert BOLT.preload == pytest.approx(2400 * LB, rel=1e-6)


def test_no_preload_beyond_proof():
    tight = UBolt(
        diameter=3 / 8 * INCH, torque=40 * FT_LB, tensile=48 * KSI, proof=2500 * LB, beam_od=0.1
    )
    assert tight.preload == pytest.approx(2500 * LB)


def test_grip_against_turning_by_hand():
    """Low 0.15 x 2 x 2400 x 0.5 = 360 lb at 1.75 in, 630 in-lb; high 0.3 x 4800 x 1.75 = 2520."""
    check = u_bolt_grip(10.0, 0.0, 0.0, BOLT)
    assert check.extra["grip_low"] == pytest.approx(630 * INCH * LB, rel=1e-6)
    assert check.extra["grip_high"] == pytest.approx(2520 * INCH * LB, rel=1e-6)
    assert check.nominal == pytest.approx(2 * check.allowable)


def test_lift_beyond_the_preload_leaves_no_grip():
    assert u_bolt_grip(10.0, 0.0, 1e6, BOLT).utilisation == np.inf
    assert u_bolt_grip(0.0, 0.0, 1e6, BOLT).utilisation == 0


def test_pressing_down_is_not_credited():
    assert u_bolt_grip(10.0, 5.0, -1e4, BOLT).nominal == u_bolt_grip(10.0, 5.0, 0.0, BOLT).nominal
    assert u_bolt_tension(-1e4, 0.0, BOLT).utilisation == 0


def test_steps():
    lift = np.array([0.0, 800.0, 3000.0])
    for index in range(3):
        assert_steps(u_bolt_grip(40.0, 300.0, lift, BOLT), index)
        assert_steps(u_bolt_tension(lift, -60.0, BOLT), index)
