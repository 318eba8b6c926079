"""What an elevation's own freedoms answer to loads: T' K T, solved and refined."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import scipy.linalg

from frame.errors import MechanismError
from frame.fem.assembly import present_members, stiffness
from frame.fem.element import Elements, element_arrays
from frame.fem.model import Model
from frame.fem.plane.model import Array
from frame.fem.plane.polish import moves_apart
from frame.idealize.reduction import Reduction

NO_STIFFNESS = 1.0
"""A freedom with no more [N/m, N m] is not there in a stage: what is left out comes to less."""
ROUNDS = 4
"""Most corrections made; one is nearly always enough."""
ENOUGH = 1e-9
"""A correction this small against the largest movement, and turn, is the last."""


def movement_under(reduction: Reduction, stage: str, P: Array) -> Array:
    """Nodal movement (6 N, k) [m, rad] under nodal loads P (6 N, k) [N, N m] in a stage.

    Members as short as a millimetre cost T' K T digits as their stiffness is added up; what the
    loads leave over, summed member by member, is solved for in turn (iterative refinement; see
    `frame.fem.plane.polish`).

    Raises
    ------
    MechanismError
        Where the elevation is loose.
    """
    T = reduction.T
    K = T.T @ stiffness(reduction.strained, stage) @ T
    there = K.diagonal() > NO_STIFFNESS
    size = 1 / np.sqrt(K.diagonal()[there])
    try:
        factor = scipy.linalg.cho_factor(K[np.ix_(there, there)] * size * size[:, None])
    except scipy.linalg.LinAlgError:
        name = reduction.view.name
        raise MechanismError(f"the {name} elevation moves without straining anything") from None
    borne = _Borne.of(reduction.strained, stage)
    u, left = np.zeros_like(P), P
    turns = np.arange(len(P)) % 6 > 2
    for _ in range(ROUNDS):
        q = np.zeros((T.shape[1], P.shape[1]))
        loads = (T.T @ left)[there]
        q[there] = size[:, None] * scipy.linalg.cho_solve(factor, size[:, None] * loads)
        change = T @ q
        u += change
        if all(
            np.abs(change[kind]).max(initial=0.0) <= ENOUGH * np.abs(u[kind]).max(initial=0.0)
            for kind in (turns, ~turns)
        ):
            break
        left = P - borne.under(u)
    return u


@dataclass(frozen=True, slots=True, kw_only=True)
class _Borne:
    """Nodal forces that members, and all that is not members, bear in a stage.

    `members` (M, 12, 12) stiffness of those that stand, in global axes, `dofs` (M, 12) their
    freedoms; `others` (6 N, 6 N) stiffness of connections and supports.
    """

    members: Array
    dofs: npt.NDArray[np.int64]
    others: Array

    @classmethod
    def of(cls, model: Model, stage: str) -> "_Borne":
        on = present_members(model, stage)
        elements: Elements = element_arrays(model)
        to_local = elements.to_local[on]
        return cls(
            members=np.swapaxes(to_local, 1, 2) @ elements.stiffness[on] @ to_local,
            dofs=elements.dofs[on],
            others=stiffness(replace(model, members=()), stage),
        )

    def under(self, u: Array) -> Array:
        """Return the forces (6 N, k) under a movement (6 N, k)."""
        forces = self.members @ moves_apart(u[self.dofs], 3)
        forces[:, :3] = -forces[:, 6:9]
        total = self.others @ u
        np.add.at(total, self.dofs, forces)
        return np.asarray(total)
