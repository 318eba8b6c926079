"""One stage of building, assembled and factorised."""

from dataclasses import dataclass

import numpy as np
from scipy import sparse

from frame.fem.assembly import Mask, Sparse, pull_matrix, sparse_stiffness
from frame.fem.constraints import reduction
from frame.fem.element import Array, Elements, element_arrays
from frame.fem.factor import Factor, factorise
from frame.fem.model import Model


@dataclass(frozen=True, kw_only=True)
class Stage:
    """One stage of building, factorised: raw stiffness K, unknowns u = T q, factor of T' K T."""

    model: Model
    name: str
    elements: Elements
    K: Sparse
    T: Sparse
    factor: Factor

    def displacements(self, P: Array) -> Array:
        """Freedoms (6 N, k) under nodal loads P (6 N, k)."""
        return np.asarray(self.T @ self.factor.solve(self.T.T @ P))


def stage(
    model: Model, name: str, elements: Elements | None = None, taut: Mask | None = None
) -> Stage:
    """Assemble and factorise one stage; MechanismError names what is loose.

    `taut` (G,): guys whose stiffness EA / L counts; none if left out.
    """
    e = elements or element_arrays(model)
    K = sparse_stiffness(model, name, e)
    if taut is not None and taut.any():
        B, lengths = pull_matrix(model)
        EA = np.array([guy.EA for guy in model.guys])
        lines = sparse.csr_matrix(B[:, taut])
        K = K + lines @ sparse.diags_array((EA / lengths)[taut]) @ lines.T
    T = reduction(model, name)
    return Stage(
        model=model,
        name=name,
        elements=e,
        K=K,
        T=T,
        factor=factorise(model, name, T, (T.T @ K @ T).tocsr()),
    )
