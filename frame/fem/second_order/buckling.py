"""Lowest buckling factor of the whole frame under given forces, taut guys in.

(K + lambda Kg) phi = 0 with the geometric stiffness of `geometric.py`: axial forces, end
moments, shears and torques, levers, hinges and connections, and the tension of the guys; so sway,
twisting, lateral buckling and the swing of a beam about its post are all in it. A member with both
ends released leans but does not bow here: its own buckling is a check of the member. A member of
one piece between nodes that hold it straight bows too stiffly (22 % with pinned ends, not at all
built in); in two pieces it is within 1.5 %.
"""

from collections.abc import Sequence

import numpy as np
from scipy import sparse

from frame.fem.assembly import Sparse
from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.model import AFTER
from frame.fem.modes import largest
from frame.fem.second_order.pieces import stressed
from frame.fem.stage import Stage, stage


def buckling_factors(answer: Answer, cases: Sequence[int]) -> Array:
    """Lowest lambda of some cases (len(cases),); infinite where nothing is compressed.

    All forces of the case grow together by lambda; guys taut in the case count with EA / L, and
    lean with their tension.
    """
    model = answer.response.model
    stages: dict[bytes, Stage] = {}
    found = []
    for case in cases:
        taut = answer.tensions[case] > 0.0
        key = taut.tobytes()
        if key not in stages:
            stages[key] = stage(model, AFTER, taut=taut)
        found.append(
            lowest_factor(
                stages[key],
                answer.member_forces[case],
                answer.connection_forces[case],
                answer.tensions[case],
            )
        )
    return np.array(found, dtype=float)


def lowest_factor(
    at: Stage, member_forces: Array, connection_forces: Array, tensions: Array
) -> float:
    """Lowest lambda of one set of forces (M, 12), (C, 6), (G,) on a stage with its taut guys."""
    if not at.K.shape[0] or not at.T.shape[1]:
        return float("inf")
    Kg = geometric_stiffness(at, member_forces, connection_forces, tensions)
    T = at.T
    mu, _ = largest(-(T.T @ Kg @ T).tocsr(), (T.T @ at.K @ T).tocsr(), at.factor, 1)
    return float(1.0 / mu[0]) if mu[0] > 1e-12 else float("inf")


def geometric_stiffness(
    at: Stage,
    member_forces: Array,
    connection_forces: Array,
    tensions: Array,
    *,
    axial_only: bool = False,
) -> Sparse:
    """Kg (6 N, 6 N) [N/m, N, N m] at lambda = 1, raw like K; see `geometric.py`."""
    forces = member_forces[None], connection_forces[None], tensions[None]
    size = 6 * len(at.model.nodes)
    total = sparse.csr_matrix((size, size))
    for piece in stressed(at, *forces, axial_only=axial_only):
        values = (piece.amount[..., None] * piece.block).sum(axis=1)
        width = piece.dofs.shape[1]
        rows = np.repeat(piece.dofs, width, axis=1).ravel()
        columns = np.tile(piece.dofs, width).ravel()
        total = total + sparse.csr_matrix((values.ravel(), (rows, columns)), shape=(size, size))
    return total
