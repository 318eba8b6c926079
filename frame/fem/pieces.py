"""Geometric stiffness of a frame piece by piece, linear in the unit loads and unit pulls."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
from scipy import sparse

from frame.fem.buckling import bowing, lean
from frame.fem.element import Array, skew
from frame.fem.model import Model
from frame.fem.response import Response


@dataclass(frozen=True)
class Pieces:
    """Small blocks (Q, d, d) of Kg at freedoms (Q, d), and how much of each is in a unit answer.

    `amount` (L + G, Q); `freedoms` 6 N of the model.
    """

    dofs: npt.NDArray[np.int64]
    block: Array
    amount: Array
    freedoms: int

    @cached_property
    def gather(self) -> sparse.csr_array:
        """Sum up what acts at each freedom, (6 N, Q d)."""
        size = self.dofs.size
        at = self.dofs.ravel(), np.arange(size)
        return sparse.csr_array((np.ones(size), at), (self.freedoms, size))


def pieces_of(response: Response) -> tuple[Pieces, ...]:
    """Everything that `frame.fem.buckling` sums up, per unit load and unit pull."""
    e, model = response.at.elements, response.model
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
        Pieces(e.dofs, bowing(e), (ends[:, :, 6] - ends[:, :, 0]) / 2, 6 * len(xyz)),
        lines,
        Pieces(
            np.repeat(6 * nodes[some, None] + np.arange(3, 6), 3, axis=0),
            lean(levers[some, None], np.eye(3)).reshape(-1, 3, 3),
            tips[:, some].reshape(len(ends), -1),
            6 * len(xyz),
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
        6 * len(model.nodes),
    )
    return pieces, toward, hang


def push(pieces: tuple[Pieces, ...], V: Array, amounts: Array) -> Array:
    """Kg V (6 N, c), each column with the Kg of its own state, `amounts` (c, L + G)."""
    pushes = np.zeros_like(V)
    for piece in pieces:
        each = (piece.block @ V[piece.dofs]) * (amounts @ piece.amount).T[:, None, :]
        pushes += piece.gather @ each.reshape(piece.dofs.size, V.shape[1])
    return pushes
