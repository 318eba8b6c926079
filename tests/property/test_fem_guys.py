"""Guys: the complementarity problem against brute force over every taut set."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.fem.cables import solve_taut
from frame.fem.cases import solve
from frame.fem.response import respond
from tests.unit.fem.builders import post_and_beam


def brute_force(A: np.ndarray, r: np.ndarray) -> np.ndarray:
    """The one taut set of all 2^G that leaves no guy pushing and no line too short."""
    found = []
    for choice in product((False, True), repeat=len(A)):
        taut = np.array(choice)
        t = np.zeros(len(A))
        t[taut] = np.linalg.solve(A[np.ix_(taut, taut)], r[taut])
        slack = A @ t - r
        if (t >= 0).all() and (slack[~taut] >= 0).all():
            found.append(t)
    assert len(found) == 1
    return found[0]


def random_system(rng: np.random.Generator, guys: int) -> np.ndarray:
    """F + D with strong coupling between the guys, as a soft frame gives."""
    shapes = rng.normal(size=(guys, rng.integers(1, guys + 2)))
    return shapes @ shapes.T + np.diag(10.0 ** rng.uniform(-3, 0, guys))


@pytest.mark.parametrize("seed", range(200))
def test_brute_force_on_random_systems(seed: int) -> None:
    rng = np.random.default_rng(seed)
    guys = int(rng.integers(1, 7))
    A = random_system(rng, guys)
    r = rng.normal(size=(6, guys))
    t, s = solve_taut(A, r)
    expected = np.array([brute_force(A, one) for one in r])
    assert t == pytest.approx(expected, rel=1e-9, abs=1e-9 * np.abs(expected).max())
    assert (t * s == 0.0).all()


def test_a_guy_slackens_and_comes_back_as_the_load_grows() -> None:
    found = 0
    for seed in range(60):
        rng = np.random.default_rng(seed)
        guys = 4
        A = random_system(rng, guys)
        start, step = A @ rng.uniform(0.2, 1.0, guys), rng.normal(size=guys)
        gusts = np.linspace(0.0, 8.0, 81)
        r = start + gusts[:, None] * step
        t, _ = solve_taut(A, r)
        assert t == pytest.approx(np.array([brute_force(A, one) for one in r]), abs=1e-8)
        taut = t > 0
        back = [(np.diff(one.astype(int)) > 0).any() for one in taut.T]
        found += any(back)
    assert found >= 3


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 12), st.sampled_from([0.0, 3.0, 6.0]))
def test_conditions_hold_whatever_the_stiffnesses(seed: int, guys: int, decades: float) -> None:
    rng = np.random.default_rng(seed)
    scale = 10.0 ** rng.uniform(-decades, decades, guys)
    A = random_system(rng, guys) * scale * scale[:, None]
    r = rng.normal(size=(40, guys)) * scale
    t, s = solve_taut(A, r)
    assert (t >= 0).all()
    assert (s >= 0).all()
    assert (t * s == 0).all()
    assert (t @ A - r - s) / scale == pytest.approx(0.0, abs=1e-8)


def test_many_cases_give_what_each_gives_alone() -> None:
    rng = np.random.default_rng(5)
    A, r = random_system(rng, 8), rng.normal(size=(300, 8))
    t, s = solve_taut(A, r)
    for i in range(0, 300, 7):
        alone = solve_taut(A, r[i : i + 1])
        assert alone[0][0] == pytest.approx(t[i], abs=1e-10)
        assert alone[1][0] == pytest.approx(s[i], abs=1e-10)


def test_no_guys_and_no_cases() -> None:
    assert solve_taut(np.zeros((0, 0)), np.zeros((3, 0)))[0].shape == (3, 0)
    assert solve_taut(np.eye(2), np.zeros((0, 2)))[1].shape == (0, 2)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(0.0, 5000.0), min_size=4, max_size=4), st.sampled_from([0.6, 1.0]))
def test_still_air_tensions_are_the_pretension_given(pulls: list[float], dead: float) -> None:
    r = respond(post_and_beam())
    answer = solve(r, [dead, 0.0, 0.0], pulls)
    assert answer.tensions[0] == pytest.approx(pulls, rel=1e-9, abs=1e-9 * max(*pulls, 1.0))
