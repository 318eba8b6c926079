"""The few shapes that a frame's buckling is looked for in, chosen from typical cases.

Modes of those cases are found in the space of all static answers, then in rounds: each is made
better in the span of itself and of one step of inverse iteration (Lanczos: Parlett, The Symmetric
Eigenvalue Problem, sec. 13.1), which finds the lowest mode also where tension is far the larger,
and a new space is made of them all, until 1 / lambda settles. The shapes of a space are the
directions that hold most of the energy of the modes (singular vectors, the proper orthogonal
decomposition) and of the answers to the pulls of the guys, so that any set of them may go slack;
no more than it takes to hold every mode.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.linalg import solve_triangular
from scipy.linalg.lapack import dpstrf

from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.pieces import Pieces, pieces_of, push
from frame.fem.response import Response
from frame.fem.ritz import Ritz
from frame.fem.stage import Stage

LEAST, MOST = 12, 40
"""Shapes kept, least for cases unlike the typical ones; more cost time in every case."""
LEFT = 1e-3
"""Energy of a weighed mode that may be left out: the error, by share, of 1 / lambda + `SMALL`."""
FEW, MANY = 28, 60
"""Modes that are taken on in a round."""
APART = 1e-3
"""Energy of a weighed mode beside the others from which on it is taken on."""
ROUNDS = 6
"""Most rounds."""
SETTLED = 1e-2
"""Change, by share, of 1 / lambda + `SMALL` from one round to the next that ends them."""
NEAR = 2
"""Power of a mode's share of the largest 1 / lambda in its weight: a far second is nothing."""
SMALL = 0.06
"""1 / lambda below which errors of it count by their size rather than by their share."""
LAST = 1e-3
"""Weight of the static answers, which fill up what the modes leave."""
SAME = 1e-9
"""Share of the strongest energy below which a shape is taken as a sum of others."""


@dataclass(frozen=True, kw_only=True)
class Modes:
    """Modes of some cases, as columns (k, c) of shapes, and the state of each.

    `weight` (c,) the share of an error in the mode's shape that gets into the lowest factor;
    `amounts` (c, L + G) of unit loads and pulls; `lines` (c, G) stiffness of taut guys [N/m].
    """

    shape: Array
    weight: Array
    amounts: Array
    lines: Array


@dataclass(frozen=True, kw_only=True)
class Statics:
    """A frame in the shapes of its static answers to all unit loads and pulls: where modes start.

    `shapes` (6 N, k) orthonormal in K, `basis` the frame in them, `pulls` (6 N, G) unit pulls and
    `pulled` the answers to them; no guy is in. `pieces` make up the geometric stiffness.
    """

    at: Stage
    pieces: tuple[Pieces, ...]
    shapes: Array
    basis: Ritz
    pulls: Array
    pulled: Array

    @classmethod
    def of(cls, response: Response) -> "Statics":
        """Answer every load on the whole frame and project the frame onto that."""
        at, P, B = response.at, response.loads, response.pulls
        static = at.displacements(np.hstack([P, B]))
        shapes = _spanning(at, _unit(at, static))
        pieces = pieces_of(response)
        return cls(
            at=at,
            pieces=pieces,
            shapes=shapes,
            basis=Ritz.of(pieces, B, shapes),
            pulls=B,
            pulled=static[:, P.shape[1] :],
        )

    def ritz(self, *answers: Answer) -> Ritz:
        """Choose shapes from cases of this frame, those of each answer with its own give of guys.

        The cases should span what is asked later: weight alone, winds, guys taut by turns.
        """
        amounts = np.vstack([np.hstack([a.factors, a.tensions]) for a in answers])
        lines = np.vstack(
            [np.where(a.tensions > 0.0, 1.0 / a.response.slackness, 0.0) for a in answers]
        )
        found, before = self, None
        for _ in range(ROUNDS):
            modes, mu, some = found._differing(amounts, lines)
            if before is not None and _change(before, mu) < SETTLED:
                break
            found = found._onto(modes)
            amounts, lines, before = amounts[some], lines[some], mu[some]
        return found.basis

    def _differing(
        self, amounts: Array, lines: Array
    ) -> tuple[Modes, Array, npt.NDArray[np.int64]]:
        """Those modes of n states in these shapes that differ most.

        And the largest 1 / lambda of each state (n,), and which states the modes are of.
        """
        shape, (mu, most, least), case = self.basis.modes(amounts, lines)
        weight = (mu / most) ** NEAR * np.sqrt((most - least) / (most + SMALL))
        weighed = weight * shape
        some = _apart(weighed.T @ weighed)
        modes = Modes(
            shape=shape[:, some],
            weight=weight[some],
            amounts=amounts[case[some]],
            lines=lines[case[some]],
        )
        largest = np.zeros(len(amounts))
        largest[case] = most
        return modes, largest, np.unique(case[some])

    def _onto(self, modes: Modes) -> "Statics":
        """Return the frame in shapes that hold some modes, made better; see `_fewest`."""
        held = _unit(self.at, self.pulled[:, modes.lines.any(axis=0)])
        pool = np.hstack([modes.weight * self._better(modes), held, LAST * self.shapes])
        shapes = _fewest(self.at, pool, len(modes.weight))
        return replace(self, shapes=shapes, basis=Ritz.of(self.pieces, self.pulls, shapes))

    def _better(self, modes: Modes) -> Array:
        """Lowest mode (6 N, c) of each state in the span of its mode and the step from there."""
        V = self.shapes @ modes.shape
        K = self.at.K @ V + self.pulls @ (modes.lines.T * (self.pulls.T @ V))
        A = -push(self.pieces, V, modes.amounts)
        step = self._held(self.at.displacements(A), modes.lines)
        size = np.sqrt(np.maximum((step * A).sum(axis=0), 1e-300))
        step /= size
        spans = np.stack([V, step]), np.stack([K, A / size])
        return _unit(
            self.at, _lowest(*spans, np.stack([A, -push(self.pieces, step, modes.amounts)]))
        )

    def _held(self, V: Array, lines: Array) -> Array:
        """Let taut guys, `lines` (c, G) as stiff, hold back answers V (6 N, c) without them.

        Sherman-Morrison-Woodbury.
        """
        held = V.copy()
        sets, which = np.unique(lines, axis=0, return_inverse=True)
        for i, stiff in enumerate(sets):
            on, columns = stiff > 0.0, np.flatnonzero(which.ravel() == i)
            B, pulled = self.pulls[:, on], self.pulled[:, on]
            give = np.diag(1.0 / stiff[on]) + B.T @ pulled
            held[:, columns] -= pulled @ np.linalg.solve(give, B.T @ V[:, columns])
        return held


def _change(before: Array, now: Array) -> float:
    """Largest change of 1 / lambda + `SMALL`, by share."""
    return float(np.abs((now - before) / (now + SMALL)).max(initial=0.0))


def _lowest(V: Array, KV: Array, AV: Array) -> Array:
    """Vector (6 N, c) of the largest mu of A v = mu K v in each span V (s, 6 N, c).

    What of a span is a sum of the rest is left out.
    """
    K, A = (np.stack([(v * each).sum(axis=1) for v in V]).T for each in (KV, AV))
    size, q = np.linalg.eigh((K + np.swapaxes(K, 1, 2)) / 2)
    there = size > SAME * size[:, -1:]
    C = q * np.where(there, 1.0 / np.sqrt(np.where(there, size, 1.0)), 0.0)[:, None]
    _, y = np.linalg.eigh(np.swapaxes(C, 1, 2) @ (A + np.swapaxes(A, 1, 2)) @ C)
    found: Array = (V * (C @ y[:, :, -1:])[:, :, 0].T[:, None]).sum(axis=0)
    return found


def _unit(at: Stage, V: Array) -> Array:
    """Scale the columns of V to u' K u = 1; those that strain nothing stay zero."""
    size = np.sqrt(np.maximum((V * (at.K @ V)).sum(axis=0), 0.0))
    scaled: Array = V / np.where(size > 0.0, size, 1.0)
    return scaled


def _spanning(at: Stage, V: Array) -> Array:
    """Shapes orthonormal in K that span the columns of V, those first that differ most."""
    order, R, rank = _pivoted(V.T @ (at.K @ V))
    shapes: Array = solve_triangular(R[:rank, :rank], V[:, order[:rank]].T, trans="T").T
    return shapes


def _fewest(at: Stage, V: Array, count: int) -> Array:
    """Shapes orthonormal in K that hold most energy of the columns of V.

    As few, from `LEAST` to `MOST`, as leave less than `LEFT` of each of the first `count`; `MOST`
    if there is none to tell by.
    """
    products = V.T @ (at.K @ V)
    energy, q = (each[..., ::-1] for each in np.linalg.eigh(products))
    rest = products.diagonal()[:count, None] - np.cumsum(q[:count] ** 2 * energy, axis=1)
    enough = rest.max(axis=0, initial=0.0) < LEFT
    keep = int(np.argmax(enough)) + 1 if count and enough.any() else MOST
    rank = int((energy > SAME * energy[0]).sum()) if len(energy) else 0
    keep = min(max(keep, LEAST), MOST, rank)
    shapes: Array = V @ (q[:, :keep] / np.sqrt(energy[:keep]))
    return shapes


def _apart(G: Array) -> npt.NDArray[np.int64]:
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
    R, pivot, rank, _ = dpstrf(G, tol=SAME * max(float(G.diagonal().max(initial=0.0)), 1e-300))
    return pivot - 1, R, int(rank)
