import math

import numpy as np
from numpy.testing import assert_allclose
from scipy.constants import inch, mph

from frame.checks import movement
from tests.step_check import assert_steps


def test_sag_of_a_ninety_inch_arm_may_be_half_an_inch() -> None:
    """IBC 2021 Table 1604.3, l/180: 90 in. / 180 = 1/2 in."""
    check = movement.sag(-0.5 * inch, 90 * inch, 1 / 180)
    assert_allclose(check.utilisation, 1.0)
    assert_allclose(check.let_go, 0.0)


def test_slop_adds_to_elastic_movement_whatever_the_signs() -> None:
    check = movement.sway(np.array([-0.02, 0.02]), 3.0, 1 / 100, 0.01)
    assert_allclose(check.demand, 0.03)
    assert_allclose(check.extra["slop"], 0.01)


def test_swing_moves_the_beam_end() -> None:
    assert_allclose(movement.swing(math.radians(1.0), 2.0, 1 / 60).demand, 0.0349, rtol=1e-3)


def test_an_eighth_of_play_in_six_inches_is_two_inches_at_the_end() -> None:
    """Common practice: 1/8 in. in 6 in. tips 1.2 degrees, 2 in. at the end of an 8 ft arm."""
    check = movement.slop(inch / 8, 6 * inch, 96 * inch, 1 / 120)
    assert_allclose(np.degrees(check.extra["tilt"]), 1.2, atol=0.01)
    assert_allclose(check.demand, 2 * inch)
    assert_allclose(check.utilisation, 2 / 0.8)


def test_frequency_flags_what_is_under_one_hertz() -> None:
    use = movement.frequency(np.array([0.5, 1.0, 4.0, 0.0])).utilisation
    assert_allclose(use[:3], [2.0, 1.0, 0.25])
    assert np.isnan(use[3])


def test_galloping_range_of_a_loose_and_a_tighter_deck() -> None:
    """Common practice: 2 to 3 Hz and some 6-1/2 ft of chord start between about 26 and 90 mph."""
    check = movement.galloping(20.0, 2.0, 1.95, np.radians([5.0, 35.0]))
    assert_allclose(check.extra["onset_low"] / mph, 26.0, rtol=0.02)
    assert_allclose(check.extra["onset_high"] / mph, 87.0, rtol=0.02)
    assert_allclose(check.extra["near_flat"], [1.0, 0.0])
    assert check.utilisation > 1


def test_steps_work_out() -> None:
    for i in range(2):
        values = np.array([-0.01, 0.03])
        assert_steps(movement.sag(values, 2.0, 1 / 180, 0.002), (i,))
        assert_steps(movement.sway(values, 2.0, 1 / 100), (i,))
        assert_steps(movement.swing(values, 2.0, 1 / 60, 0.01), (i,))
        assert_steps(movement.slop(abs(values), 0.15, 2.0, 1 / 180), (i,))
        assert_steps(movement.frequency(np.array([0.7, 3.0])), (i,))
        assert_steps(movement.galloping(np.array([10.0, 40.0]), 3.0, 2.0, 0.1), (i,))
