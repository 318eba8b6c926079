"""Lowest buckling factor of the whole frame under given forces, taut guys in.

(K + lambda Kg) phi = 0 with the consistent geometric stiffness of the axial forces (McGuire,
Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., Eq. 9.13 and sec. 9.2), the leaning of
rigid arms under the forces they carry, and the tension of the guys. Twisting and lateral-torsional
terms are left out. A member with both ends released leans but does not bow here: its own buckling
is a check of the member. A member of one piece between nodes that hold it straight bows too
stiffly (22 % with pinned ends, not at all built in); in two pieces it is within 1.5 %.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy import sparse

from frame.fem.assembly import Sparse, dofs_of, present_members
from frame.fem.cases import Answer
from frame.fem.element import Array, Elements, skew
from frame.fem.model import AFTER, Model
from frame.fem.modes import largest
from frame.fem.stage import Stage, stage

_BOW = np.array([[36.0, 3, -36, 3], [3, 4, -3, -1], [-36, -3, 36, -3], [3, -1, -3, 4]]) / 30
_IN_XY = np.array([1, 5, 7, 11])
_IN_XZ = np.array([2, 4, 8, 10])

Blocks = list[tuple[npt.NDArray[np.int64], Array]]


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
    at: Stage, member_forces: Array, connection_forces: Array, tensions: Array
) -> Sparse:
    """Kg (6 N, 6 N) [N/m, N, N m] at lambda = 1, raw like K."""
    model = at.model
    blocks = _members(at, member_forces) + _joints(model, connection_forces)
    blocks += _lines(model, tensions)
    rows = np.concatenate([np.repeat(dofs, len(dofs)) for dofs, _ in blocks])
    columns = np.concatenate([np.tile(dofs, len(dofs)) for dofs, _ in blocks])
    values = np.concatenate([block.ravel() for _, block in blocks])
    size = 6 * len(model.nodes)
    return sparse.csr_matrix((values, (rows, columns)), shape=(size, size))


def lean(lever: Array, force: Array) -> Array:
    """Second-order stiffness (..., 3, 3) on the rotation of a rigid lever that pushes a force.

    The lever's tip moves by half of theta x (theta x lever) on top of theta x lever; `force` is
    what the lever exerts there.
    """
    both = lever[..., :, None] * force[..., None, :]
    along = (lever * force).sum(axis=-1)[..., None, None]
    turned: Array = (both + np.swapaxes(both, -1, -2)) / 2 - along * np.eye(3)
    return turned


def bowing(e: Elements) -> Array:
    """Geometric stiffness (M, 12, 12) [1/m, 1, m] of members under 1 N of tension, global axes."""
    local = np.zeros((len(e.length), 12, 12))
    one = np.ones_like(e.length)
    for plane, lever in ((_IN_XY, e.length), (_IN_XZ, -e.length)):
        scale = np.stack([one, lever, one, lever], axis=1)
        block = _BOW * scale[:, :, None] * scale[:, None, :]
        local[:, plane[:, None], plane] = block / e.length[:, None, None]
    path = e.released @ e.to_local
    found: Array = np.swapaxes(path, 1, 2) @ local @ path
    return found


def _members(at: Stage, forces: Array) -> Blocks:
    e, model = at.elements, at.model
    on = np.flatnonzero(present_members(model, at.name))
    tension = (forces[:, 6] - forces[:, 0]) / 2
    kg = bowing(e) * tension[:, None, None]
    setback = np.array([m.setback for m in model.members], dtype=float).reshape(-1, 2, 3)
    for end in (0, 1):
        on_tip = np.einsum("mji,mj->mi", e.axes, forces[:, 6 * end : 6 * end + 3])
        turn = slice(6 * end + 3, 6 * end + 6)
        kg[:, turn, turn] += lean(setback[:, end], on_tip)
    return [(e.dofs[i], kg[i]) for i in on]


def _joints(model: Model, forces: Array) -> Blocks:
    blocks: Blocks = []
    for c, force in zip(model.connections, forces, strict=True):
        first, second = (np.array(model.nodes[i].xyz) for i in c.ends)
        turn = dofs_of(c.ends)[3:6]
        blocks.append((turn, lean(second - first, np.array(c.axes).T @ force[:3])))
    return blocks


def _lines(model: Model, tensions: Array) -> Blocks:
    blocks: Blocks = []
    for guy, tension in zip(model.guys, tensions, strict=True):
        lever = np.array(guy.setback, dtype=float)
        line = np.array(guy.anchor) - model.nodes[guy.node].xyz - lever
        length = np.sqrt(line @ line)
        toward = line / length
        across = (np.eye(3) - np.outer(toward, toward)) * tension / length
        reach = np.hstack([np.eye(3), -skew(lever)])
        block = reach.T @ across @ reach
        block[3:, 3:] += lean(lever, -tension * toward)
        blocks.append((6 * guy.node + np.arange(6), block))
    return blocks
