"""The through pin: forces by equilibrium of the pin as a free body, the hole by integration."""

import numpy as np
import pytest

from frame.checks.fasteners.pin import (
    PinnedWall,
    ThroughPin,
    pin_bearing,
    pin_bending,
    pin_shear,
    section_left,
)
from frame.units import KSI
from tests.step_check import assert_steps

PIN = ThroughPin(
    diameter=0.0127,
    shear_stress=27 * KSI,
    yield_stress=36 * KSI,
    post_radius=0.0545,
    sleeve_radius=0.0665,
)
WALL = PinnedWall(wall=0.0055, yield_stress=30 * KSI, tensile=48 * KSI, to_edge=0.05)


def test_bending_by_the_pin_as_a_free_body():
    """Second route: cut the pin everywhere and take the greatest moment.

    The sleeve pushes at +-Rs, the post back at +-Rp, torque T about the middle each way.
    """
    T, Rp, Rs = 400.0, 0.0545, 0.0665
    by_sleeve, by_post = T / (2 * Rs), T / (2 * Rp)
    x = np.linspace(0, Rs, 200001)
    moment = by_sleeve * (Rs - x) - np.where(x < Rp, by_post * (Rp - x), 0)
    assert moment[0] == pytest.approx(0, abs=1e-9)
    check = pin_bending(T, 0.0, PIN)
    assert moment.max() <= check.demand
    assert check.demand == pytest.approx(moment.max() * Rs / Rp, rel=1e-4)


def test_swing_and_lift_add_as_vectors():
    both, swing, lift = (
        pin_shear(*force, PIN).demand for force in ((300.0, 4e3), (300.0, 0.0), (0.0, 4e3))
    )
    assert both**2 == pytest.approx(swing**2 + lift**2)
    assert lift == pytest.approx(2e3)


def test_near_an_edge_the_wall_tears_first():
    far, near = (
        pin_bearing(
            300.0, 0.0, PIN, PinnedWall(wall=0.0055, yield_stress=2e8, tensile=3.3e8, to_edge=e)
        )
        for e in (1.0, 0.005)
    )
    assert near.utilisation > far.utilisation
    at_edge = PinnedWall(wall=0.0055, yield_stress=2e8, tensile=3.3e8, to_edge=0.0)
    assert pin_bearing(300.0, 0.0, PIN, at_edge).utilisation == np.inf


@pytest.mark.parametrize("hole", [0.0, 0.006, 0.0143, 0.03])
def test_hole_by_integration(hole):
    """Second route: the ring of finite wall less a straight hole, added up in small squares."""
    od, wall = 0.1143, 0.0055
    r, a = np.meshgrid(
        np.linspace(od / 2 - wall, od / 2, 201), np.linspace(0, 2 * np.pi, 7201), indexing="ij"
    )
    y, x = r * np.cos(a), r * np.sin(a)
    kept = np.where(np.abs(x) > hole / 2, r, 0)
    whole, left = (np.trapezoid(np.trapezoid(y**2 * w, a[0], axis=1), r[:, 0]) for w in (r, kept))
    assert section_left(od, wall, hole) == pytest.approx(left / whole, abs=0.004)


def test_hole_as_wide_as_the_pipe_leaves_nothing():
    assert section_left(0.1143, 0.0055, 0.2) == pytest.approx(0.0, abs=1e-12)


def test_without_a_factor_the_strength_itself_is_counted_on():
    for check in (
        pin_shear(300.0, 0.0, PIN, 1.0),
        pin_bearing(300.0, 0.0, PIN, WALL, 1.0),
        pin_bending(300.0, 0.0, PIN, 1.0),
    ):
        assert check.allowable == check.nominal
        assert_steps(check)


def test_no_load_no_use():
    assert pin_shear(0.0, 0.0, PIN).utilisation == 0
    assert pin_bearing(0.0, 0.0, PIN, WALL).utilisation == 0
    assert pin_bending(0.0, 0.0, PIN).utilisation == 0


def test_steps():
    swing = np.array([0.0, 300.0, -900.0])
    for index in range(3):
        assert_steps(pin_shear(swing, 2e3, PIN), index)
        assert_steps(pin_bearing(swing, 2e3, PIN, WALL), index)
        assert_steps(pin_bending(swing, 2e3, PIN), index)
