"""Answers of the frame to every unit load and every unit pull of a guy, from one factorisation."""

from dataclasses import dataclass, fields

import numpy as np

from frame.fem.assembly import line_loads, load_matrix, pull_matrix
from frame.fem.element import Array, element_arrays
from frame.fem.model import AFTER, BEFORE, Model
from frame.fem.recovery import recover
from frame.fem.stage import Stage, stage


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
    loads, pulls
        (6 N, L) and (6 N, G): nodal forces of every unit load [N, N m], of every unit pull [1, m].
    at
        The full frame without guys, factorised.
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
    loads: Array
    pulls: Array
    at: Stage

    def __post_init__(self) -> None:
        """Make every array read-only."""
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, np.ndarray):
                value.flags.writeable = False


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
    e = element_arrays(model)
    B, lengths = pull_matrix(model)
    w = line_loads(model)
    P_after = load_matrix(model, AFTER, e, w)
    P_before = load_matrix(model, BEFORE, e, w)
    early = np.array([load.acts == BEFORE for load in model.unit_loads], dtype=bool)
    last = stage(model, AFTER, e)
    staged = is_staged(model) and bool(early.any())
    loads = P_after + P_before
    P = P_after if staged else loads
    count = len(early)
    pulls = np.zeros((len(model.guys), *w.shape[1:]))
    on_last = np.where(early[:, None, None] & staged, 0.0, w)
    found = recover(last, np.hstack([P, B]), np.concatenate([on_last, pulls]))
    if staged:
        first = recover(stage(model, BEFORE, e), P_before[:, early], w[early])
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
        loads=loads,
        pulls=B,
        at=last,
    )
