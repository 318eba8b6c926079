"""Loads onto a plane frame and diagrams from its end forces: statics that needs no solver."""

from dataclasses import dataclass, field

import numpy as np

from frame.fem.plane.model import BEAM, STATIONS, Array, Diagram, PlaneFrame


@dataclass(frozen=True)
class Loads:
    """Loads of one solve: `nodes` (n, 3) in our senses, `members` (M, 2)."""

    nodes: Array
    members: Array


@dataclass
class Result:
    """Displacements (n, 3), end forces (M, 2 ends, N V M) and guy pulls (G,) of one solve."""

    displacements: Array
    ends: Array
    pulls: Array = field(default_factory=lambda: np.zeros(0))

    def plus(self, other: "Result") -> "Result":
        """Return the sum of two results."""
        return Result(
            self.displacements + other.displacements,
            self.ends + other.ends,
            self.pulls + other.pulls,
        )


def nothing(frame: PlaneFrame) -> Result:
    """Return the result of no load at all."""
    shape = (len(frame.members), 2, 3)
    return Result(np.zeros((len(frame.nodes), 3)), np.zeros(shape), np.zeros(len(frame.guys)))


def loads_of_stage(frame: PlaneFrame, factors: Array, acts: str) -> Loads:
    """Return the loads of a case that act in one stage, each unit load times its factor."""
    nodes, members = np.zeros((len(frame.nodes), 3)), np.zeros((len(frame.members), 2))
    for factor, load in zip(factors, frame.loads, strict=True):
        if load.acts != acts or factor == 0:
            continue
        for node, force in load.nodes:
            nodes[node] += factor * np.array(force)
        for member, w in load.members:
            members[member] += factor * np.array(w)
    return Loads(nodes, members)


def toward(frame: PlaneFrame, guy: int) -> Array:
    """Return the unit vector (a, z) from a guy's node to its anchor; zero if it is seen end on."""
    g = frame.guys[guy]
    if g.share == 0:
        return np.zeros(2)
    way = np.array(g.anchor) - frame.nodes[g.node].at
    return np.asarray(way / np.linalg.norm(way))


def pulled(frame: PlaneFrame, tensions: Array) -> Array:
    """Return the node forces (n, 3) of guys pulling with `tensions` (G,) in space."""
    forces = np.zeros((len(frame.nodes), 3))
    for i, guy in enumerate(frame.guys):
        forces[guy.node, :2] += tensions[i] * guy.share * toward(frame, i)
    return forces


def approach(frame: PlaneFrame, displacements: Array) -> Array:
    """Return how far each guy's node moves toward its anchor, in space [m]."""
    moves = [
        g.share * toward(frame, i) @ displacements[g.node, :2] for i, g in enumerate(frame.guys)
    ]
    return np.array(moves)


def gives(frame: PlaneFrame) -> Array:
    """Return how much each guy gains in length for one newton [m/N], (G,)."""
    return np.array([g.give for g in frame.guys])


def diagram(frame: PlaneFrame, member: int, result: Result, w: Array) -> Diagram:
    """Return N, V, M and the deflected shape along a member, exact for uniform load."""
    m = frame.members[member]
    along, length = frame.line(member)
    normal = np.array([-along[1], along[0]])
    s = np.linspace(0.0, length, STATIONS)
    x = s / length
    wn = float(normal @ w)
    first, second = result.ends[member]
    moves = result.displacements[list(m.ends)]
    shape = np.outer(1 - x, moves[0, :2]) + np.outer(x, moves[1, :2])
    if m.kind == BEAM:
        chord = float(normal @ (moves[1, :2] - moves[0, :2])) / length
        turned = frame.turn * moves[:, 2] - chord
        bow = length * (x * (1 - x) ** 2 * turned[0] - x**2 * (1 - x) * turned[1])
        bow += wn * s**2 * (length - s) ** 2 / (24 * m.EI)
        shape += np.outer(bow, normal)
    return Diagram(
        name=m.name,
        part=m.part,
        of=m.of,
        kind=m.kind,
        count=m.count,
        s=s,
        at=np.array(frame.nodes[m.ends[0]].at) + np.outer(s, along),
        N=(1 - x) * first[0] + x * second[0],
        V=(1 - x) * first[1] + x * second[1],
        M=(1 - x) * first[2] + x * second[2] + wn * s * (s - length) / 2,
        shape=shape,
    )
