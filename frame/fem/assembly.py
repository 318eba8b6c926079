"""From members, springs and loads to the global stiffness and load vectors.

The freedoms of node i are 6 i .. 6 i + 5 (ux, uy, uz, rx, ry, rz), global axes. A stage is
"before" (what stands when the dead load comes on) or "after" (everything).
"""

from typing import Any

import numpy as np
import numpy.typing as npt
from scipy import sparse

from frame.fem.element import Array, Elements, element_arrays, skew
from frame.fem.model import AFTER, BEFORE, Connection, Model

Mask = npt.NDArray[np.bool_]
Sparse = Any


def stands(fitted: str, stage: str) -> bool:
    """Whether a part fitted "before" or "after" is there in a stage."""
    return stage == AFTER or fitted == BEFORE


def present_members(model: Model, stage: str) -> Mask:
    """(M,) the members that stand in a stage."""
    return np.array([stands(m.fitted, stage) for m in model.members], dtype=bool)


def present_nodes(model: Model, stage: str) -> Mask:
    """(N,) the nodes that a standing member, connection or support touches."""
    seen = np.zeros(len(model.nodes), dtype=bool)
    pairs = [(m.ends, m.fitted) for m in model.members]
    pairs += [(c.ends, c.fitted) for c in model.connections]
    seen[[n for ends, fitted in pairs if stands(fitted, stage) for n in ends]] = True
    for support in model.supports:
        if stands(support.fitted, stage):
            seen[support.node] = True
    return seen


def arm(model: Model, connection: Connection) -> Array:
    """(6, 6) motion of the connection's springs' near side from the motion of its first node."""
    first, second = (np.array(model.nodes[i].xyz) for i in connection.ends)
    rigid = np.eye(6)
    rigid[:3, 3:] = -skew(second - first)
    return rigid


def spring_axes(connection: Connection) -> Array:
    """(6, 6) from global motion to motion along and about the spring axes."""
    axes = np.zeros((6, 6))
    axes[:3, :3] = axes[3:, 3:] = np.array(connection.axes)
    return axes


def spring_stretch(model: Model, connection: Connection) -> Array:
    """(6, 12) spring deformations from the freedoms of the first, then the second node."""
    axes = spring_axes(connection)
    return np.hstack([-axes @ arm(model, connection), axes])


def dofs_of(ends: tuple[int, int]) -> npt.NDArray[np.int64]:
    """(12,) positions of the freedoms of two nodes."""
    return (6 * np.array(ends)[:, None] + np.arange(6)).ravel()


def stiffness(model: Model, stage: str) -> Array:
    """Raw stiffness (6 N, 6 N) [N/m, N, N m], dense; see `sparse_stiffness`."""
    return np.asarray(sparse_stiffness(model, stage).toarray(), dtype=np.float64)


def sparse_stiffness(model: Model, stage: str, elements: Elements | None = None) -> Sparse:
    """Raw stiffness (6 N, 6 N) [N/m, N, N m] of members, finite springs and supports' springs.

    Rigid supports and rigid components of connections are left out: see constraints.py.
    """
    e = elements or element_arrays(model)
    on = present_members(model, stage)
    to_local, dofs = e.to_local[on], e.dofs[on]
    blocks = [np.swapaxes(to_local, 1, 2) @ e.stiffness[on] @ to_local]
    places = [dofs]
    for c in model.connections:
        springs = np.array([value or 0.0 for value in c.k])
        if stands(c.fitted, stage) and springs.any():
            B = spring_stretch(model, c)
            blocks.append((B.T @ (springs[:, None] * B))[None])
            places.append(dofs_of(c.ends)[None])
    held_up = [s for s in model.supports if stands(s.fitted, stage)]
    grounds = np.array([s.node for s in held_up], dtype=np.int64)[:, None] * 6 + np.arange(6)
    ground = [np.where(s.fixed, 0.0, s.k) for s in held_up]
    at, k = np.concatenate(places), np.concatenate(blocks)
    rows = np.concatenate([np.repeat(at, 12, axis=1).ravel(), grounds.ravel()])
    columns = np.concatenate([np.tile(at, 12).ravel(), grounds.ravel()])
    values = np.concatenate([k.ravel(), *ground])
    size = 6 * len(model.nodes)
    return sparse.csr_matrix((values, (rows, columns)), shape=(size, size))


def line_loads(model: Model) -> Array:
    """Uniform loads (L, M, 3) [N/m] of the unit loads on the flexible lengths, global axes."""
    w = np.zeros((len(model.unit_loads), len(model.members), 3))
    for i, load in enumerate(model.unit_loads):
        if load.members:
            members, values = zip(*load.members, strict=True)
            np.add.at(w[i], list(members), np.array(values, dtype=float))
    return w


def load_matrix(
    model: Model, stage: str, elements: Elements | None = None, w: Array | None = None
) -> Array:
    """Equivalent nodal loads (6 N, L) [N, N m]; zero columns for loads of the other stage.

    `w` are the model's `line_loads`, worked out here if left out.
    """
    e = elements or element_arrays(model)
    _check_loads(model)
    acts = np.array([load.acts == stage for load in model.unit_loads], dtype=bool)
    w = np.where(acts[:, None, None], line_loads(model) if w is None else w, 0.0)
    loaded = np.flatnonzero(w.any(axis=(0, 2)))
    ends = e.loads[loaded] @ w[:, loaded].transpose(1, 2, 0)
    nodal = np.swapaxes(e.to_local[loaded], 1, 2) @ ends
    P = np.zeros((6 * len(model.nodes), len(acts)))
    np.add.at(P, e.dofs[loaded].ravel(), nodal.reshape(12 * len(loaded), len(acts)))
    for i in np.flatnonzero(acts):
        for node, force in model.unit_loads[i].nodes:
            P[6 * node : 6 * node + 6, i] += force
    return P


def pull_matrix(model: Model) -> tuple[Array, Array]:
    """Gather the unit pulls of the guys and their lengths.

    Returns
    -------
    (6 N, G) forces [1, m] on the nodes from a pull of 1 N toward each anchor, and (G,) lengths [m]
    from the set-back attachments to the anchors.
    """
    B = np.zeros((6 * len(model.nodes), len(model.guys)))
    lengths = np.zeros(len(model.guys))
    for i, guy in enumerate(model.guys):
        lever = np.array(guy.setback)
        line = np.array(guy.anchor) - model.nodes[guy.node].xyz - lever
        lengths[i] = np.sqrt(line @ line)
        if lengths[i] <= 0.0:
            raise ValueError(f"guy {guy.name!r} has no length")
        pull = line / lengths[i]
        at = 6 * guy.node
        B[at : at + 3, i] = pull
        B[at + 3 : at + 6, i] = np.cross(lever, pull)
    return B, lengths


def _check_loads(model: Model) -> None:
    nodes, members = present_nodes(model, BEFORE), present_members(model, BEFORE)
    for load in model.unit_loads:
        if load.acts not in (BEFORE, AFTER):
            raise ValueError(f"unit load {load.name!r} acts {load.acts!r}")
        if load.acts == BEFORE:
            late = [model.nodes[n].name for n, _ in load.nodes if not nodes[n]]
            late += [model.members[m].name for m, _ in load.members if not members[m]]
            if late:
                raise ValueError(f"unit load {load.name!r} acts before {late[0]!r} is fitted")
