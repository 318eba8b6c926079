"""Welds as lines: by numerical integration over the weld, and step by step."""

import numpy as np
import pytest

from frame.checks.welds.weld import (
    Lug,
    Metal,
    Ring,
    base_metal,
    lug_line,
    ring_line,
    weld_metal,
)
from frame.checks.welds.weld_leg import smallest_leg
from frame.units import INCH, KSI
from tests.step_check import assert_steps, printed

A53 = Metal(electrode=70 * KSI, yield_stress=35 * KSI, tensile=60 * KSI, wall=0.005)
TURN = np.linspace(0, 2 * np.pi, 7201)


def ring_by_points(axial, shear, bending, torsion, d, shear_angle):
    """Worst force per length over the ring: flexure formula at each point, shear flow 2V/L sin."""
    r = d / 2
    second = np.trapezoid(r**2 * np.cos(TURN) ** 2 * r, TURN)
    polar = np.trapezoid(r**2 * r * np.ones_like(TURN), TURN)
    across = axial / (2 * np.pi * r) + bending * r * np.cos(TURN) / second
    along = shear / (np.pi * r) * np.sin(TURN - shear_angle) + torsion * r / polar
    return np.hypot(across, along).max()


@pytest.mark.parametrize("loads", [(1e4, 0, 0, 0), (0, 3e3, 0, 0), (0, 0, 900, 0), (0, 0, 0, 700)])
def test_one_load_alone_equals_the_integral(loads):
    """Second route: the ring integrated point by point."""
    line = ring_line(*loads, Ring(diameter=0.0889, leg=0.006))
    assert line.force == pytest.approx(ring_by_points(*loads, 0.0889, 0.0), rel=1e-5)


@pytest.mark.parametrize("shear_angle", np.linspace(0, np.pi, 9))
def test_together_never_less_than_the_worst_point(shear_angle):
    loads = (8e3, 5e3, 600.0, 400.0)
    line = ring_line(*loads, Ring(diameter=0.0889, leg=0.006))
    worst = ring_by_points(*loads, 0.0889, shear_angle)
    assert worst <= line.force * (1 + 1e-9)
    assert line.force < 1.4 * worst


def test_lug_against_points_of_two_lines():
    """Second route: both lines integrated point by point, worst of their ends."""
    lug = Lug(length=0.08, thickness=0.01, arm=0.03, leg=0.005)
    H, N, Q = 6e3, 4e3, 500.0
    x = np.linspace(-0.04, 0.04, 4001)
    second = 2 * np.trapezoid(x**2, x)
    # Out of the plate's plane the two lines resist as a pair, thickness apart.
    side = Q * 0.03 / 0.01 / 0.08
    across = N / 0.16 + H * 0.03 * 0.04 / second + side
    expected = np.sqrt(across**2 + (H / 0.16) ** 2 + (Q / 0.16) ** 2)
    assert lug_line(H, N, Q, lug).force == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("degrees", "factor"), [(30, 1.1768), (45, 1.2973), (60, 1.4030)])
def test_direction_of_the_load(degrees, factor):
    """1 + 0.5 sin^1.5 by hand: sin 30 = 0.5, 0.5^1.5 = 0.35355; and so on (AISC 360-22 J2.4)."""
    angle, length, ring = np.radians(degrees), np.pi * 0.0889, Ring(diameter=0.0889, leg=0.006)
    line = ring_line(np.sin(angle) * length, np.cos(angle) * length / 2, 0.0, 0.0, ring)
    # At 30 degrees the pull may not make room for more shear than the weld bears in shear alone.
    metal = Metal(electrode=480e6, yield_stress=240e6, tensile=400e6, wall=5e-3)
    found = printed(weld_metal(line, metal).steps, "kds")
    assert found == pytest.approx(min(factor, 1 / np.cos(angle)), abs=1e-4)


def test_pull_added_to_shear_never_leaves_more_room():
    ring = Ring(diameter=0.0889, leg=0.006)
    pulls = np.linspace(0, 5e4, 400)
    for shear in (0.0, 5e3, 2e4):
        use = weld_metal(ring_line(pulls, shear, 0.0, 0.0, ring), A53).utilisation
        assert np.all(np.diff(use) >= -1e-12)


@pytest.mark.parametrize("shear_angle", np.linspace(0, np.pi, 5))
def test_use_never_less_than_at_any_point_of_the_ring(shear_angle):
    """Second route: every point of the ring with its own direction (AISC 360-22 J2.4)."""
    d, r = 0.0889, 0.0889 / 2
    axial, shear, bending, torsion = 8e3, 1.6e4, 300.0, 700.0
    across = axial / (np.pi * d) + bending * r * np.cos(TURN) / (np.pi * r**3)
    along = shear / (np.pi * r) * np.sin(TURN - shear_angle) + torsion * r / (2 * np.pi * r**3)
    force = np.hypot(across, along)
    kds = 1 + 0.5 * (np.abs(across) / force) ** 1.5
    worst = (force / (0.6 * 70 * KSI * 0.707 * 0.006 / 2 * kds)).max()
    line = ring_line(axial, shear, bending, torsion, Ring(diameter=d, leg=0.006))
    assert worst <= weld_metal(line, A53).utilisation <= 1.5 * worst


def test_base_metal_under_pull_and_shear_by_von_mises():
    """Yield under sigma and tau together: sigma^2 + 3 tau^2 = Fy^2, with 0.6 for 1/sqrt 3."""
    ring, t, Fy = Ring(diameter=0.0889, leg=0.006), 0.005, 35 * KSI
    line = ring_line(1e4, 4e3, 0.0, 0.0, ring)
    sigma, tau = 1e4 / (np.pi * 0.0889 * t), 2 * 4e3 / (np.pi * 0.0889 * t)
    by_hand = np.sqrt(sigma**2 + tau**2 / 0.36) / Fy
    assert base_metal(line, A53).let_go == pytest.approx(by_hand)
    assert base_metal(line, A53, factored=False).utilisation == pytest.approx(by_hand)


def test_base_metal_that_tears_before_it_yields_by_hand():
    """300 and 330 MPa: 330 / 2 = 165 in pull, not 300 / 1.67; 0.6 x 165 = 99 in shear (J4)."""
    brittle = Metal(
        electrode=70 * KSI, yield_stress=300e6, tensile=330e6, wall=0.005, identified=True
    )
    steps = base_metal(ring_line(1e4, 4e3, 0.0, 0.0, Ring(diameter=0.0889, leg=0.006)), brittle)
    assert printed(steps.steps, "ta") == pytest.approx(165e6 * 0.005)
    assert printed(steps.steps, "sa") == pytest.approx(99e6 * 0.005)


def test_expected_strength_has_no_factor():
    line = ring_line(1e4, 2e3, 100.0, 50.0, Ring(diameter=0.0889, leg=0.006))
    sound = np.array([0.7, 1.0, 1.3])
    made = weld_metal(line, A53, expected=sound)
    assert made.let_go == pytest.approx(weld_metal(line, A53).let_go / sound)
    assert made.utilisation == pytest.approx(made.let_go)
    for index in range(3):
        assert_steps(made, index)
        assert_steps(base_metal(line, A53, factored=False))


def test_no_load_no_use():
    line = ring_line(0.0, 0.0, 0.0, 0.0, Ring(diameter=0.0889, leg=0.006))
    assert weld_metal(line, A53).utilisation == 0
    assert base_metal(line, A53).utilisation == 0


def test_unknown_steel_counts_no_more_than_35_ksi():
    strong = Metal(electrode=70 * KSI, yield_stress=80 * KSI, tensile=100 * KSI, wall=0.005)
    assert strong.counted_yield == pytest.approx(35 * KSI)
    line = ring_line(1e4, 0.0, 0.0, 0.0, Ring(diameter=0.0889, leg=0.006))
    known = Metal(
        electrode=70 * KSI, yield_stress=80 * KSI, tensile=100 * KSI, wall=0.005, identified=True
    )
    assert base_metal(line, strong).utilisation > base_metal(line, known).utilisation


def test_unknown_steel_tears_at_no_more_than_48_ksi():
    """As the weakest of the common marks does, A53 grade A (ASTM A53, from memory)."""
    strong = Metal(electrode=70 * KSI, yield_stress=80 * KSI, tensile=100 * KSI, wall=0.005)
    weak = Metal(electrode=70 * KSI, yield_stress=30 * KSI, tensile=45 * KSI, wall=0.005)
    assert strong.counted_tensile == pytest.approx(48 * KSI)
    assert (weak.counted_yield, weak.counted_tensile) == (30 * KSI, 45 * KSI)


@pytest.mark.parametrize(
    ("thickness", "sixteenths"), [(0.25, 3), (0.3, 3), (0.5, 3), (0.51, 4), (0.75, 4), (1.0, 5)]
)
def test_smallest_leg(thickness, sixteenths):
    """AISC 360-22 Table J2.4 (from memory), raised to 3/16 in for cyclic load."""
    assert smallest_leg(thickness * INCH, INCH) == pytest.approx(sixteenths / 16 * INCH)


def test_smallest_leg_by_the_thicker_part_without_low_hydrogen_rod():
    """AWS D1.1 Table 5.7 (from memory): 1/4 in on a 5/8 in part, not more than the thinner."""
    assert smallest_leg(0.3 * INCH, 0.6 * INCH, low_hydrogen=False) == pytest.approx(INCH / 4)
    assert smallest_leg(0.2 * INCH, 0.6 * INCH, low_hydrogen=False) == pytest.approx(0.2 * INCH)


def test_steps():
    axial = np.array([1e4, -2e4, 0.0])
    line = ring_line(axial, 2e3, 900.0, 100.0, Ring(diameter=0.0889, leg=0.006))
    lug = lug_line(6e3, 4e3, 500.0, Lug(length=0.08, thickness=0.01, arm=0.03, leg=0.005))
    for index in range(3):
        assert_steps(weld_metal(line, A53), index)
        assert_steps(base_metal(line, A53), index)
    assert_steps(weld_metal(lug, A53))
    assert_steps(base_metal(lug, A53))
