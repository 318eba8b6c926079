"""Hill speed-up and the gust factor of flexible structures against printed ASCE/SEI 7 numbers."""

import pytest

from frame.loads.gust import Block, flexible_gust_effect, gust_effect
from frame.loads.hill import Hill, hill_factor
from frame.loads.terrain import Terrain, terrain

FOOT, MPH = 0.3048, 0.44704


@pytest.mark.parametrize(
    ("slope", "ridge", "escarpment", "hill"),
    [
        (0.20, 0.29, 0.17, 0.21),
        (0.30, 0.43, 0.26, 0.32),
        (0.40, 0.58, 0.34, 0.42),
        (0.50, 0.72, 0.43, 0.53),
        (0.90, 0.72, 0.43, 0.53),
    ],
)
def test_k1_of_figure_26_8_1(slope: float, ridge: float, escarpment: float, hill: float) -> None:
    # Table of K1 for exposure C, at the crest and at the ground (K2 = K3 = 1).
    for shape, k1 in (("ridge", ridge), ("escarpment", escarpment), ("hill", hill)):
        rise = Hill(shape=shape, height=30.0, half_length=30.0 / slope)
        assert hill_factor(rise, "C", 0.0) ** 0.5 - 1 == pytest.approx(k1, abs=0.0051)


@pytest.mark.parametrize(
    ("far", "escarpment", "other"),
    [(0.0, 1.0, 1.0), (0.5, 0.88, 0.67), (1.0, 0.75, 0.33), (1.5, 0.63, 0.0), (4.0, 0.0, 0.0)],
)
def test_k2_of_figure_26_8_1(far: float, escarpment: float, other: float) -> None:
    # Downwind of the crest of an escarpment; all other cases.
    for shape, k2 in (("escarpment", escarpment), ("ridge", other), ("hill", other)):
        rise = Hill(shape=shape, height=30.0, half_length=75.0)
        crest = hill_factor(rise, "C", 0.0) ** 0.5 - 1
        there = hill_factor(rise, "C", 0.0, far * 75, "downwind") ** 0.5 - 1
        assert there / crest == pytest.approx(k2, abs=0.0051)


@pytest.mark.parametrize(
    ("up", "ridge", "escarpment", "hill"),
    [(0.1, 0.74, 0.78, 0.67), (0.2, 0.55, 0.61, 0.45), (0.5, 0.22, 0.29, 0.14)],
)
def test_k3_of_figure_26_8_1(up: float, ridge: float, escarpment: float, hill: float) -> None:
    for shape, k3 in (("ridge", ridge), ("escarpment", escarpment), ("hill", hill)):
        rise = Hill(shape=shape, height=30.0, half_length=75.0)
        ratio = (hill_factor(rise, "C", up * 75) ** 0.5 - 1) / (
            hill_factor(rise, "C", 0.0) ** 0.5 - 1
        )
        assert ratio == pytest.approx(k3, abs=0.0051)


def test_gentle_and_low_rises_count_for_nothing() -> None:
    # 26.8.1: H/Lh under 0.2; H under 15 ft in exposure C and D, 60 ft in B.
    assert hill_factor(Hill(shape="hill", height=30, half_length=160), "C", 3.0) == 1
    assert hill_factor(Hill(shape="hill", height=4, half_length=10), "C", 3.0) == 1
    assert hill_factor(Hill(shape="hill", height=15, half_length=40), "B", 3.0) == 1
    assert hill_factor(Hill(shape="hill", height=15, half_length=40), "C", 3.0) > 1.2


def test_flexible_building_of_the_commentary() -> None:
    # ASCE/SEI 7-05 commentary C6.5.8, building 600 ft high, 100 x 100 ft, exposure B, 90 mph,
    # 0.2 Hz, damping 0.01 (as remembered: Iz 0.201, Lz 709.7 ft, Vz 107.95 ft/s, Q2 0.616,
    # R2 0.81, Gf 1.06), with the terrain constants of that edition.
    old_b = Terrain(
        alpha=7.0,
        gradient_height=1200 * FOOT,
        mean_exponent=1 / 4,
        mean_factor=0.45,
        turbulence=0.30,
        scale=320 * FOOT,
        scale_exponent=1 / 3,
        least_height=30 * FOOT,
    )
    block = Block(height=600 * FOOT, width=100 * FOOT, depth=100 * FOOT)
    found = flexible_gust_effect(0.2, 90 * MPH, block, old_b, 0.01)
    assert found == pytest.approx(1.06, abs=0.006)


def test_slow_racks_get_more_and_quick_ones_the_rigid_factor() -> None:
    rack = Block(height=3.0, width=4.3, depth=2.9)
    ground = terrain("C")
    assert gust_effect(1.0, 50.0, rack, ground) == 0.85
    slow, slower = (gust_effect(n, 50.0, rack, ground) for n in (0.9, 0.4))
    assert 0.85 <= slow < slower
    assert gust_effect(0.5, 50.0, rack, ground, 0.02) < gust_effect(0.5, 50.0, rack, ground, 0.01)
