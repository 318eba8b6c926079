import numpy as np
from numpy.testing import assert_allclose
from scipy.constants import inch, lbf, psi

from frame.checks.fasteners import clamp
from tests.step_check import assert_steps

KSI = 1000 * psi


def test_quarter_at_the_corner_coefficient_covers_zones_summed_over_the_panel() -> None:
    """A stiff panel on four corner clamps: zone pressures times bilinear shares, on a grid."""
    width, height, zone, q = 1.04, 1.75, 0.9, 1000.0
    x, y = ((np.arange(n) + 0.5) / n for n in (400, 400))
    X, Y = np.meshgrid(x, y, indexing="ij")
    near = (X * width < zone).astype(int) + (Y * height < zone).astype(int)
    coefficient = np.array([-1.1, -1.7, -3.3])[near]  # interior, edge, corner; flat, clear flow
    share = (1 - X) * (1 - Y) * width * height / X.size
    summed = -(coefficient * q * share).sum()
    lift = clamp.corner_uplift(q, -3.3, width * height, 0.0)
    assert summed < lift < 2 * summed


def test_uplift_is_relieved_by_weight_and_never_negative() -> None:
    lift = clamp.corner_uplift(500.0, np.array([-2.0, -0.1, 1.5]), 2.0, 200.0, 2.0)
    # (2 x 500 x 2 - 200) / 4 for one panel, twice that on a mid clamp
    assert_allclose(lift, [900.0, 0.0, 0.0])


def test_through_bolt_goes_by_its_tension_and_channel_nut_by_its_rating() -> None:
    area, Fu = 0.0491 * inch**2, 60 * KSI  # 1/4 in. rod: 1.10 kip a leg, AISC J3.6
    through = clamp.hold_down(550 * lbf, 1.0, area, Fu)
    assert_allclose(through.utilisation, 0.5, rtol=5e-3)
    assert_allclose(through.nominal, 2 * through.allowable)
    nut = clamp.hold_down(400 * lbf, 2.0, area, Fu, 800 * lbf)
    assert_allclose(nut.utilisation, 1.0)
    # 800 lb against 1600: two thirds (judgement) of tests at three times the rating of 800
    assert_allclose(nut.let_go, 800 / (2 / 3 * 3 * 800))


def test_lever_below_one_is_not_covered() -> None:
    assert np.isnan(clamp.hold_down(100.0, 0.5, 1e-4, 4e8).utilisation)


def test_panel_without_rating_is_not_covered() -> None:
    assert np.isnan(clamp.panel_rating(800.0, -2.0, np.nan).utilisation)


def test_steps_work_out() -> None:
    for i in range(3):
        lift = np.array([0.0, 300.0, 5000.0])
        assert_steps(clamp.hold_down(lift, 1.6, 3e-5, 4e8, 3500.0), (i,))
        assert_steps(clamp.panel_rating(lift, -2.2, 2400.0), (i,))


def test_expected_of_a_quarter_inch_clamp_is_the_bolt_of_plain_rod() -> None:
    """By hand, 58 ksi on the tensile area, 0.0318 in2: 1.84 kip; 0.75 of it on the whole, 2.14.

    The mean of a nut's tests is three times its rating of 800 lb; a 3/8 in. bolt pulls it out.
    """
    share = np.array([0.8, 1.0, 1.3])
    areas = np.array([[0.25], [0.375]]) * inch
    made = clamp.hold_down(100.0, 2.0, np.pi / 4 * areas**2, 58 * KSI, 800 * lbf, expected=share)
    strength = np.broadcast_to(made.nominal, (2, 3))
    assert_allclose(strength[0], 0.75 * 58e3 * np.pi / 4 * 0.25**2 * share * lbf, rtol=1e-6)
    assert_allclose(strength[0, 1] / lbf, 58e3 * 0.0318, rtol=0.17)
    assert_allclose(strength[1], 2400 * share * lbf)
    for index in ((0, 0), (0, 1), (1, 2)):
        assert_steps(made, index)
