"""How tight a nut is that nobody measured."""

import math

import pytest

from frame.tables.wrench import wrench_torque

INCH, FT_LB, KSI = 0.0254, 1.3558179, 6894757.0  # NIST SP 811, appendix B
STRESS_AREA = {0.375: 0.0775, 0.5: 0.1419, 0.625: 0.226, 0.75: 0.334}
"""Tensile stress areas [in2] of ASME B1.1 UNC threads, from memory of the standard."""


@pytest.mark.parametrize(
    ("size", "torque"), [(0.375, 18), (0.5, 30), (0.5625, 42.5), (0.625, 55), (0.75, 75)]
)
def test_torques_of_usual_sizes(size: float, torque: float) -> None:
    """Judgement; 9/16 in lies half way between its neighbours."""
    assert wrench_torque(size * INCH) == pytest.approx(torque * FT_LB, rel=1e-6)


@pytest.mark.parametrize("size", STRESS_AREA)
def test_no_plain_rod_is_wrung_past_its_yield(size: float) -> None:
    """Clamp force T / (K d) with K = 0.22 of a dry thread, on a rod of A36, both from memory."""
    clamp = wrench_torque(size * INCH) / (0.22 * size * INCH)
    assert clamp / (STRESS_AREA[size] * INCH**2) <= 36 * KSI


def test_beyond_the_table_torque_goes_with_the_cube_of_the_size() -> None:
    assert wrench_torque(0.1875 * INCH) == pytest.approx(18 / 8 * FT_LB, rel=1e-6)
    assert wrench_torque(1.5 * INCH) == pytest.approx(8 * 75 * FT_LB, rel=1e-6)


def test_bigger_is_tighter() -> None:
    torques = [wrench_torque(size / 16 * INCH) for size in range(3, 25)]
    assert torques == sorted(torques)


def test_a_size_already_reported_stays_nothing() -> None:
    assert math.isnan(wrench_torque(math.nan))
