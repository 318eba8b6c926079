"""Lowest buckling factors of many cases at once, in a few shapes of the frame (Rayleigh-Ritz).

The exact problem of `frame.fem.buckling` is projected onto a basis V with V' K V = I (Clough and
Penzien, Dynamics of Structures, 2nd ed., secs. 9-2 and 14-5): mu of -V' Kg V = 1 / lambda. Kg is
linear in the forces, so its projection is worked out once for every unit load and unit pull and
only summed for a case. A projection can only stiffen the frame: lambda comes out too high, never
too low, by an error that whoever uses it has to measure.

Modes of typical cases are found in the space of all static answers and taken twice through
inverse iteration (Bathe, Finite Element Procedures, sec. 11.2.1). The basis is made of those that
differ most, and of the answers to the pulls of the guys, so that any set of them may go slack.
"""

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt
from scipy import sparse
from scipy.linalg import solve_triangular
from scipy.linalg.lapack import dpstrf

from frame.fem.buckling import bowing, lean
from frame.fem.cables import patterns
from frame.fem.element import Array, skew
from frame.fem.model import Model
from frame.fem.response import Response
from frame.fem.stage import Stage

SHAPES = 20
"""Most shapes kept; more cost time in every case."""
MODES = 2
"""Lowest modes of each case that go in."""
STARTS = 28
"""Most of them that are taken on, those that differ most."""
ROUNDS = 2
"""How often the modes are taken through inverse iteration."""
NOTHING = 1e-12
"""1 / lambda below which nothing is taken as compressed."""
LAST = 1e-3
"""Weight of the static answers, which fill up what the modes leave."""
SAME = 1e-9
"""Share of the strongest energy below which a shape is taken as a sum of others."""


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
    known: dict[bytes, tuple[Array, Array]] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        """Make every array read-only."""
        for array in (self.geometric, self.pulls):
            array.flags.writeable = False

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,) of cases given by `factors` (n, L) and `tensions` (n, G) [N].

        Infinite where nothing is compressed. Guys with a tension count with 1 / `slackness`
        (G,) [N/m] and lean with their tension.
        """
        if not self.geometric.size:
            return np.full(len(factors), np.inf)
        mu = np.linalg.eigvalsh(self.held(factors, tensions, slackness)[0])[:, -1]
        pressed = mu > NOTHING
        return np.where(pressed, 1.0 / np.where(pressed, mu, 1.0), np.inf)

    def held(
        self, factors: Array, tensions: Array, slackness: Array
    ) -> tuple[Array, Array, npt.NDArray[np.int64]]:
        """Find C A C' of each case (n, k, k), whose eigenvalues are 1 / lambda.

        A = -Kg, and C K C' = I with the stiffness K that counts the taut guys: C (p, k, k) for
        every set of taut guys, and which of them each case has (n,).
        """
        amounts = -np.hstack([factors, tensions])
        sets, which = patterns(tensions > 0.0)
        if len(sets) == 1:
            geometric, C = self._turned(sets[0], slackness)
            return np.tensordot(amounts, geometric, axes=1), C[None], which
        A = np.empty((len(factors), *self.geometric.shape[1:]))
        each = []
        for i, taut in enumerate(sets):
            geometric, C = self._turned(taut, slackness)
            rows = which == i
            A[rows] = np.tensordot(amounts[rows], geometric, axes=1)
            each.append(C)
        return A, np.stack(each), which

    def _turned(self, taut: npt.NDArray[np.bool_], slackness: Array) -> tuple[Array, Array]:
        """C and C Kg C' of every unit load with some guys taut, kept for the next case."""
        if not taut.any():
            return self.geometric, np.eye(len(self.pulls))
        key = taut.tobytes() + slackness.tobytes()
        if key not in self.known:
            lines = self.pulls[:, taut]
            K = np.eye(len(lines)) + (lines / slackness[taut]) @ lines.T
            C = np.linalg.inv(np.linalg.cholesky(K))
            self.known[key] = (C @ self.geometric @ C.T, C)
        return self.known[key]

    def modes(
        self, factors: Array, tensions: Array, slackness: Array
    ) -> tuple[Array, Array, npt.NDArray[np.int64]]:
        """Lowest modes of all cases as columns (k, c), their weight (c,) and their case (c,).

        The weight is the lowest lambda of the case over the mode's.
        """
        A, C, which = self.held(factors, tensions, slackness)
        mu, q = np.linalg.eigh(A)
        mu, q = mu[:, -MODES:], np.swapaxes(C, 1, 2)[which] @ q[:, :, -MODES:]
        case, mode = np.nonzero(mu > NOTHING)
        return q[case, :, mode].T, mu[case, mode] / mu[case, -1], case


@dataclass(frozen=True, kw_only=True)
class Statics:
    """A frame in the shapes of its static answers to all unit loads and pulls: where modes start.

    `shapes` (6 N, k) orthonormal in K, `basis` the frame in them, `pulls` (6 N, G) unit pulls and
    `pulled` the answers to them; no guy is in. `pieces` make up the geometric stiffness.
    """

    at: Stage
    pieces: "tuple[Pieces, ...]"
    shapes: Array
    basis: Ritz
    pulls: Array
    pulled: Array

    @classmethod
    def of(cls, response: Response) -> "Statics":
        """Answer every load on the whole frame and project the frame onto that."""
        at, P, B = response.at, response.loads, response.pulls
        static = at.displacements(np.hstack([P, B]))
        shapes = _orthonormal(at, _unit(at, static), static.shape[1])
        pieces = _pieces(at, response)
        return cls(
            at=at,
            pieces=pieces,
            shapes=shapes,
            basis=_project(pieces, B, shapes),
            pulls=B,
            pulled=static[:, P.shape[1] :],
        )

    def ritz(self, factors: Array, tensions: Array, slackness: Array) -> Ritz:
        """Choose shapes from cases, arguments as in `Ritz.factors`.

        The cases should span what is asked later: weight alone, winds, guys taut by turns.
        """
        modes, weight, case = self.basis.modes(factors, tensions, slackness)
        weighed = weight * modes
        some = _pivoted(weighed.T @ weighed)[0][:STARTS]
        modes, weight, case = modes[:, some], weight[some], case[some]
        amounts = np.hstack([factors, tensions])[case]
        better = self.shapes @ modes
        for _ in range(ROUNDS):
            better = self.at.displacements(-_push(self.pieces, better, amounts))
            _hold(better, self.pulled, self.pulls, tensions[case] > 0.0, slackness)
            better = _unit(self.at, better)
        fitted = tensions.any(axis=0)
        held = _unit(self.at, self.pulled[:, fitted])
        pool = [weight * better, held, LAST * self.shapes]
        shapes = _orthonormal(self.at, np.hstack(pool), SHAPES)
        return _project(self.pieces, self.pulls, shapes)


@dataclass(frozen=True, slots=True)
class Pieces:
    """Small blocks (Q, d, d) of Kg at freedoms (Q, d), and how much of each is in a unit answer.

    `amount` (L + G, Q).
    """

    dofs: npt.NDArray[np.int64]
    block: Array
    amount: Array

    def gather(self, count: int) -> sparse.csr_array:
        """Sum up what acts at each of `count` freedoms, (count, Q d)."""
        places = np.arange(self.dofs.size)
        ones = np.ones(self.dofs.size)
        return sparse.csr_array((ones, (self.dofs.ravel(), places)), (count, self.dofs.size))


def _pieces(at: Stage, response: Response) -> tuple[Pieces, ...]:
    """Everything that `frame.fem.buckling` sums up, per unit load and unit pull."""
    e, model = at.elements, at.model
    ends = np.concatenate([response.member_forces, response.pull_member_forces])
    joints = np.concatenate([response.connection_forces, response.pull_connection_forces])
    setback = np.array([m.setback for m in model.members], dtype=float).reshape(-1, 2, 3)
    member, end = np.nonzero(setback.any(axis=2))
    on_tip = ends.reshape(len(ends), -1, 4, 3)[:, member, 2 * end]
    pairs = np.array([c.ends for c in model.connections], dtype=np.int64).reshape(-1, 2)
    axes = np.array([c.axes for c in model.connections], dtype=float).reshape(-1, 3, 3)
    xyz = np.array([n.xyz for n in model.nodes])
    lines, toward, hang = _lines(model, len(ends))
    nodes = np.concatenate([e.dofs[member, 6 * end] // 6, pairs[:, 0], lines.dofs[:, 0] // 6])
    levers = np.concatenate([setback[member, end], xyz[pairs[:, 1]] - xyz[pairs[:, 0]], hang])
    tips = np.concatenate(
        [
            np.einsum("qji,uqj->uqi", e.axes[member], on_tip),
            np.einsum("qji,uqj->uqi", axes, joints[:, :, :3]),
            -lines.amount[:, :, None] * toward,
        ],
        axis=1,
    )
    some = levers.any(axis=1)
    return (
        Pieces(e.dofs, bowing(e), (ends[:, :, 6] - ends[:, :, 0]) / 2),
        lines,
        Pieces(
            np.repeat(6 * nodes[some, None] + np.arange(3, 6), 3, axis=0),
            lean(levers[some, None], np.eye(3)).reshape(-1, 3, 3),
            tips[:, some].reshape(len(ends), -1),
        ),
    )


def _lines(model: Model, units: int) -> tuple[Pieces, Array, Array]:
    """Guys leaning under their own pull; their directions (G, 3) and setbacks (G, 3)."""
    at = np.array([g.node for g in model.guys], dtype=np.int64)
    hang = np.array([g.setback for g in model.guys], dtype=float).reshape(-1, 3)
    anchor = np.array([g.anchor for g in model.guys], dtype=float).reshape(-1, 3)
    line = anchor - np.array([n.xyz for n in model.nodes])[at] - hang
    length = np.sqrt((line**2).sum(axis=1))[:, None]
    toward = line / length
    across = (np.eye(3) - toward[:, :, None] * toward[:, None, :]) / length[:, :, None]
    reach = np.concatenate([np.tile(np.eye(3), (len(at), 1, 1)), -skew(hang)], axis=2)
    pieces = Pieces(
        6 * at[:, None] + np.arange(6),
        np.swapaxes(reach, 1, 2) @ across @ reach,
        np.vstack([np.zeros((units - len(at), len(at))), np.eye(len(at))]),
    )
    return pieces, toward, hang


def _project(pieces: tuple[Pieces, ...], B: Array, V: Array) -> Ritz:
    """Project pieces and pulls B (6 N, G) onto the shapes V (6 N, k)."""
    k = V.shape[1]
    total = np.zeros((len(pieces[0].amount), k * k))
    for piece in pieces:
        v = V[piece.dofs]
        total += piece.amount @ (np.swapaxes(v, 1, 2) @ piece.block @ v).reshape(-1, k * k)
    return Ritz(geometric=total.reshape(-1, k, k), pulls=V.T @ B)


def _push(pieces: tuple[Pieces, ...], V: Array, amounts: Array) -> Array:
    """Kg V (6 N, c), each column with the Kg of its own state, `amounts` (c, L + G)."""
    pushes = np.zeros_like(V)
    for piece in pieces:
        each = (piece.block @ V[piece.dofs]) * (amounts @ piece.amount).T[:, None, :]
        pushes += piece.gather(len(V)) @ each.reshape(piece.dofs.size, V.shape[1])
    return pushes


def _hold(
    V: Array, pulled: Array, B: Array, taut: npt.NDArray[np.bool_], slackness: Array
) -> None:
    """Let taut guys (c, G) hold back answers V (6 N, c) of the frame without them, in place.

    Sherman-Morrison-Woodbury; `pulled` (6 N, G) answers to pulls B (6 N, G).
    """
    sets, which = patterns(taut)
    for i, on in enumerate(sets):
        columns = np.flatnonzero(which == i)
        give = np.diag(slackness[on]) + B[:, on].T @ pulled[:, on]
        V[:, columns] -= pulled[:, on] @ np.linalg.solve(give, B[:, on].T @ V[:, columns])


def _unit(at: Stage, V: Array) -> Array:
    """Scale the columns of V to u' K u = 1; those that strain nothing stay zero."""
    size = np.sqrt(np.maximum((V * (at.K @ V)).sum(axis=0), 0.0))
    scaled: Array = V / np.where(size > 0.0, size, 1.0)
    return scaled


def _orthonormal(at: Stage, V: Array, most: int) -> Array:
    """At most `most` shapes orthonormal in K, out of the columns of V that differ most.

    Each is the column with most energy left beside those before it (pivoted Cholesky factor of
    V' K V), which keeps the worst column close rather than the average one.
    """
    order, R, rank = _pivoted(V.T @ (at.K @ V))
    keep = min(rank, most)
    shapes: Array = solve_triangular(R[:keep, :keep], V[:, order[:keep]].T, trans="T").T
    return shapes


def _pivoted(G: Array) -> tuple[npt.NDArray[np.int64], Array, int]:
    """Columns with products G in order, those first that differ most; their factor R, the rank.

    Past the rank every column is a sum of those before it.
    """
    R, pivot, rank, _ = dpstrf(G, tol=SAME * max(float(G.diagonal().max(initial=0.0)), 1e-300))
    return pivot - 1, R, int(rank)
