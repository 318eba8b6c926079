"""Post in ground against IBC 2021 1807.3 worked by others, and by another route.

Sheet A and B: worked pole footings in public calculation sheets, quoted from memory. A, free at
grade: P 100 kip, h 62.11 ft, b 6 ft, 200 psf/ft doubled, d 30.55 ft. B, held at grade: P 30 kip,
h 3 ft, b 4.5 ft, 350 psf/ft doubled, d 4.95 ft = 1.509 m. The depths of the table are equation
18-1 iterated in feet and pounds with S1 taken anew at d / 3, worked out apart from this program.
"""

import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.optimize import brentq

from frame.checks.check import Check
from frame.checks.ground.post_lateral import presumptive_free, presumptive_held
from frame.units import FT, LB, PSF

LITERAL_PRESSURE_DEPTH = 36 * FT
"""Depth at whose third the pressure is 12 ft deep: another reading of the clause."""

DEPTHS = (
    (500, 10, 1.0, 100, (8.85, 6.77, 5.97, 4.74)),
    (500, 10, 1.0, 150, (7.56, 5.80, 5.21, 4.14)),
    (1000, 10, 1.5, 150, (8.45, 6.47, 5.74, 4.55)),
)


def iterated(P: float, h: float, b: float, s: float) -> float:
    """Equation 18-1 as printed, in lb and ft, by damped repetition."""
    d = 1.0
    for _ in range(500):
        A = 2.34 * P / (s * min(d, 12.0) / 3 * b)
        d = (d + 0.5 * A * (1 + math.sqrt(1 + 4.36 * h / A))) / 2
    return d


def needed(use: Callable[[float], Check]) -> float:
    """Depth [ft] at which a use is 1."""
    return float(brentq(lambda d: float(use(d).utilisation) - 1, 0.1, 30.0, xtol=1e-12)) / FT


def needed_free(P: float, h: float, b: float, s: float, **cap: float) -> float:
    args = (P * LB, P * h * LB * FT), (b * FT, s * PSF / FT)
    return needed(lambda d: presumptive_free(*args[0], d, *args[1], **cap))


def needed_held(P: float, h: float, b: float, s: float) -> float:
    M, b, s = P * h * LB * FT, b * FT, s * PSF / FT
    return needed(lambda d: presumptive_held(M, d, b, s))


@pytest.mark.parametrize(("P", "h", "b", "s", "depths"), DEPTHS)
def test_depths_of_the_table(P, h, b, s, depths):
    """Free, free doubled, held, held doubled."""
    got = (
        needed_free(P, h, b, s),
        needed_free(P, h, b, 2 * s),
        needed_held(P, h, b, s),
        needed_held(P, h, b, 2 * s),
    )
    assert got == pytest.approx(depths, abs=0.006)


@pytest.mark.parametrize(
    ("P", "h", "b", "s"),
    [
        (300, 8, 0.375, 150),
        (2000, 12, 2, 150),
        (5000, 20, 1, 100),
        (200, 1, 1, 400),
        (9e3, 0, 1, 100),
    ],
)
def test_depth_needed_is_the_iterated_equation(P, h, b, s):
    assert needed_free(P, h, b, s) == pytest.approx(iterated(P, h, b, s), rel=1e-9)


def test_tall_pole_of_sheet_a_with_the_pressure_capped_at_a_third_of_the_depth():
    d = needed_free(100e3, 62.11, 6, 400, cap=LITERAL_PRESSURE_DEPTH)
    assert d == pytest.approx(30.55, rel=0.005)


def test_cautious_reading_of_12_ft_needs_far_more_depth():
    assert needed_free(100e3, 62.11, 6, 400) == pytest.approx(54.6, rel=0.005)


def test_readings_agree_to_12_ft_of_depth():
    both = [
        presumptive_free(1e3, 2e3, 12 * FT, 0.3, 2e4, 0.0, cap).allowable
        for cap in (12 * FT, LITERAL_PRESSURE_DEPTH)
    ]
    assert both[0] == pytest.approx(both[1])


def test_held_pole_of_sheet_b():
    assert needed_held(30e3, 3, 4.5, 700) == pytest.approx(4.95, rel=0.001)


def test_pure_moment_is_the_limit_of_a_tall_pole():
    tall = presumptive_free(1e-6, 5e3, 1.5, 0.3, 2e4).utilisation
    pure = presumptive_free(0.0, 5e3, 1.5, 0.3, 2e4).utilisation
    assert pure == pytest.approx(tall, rel=1e-6)
    at_limit = 5e3 / float(pure) / (1e3 * LB * FT)
    h = 1e7
    assert iterated(1e3 * at_limit / h, h, 0.3 / FT, 2e4 / (PSF / FT)) == pytest.approx(
        1.5 / FT, rel=1e-4
    )


def test_arrays_give_what_single_numbers_give():
    P, d = np.array([[500.0], [900.0]]), np.array([1.0, 1.5, 2.0])
    many = presumptive_free(P, 2 * P, d, 0.3, 2e4, 0.2)
    one = presumptive_free(900.0, 1800.0, 1.5, 0.3, 2e4, 0.2)
    assert many.utilisation.shape == (2, 3)
    assert many.utilisation[1, 1] == pytest.approx(float(one.utilisation))


@pytest.mark.parametrize(("L", "a"), [(4.75, 1.0), (7.0, 1.0), (4.0, 2.5)])
def test_ignored_top_still_weighs_on_the_ground_below(L, a):
    """Equation 18-1 in feet and pounds with S1 = s (a + d / 3), d = L - a and h from there.

    The code's S1 b d^2 is, without a top, twice the moment about the foot of a pressure s z b that
    grows from grade; with the pressure cut off above a it must stay so.
    """
    s, b, h, d = 150.0, 1.25, 9.0, L - a
    z = np.linspace(a, L, 20_001)
    pressure = trapezoid(s * z * b * (L - z), z) * 2 / (b * d**2)
    P = 1000.0
    code = presumptive_free(P * LB, P * h * LB * FT, L * FT, b * FT, s * PSF / FT, a * FT)
    P /= float(code.utilisation)
    A = 2.34 * P / (pressure * b)
    assert pressure == pytest.approx(s * (a + d / 3), rel=1e-6)
    assert 0.5 * A * (1 + math.sqrt(1 + 4.36 * (h + a) / A)) == pytest.approx(d, rel=1e-6)


def test_leaving_out_a_foot_of_five_costs_an_eighth_not_half():
    """4 ft 9 in, wind 8 ft up: by the moment of the pressures about the foot 0.88 is left."""
    whole, top = (
        presumptive_free(1e3, 1e3 * 8 * FT, 4.75 * FT, 0.1, 2e4, a * FT) for a in (0.0, 1.0)
    )
    assert float(whole.utilisation / top.utilisation) == pytest.approx(0.88, abs=0.01)
