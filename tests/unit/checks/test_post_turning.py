"""Turning: friction summed over patches of the buried cylinder and rings of its foot."""

import numpy as np
import pytest

from frame.checks.ground.post_turning import (
    adhesion_clay,
    expected_turning,
    foot_friction,
    grip_cast,
    grip_tamped,
    overburden,
    tamped_cohesion,
    touching_share,
    turning,
    without_report,
)
from frame.units import FT, FT_LB, LB, PCF, PSF
from tests.step_check import assert_steps


def test_torque_is_friction_times_radius_over_every_patch():
    z, angle = np.meshgrid(np.linspace(0.3, 1.5, 241)[:-1], np.linspace(0, 2 * np.pi, 361)[:-1])
    x, y = 0.15 * np.cos(angle), 0.15 * np.sin(angle)
    patch = (1.2 / 240) * 0.15 * (2 * np.pi / 360)
    force = 12e3 * patch * np.stack([-np.sin(angle), np.cos(angle)])
    torque = np.sum(x * force[1] - y * force[0])
    c = turning(500.0, 12e3, 0.3, 1.5, 0.3)
    assert float(c.nominal) == pytest.approx(torque)
    assert float(c.allowable) == pytest.approx(torque / 2)
    assert z.shape == angle.shape
    assert_steps(c)


def test_foot_rubs_ring_by_ring():
    """Adhesion of 12 kPa, and 9 kN spread evenly with a friction of 0.5, on a disc of 0.6 m."""
    r = np.linspace(0, 0.3, 100_001)
    clay = np.trapezoid(12e3 * 2 * np.pi * r * r, r)
    sand = np.trapezoid(0.5 * 9e3 / (np.pi * 0.09) * 2 * np.pi * r * r, r)
    assert foot_friction(0.6, 12e3) == pytest.approx(clay)
    assert foot_friction(0.6, 0.0, 9e3, 0.5) == pytest.approx(sand)
    assert foot_friction(0.6, 0.0, -9e3, 0.5) == 0
    assert_steps(turning(500.0, 12e3, 0.6, 1.5, 0.3, 1.0, clay))


def test_friction_of_sand_summed_over_depth():
    """K gamma z tan(delta) at every inch: gamma 9 kN/m3, phi 30 deg; the top left out weighs."""
    z = np.linspace(0.3, 1.5, 100_001)
    above = overburden(9e3, 1.5, 0.3)
    phi = np.radians(30)
    pipe = np.mean(0.5 * 9e3 * z * np.tan(phi * 2 / 3))
    assert grip_tamped(phi) * above == pytest.approx(pipe)


def test_friction_on_cast_concrete_falls_with_depth():
    """By hand, O'Neill and Reese: 1.5 - 0.135 x 3 = 1.095 at 9 ft; 1.2 at most, 0.25 at least."""
    at = grip_cast(np.array([0.0, 4.0, 9.0, 25.0, 100.0]) * FT)
    assert at == pytest.approx([1.2, 1.2, 1.095, 0.825, 0.25])


def test_a_two_foot_pier_seven_feet_into_sandy_gravel():
    """Under water, 60 pcf, four feet down: 1.2 x 240 = 288 psf, half of it allowable, 144 psf.

    About what is allowable against pulling the same pier out, 150 psf, and well under the 500 psf
    of IBC 2021 1810.3.3.1.4. By hand: 288 x 6.2832 ft x 6 ft x 1 ft = 10,857 ft-lb, the foot
    tan 37 deg x 1,000 lb x 2 / 3 = 502 ft-lb.
    """
    friction = grip_cast(4 * FT) * overburden(60 * PCF, 7 * FT, FT)
    assert friction / PSF == pytest.approx(288, abs=0.1)
    foot = foot_friction(2 * FT, 0.0, 1000 * LB, np.tan(np.radians(37)))
    pier = 2 * FT, 7 * FT, FT, touching_share("concrete"), foot
    assert without_report(friction, 3000 * PSF) == friction
    c = turning(1.0, friction, *pier)
    assert float(c.nominal) / FT_LB == pytest.approx(10_857 + 502, abs=3)
    assert float(c.allowable) / FT_LB == pytest.approx((10_857 + 502) / 2, abs=3)
    assert_steps(c)


def test_no_more_is_allowable_than_the_code_lets_without_a_report():
    """Hard clay: half of 2,000 psf over 2 is 500 psf; a sixth of 1,500 psf bearing is 250."""
    counted = without_report(adhesion_clay(2000 * PSF), 1500 * PSF)
    assert counted / 2 / PSF == pytest.approx(250)
    assert without_report(adhesion_clay(500 * PSF), 1500 * PSF) / PSF == pytest.approx(250)


def test_expected_of_a_four_inch_post_in_firm_clay():
    """4 ft of 4 in: 0.5 x 1000 psf x 0.8 x 4.189 sq ft x 2 in = 279 ft-lb; the foot 5 ft-lb."""
    adhesion = adhesion_clay(1000 * PSF)
    width = 4 / 12 * FT
    foot = foot_friction(width, adhesion)
    c = expected_turning(1.0, adhesion, width, 4.75 * FT, 0.75 * FT, touching_share("earth"), foot)
    assert float(c.nominal) / FT_LB == pytest.approx(279.3 + 4.8, abs=0.2)
    assert c.allowable is c.nominal
    assert_steps(c)


def test_wet_and_dry_clay_side_by_side_and_either_sense():
    c = turning(np.array([-200.0, 200.0]), adhesion_clay(np.array([24e3, 96e3])), 0.3, 1.5, 0.3)
    assert c.utilisation[0] == pytest.approx(4 * c.utilisation[1])
    assert_steps(c, (0,))


def test_bare_pipe_stands_off_in_places_and_rubs_on_no_more_than_stiff_earth():
    assert touching_share("concrete") == 1.0
    assert touching_share("earth") == touching_share("gravel") == 0.8
    assert tamped_cohesion(60_000 * PSF, "earth") == pytest.approx(2000 * PSF)
    assert tamped_cohesion(60_000 * PSF, "concrete") == pytest.approx(60_000 * PSF)
    assert tamped_cohesion(500 * PSF, "earth") == pytest.approx(500 * PSF)


def test_nothing_holds_a_post_that_ends_in_the_ignored_top():
    assert np.isinf(turning(1.0, 12e3, 0.3, 0.3, 0.3).utilisation)
