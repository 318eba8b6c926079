"""Hand numbers in pounds and feet: IBC 2021 Table 1806.2 (clay 1500 psf, sand 2000 psf)."""

import numpy as np
import pytest

from frame.checks.ground.post_vertical import (
    bearing,
    bearing_factor,
    expected_bearing,
    expected_uplift,
    plug_weight,
    uplift,
    workable_friction,
)
from frame.units import FT, LB, PCF, PSF
from tests.step_check import assert_steps


def test_foot_of_a_twelve_inch_hole_in_clay_bears_1178_lb():
    """Its strength twice that: presumptive pressures keep a factor of two at least (judgement)."""
    c = bearing(1000 * LB, np.pi / 4 * FT**2, 1500 * PSF)
    assert float(c.allowable) / LB == pytest.approx(1178.1, abs=0.1)
    assert float(c.utilisation) == pytest.approx(0.849, abs=1e-3)
    assert float(c.nominal) / LB == pytest.approx(2356.2, abs=0.2)
    assert_steps(c)


def test_lifted_foot_demands_no_bearing_and_fill_is_not_covered():
    assert float(bearing(-500.0, 0.07, 7e4).utilisation) == 0
    assert np.isnan(bearing(500.0, 0.07, 0.0).utilisation)


def test_collar_of_concrete_weighs_456_lb():
    """12 in hole, 4-1/2 in pipe, 4-1/2 ft of 150 pcf: (0.7854 - 0.1104) x 4.5 x 150 = 455.6 lb."""
    weight = plug_weight(0.375 * FT, FT, 4.5 * FT, 150 * PCF)
    assert weight / LB == pytest.approx(455.6, abs=0.1)


def test_uplift_of_the_collar():
    """0.6 x 455.6 + 100 psf x 3.1416 ft x 3.5 ft = 273 + 1100 = 1373 lb; in all 455.6 + 2199."""
    friction = workable_friction(100 * PSF, 1500 * PSF, "concrete")
    c = uplift(686.5 * LB, 455.6 * LB, FT, 4.5 * FT, friction, FT)
    assert float(c.utilisation) == pytest.approx(0.5, abs=1e-3)
    assert float(c.nominal) / LB == pytest.approx(2654.7, abs=0.5)
    assert_steps(c)
    assert float(uplift(-10.0, 0.0, 0.3, 1.0, 0.0).utilisation) == 0


def test_friction_is_held_to_a_sixth_of_bearing_and_500_psf_and_nil_for_bare_pipe():
    assert workable_friction(9e9, 1500 * PSF, "concrete") / PSF == pytest.approx(250)
    assert workable_friction(9e9, 12000 * PSF, "concrete") / PSF == pytest.approx(500)
    assert workable_friction(100 * PSF, 1500 * PSF, "earth") == 0
    c = uplift(100.0, 0.0, 0.1, 1.2, workable_friction(5e3, 7e4, "earth"))
    assert np.isinf(c.utilisation)


def test_tamped_earth_is_pressed_on_going_down_only():
    """Half of 1500 / 6 psf: the code's clause is for concrete cast against the ground."""
    assert workable_friction(9e9, 1500 * PSF, "earth", down=True) / PSF == pytest.approx(125)
    assert workable_friction(9e9, 1500 * PSF, "concrete", down=True) / PSF == pytest.approx(250)


@pytest.mark.parametrize(("degrees", "factor"), [(30, 18.4), (34, 29.4), (36, 37.8), (40, 64.2)])
def test_bearing_factor_of_the_textbooks(degrees, factor):
    """Nq as tabled in textbooks of foundation engineering, from memory."""
    assert bearing_factor(np.radians(degrees)) == pytest.approx(factor, rel=2e-3)


def test_expected_of_a_four_inch_post_pressed_down_in_firm_clay():
    """9 x 1000 psf x 0.0873 sq ft = 785 lb; 0.8 x 500 psf x 4.189 sq ft = 1676 lb."""
    area, sides = np.pi / 4 * (FT / 3) ** 2, np.pi * FT / 3 * 4 * FT
    c = expected_bearing(1000 * LB, area, 9000 * PSF, sides, 400 * PSF, "a source")
    assert float(c.nominal) / LB == pytest.approx(785.4 + 1675.5, abs=0.5)
    assert c.allowable is c.nominal
    assert_steps(c)
    assert float(expected_bearing(-5.0, area, 1.0, 0.0, 0.0, "a source").let_go) == 0


def test_expected_of_a_four_inch_post_pulled_up():
    """50 lb of pipe and 0.4 x 1000 psf x 4.189 sq ft = 1676 lb of earth."""
    c = expected_uplift(800 * LB, 50 * LB, FT / 3, 4.75 * FT, 400 * PSF, 0.75 * FT)
    assert float(c.nominal) / LB == pytest.approx(50 + 1675.5, abs=0.5)
    assert_steps(c)
