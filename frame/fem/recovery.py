"""From loads on a factorised stage to displacements, end forces, connection forces and reactions.

A short stiff member turns the last digit of a large displacement into newtons. So its rigid
motion with the first node is taken off before its stiffness is put on, and what the nodes are
then out of balance by is solved for and added once more (iterative refinement: Higham, Accuracy
and Stability of Numerical Algorithms, 2nd ed., ch. 12). Forces keep the balance to 1e-9.
"""

from dataclasses import dataclass

import numpy as np

from frame.fem.assembly import present_members, spring_stretch, stands
from frame.fem.constraints import tied_groups
from frame.fem.element import Array, skew
from frame.fem.stage import Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovered:
    """Answers to k loads: displacements (k, N, 6), member ends (k, M, 12) and what holds."""

    displacements: Array
    members: Array
    connections: Array
    reactions: Array


def recover(at: Stage, P: Array, w: Array) -> Recovered:
    """Answer nodal loads P (6 N, k), which hold what the uniform loads w (k, M, 3) come to."""
    law = _law(at)
    U = at.displacements(P)
    ends, stretch = law.strain(U)
    more = at.displacements(P - law.gather(ends, stretch))
    U += more
    extra_ends, extra_stretch = law.strain(more)
    ends += extra_ends
    stretch += extra_stretch
    connections, reactions = _holding_forces(at, stretch, law.gather(ends, stretch) - P)
    loaded = np.flatnonzero(w.any(axis=(0, 2)))
    ends[loaded] -= at.elements.loads[loaded] @ w[:, loaded].transpose(1, 2, 0)
    return Recovered(
        displacements=np.ascontiguousarray(U.T).reshape(-1, len(at.model.nodes), 6),
        members=np.ascontiguousarray(ends.transpose(2, 0, 1)),
        connections=connections,
        reactions=reactions,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Law:
    """Members and springs of a stage: what they resist motion with, and where that acts.

    `stiffness` (M, 12, 6): end forces from what the second node moves beyond riding rigidly on
    the first; `span` (M, 3, 3): a turn of the first node to minus the shift it rides by;
    `springs` (k, B, rows) of connections and supports, with deformations B u[rows].
    """

    at: Stage
    stiffness: Array
    span: Array
    springs: tuple[tuple[Array, Array, np.ndarray], ...]

    def strain(self, U: Array) -> tuple[Array, Array]:
        """End forces (M, 12, k) without their uniform loads, and spring forces (J, 6, k)."""
        u = U[self.at.elements.dofs]
        past = u[:, 6:] - u[:, :6]
        past[:, :3] += self.span @ u[:, 3:6]
        spring_forces = [k[:, None] * (B @ U[rows]) for k, B, rows in self.springs]
        return self.stiffness @ past, np.array(spring_forces).reshape(
            len(spring_forces), 6, U.shape[1]
        )

    def gather(self, ends: Array, spring_forces: Array) -> Array:
        """Sum up what the nodes must be pushed with (6 N, k) to hold these forces in balance."""
        e = self.at.elements
        total = np.zeros((self.at.K.shape[0], ends.shape[2]))
        nodal = np.swapaxes(e.to_local, 1, 2) @ ends
        np.add.at(total, e.dofs.ravel(), nodal.reshape(e.dofs.size, total.shape[1]))
        for (_, B, rows), force in zip(self.springs, spring_forces, strict=True):
            total[rows] += B.T @ force
        return total


def _law(at: Stage) -> _Law:
    model, e = at.model, at.elements
    stiffness = (e.stiffness @ e.to_local)[:, :, 6:]
    stiffness[~present_members(model, at.name)] = 0.0
    xyz = np.array([n.xyz for n in model.nodes])
    ends = e.dofs[:, ::6] // 6
    springs = []
    for c in model.connections:
        k = np.array([value or 0.0 for value in c.k]) * stands(c.fitted, at.name)
        rows = np.concatenate([6 * n + np.arange(6) for n in c.ends])
        springs.append((k, spring_stretch(model, c), rows))
    for s in model.supports:
        k = np.where(s.fixed, 0.0, s.k) * stands(s.fitted, at.name)
        springs.append((k, np.eye(6), 6 * s.node + np.arange(6)))
    return _Law(
        at=at,
        stiffness=stiffness,
        span=skew(xyz[ends[:, 1]] - xyz[ends[:, 0]]),
        springs=tuple(springs),
    )


def _holding_forces(at: Stage, spring_forces: Array, loose: Array) -> tuple[Array, Array]:
    """Find connection forces (k, C, 6) and reactions (k, S, 6), by spring law or statics."""
    count = len(at.model.connections)
    forces = -spring_forces.transpose(2, 0, 1)
    connections, reactions = forces[:, :count].copy(), forces[:, count:].copy()
    places = {"connection": connections, "support": reactions}
    for group in tied_groups(at.model, at.name):
        found = np.linalg.lstsq(group.directions, loose[group.rows], rcond=None)[0]
        for (kind, i, part), value in zip(group.owners, found, strict=True):
            places[kind][:, i, part] = value
    return connections, reactions
