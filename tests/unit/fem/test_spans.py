"""What pools of shapes span: energies by hand on shapes square to each other, else by QR."""

import numpy as np
import pytest

from frame.fem.second_order.spans import (
    APART,
    FEW,
    LEAST,
    LEFT,
    MANY,
    MOST,
    apart,
    fewest,
    spanning,
)

RANDOM = np.random.default_rng(5)


def energies(*groups: tuple[int, float]) -> np.ndarray:
    """So many shapes of such an energy each, shuffled."""
    return RANDOM.permutation(np.repeat([e for _, e in groups], [n for n, _ in groups]))


@pytest.mark.parametrize("many", [FEW + 1, 40, MANY])
def test_as_many_are_taken_as_hold_all_but_a_little(many: int) -> None:
    """Shapes square to each other hold only themselves: those over the limit are taken."""
    size = energies((many, 1.0), (70 - many, 0.9 * APART))
    found = apart(np.diag(size))
    assert sorted(found) == sorted(np.flatnonzero(size == 1.0))


def test_no_fewer_and_no_more_are_taken_than_said() -> None:
    assert len(apart(np.diag(energies((3, 1.0), (60, 0.1 * APART))))) == FEW
    assert len(apart(np.eye(MANY + 20))) == MANY


def test_what_is_left_of_shapes_alike_is_measured_by_least_squares() -> None:
    """A pool of 70 mixed from 35 and a breath of others: the rest of each, by numpy's lstsq."""
    pool = RANDOM.normal(size=(200, 35)) @ RANDOM.normal(size=(35, 70))
    pool = pool / np.linalg.norm(pool, axis=0) + 1e-4 * RANDOM.normal(size=(200, 70))
    taken = pool[:, apart(pool.T @ pool)]
    rest = pool - taken @ np.linalg.lstsq(taken, pool, rcond=None)[0]
    assert taken.shape[1] == 35
    assert (rest**2).sum(axis=0).max() < APART


@pytest.mark.parametrize("strong", [LEAST, 20, MOST])
def test_the_fewest_that_hold_the_energy_of_the_first(strong: int) -> None:
    size = energies((strong, 1.0), (50 - strong, 0.5 * LEFT))
    V, P = np.eye(50), np.diag(size)
    shapes, loads = fewest(V, P, 50)
    assert shapes.shape[1] == strong
    assert shapes.T @ loads == pytest.approx(np.eye(strong), abs=1e-12)
    assert not shapes[size < 1.0].any()
    # Only the first count: with one weak shape to hold, the least will do.
    weak = np.argsort(size)
    assert fewest(V[:, weak], P[:, weak], 1)[0].shape[1] == LEAST


def test_spanning_shapes_are_square_in_the_stiffness_and_answer_their_loads() -> None:
    root = RANDOM.normal(size=(30, 30))
    K = root @ root.T + np.eye(30)
    P = RANDOM.normal(size=(30, 8))
    P = np.hstack([P, P[:, :3] - P[:, 3:6]])
    shapes, loads = spanning(np.linalg.solve(K, P), P)
    assert shapes.shape[1] == 8
    assert shapes.T @ K @ shapes == pytest.approx(np.eye(8), abs=1e-9)
    assert K @ shapes == pytest.approx(loads, abs=1e-9)
