"""Lowest buckling factors of many cases at once, in a few shapes of the frame (Rayleigh-Ritz).

The exact problem of `frame.fem.buckling` is projected onto a basis V with V' K V = I (Clough and
Penzien, Dynamics of Structures, 2nd ed., secs. 9-2 and 14-5): mu of -V' Kg V = 1 / lambda. Kg is
linear in the forces, so its projection is worked out once for every unit load and unit pull and
only summed for a case. A projection can only stiffen the frame: lambda comes out too high, never
too low, by an error that whoever uses it has to measure. `frame.fem.shapes` chooses the basis.
"""

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from frame.fem.cables import patterns
from frame.fem.element import Array
from frame.fem.pieces import Pieces

NOTHING = 1e-12
"""1 / lambda below which nothing is taken as compressed."""
MODES = 2
"""Lowest modes that are told of each case."""


@dataclass(frozen=True, kw_only=True)
class Ritz:
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
    known: dict[bytes, Array] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        """Make every array read-only."""
        for array in (self.geometric, self.pulls):
            array.flags.writeable = False

    @classmethod
    def of(cls, pieces: tuple[Pieces, ...], pulls: Array, V: Array) -> "Ritz":
        """Project pieces and unit pulls (6 N, G) onto the shapes V (6 N, k)."""
        k = V.shape[1]
        total = np.zeros((len(pieces[0].amount), k * k))
        for piece in pieces:
            v = V[piece.dofs]
            projected = np.swapaxes(v, 1, 2) @ piece.block @ v
            total += piece.amount @ projected.reshape(-1, k * k)
        return cls(geometric=total.reshape(-1, k, k), pulls=V.T @ pulls)

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,) of cases given by `factors` (n, L) and `tensions` (n, G) [N].

        Infinite where nothing is compressed. Guys with a tension count with 1 / `slackness`
        (G,) [N/m] and lean with their tension.
        """
        if not self.geometric.size:
            return np.full(len(factors), np.inf)
        mu = np.linalg.eigvalsh(self._held(factors, tensions, slackness))[:, -1]
        pressed = mu > NOTHING
        return np.where(pressed, 1.0 / np.where(pressed, mu, 1.0), np.inf)

    def _held(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Return C A C' of each case (n, k, k), whose eigenvalues are 1 / lambda.

        A = -Kg, and C K C' = I with the stiffness K that counts the taut guys.
        """
        amounts = -np.hstack([factors, tensions])
        sets, which = patterns(tensions > 0.0)
        if len(sets) == 1:
            return _sum(amounts, self._turned(sets[0], slackness))
        A = np.empty((len(factors), *self.geometric.shape[1:]))
        for i, taut in enumerate(sets):
            rows = which == i
            A[rows] = _sum(amounts[rows], self._turned(taut, slackness))
        return A

    def _turned(self, taut: npt.NDArray[np.bool_], slackness: Array) -> Array:
        """C Kg C' of every unit load with some guys taut, kept for the next case."""
        if not taut.any():
            return self.geometric
        key = taut.tobytes() + slackness.tobytes()
        if key not in self.known:
            C = self._unheld(np.where(taut, 1.0 / slackness, 0.0))
            self.known[key] = C @ self.geometric @ C.T
        return self.known[key]

    def _unheld(self, lines: Array) -> Array:
        """C (..., k, k) of some sets of taut guys, `lines` (..., G) as stiff [N/m]."""
        K = np.eye(len(self.pulls)) + (self.pulls * lines[..., None, :]) @ self.pulls.T
        found: Array = np.linalg.inv(np.linalg.cholesky(K))
        return found

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


def _sum(amounts: Array, pieces: Array) -> Array:
    """Sum (n, k, k) of some amounts (n, m) of matrices (m, k, k)."""
    flat = amounts @ pieces.reshape(len(pieces), -1)
    return flat.reshape(len(amounts), *pieces.shape[1:])
