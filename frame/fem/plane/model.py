"""Plane frames: what an elevation hands to the plane solver, and what it gets back.

Axes: a to the right (x in the front elevation, y in the side elevation), z up. A rotation is about
global +y in front, global +x from the side, right-handed: with z up and a to the right that is
clockwise in front (`turn` -1) and counterclockwise from the side (`turn` +1). N is positive in
tension. Along a member from its first to its second end, with n the normal a quarter turn
counterclockwise from it: M is positive where the side opposite n is stretched (sagging, in a
member that runs left to right) and V = dM/ds. SI units.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.named.part import PartKind

Array = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]
Three = tuple[float, float, float]
BEAM, TRUSS, RIGID = "beam", "truss", "rigid"
STATIONS = 13
"""Number of stations at which answers are given along a member, ends included."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneNode:
    """A point (a, z) [m] with three freedoms (ua, uz, rotation)."""

    name: str
    at: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneMember:
    """A straight member: "beam" (EA [N], EI [N m2]), "truss" (EA only) or "rigid" (neither).

    What load a truss has goes to its ends: its N is the mean, its own bending is not shown. The N
    of a bar that leaves the plane is the part in the plane.
    `part` is what the builder calls it, `of` the kind of part (None: an arm); `count` the number
    of alike members it stands for.
    """

    name: str
    part: str
    ends: tuple[int, int]
    kind: str
    EA: float
    EI: float
    fitted: str
    of: PartKind | None = None
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneSpring:
    """Two nodes at one point that move together but turn against a spring k [N m/rad]."""

    ends: tuple[int, int]
    k: float
    fitted: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneSupport:
    """A node held to the ground: wholly where `fixed`, else by springs (ka, kz [N/m], kr)."""

    node: int
    fixed: bool
    k: Three
    fitted: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneGuy:
    """A guy seen in the plane, along the line from its node to `anchor` (a, z) [m].

    `share` is the in-plane part of the unit vector of its direction [1], `give` the length it
    gains for a pull of one newton in space, L/EA [m/N]. In the plane it pulls with t `share` and
    is as stiff as share^2 / give. Only the direction of `anchor` counts.
    """

    name: str
    node: int
    anchor: tuple[float, float]
    share: float
    give: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLoad:
    """A unit load in the plane.

    `nodes`: (node, (Fa, Fz, M)) with M in the sense of the rotation; `members`: (member, (wa, wz))
    in N per metre, only on beams.
    """

    name: str
    acts: str
    nodes: tuple[tuple[int, Three], ...]
    members: tuple[tuple[int, tuple[float, float]], ...]


@dataclass(frozen=True, kw_only=True)
class PlaneFrame:
    """One elevation as a frame of its own. No two nodes share a place, but ends of springs."""

    view: str
    turn: int
    nodes: tuple[PlaneNode, ...]
    members: tuple[PlaneMember, ...]
    springs: tuple[PlaneSpring, ...] = ()
    supports: tuple[PlaneSupport, ...] = ()
    guys: tuple[PlaneGuy, ...] = ()
    loads: tuple[PlaneLoad, ...] = ()

    def line(self, member: int) -> tuple[Array, float]:
        """Return the unit vector along a member from its first end, and its length [m]."""
        first, second = (np.array(self.nodes[n].at) for n in self.members[member].ends)
        length = float(np.linalg.norm(second - first))
        return (second - first) / length, length


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagram:
    """One member of an answer at S stations.

    `s` (S,) distance from the first end [m], `at` (S, 2) place (a, z) [m], N, V [N] and M [N m]
    (S,), `shape` (S, 2) movement (ua, uz) [m]. Totals for all `count` members it stands for.
    """

    name: str
    part: str
    of: PartKind | None
    kind: str
    count: int
    s: Array
    at: Array
    N: Array
    V: Array
    M: Array
    shape: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneAnswer:
    """What the plane solver found for one load case.

    `displacements` (n, 3) of the nodes [m, rad]; `diagrams` one a beam or truss; `tensions` (G,)
    of the guys in space [N]; `slack` (G,) how much too long a guy hangs [m], 0 where taut,
    negative where a guy held to be slack would have to pull; nan where not fitted.
    """

    frame: PlaneFrame
    displacements: Array
    diagrams: tuple[Diagram, ...]
    tensions: Array
    slack: Array

    def of_part(self, part: str) -> tuple[Diagram, ...]:
        """Diagrams of the members of a part, in order."""
        return tuple(d for d in self.diagrams if d.part == part)

    def axial(self, part: str) -> float:
        """Axial force of a part where it is greatest by size [N], tension positive."""
        forces = np.concatenate([d.N for d in self.of_part(part)])
        return float(forces[np.argmax(np.abs(forces))])
