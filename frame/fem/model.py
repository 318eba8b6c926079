"""The finite-element model: what is solved, frozen, SI units, global axes x, y, z (z up)."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from frame.named.part import Part, PartKind

Vector = tuple[float, float, float]
Six = tuple[float, float, float, float, float, float]
BEFORE, AFTER = "before", "after"
ZERO: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A point with six freedoms (ux, uy, uz, rx, ry, rz)."""

    name: str
    xyz: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A straight Euler-Bernoulli member between two nodes, rigid over its setbacks.

    Local x runs from the first to the second set-back end; `y_axis` is local y in global axes
    (made square to x); local z closes a right-handed set. `Iz` bends in the local x-y plane, `Iy`
    in x-z. `setback` runs rigidly from each node to the member's end, global axes [m]. `free`
    lists the bending freedoms let go at each end, "ry" and "rz" in local axes.
    A, Iy, Iz, J in m2 and m4, E and G in Pa. `part` is a label here: nothing is solved by it.
    """

    name: str
    part: Part
    ends: tuple[int, int]
    A: float
    Iy: float
    Iz: float
    J: float
    E: float
    G: float
    y_axis: Vector
    setback: tuple[Vector, Vector] = (ZERO, ZERO)
    free: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())
    fitted: str = BEFORE


@dataclass(frozen=True, slots=True, kw_only=True)
class Connection:
    """Springs at the second node, joined to the first by a rigid arm.

    `axes`: rows are the spring directions in global axes. `k`: three translational [N/m] and three
    rotational [N m/rad] stiffnesses along and about them; None is rigid, 0 is free. A node is the
    second node of at most one connection. `part`: what of the rack makes it.
    """

    name: str
    ends: tuple[int, int]
    axes: tuple[Vector, Vector, Vector]
    k: tuple[float | None, ...]
    fitted: str = BEFORE
    part: Part | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """A node held to the ground: rigidly where `fixed`, else by springs `k` [N/m, N m/rad]."""

    node: int
    fixed: tuple[bool, bool, bool, bool, bool, bool] = (False,) * 6
    k: Six = (0.0,) * 6
    fitted: str = BEFORE


@dataclass(frozen=True, slots=True, kw_only=True)
class Guy:
    """A one-way line from a node (plus rigid setback) to a fixed anchor.

    `EA` [N] is effective: wire, terminations and anchor give in series over the length from
    the attachment to the anchor. `pretension` [N] is the pull in the finished rack in still air.
    """

    name: Part
    node: int
    anchor: Vector
    EA: float
    pretension: float
    setback: Vector = ZERO


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitLoad:
    """A load of size one; a load case is a short vector of factors over these.

    `acts` "before": on the frame that stands when the dead load comes on; "after": on everything.
    `nodes`: (node, (Fx, Fy, Fz, Mx, My, Mz)) in N and N m; `members`: (member, (wx, wy, wz)) in N
    per metre of the flexible length, global axes.
    """

    name: str
    acts: str
    nodes: tuple[tuple[int, Six], ...] = ()
    members: tuple[tuple[int, Vector], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Model:
    """One frame with its unit loads. Positions in the tuples are the indices used everywhere."""

    nodes: tuple[Node, ...]
    members: tuple[Member, ...]
    connections: tuple[Connection, ...] = ()
    supports: tuple[Support, ...] = ()
    guys: tuple[Guy, ...] = ()
    unit_loads: tuple[UnitLoad, ...] = ()

    @cached_property
    def node_index(self) -> dict[str, int]:
        """Position of each node by name."""
        return _positions([n.name for n in self.nodes])

    @cached_property
    def load_index(self) -> dict[str, int]:
        """Position of each unit load by name."""
        return _positions([load.name for load in self.unit_loads])

    def members_of(self, part: Part) -> tuple[int, ...]:
        """Positions of the members that make up a part, in order."""
        return tuple(i for i, m in enumerate(self.members) if m.part == part)

    def connections_of(self, kind: PartKind) -> list[int]:
        """Positions of the connections that parts of a kind make, in order."""
        found = enumerate(self.connections)
        return [i for i, c in found if c.part is not None and c.part.kind is kind]


def _positions(names: Sequence[str]) -> dict[str, int]:
    found = {name: i for i, name in enumerate(names)}
    if len(found) != len(names):
        twice = sorted({n for n in names if names.count(n) > 1})
        raise ValueError(f"names used twice in the model: {', '.join(twice)}")
    return found
