import dataclasses
import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import inch, lbf

from frame.checks.steel import rail
from frame.checks.steel.rail_stock import expected_stock
from tests.step_check import assert_steps
from tests.strut import KSI, STOCK, STRUT

LENGTHS = np.array([0.3, 1.0, 2.0, 3.5])


def shear_centre(d: float, w: float, t: float, lip: float) -> tuple[float, float]:
    """Depth and centroid-to-shear-centre distance, by summing the shear flow over the mid-line."""
    b, h, n = d - t, w - t, 2000
    corners = [
        (-h / 2 + lip, b),
        (-h / 2, b),
        (-h / 2, 0),
        (h / 2, 0),
        (h / 2, b),
        (h / 2 - lip, b),
    ]
    middle, along = [], []
    for first, second in itertools.pairwise(corners):
        start, step = np.array(first), (np.array(second) - first) / n
        middle.append(start + step * (np.arange(n)[:, None] + 0.5))
        along.append(np.tile(step, (n, 1)))
    xy, ds = np.vstack(middle), np.vstack(along)
    length = np.hypot(*ds.T)
    centroid = (xy[:, 1] * length).sum() / length.sum()
    flow = np.cumsum(xy[:, 0] * length)
    force = (flow * ds[:, 0]).sum()
    moment = (flow * (xy[:, 0] * ds[:, 1] - xy[:, 1] * ds[:, 0])).sum()
    return d, abs(centroid + moment / force)


@pytest.mark.parametrize("depth", [0.8125, 1.0, 1.375, 1.625, 2.4375, 3.25])
@pytest.mark.parametrize("wall", [0.075, 0.105])
def test_shear_centre_bound_covers_the_integrated_distance(depth: float, wall: float) -> None:
    d, distance = shear_centre(depth, 1.625, wall, 0.375 - wall / 2)
    channel = dataclasses.replace(STRUT, depth=d)
    assert 0.8 * d < distance < rail.shear_centre_bound(channel)


def test_buckling_stress_is_the_lowest_root_of_the_monosymmetric_column() -> None:
    """Timoshenko & Gere, Theory of Elastic Stability, 5.6: roots of the coupled equation."""
    soft = dataclasses.replace(STOCK, yield_stress=1e9 * KSI)  # elastic throughout
    check = rail.tie_rail(soft, -1.0, 0.0, 0.0, LENGTHS)
    r1sq, r2sq, y0 = STRUT.I1 / STRUT.area, STRUT.I2 / STRUT.area, STRUT.depth
    r0sq = y0**2 + r1sq + r2sq
    for length, stress in zip(LENGTHS, check.extra["buckling_stress"], strict=True):
        e1, e2 = (np.pi**2 * soft.elastic * r / length**2 for r in (r1sq, r2sq))
        ez = soft.shear * STRUT.J / (STRUT.area * r0sq)
        roots = np.roots([1 - y0**2 / r0sq, -(e2 + ez), e2 * ez])
        assert_allclose(stress, 0.877 * min(*roots.real, e1), rtol=1e-9)


def test_bending_sums_both_axes_at_the_trade_stress() -> None:
    # 0.202 in3 x 25 ksi = 5.05 kip-in; slotted 0.85; half of it uses a half.
    solid = dataclasses.replace(STOCK, slot_factor=1.0)
    check = rail.bending(solid, 2.525e3 * lbf * inch, -0.73e3 * lbf * inch, 1.0)
    assert_allclose(check.utilisation, 0.5 + 0.1, rtol=1e-6)
    assert_allclose(check.let_go, 0.6 * 25 / 33, rtol=1e-6)
    assert_allclose(rail.bending(STOCK, 2.525e3 * lbf * inch, 0.0, 1.0).utilisation, 0.5 / 0.85)


def test_bending_without_an_unbraced_factor_is_not_covered() -> None:
    check = rail.bending(STOCK, 100.0, 0.0, np.array([np.nan, 0.9]))
    assert np.isnan(check.utilisation[0])
    assert np.isfinite(check.utilisation[1])


def test_twist_by_the_thin_rectangle() -> None:
    """A flat 4 in. x 0.1 in.: tau = 3 T / (b t^2) (Roark, thin rectangle, b/t large)."""
    b, t = 4 * inch, 0.1 * inch
    flat = dataclasses.replace(
        STOCK, channel=dataclasses.replace(STRUT, wall=t, J=b * t**3 / 3), slot_factor=1.0
    )
    check = rail.twist(flat, 10.0, 2.0)
    tau = 3 * 10.0 / (b * t**2)
    assert_allclose(check.let_go, tau / (0.6 * 33 * KSI), rtol=1e-9)
    assert_allclose(check.extra["rotation"], 3 * 10.0 * 2.0 / (b * t**3 * flat.shear), rtol=1e-9)


def test_tie_in_tension_yields_and_in_compression_buckles() -> None:
    pull, push = rail.tie_rail(STOCK, np.array([5e3, -5e3]), 0.0, 0.0, 2.0).utilisation
    # tension: 5 kN over 0.85 x 0.557 in2 x 33 ksi / 1.67 = 41.6 kN, under 0.2: half counts.
    assert_allclose(pull, 5e3 / 41.6e3 / 2, rtol=2e-3)
    assert push > 2 * pull


def test_tie_interaction_meets_at_a_fifth() -> None:
    capacity = 0.85 * STRUT.area * STOCK.yield_stress / 1.67
    M = 0.3 * 0.85 * STRUT.S1 * STOCK.yield_stress / 1.67
    for share, expected in ((0.1999, 0.09995 + 0.3), (0.5, 0.5 + 8 / 9 * 0.3)):
        assert_allclose(rail.tie_rail(STOCK, share * capacity, M, 0.0, 2.0).utilisation, expected)


def test_expected_rail_by_hand() -> None:
    """45 ksi x 1.15 x 0.88 x 0.202 in3 = 9.20 kip-in in bending (yield and shape: judgement).

    In twist the sand heap over a thin rectangle: 0.6 Fy t^2 / 2 per length of wall (Nadai), of
    which 0.88 is left.
    """
    made = expected_stock(STRUT, np.array([45.0, 60.0]) * KSI, 29000 * KSI, 11200 * KSI)
    check = rail.bending(made, 9.1994e3 * lbf * inch, 0.0, 1.0)
    assert_allclose(check.let_go, [1.0, 0.75], rtol=1e-4)
    assert_allclose(check.utilisation, check.let_go)
    walls = STRUT.area / STRUT.wall
    heap = 0.88 * 0.6 * 45 * KSI * 0.5 * STRUT.wall**2 * walls
    turned = rail.twist(made, heap, 1.0)
    assert_allclose(turned.let_go[0], 1.0, rtol=2e-3)
    assert_allclose(turned.utilisation, turned.let_go)
    for index in range(2):
        assert_steps(check, index)
        assert_steps(turned, index)


@pytest.mark.parametrize("index", [0, 1, 2, 3])
def test_steps_work_out(index: int) -> None:
    force = np.array([6e3, -6e3, -0.3e3, 0.0])
    assert_steps(rail.tie_rail(STOCK, force, 40.0, -20.0, LENGTHS), (index,))
    assert_steps(rail.bending(STOCK, force / 50, 20.0, 0.9), (index,))
    assert_steps(rail.twist(STOCK, force / 1000, 1.0), (index,))
