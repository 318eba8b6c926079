"""Turning: friction summed over patches of the buried cylinder."""

import numpy as np
import pytest

from frame.checks.post_turning import adhesion_clay, adhesion_sand, touching_share, turning
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


def test_friction_of_sand_summed_over_depth():
    """K gamma z tan(2/3 phi) at every inch: gamma 9 kN/m3, phi 30 deg, K 0.5."""
    z = np.linspace(0.3, 1.5, 100_001)
    mean = np.mean(0.5 * 9e3 * z * np.tan(np.radians(20)))
    assert adhesion_sand(9e3, np.radians(30), 1.5, 0.3) == pytest.approx(mean)


def test_wet_and_dry_clay_side_by_side_and_either_sense():
    c = turning(np.array([-200.0, 200.0]), adhesion_clay(np.array([24e3, 96e3])), 0.3, 1.5, 0.3)
    assert c.utilisation[0] == pytest.approx(4 * c.utilisation[1])
    assert_steps(c, (0,))


def test_bare_pipe_rubs_on_one_side_only():
    assert touching_share("concrete") == 2 * touching_share("earth") == 1.0


def test_nothing_holds_a_post_that_ends_in_the_ignored_top():
    assert np.isinf(turning(1.0, 12e3, 0.3, 0.3, 0.3).utilisation)
