"""Geometric stiffness of a frame piece by piece, linear in the forces of unit loads or cases."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt
from scipy import sparse

from frame.fem.assembly import dofs_of, present_members
from frame.fem.element import Array, skew
from frame.fem.model import Model
from frame.fem.response import Response
from frame.fem.second_order.geometric import (
    along_lever,
    connection_blocks,
    lean,
    member_blocks,
    member_stress,
)
from frame.fem.stage import Stage


@dataclass(frozen=True)
class Pieces:
    """Small blocks (Q, p, d, d) of Kg at freedoms (Q, d), and how much of each is in a state.

    `amount` (Q, p, states); `freedoms` 6 N of the model.
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


def pieces_of(response: Response, *, axial_only: bool = False) -> tuple[Pieces, ...]:
    """Geometric stiffness under each unit load, then under each unit pull of a guy."""
    loads, guys = len(response.displacements), len(response.model.guys)
    return stressed(
        response.at,
        np.concatenate([response.member_forces, response.pull_member_forces]),
        np.concatenate([response.connection_forces, response.pull_connection_forces]),
        np.vstack([np.zeros((loads, guys)), np.eye(guys)]),
        axial_only=axial_only,
    )


def stressed(
    at: Stage, members: Array, connections: Array, tensions: Array, *, axial_only: bool = False
) -> tuple[Pieces, ...]:
    """Geometric stiffness of a stage under forces (n, M, 12), (n, C, 6) and (n, G) of n states.

    `axial_only` leaves out all but what axial forces do, as in a common P-delta analysis.
    """
    model, e = at.model, at.elements
    on = present_members(model, at.name)
    beams = Pieces(
        e.dofs[on],
        member_blocks(e)[on],
        np.moveaxis(member_stress(members[:, on]), 0, -1),
        6 * len(model.nodes),
    )
    if axial_only:
        beams = replace(beams, block=beams.block[:, :1], amount=beams.amount[:, :1])
    levers = _levers(at, members, axial_only=axial_only)
    springs = _springs(model, connections, axial_only=axial_only)
    return beams, levers, springs, _lines(model, tensions, axial_only=axial_only)


def _levers(at: Stage, forces: Array, *, axial_only: bool) -> Pieces:
    """Setbacks of members: levers that push on the members' ends."""
    e = at.elements
    here = present_members(at.model, at.name)[:, None]
    member, end = np.nonzero(e.setback.any(axis=2) & here)
    lever = e.setback[member, end]
    on_end = forces.reshape(len(forces), -1, 4, 3)[:, member, 2 * end]
    ways = along_lever(lever) if axial_only else np.broadcast_to(np.eye(3), (len(lever), 3, 3))
    return Pieces(
        e.dofs[member[:, None], 6 * end[:, None] + np.arange(3, 6)],
        lean(np.broadcast_to(lever[:, None], ways.shape), ways),
        np.einsum("qji,uqj->qiu", e.axes[member], on_end),
        6 * len(at.model.nodes),
    )


def _springs(model: Model, forces: Array, *, axial_only: bool) -> Pieces:
    """Levers of connections that lean, springs that turn with their first nodes."""
    dofs = np.array([dofs_of(c.ends) for c in model.connections], dtype=np.int64).reshape(-1, 12)
    xyz = np.array([n.xyz for n in model.nodes])
    levers = [xyz[c.ends[1]] - xyz[c.ends[0]] for c in model.connections]
    axes = [np.array(c.axes, dtype=float) for c in model.connections]
    blocks = [
        connection_blocks(r, a, axial_only=axial_only) for r, a in zip(levers, axes, strict=True)
    ]
    return Pieces(
        dofs,
        np.array(blocks, dtype=float).reshape(-1, 6, 12, 12),
        np.moveaxis(forces, 0, -1),
        6 * len(xyz),
    )


def _lines(model: Model, tensions: Array, *, axial_only: bool) -> Pieces:
    """Guys leaning under their own pull, and the levers they pull on."""
    at = np.array([g.node for g in model.guys], dtype=np.int64)
    hang = np.array([g.setback for g in model.guys], dtype=float).reshape(-1, 3)
    anchor = np.array([g.anchor for g in model.guys], dtype=float).reshape(-1, 3)
    line = anchor - np.array([n.xyz for n in model.nodes])[at] - hang
    length = np.sqrt((line**2).sum(axis=1))[:, None]
    toward = line / length
    across = (np.eye(3) - toward[:, :, None] * toward[:, None, :]) / length[:, :, None]
    reach = np.concatenate([np.tile(np.eye(3), (len(at), 1, 1)), -skew(hang)], axis=2)
    block = np.swapaxes(reach, 1, 2) @ across @ reach
    on_hook = toward[:, None] @ along_lever(hang) if axial_only else toward[:, None]
    block[:, 3:, 3:] += lean(hang, -on_hook[:, 0])
    dofs = 6 * at[:, None] + np.arange(6)
    return Pieces(dofs, block[:, None], tensions.T[:, None], 6 * len(model.nodes))


def push(pieces: tuple[Pieces, ...], V: Array, amounts: Array) -> Array:
    """Kg V (6 N, c), each column with the Kg of its own state, `amounts` (c, states)."""
    pushes = np.zeros_like(V)
    for piece in pieces:
        each = piece.block @ V[piece.dofs][:, None]
        each *= (piece.amount @ amounts.T)[:, :, None, :]
        pushes += piece.gather @ each.sum(axis=1).reshape(piece.dofs.size, V.shape[1])
    return pushes


def projected(pieces: tuple[Pieces, ...], V: Array, U: Array | None = None) -> Array:
    """V' Kg U (states, k, c) in every state, of V (6 N, k) and U (6 N, c), V if left out."""
    U = V if U is None else U
    k, c = V.shape[1], U.shape[1]
    total = np.zeros((pieces[0].amount.shape[2], k * c))
    for piece in pieces:
        each = V[piece.dofs].swapaxes(1, 2)[:, None] @ (piece.block @ U[piece.dofs][:, None])
        total += piece.amount.reshape(-1, len(total)).T @ each.reshape(-1, k * c)
    return total.reshape(-1, k, c)
