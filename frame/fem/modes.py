"""First natural frequencies, and the lowest modes of a pair of symmetric matrices."""

from contextlib import suppress
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.fem.assembly import Mask, Sparse
from frame.fem.element import Array
from frame.fem.factor import Factor
from frame.fem.model import AFTER, Model
from frame.fem.stage import stage

_DENSE = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Modes:
    """Natural frequencies (k,) [Hz], lowest first, and their shapes (k, N, 6), largest part 1."""

    frequency: Array
    shape: Array


def frequencies(
    model: Model, mass: npt.ArrayLike, count: int = 3, taut: Mask | None = None
) -> Modes:
    """Lowest natural frequencies of the full frame with masses lumped at its nodes.

    K phi = (2 pi f)^2 M phi, undamped, no rotary inertia: Clough and Penzien, Dynamics of
    Structures, 2nd ed., Eq. 11-6 and sec. 10-3.

    Parameters
    ----------
    mass
        (N,) [kg], the same along x, y and z.
    count
        How many; fewer come back where there are fewer freedoms with mass.
    taut
        (G,) guys that are taut and stay so; none if left out.
    """
    lumped = np.zeros((len(model.nodes), 6))
    lumped[:, :3] = np.asarray(mass, dtype=float)[:, None]
    at = stage(model, AFTER, taut=taut)
    M = (at.T.T.multiply(lumped.ravel()) @ at.T).tocsr()
    inverse, q = largest(M, (at.T.T @ at.K @ at.T).tocsr(), at.factor, count)
    moves = inverse > 1e-12 * inverse.max(initial=0.0)
    shape = (at.T @ q[:, moves]).T
    shape /= np.abs(shape).max(axis=1, initial=0.0)[:, None]
    return Modes(
        frequency=1.0 / (2.0 * np.pi * np.sqrt(inverse[moves])),
        shape=shape.reshape(-1, len(model.nodes), 6),
    )


def largest(M: Sparse, K: Sparse, factor: Factor, count: int) -> tuple[Array, Array]:
    """Largest mu (k,), and q (m, k), of M q = mu K q; K positive definite with its factor.

    Lanczos in the inner product of K (Parlett, The Symmetric Eigenvalue Problem, sec. 15.11),
    started from the same vector every time; in full where the problem is small or that does not
    converge.
    """
    m = K.shape[0]
    if m > max(_DENSE, 4 * count):
        from scipy.sparse.linalg import ArpackNoConvergence, LinearOperator, eigsh

        inverse = LinearOperator(
            (m, m), matvec=lambda p: factor.solve(p.reshape(-1, 1))[:, 0], dtype=float
        )
        start = factor.solve(np.cos(np.arange(m))[:, None])[:, 0]
        with suppress(ArpackNoConvergence):
            mu, q = eigsh(M, count, M=K, Minv=inverse, which="LA", v0=start, tol=1e-8)
            return mu[::-1], q[:, ::-1]
    from scipy.linalg import eigh

    mu, q = eigh(M.toarray(), K.toarray())
    return mu[::-1][:count], q[:, ::-1][:, :count]
