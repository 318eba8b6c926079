"""Turning: friction summed over patches of the buried cylinder and rings of its foot."""

import numpy as np
import pytest

from frame.checks.post_turning import (
    adhesion_clay,
    expected_turning,
    foot_friction,
    grip_sand,
    overburden,
    tamped_cohesion,
    touching_share,
    turning,
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
    pipe, pier = np.mean(0.5 * 9e3 * z * np.tan(phi * 2 / 3)), np.mean(0.8 * 9e3 * z * np.tan(phi))
    assert grip_sand(phi, "earth") * above == pytest.approx(pipe)
    assert grip_sand(phi, "concrete") * above == pytest.approx(pier)


def test_a_two_foot_pier_seven_feet_into_sandy_gravel():
    """60 pcf under water to 110 pcf moist, four feet down: 240 to 440 psf of overburden.

    Drilled shafts reach K tan(delta) of some 0.5 to 0.6 there: 120 to 250 psf, where a quarter of
    it was told for a pipe driven in. By hand, under water: 0.8 tan 32 deg x 240 = 120 psf; times
    6.2832 ft x 6 ft x 1 ft = 4,523 ft-lb, the foot 0.6249 x 1,000 lb x 2 / 3 = 417 ft-lb.
    """
    phi = np.radians(32)
    friction = grip_sand(phi, "concrete") * overburden(60 * PCF, 7 * FT, FT)
    assert friction / PSF == pytest.approx(120, abs=0.1)
    assert 0.6 * overburden(110 * PCF, 7 * FT, FT) / PSF == pytest.approx(264)
    foot = foot_friction(2 * FT, 0.0, 1000 * LB, np.tan(phi))
    c = turning(1.0, friction, 2 * FT, 7 * FT, FT, touching_share("concrete"), foot)
    assert float(c.nominal) / FT_LB == pytest.approx(4523 + 417, abs=2)


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
