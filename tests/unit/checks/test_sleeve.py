"""The sleeve: couple by equilibrium, wall against a ring's collapse, slop by exact geometry."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.optimize import brentq

from frame.checks.check import Kind
from frame.checks.fasteners.sleeve import (
    BearingWall,
    Couple,
    expected_wall_bearing,
    wall_bearing,
)
from frame.rack.sleeve import Sleeve
from frame.units import KSI
from tests.step_check import assert_steps, printed

POST = BearingWall(od=0.1143, wall=0.0056, yield_stress=35 * KSI, open_end=False)


def pair(moment, shear, length):
    return Couple(moment=moment, shear=shear, length=length)


def force_of(moment, shear, length, beside=0.0):
    """Side force at one end of a sleeve [N]."""
    return wall_bearing(replace(pair(moment, shear, length), beside=beside), POST).demand


def test_couple_is_the_larger_half_of_a_linear_pressure():
    """Second route: solve p = a + c x for force and moment, integrate each half."""
    M, V, L = 900.0, 1500.0, 0.2
    x = np.linspace(-L / 2, L / 2, 20001)
    a, c = V / L, M / (L**3 / 12)
    upper = x >= 0
    p = a + c * x
    assert np.trapezoid(p, x) == pytest.approx(V)
    assert np.trapezoid(p * x, x) == pytest.approx(M, rel=1e-6)
    assert force_of(M, V, L) == pytest.approx(np.trapezoid(p[upper], x[upper]), rel=1e-3)


@pytest.mark.parametrize("turned", [0.0, 0.7, np.pi / 2, 2.5, np.pi])
def test_pressure_of_a_couple_and_a_side_force_at_an_angle(turned):
    """Second route: linear pressure in both directions, each half integrated, as vectors.

    The couple pushes along x at the top; the side force is turned from it.
    """
    M, V, L = 900.0, 6000.0, 0.2
    x = np.linspace(-L / 2, L / 2, 20001)
    across = V * np.cos(turned) / L + M / (L**3 / 12) * x
    beside = np.full_like(x, V * np.sin(turned) / L)
    for sign, half in ((1, x >= 0), (-1, x <= 0)):
        halves = [np.trapezoid(p[half], x[half]) for p in (across, beside)]
        along, square = sign * V * np.cos(turned), V * np.sin(turned)
        assert force_of(M, along, L, square) == pytest.approx(np.hypot(*halves), rel=1e-3)


def test_even_pressure_at_the_ends_has_the_same_couple_as_linear_pressure():
    """Second route: even pressure over the contact length at each end, moment by integration."""
    L = 0.2
    x = np.linspace(-L / 2, L / 2, 200001)
    bears = printed(wall_bearing(pair(1.0, 0.0, L), POST).steps, "l")
    p = np.where(np.abs(x) > L / 2 - bears, np.sign(x), 0.0)
    upper = x >= 0
    moment, force = np.trapezoid(p * x, x), np.trapezoid(p[upper], x[upper])
    assert force_of(moment, 0.0, L) == pytest.approx(force, rel=1e-3)


@pytest.mark.parametrize("length", [0.1, 0.2, 0.4])
def test_expected_is_contact_along_lines_at_the_ends(length):
    """Second route: forces at the very ends, M / L, on a wall pressed along no length, K2.1.

    The code's margin, with pressure in a straight line, counts no more of the wall than that and
    no less than the same arm on a wall pressed along no length.
    """
    line = 5.5 * 35 * KSI * 0.0056**2
    expected = expected_wall_bearing(pair(1.0, 0.0, length), POST)
    assert expected.let_go == pytest.approx(1.0 / length / line)
    assert expected.allowable == expected.nominal
    coded = wall_bearing(pair(1.0, 0.0, length), POST)
    lowest = expected_wall_bearing(pair(1.0, 0.0, length), POST, bearing=1.0)
    assert expected.let_go <= coded.let_go <= lowest.let_go


def test_sleeve_leans_and_strength_expected_is_never_nil():
    """At and past its yield the pipe keeps 1 - 0.3 x 1 x 2 = 0.4 of its wall's strength."""
    plain = expected_wall_bearing(pair(500.0, 0.0, 0.15), POST)
    for stress in (35 * KSI, 70 * KSI):
        squeezed = expected_wall_bearing(pair(500.0, 0.0, 0.15), POST, stress)
        assert squeezed.nominal == pytest.approx(0.4 * plain.nominal)
    assert plain.kind is wall_bearing(pair(500.0, 0.0, 0.15), POST).kind is Kind.LEANS


def test_wall_strength_exceeds_what_a_cut_ring_alone_collapses_at():
    """A ring under two point loads collapses at 4 Mp/R; one as long as its diameter is a floor.

    Second route (plastic hinges): the rule of the table must lie above the ring without shell
    action of half a diameter, and under that of four diameters.
    """
    check = wall_bearing(pair(1.0, 0.0, 0.15), POST)
    Mp = 35 * KSI * 0.0056**2 / 4
    ring = 4 * Mp / (0.1143 / 2)
    assert 0.5 * 0.1143 * ring < check.nominal < 4 * 0.1143 * ring


def test_open_end_and_own_stress_take_strength_away():
    plain = wall_bearing(pair(500.0, 0.0, 0.15), POST)
    open_end = wall_bearing(
        pair(500.0, 0.0, 0.15), BearingWall(od=0.1143, wall=0.0056, yield_stress=35 * KSI)
    )
    stressed = wall_bearing(pair(500.0, 0.0, 0.15), POST, stress=0.6 * 35 * KSI)
    assert open_end.utilisation == pytest.approx(2 * plain.utilisation)
    assert stressed.utilisation == pytest.approx(plain.utilisation / 0.4)
    # By hand: at nominal U = 0.6, left 1 - 0.3 x 0.6 x 1.6 = 0.712; factor 1.67 between the two.
    assert stressed.let_go == pytest.approx(plain.utilisation / 1.67 / 0.712)


def test_no_moment_no_use_and_thin_wall_not_covered():
    assert wall_bearing(pair(0.0, 0.0, 0.15), POST).utilisation == 0
    thin = BearingWall(od=0.1143, wall=0.002, yield_stress=35 * KSI)
    assert np.isnan(wall_bearing(pair(100.0, 0.0, 0.15), thin).utilisation)


@pytest.mark.parametrize(("clearance", "length"), [(0.003, 0.15), (0.0015, 0.3), (0.006, 0.2)])
def test_tilt_against_exact_contact(clearance, length):
    """Second route: the angle at which a rectangle d wide touches both sides of a bore, solved."""
    d = 0.1143
    exact = brentq(lambda q: d / np.cos(q) + length * np.tan(q) - (d + clearance), 1e-9, 0.1)
    sleeve = SimpleNamespace(clearance=clearance, length=length)
    assert Sleeve.slop.fget(sleeve) == pytest.approx(exact, rel=0.03)


def test_steps():
    moment = np.array([0.0, 400.0, -2e3])
    shimmed = BearingWall(od=0.13, wall=0.006, yield_stress=35 * KSI, contact=0.5)
    for index in range(3):
        assert_steps(wall_bearing(pair(moment, 800.0, 0.15), POST, stress=5e7), index)
        assert_steps(wall_bearing(pair(moment, 800.0, 0.15), shimmed), index)
        assert_steps(expected_wall_bearing(pair(moment, 800.0, 0.15), POST, 3e8, 1.2), index)
