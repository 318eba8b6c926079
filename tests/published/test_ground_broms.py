"""Ultimate strength against Broms (1964) as printed and against pressures summed along the post.

Broms' closed forms for the short free-headed pile (clay: f = Hu / (9 cu B), g = L - 1.5 B - f,
Mmax = Hu (e + 1.5 B + f / 2) = 2.25 cu B g^2; sand: Hu = 0.5 gamma B L^3 Kp / (e + L)) are solved
here by root finding in pounds and feet. The second route sums the pressure of a straight post that
turns about a depth x, by the trapezium rule, and looks for the pair (P, M) asked for.
"""

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.optimize import brentq

from frame.checks.ground.post_lateral import expected_width
from frame.checks.ground.post_ultimate import (
    ExpectedSand,
    expected_clay,
    expected_sand,
    ultimate_clay,
    ultimate_sand,
)
from frame.units import FT, LB, PCF, PSF

PHI = np.radians(30.0)


def printed_clay(B: float, L: float, e: float, cu: float) -> float:
    def gap(H: float) -> float:
        f = H / (9 * cu * B)
        return H * (e + 1.5 * B + f / 2) - 2.25 * cu * B * (L - 1.5 * B - f) ** 2

    return brentq(gap, 0, 9 * cu * B * (L - 1.5 * B))


def summed(pressure, top: float, L: float, ratio: float) -> float:
    """Shear at grade [load] at which turning about some depth balances a moment ratio * shear."""
    z = np.linspace(top, L, 200_001)

    def shear_and_moment(x: float) -> tuple[float, float]:
        q = pressure(z) * np.clip((x - z) / 1e-4, -1, 1)
        return trapezoid(q, z), -trapezoid(q * z, z)

    x = brentq(lambda x: np.subtract(*np.multiply(shear_and_moment(x), (ratio, 1))), top, L)
    return shear_and_moment(x)[0]


def strength_clay(B: float, L: float, e: float, cu: float) -> float:
    c = ultimate_clay(1.0, e * FT, L * FT, B * FT, cu * PSF)
    return 1 / float(c.let_go) / LB


def test_clay_of_six_feet():
    assert strength_clay(1, 6, 10, 1000) == pytest.approx(3292, abs=1)


@pytest.mark.parametrize(
    ("B", "L", "e", "cu"), [(1, 6, 10, 1000), (0.5, 4, 0, 500), (0.9, 5, 30, 2000)]
)
def test_clay_as_printed_and_summed(B, L, e, cu):
    got = strength_clay(B, L, e, cu)
    assert got == pytest.approx(printed_clay(B, L, e, cu), rel=1e-9)
    level = summed(lambda z: 9 * cu * B + 0 * z, 1.5 * B, L, e)
    assert got == pytest.approx(level, rel=1e-3)


def test_sand_of_six_feet_turning_about_the_foot():
    c = ultimate_sand(1.0, 10 * FT, 6 * FT, 1 * FT, 115 * PCF, PHI)
    assert float(c.extra["broms"] / c.demand) / LB == pytest.approx(2329, abs=1)
    assert float(c.utilisation) == pytest.approx(2 / (2329 * LB), rel=1e-3)


def test_the_soft_end_with_a_factor_of_two_is_the_middle_with_two_and_a_half():
    """The doubt about the ground counted once: either way of practice, within a tenth.

    Sandy gravel of 32 to 42 deg: Kp 3.255 at the loose end over 2, 4.023 at 37 deg over 2.5.
    """
    loose, middle = (
        ultimate_sand(1.0, 10 * FT, 6 * FT, 2 * FT, 60 * PCF, np.radians(phi)).extra["broms"]
        for phi in (32, 37)
    )
    assert 0.9 < float(loose / 2.0) / float(middle / 2.5) < 1.1
    c = ultimate_sand(1.0, 10 * FT, 6 * FT, 2 * FT, 60 * PCF, np.radians(32))
    assert float(c.allowable) == pytest.approx(float(loose) / 2)


def test_sand_as_printed_is_the_sum_of_pressures_about_the_foot():
    L, B, g = 1.4, 0.3, 9e3
    z = np.linspace(0, L, 10_001)
    foot = trapezoid(3 * g * 3.0 * B * z * (L - z), z)
    c = ultimate_sand(1e3, 2e3, L, B, g, PHI)
    assert float(c.extra["broms"]) == pytest.approx(foot, rel=1e-6)
    assert c.demand == pytest.approx(2e3 + 1e3 * L)


@pytest.mark.parametrize("e", [0.0, 0.7, 2.0, 6.0, 60.0])
def test_low_strength_of_sand_is_under_the_sum_on_both_sides(e):
    L, B, g = 1.4, 0.3, 9e3
    both = summed(lambda z: 3 * 3.0 * g * B * z, 0.0, L, e)
    low = 1 / float(ultimate_sand(1.0, e, L, B, g, PHI).let_go)
    assert low <= both * 1.0005
    assert low >= both * 0.97


@pytest.mark.parametrize(("L", "a"), [(1.4, 0.3), (2.1, 0.9)])
def test_top_of_sand_that_is_left_out_still_weighs(L, a):
    """Pressure 3 Kp gamma z from grade, Kp 3 at 30 deg, acting below a alone."""
    q = 3 * 3.0 * 9e3 * 0.3
    z = np.linspace(a, L, 20_001)
    about_foot = trapezoid(q * z * (L - z), z)
    got = ultimate_sand(1e3, 2e3, L, 0.3, 9e3, PHI, a)
    assert float(got.extra["broms"]) == pytest.approx(about_foot, rel=1e-6)
    assert got.demand == pytest.approx(2e3 + 1e3 * L)
    for e in (0.0, 0.7, 6.0):
        both = summed(lambda z: q * z, a, L, e)
        low = 1 / float(ultimate_sand(1.0, e, L, 0.3, 9e3, PHI, a).let_go)
        assert 0.95 * both <= low <= both * 1.0005


def test_expected_sand_is_broms_about_the_foot_times_what_tests_reach():
    """Of a foot left out nine inches are dead; 0.25 in concrete stays 0.25."""
    z = np.linspace(0.75 * 0.3048, 2.1, 20_001)
    Kp = (1 + np.sin(np.radians(36))) / (1 - np.sin(np.radians(36)))
    about_foot = trapezoid(3 * Kp * 17e3 * 0.25 * z * (2.1 - z), z)
    sand = ExpectedSand(17e3, np.radians(36), 1.4)
    got = expected_sand(1e3, 3e3, 2.1, 0.25, sand, 0.3048)
    assert float(got.nominal) == pytest.approx(1.4 * about_foot, rel=1e-6)
    assert got.allowable is got.nominal


def test_expected_clay_of_a_four_inch_post_in_tamped_earth():
    """4 in pipe, 4 ft 9 in down, a foot left out: 5 in bear below 9 in; cu 1000 psf, wind 7 ft up.

    Pressures summed in feet and pounds; by hand for a pure moment 9 x 1000 x 0.4167 x 4^2 / 4 =
    15,000 ft-lb.
    """
    width = expected_width(4 / 12 * FT, 10 / 12 * FT, "earth")
    got = expected_clay(1.0, 7 * FT, 4.75 * FT, width, 1000 * PSF, FT)
    level = summed(lambda z: 9 * 1000 * 5 / 12 + 0 * z, 0.75, 4.75, 7.0)
    assert 1 / float(got.let_go) / LB == pytest.approx(level, rel=1e-3)
    assert float(got.nominal) / (LB * FT) == pytest.approx(15_000, rel=1e-6)


def test_no_more_of_a_wide_pier_counts_in_clay_than_does_it_good():
    """The widest that pays is the best of the strips inside, searched in steps of a millimetre."""
    strips = np.arange(0.01, 1.0, 0.001)
    for P, M in ((1.0, 0.0), (1.0, 0.5), (0.0, 1.0)):
        got = ultimate_clay(P, M, 1.5, strips, 25e3).let_go
        assert (np.diff(got) <= 1e-12).all()
    best = max(9 * 25e3 * b * max(1.5 - 1.5 * b, 0) ** 2 / 4 for b in strips)
    pier = float(ultimate_clay(0.0, 1.0, 1.5, 0.9, 25e3).nominal)
    assert 0.98 * best < pier <= best


def test_pure_moment_in_sand_on_both_sides():
    L, q = 1.4, 3 * 3.0 * 9e3 * 0.3
    z = np.linspace(0, L, 200_001)
    turn = trapezoid(q * z * np.where(z > L / np.sqrt(2), z, -z), z)
    c = ultimate_sand(0.0, 1e3, L, 0.3, 9e3, PHI)
    assert float(c.nominal) == pytest.approx(turn, rel=1e-4)
    assert trapezoid(q * z * np.where(z > L / np.sqrt(2), 1, -1), z) == pytest.approx(0, abs=1)


def test_pure_moment_in_clay():
    level = np.linspace(0.45, 1.6, 100_001)
    arm = np.abs(level - (0.45 + 1.6) / 2)
    c = ultimate_clay(0.0, 1e3, 1.6, 0.3, 25e3)
    assert float(c.nominal) == pytest.approx(trapezoid(9 * 25e3 * 0.3 * arm, level), rel=1e-6)
    assert float(c.demand) == pytest.approx(1e3)


@pytest.mark.parametrize("angle", np.linspace(0, np.pi / 2, 7))
def test_load_that_opposes_its_moment_is_borne_whenever_the_pair_together_is(angle):
    """Straight post in clay turning about any depth x, either way: the true limit line."""
    top, L, p = 0.45, 1.6, 9 * 25e3 * 0.3
    x = np.linspace(top, L, 4001)
    P = p * ((x - top) - (L - x))
    M = -p * ((x**2 - top**2) - (L**2 - x**2)) / 2
    P, M = np.concatenate([P, -P]), np.concatenate([M, -M])
    together = 1 / float(ultimate_clay(np.cos(angle), np.sin(angle), L, 0.3, 25e3).let_go)
    # a point is inside the convex limit line if no tangent plane has it outside
    turn = np.linspace(0, 2 * np.pi, 721)
    reach = np.max(np.outer(np.cos(turn), P) + np.outer(np.sin(turn), M), axis=1)
    opposed = together * (np.cos(turn) * np.cos(angle) - np.sin(turn) * np.sin(angle))
    assert np.all(opposed <= reach * (1 + 1e-6))
