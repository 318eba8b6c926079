"""Digits that stiff elements cost a frame, won back by iterative refinement.

Where a stiff element meets soft ones, their stiffness is lost in its last digits as the two are
added up, as if a weak spring to the ground held the node. Summed element by element, what the
loads leave over is free of this; solved for in turn, it takes the error away (N. J. Higham,
Accuracy and Stability of Numerical Algorithms, 2nd ed., chapter 12, from memory).
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.fem.plane.model import Array

ROUNDS = 8
"""Most corrections made; two are nearly always enough."""
ENOUGH = 1e-9
"""A correction this small against the largest movement, and turn, is the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembled:
    """A plane frame as it was put together, three freedoms a node: two movements and a turn.

    `elements` (e, 6, 6) stiffness of each element in global axes, `places` (e, 6) where its
    freedoms are among all n; `springs` (n,) to the ground; `free` (f,) the freedoms not held;
    `matrix` (f, f) the sum of all this for them. `loads` (n,).
    """

    elements: Array
    places: npt.NDArray[np.intp]
    springs: Array
    free: npt.NDArray[np.intp]
    matrix: Array
    loads: Array


def polish(frame: Assembled, movement: Array) -> Array:
    """Return the movement (n,) of a frame, corrected until the loads leave nothing over."""
    u = np.array(movement)
    kinds = frame.free % 3 == 2, frame.free % 3 != 2
    for _ in range(ROUNDS):
        change = np.linalg.solve(frame.matrix, _left_over(frame, u)[frame.free])
        u[frame.free] += change
        if all(
            np.abs(change[kind]).max(initial=0.0)
            <= ENOUGH * np.abs(u[frame.free[kind]]).max(initial=0.0)
            for kind in kinds
        ):
            break
    return u


def moves_apart(ends: Array, ways: int) -> Array:
    """Return movements of members' ends (m, 2 n, ...) less those of their first ends.

    Only the first `ways` of an end's n freedoms are movements, the others turns. A member strains
    by how its ends move apart; told only that, no digits go to what it rides along with.
    """
    apart, other = ends.copy(), ends.shape[1] // 2
    apart[:, other : other + ways] -= apart[:, :ways]
    apart[:, :ways] = 0.0
    return apart


def _left_over(frame: Assembled, u: Array) -> Array:
    """Return the loads less what elements and ground bear under a movement."""
    forces = np.einsum("eij,ej->ei", frame.elements, moves_apart(u[frame.places], 2))
    forces[:, :2] = -forces[:, 3:5]
    left = frame.loads - frame.springs * u
    np.subtract.at(left, frame.places, forces)
    return np.asarray(left)
