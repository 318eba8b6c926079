"""A plane frame while it is being drawn from a reduced space frame."""

from dataclasses import dataclass, field, replace

import numpy as np

from frame.fem.model import BEFORE
from frame.fem.plane.model import RIGID, Array, PlaneMember, PlaneNode
from frame.idealize.reduction import CLOSE, Reduction

STEP = 1 / 64
"""How far along its line a bar's end is moved at a time to find a place of its own [m]."""


@dataclass
class Sketch:
    """A plane frame being drawn."""

    reduction: Reduction
    nodes: list[PlaneNode] = field(default_factory=list)
    bodies: list[int] = field(default_factory=list)
    members: list[PlaneMember] = field(default_factory=list)
    stands_for: list[list[int]] = field(default_factory=list)
    own: dict[int, int] = field(default_factory=dict)

    def node_at(self, body: int, at: Array, name: str) -> int:
        """Node of a body at a place, on a rigid arm where that is not the body's own."""
        for i, node in enumerate(self.nodes):
            if self.bodies[i] == body and np.abs(at - node.at).max() < CLOSE:
                return i
        self.nodes.append(PlaneNode(name=name, at=(float(at[0]), float(at[1]))))
        self.bodies.append(body)
        new = len(self.nodes) - 1
        if self.own.setdefault(body, new) != new:
            self.members.append(
                PlaneMember(
                    name=f"arm to {name}", part="arm", ends=(self.own[body], new), kind=RIGID,
                    EA=0.0, EI=0.0, fitted=BEFORE,
                )
            )  # fmt: skip
            self.stands_for.append([])
        return new

    def clear(self, body: int, at: Array, way: Array) -> Array:
        """Move a place along a line until no node of another body is there."""
        while any(
            self.bodies[i] != body and np.abs(at - node.at).max() < 10 * CLOSE
            for i, node in enumerate(self.nodes)
        ):
            at = at + STEP * way
        return at

    def add(self, index: int, member: PlaneMember) -> None:
        """Add what a space member becomes, or join it to one of the same ends and make."""
        members = self.reduction.model.members
        kind = members[index].part.kind
        for i, old in enumerate(self.members):
            same = (old.ends, old.kind, old.fitted) == (member.ends, member.kind, member.fitted)
            if same and members[self.stands_for[i][0]].part.kind is kind:
                self.stands_for[i].append(index)
                count = old.count + 1
                self.members[i] = replace(
                    old,
                    name=f"{members[self.stands_for[i][0]].name} and {count - 1} alike",
                    part=f"{count} {kind}s together",
                    EA=old.EA + member.EA,
                    EI=old.EI + member.EI,
                    count=count,
                )
                return
        self.members.append(member)
        self.stands_for.append([index])
