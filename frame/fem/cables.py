"""One-way lines, exactly: the linear complementarity problem of the guys, many cases at once.

    t >= 0,   s = A t - r >= 0,   t' s = 0

A = D + F is symmetric positive definite, so the answer exists and is the only one (Cottle, Pang
and Stone, The Linear Complementarity Problem, 1992, Thm 3.1.6). Block principal pivoting
(Portugal, Judice and Vicente, Math. Comp. 63, 1994, pp. 625-643): exchange every guy that is
wrong; when that no longer helps, only the wrong one of lowest index (Murty's rule, finite for such
A), until it helps again.
"""

import numpy as np
import numpy.typing as npt

from frame.fem.element import Array

Mask = npt.NDArray[np.bool_]

_PATIENCE = 3
_ROUND_OFF = 1e-11


def solve_taut(A: Array, r: Array) -> tuple[Array, Array]:
    """Tensions and slack lengths.

    Parameters
    ----------
    A
        (G, G) symmetric positive definite [m/N].
    r
        (n, G) what each line is short by [m].

    Returns
    -------
    t (n, G) tensions [N] and s (n, G) slack lengths [m]; t * s = 0 exactly.
    """
    n, G = r.shape
    if not G or not n:
        return np.zeros((n, G)), np.zeros((n, G))
    size = 1.0 / np.sqrt(A.diagonal())
    unit, right = A * size * size[:, None], r * size
    taut = right > 0.0
    t, s = np.zeros((n, G)), np.zeros((n, G))
    best = np.full(n, G + 1)
    patience = np.full(n, _PATIENCE)
    open_cases = np.arange(n)
    while len(open_cases):
        at = open_cases
        t[at], s[at] = _given_taut(unit, right[at], taut[at])
        tolerance = _ROUND_OFF * np.abs(right[at]).max(axis=1, keepdims=True)
        wrong = np.where(taut[at], t[at] < -tolerance, s[at] < -tolerance)
        count = wrong.sum(axis=1)
        better = count < best[at]
        patience[at] = np.where(better, _PATIENCE, patience[at] - 1)
        best[at] = np.minimum(best[at], count)
        one = np.zeros_like(wrong)
        one[np.arange(len(at)), np.argmax(wrong, axis=1)] = True
        exchange = np.where((patience[at] >= 0)[:, None], wrong, one & wrong)
        taut[at] ^= exchange
        open_cases = at[count > 0]
    return np.maximum(t, 0.0) * size, np.maximum(s, 0.0) / size


def _given_taut(A: Array, r: Array, taut: Mask) -> tuple[Array, Array]:
    """Tensions and slacks (n, G), of either sign, with the taut sets given; one solve per set."""
    sets, which = patterns(taut)
    both = sets[:, :, None] & sets[:, None, :]
    inverse = np.linalg.inv(np.where(both, A, np.eye(len(A))))
    inverse = np.where(both, inverse, 0.0)
    t = (inverse[which] @ r[:, :, None])[:, :, 0]
    return t, np.where(taut, 0.0, t @ A - r)


def patterns(taut: Mask) -> tuple[Mask, npt.NDArray[np.int64]]:
    """Different rows of `taut` (n, G), and which of them each row is, (n,)."""
    if not taut.shape[1]:
        return taut[:1], np.zeros(len(taut), dtype=np.int64)
    known: dict[bytes, int] = {}
    which = [known.setdefault(row.tobytes(), len(known)) for row in np.packbits(taut, axis=1)]
    first = [which.index(i) for i in range(len(known))]
    return taut[first], np.array(which, dtype=np.int64)
