"""Buckling factors and second-order answers of many cases at once, in a few shapes of the frame.

The exact problem of `frame.fem.buckling` is projected onto a basis V with V' K V = I (Clough and
Penzien, Dynamics of Structures, 2nd ed., secs. 9-2 and 14-5): mu of -V' Kg V = 1 / lambda. Kg is
linear in the forces, so its projection is worked out once for every unit load and unit pull and
only summed for a case. A projection can only stiffen the frame: lambda comes out too high, never
too low, by an error that whoever uses it has to measure. `frame.fem.shapes` chooses the basis.

Second order, derived here: (K + alpha Kg) u2 = K u1, with u1 of first order, makes the growth
du = u2 - u1 obey (K + alpha Kg) du = -alpha Kg u1. Its Galerkin solution in the basis is
du = V a, a = -alpha (I + alpha V' Kg V)^-1 V' Kg u1, which is the sum over buckling shapes
phi (phi' K u1) alpha / (lambda - alpha) where they are in the basis. K has the stiffness of the
guys that are taut at first order; Kg the forces of first order, which grow together.

Forces grow by those that the frame needs to take the shapes, K du in every member and joint: they
are told in the axes of the part, which turn with it, as strength is. What an axial force bends a
member by between its ends is left out of the moments at its ends: `frame.fem.bow` adds it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from frame.fem.cables import patterns
from frame.fem.cases import Answer, Shapes
from frame.fem.element import Array

NOTHING = 1e-12
"""1 / lambda below which nothing is taken as compressed."""
MODES = 2
"""Lowest modes that are told of each case."""
NEAR = 1e-3
"""How near lambda may come to alpha, by share, before the growth is held where it is then."""


@dataclass(frozen=True, kw_only=True)
class Projection:
    """A frame in k shapes that are orthonormal in its stiffness without guys.

    Attributes
    ----------
    geometric
        (L + G, k, k) geometric stiffness per unit load, then per 1 N pull of each guy.
    pulls
        (k, G) work of a 1 N pull of each guy on each shape.
    """

    geometric: Array
    pulls: Array

    def modes(self, amounts: Array, lines: Array) -> tuple[Array, Array, npt.NDArray[np.int64]]:
        """Modes (k, c) of all cases, the lowest `MODES` of each.

        Cases are `amounts` (n, L + G) of unit loads and pulls, with `lines` (n, G) the stiffness
        of taut guys [N/m]. With the modes come their case (c,) and three 1 / lambda (3, c): the
        mode's, the largest and the least of its case.
        """
        sets, which = np.unique(lines, axis=0, return_inverse=True)
        C = self._unheld(sets)[which.ravel()]
        A = _sum(-amounts, self.geometric)
        mu, q = np.linalg.eigh(C @ A @ np.swapaxes(C, 1, 2))
        q = np.swapaxes(C, 1, 2) @ q[:, :, -MODES:]
        case, mode = np.nonzero(mu[:, -MODES:] > NOTHING)
        own = np.stack([mu[case, mode - MODES], mu[case, -1], mu[case, 0]])
        return q[case, :, mode].T, own, case

    def growth(self, pushes: Array, amounts: Array, lines: Array, alpha: float) -> Array:
        """Amplitudes (k, n) of growth under pushes (k, n) at alpha times the forces of cases."""
        sets, which = np.unique(lines, axis=0, return_inverse=True)
        C = self._unheld(sets)[which.ravel()]
        A = C @ _sum(-amounts, self.geometric) @ np.swapaxes(C, 1, 2)
        turned = (C @ pushes.T[:, :, None])[:, :, 0]
        found: Array = _grown(A, turned, alpha, _lowest(A))[:, None] @ C
        return found[:, 0].T

    def _unheld(self, lines: Array) -> Array:
        """C (..., k, k) of some sets of taut guys, `lines` (..., G) as stiff [N/m]."""
        K = np.eye(len(self.pulls)) + (self.pulls * lines[..., None, :]) @ self.pulls.T
        found: Array = np.linalg.inv(np.linalg.cholesky(K))
        return found


@dataclass(frozen=True, kw_only=True)
class Ritz(Projection):
    """A projection that answers cases. Read-only arrays.

    Attributes
    ----------
    pushes
        (L + G, L + G, k) work on each shape of minus the geometric stiffness of one unit load or
        pull on the answer to another, V' (-Kg_i) u_j.
    shapes
        Movement and forces of the frame in each shape.
    known
        What was worked out for sets of taut guys so far.
    """

    pushes: Array
    shapes: Shapes
    known: dict[bytes, tuple[Array, Array]] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        """Make every array read-only."""
        for array in (self.geometric, self.pulls, self.pushes):
            array.flags.writeable = False

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,) of cases given by `factors` (n, L) and `tensions` (n, G) [N].

        Infinite where nothing is compressed. Guys with a tension count with 1 / `slackness`
        (G,) [N/m] and lean with their tension.
        """
        found = np.full(len(factors), np.inf)
        for rows, _, A in self._held(np.hstack([factors, tensions]), tensions > 0.0, slackness):
            found[rows] = _lowest(A)
        return found

    def grown(self, answer: Answer, alpha: float) -> Answer:
        """Second order of an `answer` of first order, all its forces at `alpha` times their size.

        With each case's lowest lambda. Guys that would push at second order hang slack, and what
        they pushed with stays in the other forces. From lambda = alpha (1 + `NEAR`) down the
        rack topples: the growth is large but goes no further.
        """
        slackness, amounts = (
            answer.response.slackness,
            np.hstack([answer.factors, answer.tensions]),
        )
        size = len(self.pulls)
        lowest, growth = np.full(len(amounts), np.inf), np.zeros((len(amounts), size))
        more = np.zeros_like(answer.tensions)
        each = (amounts @ self.pushes.reshape(len(self.pushes), -1)).reshape(
            len(amounts), -1, size
        )
        pushes = (amounts[:, None] @ each)[:, 0]
        for rows, C, A in self._held(amounts, answer.tensions > 0.0, slackness):
            lowest[rows] = _lowest(A)
            growth[rows] = _grown(A, pushes[rows] @ C.T, alpha, lowest[rows]) @ C
            more[rows] = -np.where(answer.tensions[rows] > 0.0, growth[rows] @ self.pulls, 0.0)
        return replace(
            answer,
            tensions=np.maximum(answer.tensions + more / slackness, 0.0),
            pulled=answer.tensions,
            shapes=self.shapes,
            amplitudes=growth,
            alpha=alpha,
            lowest=lowest,
        )

    def _held(
        self, amounts: Array, taut: npt.NDArray[np.bool_], slackness: Array
    ) -> Iterator[tuple[npt.NDArray[np.int64], Array, Array]]:
        """Yield rows of cases with the same taut guys, C (k, k), and C A C' of each (rows, k, k).

        A = -Kg, and C K C' = I with the stiffness K that counts the taut guys: the eigenvalues of
        C A C' are 1 / lambda.
        """
        sets, which = patterns(taut)
        for i, some in enumerate(sets):
            rows = np.flatnonzero(which == i)
            C, turned = self._turned(some, slackness)
            yield rows, C, _sum(-amounts[rows], turned)

    def _turned(self, taut: npt.NDArray[np.bool_], slackness: Array) -> tuple[Array, Array]:
        """C, and C Kg C' of every unit load, with some guys taut, kept for the next case."""
        key = taut.tobytes() + slackness.tobytes()
        if key not in self.known:
            C = self._unheld(np.where(taut, 1.0 / slackness, 0.0))
            self.known[key] = C, C @ self.geometric @ C.T
        return self.known[key]


def _lowest(A: Array) -> Array:
    """Lowest lambda (n,) of matrices (n, k, k) whose eigenvalues are 1 / lambda."""
    if not A.size:
        return np.full(len(A), np.inf)
    mu = np.linalg.eigvalsh(A)[:, -1]
    return np.where(mu > NOTHING, 1.0 / np.maximum(mu, NOTHING), np.inf)


def _grown(A: Array, pushes: Array, alpha: float, lowest: Array) -> Array:
    """Amplitudes (n, k) of growth under pushes (n, k), V' K V = I: alpha (I - alpha A)^-1 push."""
    standing = lowest > alpha * (1.0 + NEAR)
    k = A.shape[1]
    found = np.zeros_like(pushes)
    found[standing] = np.linalg.solve(
        np.eye(k) / alpha - A[standing], pushes[standing][:, :, None]
    )[:, :, 0]
    mu, q = np.linalg.eigh(A[~standing])
    most = 1.0 / (alpha * (1.0 + NEAR))
    held = np.where(
        mu < most, 1.0 / (1.0 / alpha - np.minimum(mu, most)), 1.0 / (NEAR * np.maximum(mu, most))
    )
    found[~standing] = (
        q @ (held[:, :, None] * (q.swapaxes(1, 2) @ pushes[~standing][:, :, None]))
    )[:, :, 0]
    return found


def _sum(amounts: Array, pieces: Array) -> Array:
    """Sum (n, k, k) of some amounts (n, m) of matrices (m, k, k)."""
    flat = amounts @ pieces.reshape(len(pieces), -1)
    return flat.reshape(len(amounts), *pieces.shape[1:])
