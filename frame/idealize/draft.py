"""A model being put together: parts are added, then it is frozen once."""

import itertools
from collections import Counter, defaultdict
from dataclasses import dataclass, field

import numpy as np

from frame.fem.model import (
    BEFORE,
    Connection,
    Guy,
    Member,
    Model,
    Node,
    Support,
    UnitLoad,
    Vector,
)
from frame.geometry.tube import Tube
from frame.named.part import Part
from frame.tables.steels import material

CLOSE = 1e-3
"""Points nearer than this share a node [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """What a member is made of: section and weight; A, I in m2, m4; `weight` in N/m."""

    A: float
    Iy: float
    Iz: float
    J: float
    weight: float


def tube_bar(tube: Tube, weight: float) -> Profile:
    """Return the bar of a round tube of the given weight [N/m]."""
    inertia = tube.second_moment
    return Profile(A=tube.area, Iy=inertia, Iz=inertia, J=tube.torsion_constant, weight=weight)


class LoadDraft:
    """Forces gathered node by node and member by member for one unit load."""

    def __init__(self, acts: str) -> None:
        self.acts = acts
        self.nodes: dict[int, np.ndarray] = defaultdict(lambda: np.zeros(6))
        self.members: dict[int, np.ndarray] = defaultdict(lambda: np.zeros(3))

    def add_force(self, node: int, force: np.ndarray, arm: np.ndarray | None = None) -> None:
        """Add a force [N] at a node, or at `arm` [m] from it."""
        self.nodes[node][:3] += force
        if arm is not None:
            self.nodes[node][3:] += np.cross(arm, force)

    def freeze(self, name: str) -> UnitLoad:
        """Return the unit load."""
        return UnitLoad(
            name=name,
            acts=self.acts,
            nodes=tuple((n, tuple(map(float, f))) for n, f in sorted(self.nodes.items())),  # type: ignore[misc]
            members=tuple((m, tuple(map(float, w))) for m, w in sorted(self.members.items())),  # type: ignore[misc]
        )


@dataclass
class Draft:
    """Lists that grow while the rack is idealized; `marks` names the nodes of interest."""

    nodes: list[Node] = field(default_factory=list)
    members: list[Member] = field(default_factory=list)
    weights: list[float] = field(default_factory=list)
    counts: Counter[Part] = field(default_factory=Counter)
    connections: list[Connection] = field(default_factory=list)
    supports: list[Support] = field(default_factory=list)
    guys: list[Guy] = field(default_factory=list)
    marks: dict[str, int] = field(default_factory=dict)
    loads: dict[str, LoadDraft] = field(default_factory=dict)

    def node(self, name: str, xyz: Vector) -> int:
        """Add a node and mark it by its name."""
        self.nodes.append(Node(name=name, xyz=tuple(map(float, xyz))))  # type: ignore[arg-type]
        self.marks[name] = len(self.nodes) - 1
        return self.marks[name]

    def xyz(self, node: int) -> np.ndarray:
        """Position of a node [m]."""
        return np.array(self.nodes[node].xyz)

    def member(
        self, part: Part, ends: tuple[int, int], bar: Profile, y_axis: Vector, **more: object
    ) -> int:
        """Add a steel member; `more` passes setback, free and fitted on."""
        steel = material()
        self.counts[part] += 1
        self.members.append(
            Member(
                name=f"{part} {self.counts[part]}",
                part=part,
                ends=ends,
                A=bar.A,
                Iy=bar.Iy,
                Iz=bar.Iz,
                J=bar.J,
                E=steel.E,
                G=steel.G,
                y_axis=y_axis,
                **more,  # type: ignore[arg-type]
            )
        )
        self.weights.append(bar.weight)
        return len(self.members) - 1

    def chain(
        self, part: Part, nodes: list[int], bar: Profile, y_axis: Vector, fitted: str = BEFORE
    ) -> None:
        """Add members from node to node."""
        for pair in itertools.pairwise(nodes):
            self.member(part, pair, bar, y_axis, fitted=fitted)

    def load(self, name: str, acts: str) -> LoadDraft:
        """Return the unit load of this name, begun if need be."""
        return self.loads.setdefault(name, LoadDraft(acts))

    def freeze(self) -> Model:
        """Return the model."""
        return Model(
            nodes=tuple(self.nodes),
            members=tuple(self.members),
            connections=tuple(self.connections),
            supports=tuple(self.supports),
            guys=tuple(self.guys),
            unit_loads=tuple(load.freeze(name) for name, load in self.loads.items()),
        )
