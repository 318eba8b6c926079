"""Rigid supports and rigid connections: from the independent unknowns to all freedoms, u = T q.

Exact elimination, no penalty stiffness: a rigidly connected node rides on its first node, a held
freedom drops out, a node that does not stand in the stage has zero rows.
"""

from dataclasses import dataclass

import numpy as np
import scipy.linalg
from scipy import sparse

from frame.fem.assembly import (
    Sparse,
    arm,
    dofs_of,
    present_nodes,
    spring_axes,
    spring_stretch,
    stands,
)
from frame.fem.element import Array, Indices
from frame.fem.model import Connection, Model

ROUNDING = 1e-12


def reduction(model: Model, stage: str) -> Sparse:
    """T (6 N, m), sparse: which freedoms of a stage are free, held or carried along."""
    here = present_nodes(model, stage)
    held = _in_order(model, stage)
    here[[c.ends[1] for c in held]] = False
    free_rows = (6 * np.flatnonzero(here)[:, None] + np.arange(6)).ravel()
    count = len(free_rows)
    rows, columns, values = [free_rows], [np.arange(count)], [np.ones(count)]
    number = np.full(6 * len(model.nodes), -1)
    number[free_rows] = np.arange(count)
    carried: dict[int, tuple[Indices, Array]] = {}
    for c in held:
        i, j = c.ends
        own = number[6 * i : 6 * i + 6], np.eye(6)
        unknowns, motion = carried.get(i, own)
        let_go = np.array([value is not None for value in c.k])
        fresh = count + np.arange(let_go.sum())
        count += len(fresh)
        unknowns = np.concatenate([unknowns, fresh])
        motion = np.hstack([arm(model, c) @ motion, spring_axes(c)[let_go].T])
        carried[j] = unknowns, motion
        rows.append(np.repeat(6 * j + np.arange(6), len(unknowns)))
        columns.append(np.tile(unknowns, 6))
        values.append(np.where(np.abs(motion) < ROUNDING, 0.0, motion).ravel())
    entries = np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))
    T = sparse.csr_matrix(entries, shape=(len(number), count))
    return _hold(T, held_freedoms(model, stage))


def held_freedoms(model: Model, stage: str) -> Indices:
    """Freedoms held by rigid supports in a stage, each once."""
    held = {
        6 * s.node + i
        for s in model.supports
        if stands(s.fitted, stage)
        for i, fixed in enumerate(s.fixed)
        if fixed
    }
    return np.array(sorted(held), dtype=np.int64)


def _in_order(model: Model, stage: str) -> list[Connection]:
    """Standing connections, each after the one that carries its first node."""
    waiting = [c for c in model.connections if stands(c.fitted, stage)]
    second = [c.ends[1] for c in waiting]
    if len(set(second)) != len(second):
        raise ValueError("a node is the second node of two connections")
    order: list[Connection] = []
    carried = set(second)
    while waiting:
        ready = [c for c in waiting if c.ends[0] not in carried]
        if not ready:
            raise ValueError(f"connections run in a circle at {waiting[0].name!r}")
        order += ready
        carried -= {c.ends[1] for c in ready}
        waiting = [c for c in waiting if c not in ready]
    return order


def _hold(T: Sparse, held: Indices) -> Sparse:
    """Drop what the supports hold; a held freedom hung on several unknowns ties them together."""
    R = T[held].toarray()
    keep = np.ones(T.shape[1], dtype=bool)
    while (single := np.count_nonzero(R, axis=1) == 1).any():
        columns = np.argmax(R[single] != 0.0, axis=1)
        keep[columns] = False
        R[:, columns] = 0.0
    mixed = np.flatnonzero(R.any(axis=0))
    if not len(mixed):
        return T[:, np.flatnonzero(keep)]
    keep[mixed] = False
    tied = scipy.linalg.null_space(R[R.any(axis=1)][:, mixed])
    T = sparse.hstack([T[:, np.flatnonzero(keep)], T[:, mixed] @ sparse.csr_matrix(tied)]).tolil()
    T[held] = 0.0
    return T.tocsr()


@dataclass(frozen=True, slots=True, kw_only=True)
class TiedNodes:
    """Nodes tied by connections or held by supports, with the directions of what holds them.

    `rows` are the freedoms (6 per node); `directions` (rows, unknowns) the unit constraint
    forces; `owners` says whose force each unknown is: ("connection" | "support", position,
    component).
    """

    rows: Indices
    directions: Array
    owners: tuple[tuple[str, int, int], ...]


def tied_groups(model: Model, stage: str) -> tuple[TiedNodes, ...]:
    """Gather what holds the model rigidly, in groups whose own equilibrium gives the forces."""
    root = list(range(len(model.nodes)))
    held = [(i, c) for i, c in enumerate(model.connections) if stands(c.fitted, stage)]
    for c in _in_order(model, stage):
        root[c.ends[1]] = root[c.ends[0]]
    members: dict[int, list[int]] = {}
    for node, first in enumerate(root):
        members.setdefault(first, []).append(node)
    forces: dict[int, list[tuple[tuple[str, int, int], Indices, Array]]] = {}
    for i, c in held:
        B, at = spring_stretch(model, c), dofs_of(c.ends)
        for part in (n for n, value in enumerate(c.k) if value is None):
            forces.setdefault(root[c.ends[0]], []).append((("connection", i, part), at, B[part]))
    for i, s in enumerate(model.supports):
        if stands(s.fitted, stage):
            for part in (n for n, fixed in enumerate(s.fixed) if fixed):
                at = np.array([6 * s.node + part])
                entry = (("support", i, part), at, np.ones(1))
                forces.setdefault(root[s.node], []).append(entry)
    return tuple(_group(members[first], entries) for first, entries in forces.items())


def _group(
    nodes: list[int], entries: list[tuple[tuple[str, int, int], Indices, Array]]
) -> TiedNodes:
    rows = (6 * np.array(nodes)[:, None] + np.arange(6)).ravel()
    place = {int(row): i for i, row in enumerate(rows)}
    directions = np.zeros((len(rows), len(entries)))
    for column, (_, at, values) in enumerate(entries):
        directions[[place[int(row)] for row in at], column] = values
    return TiedNodes(
        rows=rows, directions=directions, owners=tuple(owner for owner, _, _ in entries)
    )
