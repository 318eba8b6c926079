"""What a pool of shapes spans: the fewest that hold it, those that differ most.

Shapes V are answers to loads P, V = K^-1 P, so that V' P are their products in the stiffness K.
"""

import numpy as np
import numpy.typing as npt
from scipy.linalg import solve_triangular
from scipy.linalg.lapack import dpstrf

from frame.fem.element import Array

LEAST, MOST = 12, 40
"""Shapes kept, least for cases unlike the typical ones; more cost time in every case."""
LEFT = 1e-3
"""Energy of a weighed mode that may be left out: the error, by share, of 1 / lambda + `SMALL`."""
FEW, MANY = 28, 60
"""Modes that are taken on in a round."""
APART = 1e-3
"""Energy of a weighed mode beside the others from which on it is taken on."""
SPANNED = 1e-9
"""Share of the strongest energy below which a shape is taken as a sum of others."""


def lowest(V: Array, KV: Array, AV: Array) -> Array:
    """Shares (s, 1, c) of the vector of the largest mu of A v = mu K v in each span V (s, 6 N, c).

    What of a span is a sum of the rest is left out.
    """
    K, A = (np.stack([(v * each).sum(axis=1) for v in V]).T for each in (KV, AV))
    size, q = np.linalg.eigh((K + np.swapaxes(K, 1, 2)) / 2)
    there = size > SPANNED * size[:, -1:]
    C = q * np.where(there, 1.0 / np.sqrt(np.where(there, size, 1.0)), 0.0)[:, None]
    _, y = np.linalg.eigh(np.swapaxes(C, 1, 2) @ (A + np.swapaxes(A, 1, 2)) @ C)
    found: Array = (C @ y[:, :, -1:])[:, :, 0].T[:, None]
    return found


def unit(V: Array, P: Array) -> tuple[Array, Array]:
    """Scale answers V to loads P to V' P = 1 each; those that strain nothing stay zero."""
    size = np.sqrt(np.maximum((V * P).sum(axis=0), 0.0))
    size = np.where(size > 0.0, size, 1.0)
    return V / size, P / size


def spanning(V: Array, P: Array) -> tuple[Array, Array]:
    """Shapes orthonormal in K that span the answers V to loads P, and the loads they answer.

    Those first that differ most.
    """
    order, R, rank = _pivoted(V.T @ P)
    shapes, loads = (
        solve_triangular(R[:rank, :rank], each[:, order[:rank]].T, trans="T").T for each in (V, P)
    )
    return shapes, loads


def fewest(V: Array, P: Array, count: int) -> tuple[Array, Array]:
    """Shapes orthonormal in K that hold most energy of answers V to loads P; their loads.

    As few, from `LEAST` to `MOST`, as leave less than `LEFT` of each of the first `count`; `MOST`
    if there is none to tell by.
    """
    products = V.T @ P
    energy, q = (each[..., ::-1] for each in np.linalg.eigh((products + products.T) / 2))
    rest = products.diagonal()[:count, None] - np.cumsum(q[:count] ** 2 * energy, axis=1)
    enough = rest.max(axis=0, initial=0.0) < LEFT
    keep = int(np.argmax(enough)) + 1 if count and enough.any() else MOST
    rank = int((energy > SPANNED * energy[0]).sum()) if len(energy) else 0
    keep = min(max(keep, LEAST), MOST, rank)
    turned = q[:, :keep] / np.sqrt(energy[:keep])
    return V @ turned, P @ turned


def apart(G: Array) -> npt.NDArray[np.int64]:
    """Columns with products G that differ most, as many as it takes to hold all but `APART`."""
    order, R, rank = _pivoted(G)
    held = np.cumsum(np.triu(R[:rank]) ** 2, axis=0)
    enough = (G.diagonal()[order] - held).max(axis=1, initial=0.0) < APART
    count = int(np.argmax(enough)) + 1 if enough.any() else rank
    return order[: min(max(count, FEW), MANY)]


def _pivoted(G: Array) -> tuple[npt.NDArray[np.int64], Array, int]:
    """Columns with products G in order, those first that differ most; their factor R, the rank.

    Past the rank every column is a sum of those before it.
    """
    R, pivot, rank, _ = dpstrf(G, tol=SPANNED * max(float(G.diagonal().max(initial=0.0)), 1e-300))
    return pivot - 1, R, int(rank)
