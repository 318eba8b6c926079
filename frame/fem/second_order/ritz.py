"""Buckling factors and second-order answers of many cases at once, in a few shapes of the frame.

The exact problem of `buckling.py` is projected onto a basis V with V' K V = I (Clough and
Penzien, Dynamics of Structures, 2nd ed., secs. 9-2 and 14-5): mu of -V' Kg V = 1 / lambda. Kg is
linear in the forces, so its projection is worked out once for every unit load and unit pull and
only summed for a case. A projection can only stiffen the frame: lambda comes out too high, never
too low, by an error that whoever uses it has to measure. `shapes.py` chooses the basis.

Second order, derived here: (K + alpha Kg) u2 = K u1, with u1 of first order, makes the growth
du = u2 - u1 obey (K + alpha Kg) du = -alpha Kg u1. Its Galerkin solution in the basis is
du = V a, a = -alpha (I + alpha V' Kg V)^-1 V' Kg u1, which is the sum over buckling shapes
phi (phi' K u1) alpha / (lambda - alpha) where they are in the basis. K has the stiffness of the
guys that are taut at first order; Kg the forces of first order, which grow together.

Forces grow by those that the frame needs to take the shapes, K du in every member and spring: they
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

NO_BUCKLING = 1e-12
"""1 / lambda below which nothing is taken as compressed."""
MODES = 2
"""Lowest modes that are told of each case."""
NEAR = 1e-3
"""How near lambda may come to alpha, by share, before the growth is held where it is then."""


@dataclass(frozen=True, kw_only=True)
class Projection:
    """A frame in k shapes that are orthonormal in its stiffness without guys. Read-only arrays.

    Attributes
    ----------
    geometric
        (L + G, k, k) geometric stiffness per unit load, then per 1 N pull of each guy.
    pulls
        (k, G) work of a 1 N pull of each guy on each shape.
    known
        What was worked out for sets of taut guys so far.
    """

    geometric: Array
    pulls: Array
    known: dict[bytes, tuple[Array, Array]] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        """Make the arrays read-only."""
        for array in (self.geometric, self.pulls):
            array.flags.writeable = False

    def within(self, W: Array) -> "Projection":
        """Return the frame in shapes W (k, m) of these, orthonormal as they are."""
        return Projection(geometric=W.T @ self.geometric @ W, pulls=W.T @ self.pulls)

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,) of cases given by `factors` (n, L) and `tensions` (n, G) [N].

        Infinite where nothing is compressed. Guys with a tension count with 1 / `slackness`
        (G,) [N/m] and lean with their tension.
        """
        found = np.full(len(factors), np.inf)
        for rows, _, A in self.held(np.hstack([factors, tensions]), tensions > 0.0, slackness):
            found[rows] = _lowest(A)
        return found

    def modes(self, amounts: Array, lines: Array) -> tuple[Array, Array, npt.NDArray[np.int64]]:
        """Modes (k, c) of all cases, the lowest `MODES` of each.

        Cases are `amounts` (n, L + G) of unit loads and pulls, with `lines` (n, G) the stiffness
        of taut guys [N/m]. With the modes come their case (c,) and three 1 / lambda (3, c): the
        mode's, the largest and the least of its case.
        """
        C, A = self._states(amounts, lines)
        mu, q = np.linalg.eigh(A)
        told = min(MODES, mu.shape[1])
        q = np.swapaxes(C, 1, 2) @ q[:, :, -told:]
        case, mode = np.nonzero(mu[:, -told:] > NO_BUCKLING)
        own = np.stack([mu[case, mode - told], mu[case, -1], mu[case, 0]])
        return q[case, :, mode].T, own, case

    def growth(self, pushes: Array, amounts: Array, lines: Array, alpha: float) -> Array:
        """Amplitudes (k, n) of growth under pushes (k, n) at alpha times the forces of cases."""
        C, A = self._states(amounts, lines)
        turned = (C @ pushes.T[:, :, None])[:, :, 0]
        found: Array = _grown(A, turned, alpha, _toppling(A, alpha))[:, None] @ C
        return found[:, 0].T

    def _states(self, amounts: Array, lines: Array) -> tuple[Array, Array]:
        """C and C A C' (n, k, k) of cases as `modes` has them, see `held`."""
        sets, which = np.unique(lines, axis=0, return_inverse=True)
        C = self._unheld(sets)[which.ravel()]
        return C, C @ _sum(-amounts, self.geometric) @ np.swapaxes(C, 1, 2)

    def held(
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

    def _unheld(self, lines: Array) -> Array:
        """C (..., k, k) of some sets of taut guys, `lines` (..., G) as stiff [N/m]."""
        K = np.eye(len(self.pulls)) + (self.pulls * lines[..., None, :]) @ self.pulls.T
        found: Array = np.linalg.inv(np.linalg.cholesky(K))
        return found


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """Shapes of a frame as what answers them: `loads` (6 N, k) on its nodes.

    `modal` (k, m): sums of the shapes, orthonormal, that hold its modes.
    """

    loads: Array
    modal: Array


@dataclass(frozen=True, kw_only=True)
class Ritz(Projection):
    """A projection that answers cases at second order.

    Attributes
    ----------
    pushes
        (L + G, L + G, k) work on each shape of minus the geometric stiffness of one unit load or
        pull on the answer to another, V' (-Kg_i) u_j.
    shapes
        Movement and forces of the frame in each shape.
    modal
        The frame in the fewer shapes that hold its modes, which tell the factors.
    chosen
        The shapes as what answers them, for frames like this one.
    """

    pushes: Array
    shapes: Shapes
    modal: Projection
    chosen: Chosen

    def __post_init__(self) -> None:
        """Make the arrays read-only."""
        super().__post_init__()
        self.pushes.flags.writeable = False

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,), see `Projection.factors`."""
        return self.modal.factors(factors, tensions, slackness)

    def grown(self, first: Answer, alpha: float) -> Answer:
        """Second order of an answer of `first` order, all its forces at `alpha` times their size.

        It has the amplitudes of the shapes, which `Answer.member_forces` adds to what unit loads
        and pulls make, with what the axial force adds along a member's own bow: so moments grow.
        Checks are given such answers alone; alpha is 2 for the code (1.6 / 0.8), 1 for what is
        expected.

        Guys that would push at second order hang slack, and what they pushed with stays in the
        other forces. From lambda = alpha (1 + `NEAR`) down the rack topples: the growth is large
        but goes no further.
        """
        slackness, taut = first.response.slackness, first.tensions > 0.0
        amounts = np.hstack([first.factors, first.tensions])
        count, size = len(amounts), len(self.pulls)
        each = (amounts @ self.pushes.reshape(len(self.pushes), -1)).reshape(count, -1, size)
        pushes = (amounts[:, None] @ each)[:, 0]
        growth, topples = np.zeros((count, size)), np.zeros(count, dtype=bool)
        for rows, C, A in self.held(amounts, taut, slackness):
            topples[rows] = _toppling(A, alpha)
            growth[rows] = _grown(A, pushes[rows] @ C.T, alpha, topples[rows]) @ C
        more = np.where(taut, growth @ self.pulls, 0.0) / slackness
        return replace(
            first,
            tensions=np.maximum(first.tensions - more, 0.0),
            pulled=first.tensions,
            shapes=self.shapes,
            amplitudes=growth,
            alpha=alpha,
            topples=topples,
            told=self,
        )


def _lowest(A: Array) -> Array:
    """Lowest lambda (n,) of matrices (n, k, k) whose eigenvalues are 1 / lambda."""
    if not A.size:
        return np.full(len(A), np.inf)
    mu = np.linalg.eigvalsh(A)[:, -1]
    return np.where(mu > NO_BUCKLING, 1.0 / np.maximum(mu, NO_BUCKLING), np.inf)


def _toppling(A: Array, alpha: float) -> npt.NDArray[np.bool_]:
    """Whether the lowest lambda of matrices (n, k, k) is no more than alpha (1 + `NEAR`), (n,)."""
    try:
        np.linalg.cholesky(np.eye(A.shape[1]) / (alpha * (1.0 + NEAR)) - A)
    except np.linalg.LinAlgError:
        over: npt.NDArray[np.bool_] = _lowest(A) <= alpha * (1.0 + NEAR)
        return over
    return np.zeros(len(A), dtype=bool)


def _grown(A: Array, pushes: Array, alpha: float, topples: npt.NDArray[np.bool_]) -> Array:
    """Amplitudes (n, k) of growth under pushes (n, k), V' K V = I: alpha (I - alpha A)^-1 push."""
    if topples.any():
        found = np.empty_like(pushes)
        standing = ~topples
        none = np.zeros(standing.sum(), dtype=bool)
        found[standing] = _grown(A[standing], pushes[standing], alpha, none)
        found[topples] = _fallen(A[topples], pushes[topples], alpha)
        return found
    stiffness = np.eye(A.shape[1]) / alpha - A
    return np.asarray(np.linalg.solve(stiffness, pushes[:, :, None])[:, :, 0], dtype=np.float64)


def _fallen(A: Array, pushes: Array, alpha: float) -> Array:
    """Growth (n, k) with every mode from alpha (1 + `NEAR`) down as large as there."""
    mu, q = np.linalg.eigh(A)
    most = 1.0 / (alpha * (1.0 + NEAR))
    over = mu > most
    held = np.where(over, NEAR * mu, 1.0 / alpha - np.minimum(mu, most))
    grown: Array = q @ ((q.swapaxes(1, 2) @ pushes[:, :, None]) / held[:, :, None])
    return grown[:, :, 0]


def _sum(amounts: Array, pieces: Array) -> Array:
    """Sum (n, k, k) of some amounts (n, m) of matrices (m, k, k)."""
    flat = amounts @ pieces.reshape(len(pieces), -1)
    return flat.reshape(len(amounts), *pieces.shape[1:])
