"""Rounding that stiff elements bring, and iterative refinement that takes it away."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from frame.fem.plane.polish import Assembled, polish


def chain(stiffness):
    """Springs in a row from the ground, along the first freedom; the others on springs of 1."""
    count = len(stiffness)
    elements, matrix = np.zeros((count, 6, 6)), np.eye(3 * count + 3)
    matrix[::3, ::3] = 0.0
    for i, k in enumerate(stiffness):
        elements[i][np.ix_([0, 3], [0, 3])] = [[k, -k], [-k, k]]
        at = [3 * i, 3 * i + 3]
        matrix[np.ix_(at, at)] += [[k, -k], [-k, k]]
    springs = np.where(np.arange(3 * count + 3) % 3 == 0, 0.0, 1.0)
    free = np.arange(3, 3 * count + 3)
    places = 3 * np.arange(count)[:, None] + np.arange(6)
    loads = np.zeros(3 * count + 3)
    loads[-3] = 1.0
    return Assembled(
        elements=elements, places=places, springs=springs, free=free,
        matrix=matrix[np.ix_(free, free)], loads=loads,
    )  # fmt: skip


def test_stiff_links_between_soft_ones_cost_nothing():
    """Springs in series, summed as fractions: 1/3 + 1/(3e14) + 1/7 + 1/(7e14) + 1/5 per newton.

    Adding up 3e14 and 3 in double precision leaves 3 wrong in its second digit.
    """
    stiffness = (3.0, 3e14, 7.0, 7e14, 5.0)
    frame = chain(stiffness)
    first = np.zeros_like(frame.loads)
    first[frame.free] = np.linalg.solve(frame.matrix, frame.loads[frame.free])
    exact = float(sum(1 / Fraction(k) for k in stiffness))
    assert abs(first[-3] / exact - 1) > 1e-4
    np.testing.assert_allclose(polish(frame, first)[-3], exact, rtol=1e-9)


def test_a_frame_without_load_stays_where_it_is():
    frame = chain((3.0, 5.0))
    frame.loads[:] = 0.0
    assert not polish(frame, np.zeros_like(frame.loads)).any()


@pytest.mark.parametrize("small", [1, 2])
def test_neither_movements_nor_turns_are_left_rough_for_the_others_size(small):
    """A spring of 1 gives 1 to a load of 1, though told by a matrix a hundredth off.

    Each correction takes two digits, if all that are needed are made: the other kind of freedom,
    a million million times larger and right at once, must not hide what is still to come.
    """
    frame = chain((3.0, 5.0))
    ways = np.arange(len(frame.loads)) % 3
    loads = np.where(ways == small, 1.0, np.where(ways == 3 - small, 1e12, 0.0))
    rough = np.diag(np.where(ways == small, 0.01, 0.0)[frame.free])
    u = polish(replace(frame, loads=loads, matrix=frame.matrix + rough), np.zeros_like(loads))
    np.testing.assert_allclose(u[frame.free][ways[frame.free] == small], 1.0, rtol=1e-8)
