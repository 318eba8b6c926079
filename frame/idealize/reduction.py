"""What an elevation keeps of the space frame: u = T q, with q the freedoms of the plane.

In front (x-z) the rails and ties ride rigidly on their beam node. From the side (y-z) the beam
rides on the post tops, and nodes of posts, and of rails, at equal places move as one, so that
T' K T sums their EA, EI, springs and loads. Members that such a motion would strain though the
elevation means them rigid, or that it does not show, are left out: ties in both, knees from the
side.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from frame.fem.model import Connection, Member, Model
from frame.fem.plane.model import Array
from frame.named.part import PartKind

FRONT, SIDE = "front", "side"
LEADING = (
    PartKind.BEAM,
    PartKind.POST,
    PartKind.RAIL,
    PartKind.STAY,
    PartKind.KNEE,
    PartKind.TIE,
)
"""Kinds of part, first those whose nodes lead a body of nodes that ride together."""
Kinds = list[PartKind | None]
"""Kind of the leading part at each node; None where no member ends."""
LEFT_OUT = 1e-15
"""Factor on the stiffness of what is left out: nothing, without dividing by nothing."""
CLOSE = 1e-6
"""Nodes nearer than this in the plane are at one place [m]."""


@dataclass(frozen=True, slots=True)
class ElevationAxes:
    """An elevation: its name, its axis across, its rotation freedom and the sense of it.

    `turn` is +1 where a positive rotation is counterclockwise with z up and the axis to the right.
    """

    name: str
    axis: int
    rotation: int
    turn: int

    @property
    def freedoms(self) -> tuple[int, int, int]:
        """Places of (ua, uz, rotation) among the six of a node."""
        return self.axis, 2, self.rotation

    def flat(self, v: npt.ArrayLike) -> Array:
        """Part (a, z) of space vectors (..., 3)."""
        return np.asarray(v, dtype=float)[..., [self.axis, 2]]

    def ride(self, arm: Array) -> Array:
        """(3, 3) motion at the end of a rigid arm (a, z) from the motion at its root."""
        return np.array([[1, 0, -self.turn * arm[1]], [0, 1, self.turn * arm[0]], [0, 0, 1.0]])


VIEWS = {FRONT: ElevationAxes(FRONT, 0, 4, -1), SIDE: ElevationAxes(SIDE, 1, 3, 1)}


@dataclass(frozen=True, kw_only=True)
class Reduction:
    """Nodes gathered into rigid bodies of the plane, and what their freedoms are.

    `body` (N,) of each node; `lead` the node at whose place a body's three freedoms are counted;
    `W` (6 N, 3 B) nodal freedoms from the bodies'; `E` (3 B, m) the bodies' freedoms from q;
    `held` bodies clamped to the ground; `strained` the model whose stiffness counts, with what
    is left out as good as gone.
    """

    model: Model
    strained: Model
    view: ElevationAxes
    body: tuple[int, ...]
    lead: tuple[int, ...]
    W: Array
    E: Array
    held: frozenset[int]
    left_out: frozenset[int]

    @property
    def T(self) -> Array:
        """(6 N, m) nodal freedoms from q."""
        return np.asarray(self.W @ self.E)

    def place(self, node: int) -> Array:
        """Place (a, z) of a node [m]."""
        return self.view.flat(self.model.nodes[node].xyz)

    def plane_stiffness(self, connection: Connection) -> tuple[float | None, ...]:
        """Stiffness of a connection against (a, z, rotation) in the plane; None is rigid."""
        axes = np.array(connection.axes)
        found: list[float | None] = []
        for first, way in ((0, self.view.axis), (0, 2), (3, self.view.rotation - 3)):
            share = axes[:, way] ** 2
            k = connection.k[first : first + 3]
            if any(value is None and part > CLOSE for value, part in zip(k, share, strict=True)):
                found.append(None)
            else:
                found.append(float(sum((v or 0.0) * p for v, p in zip(k, share, strict=True))))
        return tuple(found)


def reduce(model: Model, view: str) -> Reduction:
    """Reduce a space model to its "front" or "side" elevation."""
    v = VIEWS[view]
    kinds = _node_kinds(model)
    out = {PartKind.TIE} if view == FRONT else {PartKind.TIE, PartKind.KNEE}
    left_out = frozenset(i for i, m in enumerate(model.members) if m.part.kind in out)
    body, lead = _bodies(model, v, kinds)
    W = np.zeros((6 * len(model.nodes), 3 * len(lead)))
    xyz = np.array([n.xyz for n in model.nodes])
    for i, b in enumerate(body):
        arm = v.flat(xyz[i] - xyz[lead[b]])
        W[6 * i + np.array(v.freedoms), 3 * b : 3 * b + 3] = v.ride(arm)
    held = {body[s.node] for s in model.supports if np.array(s.fixed)[list(v.freedoms)].all()}
    blank = Reduction(
        model=model,
        strained=replace(
            model,
            members=tuple(_strained(m, i in left_out) for i, m in enumerate(model.members)),
        ),
        view=v,
        body=body,
        lead=lead,
        W=W,
        E=np.zeros((0, 0)),
        held=frozenset(held),
        left_out=left_out,
    )
    return replace(blank, E=_freedoms(blank))


def _strained(member: Member, out: bool) -> Member:
    """Return a member as the elevation sees it; the twist of an oblique stay is outside it."""
    if out:
        return replace(member, E=LEFT_OUT * member.E, G=LEFT_OUT * member.G)
    return replace(member, J=0.0) if member.part.kind is PartKind.STAY else member


def _node_kinds(model: Model) -> Kinds:
    found: Kinds = [None] * len(model.nodes)
    for kind in reversed(LEADING):
        for member in model.members:
            if member.part.kind is kind:
                for node in member.ends:
                    found[node] = kind
    return found


def _bodies(
    model: Model, view: ElevationAxes, kinds: Kinds
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Gather nodes that move as one: body of each node, and the leading node of each body."""
    pairs: list[tuple[int, int]] = []
    for c in model.connections:
        rigid = all(k is None for k in c.k)
        if rigid or (view.name == FRONT and PartKind.RAIL in (kinds[c.ends[0]], kinds[c.ends[1]])):
            pairs.append(c.ends)
    riding = PartKind.RAIL if view.name == FRONT else PartKind.BEAM
    pairs += [m.ends for m in model.members if m.part.kind is riding]
    pairs += _left_over(model, kinds)
    if view.name == SIDE:
        pairs += _alike(model, view, kinds)
    leader = list(range(len(model.nodes)))

    def top(i: int) -> int:
        while leader[i] != i:
            i = leader[i]
        return i

    rank = {kind: n for n, kind in enumerate((*LEADING, None))}
    for pair in pairs:
        first, second = sorted(map(top, pair), key=lambda i: (rank[kinds[i]], i))
        leader[second] = first
    lead = tuple(sorted({top(i) for i in range(len(leader))}))
    return tuple(lead.index(top(i)) for i in range(len(leader))), lead


def _alike(model: Model, view: ElevationAxes, kinds: Kinds) -> list[tuple[int, int]]:
    """Pair nodes of posts, and of rails, that are at one place in the plane."""
    seen: dict[tuple[PartKind | None, int, int], int] = {}
    pairs = []
    for i, node in enumerate(model.nodes):
        if kinds[i] in (PartKind.POST, PartKind.RAIL):
            a, z = np.round(view.flat(node.xyz) / CLOSE).astype(int)
            pairs.append((seen.setdefault((kinds[i], int(a), int(z)), i), i))
    return pairs


def _left_over(model: Model, kinds: Kinds) -> list[tuple[int, int]]:
    """Pair nodes that only ties touch with the nearest rail's node."""
    rails = [i for i, kind in enumerate(kinds) if kind is PartKind.RAIL]
    xyz = np.array([n.xyz for n in model.nodes])
    return [
        (min(rails, key=lambda r, i=i: float(np.linalg.norm(xyz[r] - xyz[i]))), i)  # type: ignore[misc]
        for i, kind in enumerate(kinds)
        if kind is PartKind.TIE and rails
    ]


def _freedoms(reduction: Reduction) -> Array:
    """(3 B, m): three freedoms a body, less those held by the ground or by rigid connections."""
    bodies = len(reduction.lead)
    E = np.eye(3 * bodies)
    for b in reduction.held:
        E[3 * b : 3 * b + 3] = 0.0
    seconds: set[int] = set()
    for c in reduction.model.connections:
        first, second = (reduction.body[n] for n in c.ends)
        if first == second or second in seconds:
            continue
        seconds.add(second)
        rigid = [i for i, k in enumerate(reduction.plane_stiffness(c)) if k is None]
        at = reduction.place(c.ends[1])
        if np.abs(at - reduction.place(reduction.lead[second])).max() > CLOSE:
            raise ValueError(f"connection {c.name!r} holds a body away from its leading node")
        ride = reduction.view.ride(at - reduction.place(reduction.lead[first]))
        follow = ride @ E[3 * first : 3 * first + 3]
        E[[3 * second + i for i in rigid]] = follow[rigid]
    return E[:, E.any(axis=0)]
