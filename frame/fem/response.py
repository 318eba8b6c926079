"""Answers of the frame to every unit load and every unit pull of a guy, from one factorisation."""

from dataclasses import dataclass, fields

import numpy as np
from scipy import sparse

from frame.fem.assembly import (
    Mask,
    Sparse,
    line_loads,
    load_matrix,
    present_members,
    pull_matrix,
    sparse_stiffness,
    spring_stretch,
    stands,
)
from frame.fem.constraints import groups, reduction
from frame.fem.element import Array, Elements, build
from frame.fem.factor import Factor, factorise
from frame.fem.model import AFTER, BEFORE, Model


@dataclass(frozen=True, kw_only=True)
class Response:
    """Unit answers of a model (N nodes, M members, C connections, S supports, L loads, G guys).

    Loads that act "before" are answered by the frame that stands then, the others and the pulls
    by the full frame without guys. Arrays are read-only; SI units per unit load or per 1 N pull.

    Attributes
    ----------
    displacements, pull_displacements
        (L, N, 6) and (G, N, 6): ux, uy, uz, rx, ry, rz, global axes.
    member_forces, pull_member_forces
        (L, M, 12) and (G, M, 12): forces on the set-back ends, local axes, first end then second.
    connection_forces, pull_connection_forces
        (L, C, 6) and (G, C, 6): on the second node, in the connection's axes.
    reactions, pull_reactions
        (L, S, 6) and (G, S, 6): on the frame, fixed and sprung supports, global axes.
    flexibility
        (G, G) F = B' K1^-1 B [m/N].
    stretch
        (L, G) what each load lengthens the guy lines by [m/unit]; zero for loads acting "before".
    slackness
        (G,) L / EA [m/N].
    pretension
        (G,) the model's own [N].
    line_loads
        (L, M, 3) uniform loads in local axes [N/m].
    length
        (M,) flexible lengths [m].
    """

    model: Model
    displacements: Array
    member_forces: Array
    connection_forces: Array
    reactions: Array
    pull_displacements: Array
    pull_member_forces: Array
    pull_connection_forces: Array
    pull_reactions: Array
    flexibility: Array
    stretch: Array
    slackness: Array
    pretension: Array
    line_loads: Array
    length: Array

    def __post_init__(self) -> None:
        """Make every array read-only."""
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, np.ndarray):
                value.flags.writeable = False


@dataclass(frozen=True, kw_only=True)
class Stage:
    """One stage of building, factorised: raw stiffness K, unknowns u = T q, factor of T' K T."""

    model: Model
    name: str
    elements: Elements
    K: Sparse
    T: Sparse
    factor: Factor

    def displacements(self, P: Array) -> Array:
        """Freedoms (6 N, k) under nodal loads P (6 N, k)."""
        return np.asarray(self.T @ self.factor.solve(self.T.T @ P))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Forces:
    displacements: Array
    members: Array
    connections: Array
    reactions: Array


def stage(
    model: Model, name: str, elements: Elements | None = None, taut: Mask | None = None
) -> Stage:
    """Assemble and factorise one stage; MechanismError names what is loose.

    `taut` (G,): guys whose stiffness EA / L counts; none if left out.
    """
    e = elements or build(model)
    K = sparse_stiffness(model, name, e)
    if taut is not None and taut.any():
        B, lengths = pull_matrix(model)
        EA = np.array([guy.EA for guy in model.guys])
        lines = sparse.csr_matrix(B[:, taut])
        K = K + lines @ sparse.diags_array((EA / lengths)[taut]) @ lines.T
    T = reduction(model, name)
    return Stage(
        model=model,
        name=name,
        elements=e,
        K=K,
        T=T,
        factor=factorise(model, name, T, (T.T @ K @ T).tocsr()),
    )


def is_staged(model: Model) -> bool:
    """Whether anything but guys is fitted after the dead load comes on."""
    fitted = [member.fitted for member in model.members]
    fitted += [connection.fitted for connection in model.connections]
    fitted += [support.fitted for support in model.supports]
    return AFTER in fitted


def respond(model: Model) -> Response:
    """Solve every unit load and every unit pull together.

    Raises
    ------
    MechanismError
        Where a stage of the frame is loose or nearly so without its guys.
    """
    e = build(model)
    B, lengths = pull_matrix(model)
    w = line_loads(model)
    P = load_matrix(model, AFTER, e, w)
    P_before = load_matrix(model, BEFORE, e, w)
    early = np.array([load.acts == BEFORE for load in model.unit_loads], dtype=bool)
    last = stage(model, AFTER, e)
    staged = is_staged(model) and bool(early.any())
    if not staged:
        P = P + P_before
    count = len(early)
    pulls = np.zeros((len(model.guys), *w.shape[1:]))
    on_last = np.where(early[:, None, None] & staged, 0.0, w)
    found = _forces(last, np.hstack([P, B]), np.concatenate([on_last, pulls]))
    if staged:
        first = _forces(stage(model, BEFORE, e), P_before[:, early], w[early])
        for name in ("displacements", "members", "connections", "reactions"):
            getattr(found, name)[np.flatnonzero(early)] = getattr(first, name)
    moved = found.displacements.reshape(count + len(model.guys), 6 * len(model.nodes))
    F = moved[count:] @ B
    return Response(
        model=model,
        displacements=found.displacements[:count],
        member_forces=found.members[:count],
        connection_forces=found.connections[:count],
        reactions=found.reactions[:count],
        pull_displacements=found.displacements[count:],
        pull_member_forces=found.members[count:],
        pull_connection_forces=found.connections[count:],
        pull_reactions=found.reactions[count:],
        flexibility=(F + F.T) / 2,
        stretch=np.where(early[:, None], 0.0, -moved[:count] @ B),
        slackness=lengths / np.array([g.EA for g in model.guys], dtype=float).reshape(-1),
        pretension=np.array([g.pretension for g in model.guys], dtype=float),
        line_loads=np.einsum("mij,lmj->lmi", e.axes, w),
        length=e.length,
    )


def _forces(at: Stage, P: Array, w: Array) -> _Forces:
    """Displacements and forces (k, ...) of loads P (6 N, k) with uniform loads w (k, M, 3)."""
    model, e = at.model, at.elements
    U = at.displacements(P)
    connections, reactions = _holding_forces(at, P, U)
    on = present_members(model, at.name)
    ends = (e.stiffness @ e.to_local) @ U[e.dofs]
    loaded = np.flatnonzero(w.any(axis=(0, 2)))
    ends[loaded] -= e.loads[loaded] @ w[:, loaded].transpose(1, 2, 0)
    ends[~on] = 0.0
    return _Forces(
        displacements=np.ascontiguousarray(U.T).reshape(-1, len(model.nodes), 6),
        members=np.ascontiguousarray(ends.transpose(2, 0, 1)),
        connections=connections,
        reactions=reactions,
    )


def _holding_forces(at: Stage, P: Array, U: Array) -> tuple[Array, Array]:
    """Find connection forces (k, C, 6) and reactions (k, S, 6), by spring law or statics."""
    model = at.model
    count = P.shape[1]
    connections = np.zeros((count, len(model.connections), 6))
    reactions = np.zeros((count, len(model.supports), 6))
    for i, c in enumerate(model.connections):
        springs = np.array([value or 0.0 for value in c.k])
        if stands(c.fitted, at.name) and springs.any():
            i1, i2 = (slice(6 * n, 6 * n + 6) for n in c.ends)
            B = spring_stretch(model, c)
            connections[:, i] = -(springs[:, None] * (B[:, :6] @ U[i1] + B[:, 6:] @ U[i2])).T
    for i, s in enumerate(model.supports):
        if stands(s.fitted, at.name):
            k = np.where(s.fixed, 0.0, s.k)
            reactions[:, i] = -(k[:, None] * U[6 * s.node : 6 * s.node + 6]).T
    places = {"connection": connections, "support": reactions}
    for group in groups(model, at.name):
        loose = at.K[group.rows] @ U - P[group.rows]
        if group.directions.shape[1] == 1 and len(group.rows) == 1:
            found = loose
        else:
            found = np.linalg.lstsq(group.directions, loose, rcond=None)[0]
        for (kind, i, part), value in zip(group.owners, found, strict=True):
            places[kind][:, i, part] = value
    return connections, reactions
