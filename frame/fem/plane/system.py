"""One system of the plane solver: the only file that imports anastruct.

What anastruct 1.7 does, each pinned by a test: its node loads Fa, Fz act to the right and up while
`Tz` turns counterclockwise; the movements it solves for, and the forces on an element's ends, are
positive to the right, *down* and counterclockwise; a distributed load along the second axis is
positive downward; elements that run to the left are turned round; vertices are float32 and nodes
of equal coordinates merge; a second load on a node replaces the first; a finite rotational spring
between elements is wrong, and a release spreads to the other elements of the node, so neither is
used.
"""

import numpy as np
from anastruct.fem.system import SystemElements

from frame.fem.model import AFTER, BEFORE
from frame.fem.plane.diagram import Loads
from frame.fem.plane.model import BEAM, RIGID, TRUSS, PlaneFrame, PlaneMember
from frame.fem.plane.spring_cut import (
    SpringCut,
    cut_spring,
    onto_springs,
    plain_point,
    single_length,
)

STIFF = 3e7
"""How much stiffer a rigid element is than the stiffest member would be over the frame's span.

Both EI and EA go by its own length, so that however short it is, what all of them give comes to
no more than rounding; what they bring of that, `polish` takes away."""
BACK = 128
"""EI of the element that comes back, over that of the spring: with no more than 1/128 of the
give, it shifts the spring's centre by a thousandth of its length."""
HINGE = 1e-6
"""Rotational stiffness of a spring that gives freely over EI / m of the member it ends."""


class System:
    """One anastruct system: built, loaded and solved once."""

    def __init__(self, frame: PlaneFrame, stage: str) -> None:
        self.frame = frame
        self.stands = [stage == AFTER or m.fitted == BEFORE for m in frame.members]
        self.stage = stage
        self.system = SystemElements()
        beams = [m for m in frame.members if m.kind == BEAM]
        self.span = float(np.ptp([n.at for n in frame.nodes], axis=0).max())
        self.stiffest = max(m.EA for m in beams), max(m.EI for m in beams)
        self.springs = {
            spring.low: spring
            for spring in (cut_spring(frame, s.ends, s.k) for s in frame.springs)
        }
        self.place = [
            self.springs[i].below if i in self.springs else n.at for i, n in enumerate(frame.nodes)
        ]
        self.elements = self._build()
        self.ids = {i: self.system.find_node_id(at) for i, at in enumerate(self.place)}
        self._check_places()
        self._support()

    def _build(self) -> dict[int, int]:
        """Add every element; return the element number of each member."""
        found = {}
        for i, member in enumerate(self.frame.members):
            if not self.stands[i]:
                continue
            if member.kind == TRUSS:
                # A spring's nodes move as one: a bar may hold either, the one kept in place.
                ends = [self.place[self.kept(n)] for n in member.ends]
                found[i] = self.system.add_truss_element(ends, EA=member.EA)
            else:
                ends = [self.place[n] for n in member.ends]
                EA, EI = member.EA, member.EI
                if member.kind == RIGID:
                    EA, EI = self._rigid(single_length(*ends))
                found[i] = self.system.add_element(ends, EA=EA, EI=EI)
        for spring in self.springs.values():
            member = self.frame.members[spring.member]
            self._add_spring(spring, member)
        return found

    def _rigid(self, length: float) -> tuple[float, float]:
        """Return EA and EI of a rigid element of this length."""
        EA, EI = (STIFF * length / self.span * most for most in self.stiffest)
        return EA, EI

    def _add_spring(self, spring: SpringCut, member: PlaneMember) -> None:
        """Add the short element of a spring, with half its length's bending of the real member.

        It and the one that comes back share the give so that they turn as far as spring and pipe.
        """
        here = self.place[spring.high]
        if self.system.find_node_id(spring.above) is not None:
            raise ValueError(f"no room for a spring at {self.frame.nodes[spring.high].name}")
        length, back = single_length(spring.below, spring.above), single_length(spring.above, here)
        give = 1 / max(spring.k, HINGE * member.EI) + length / (2 * member.EI)
        EI = (length + back / BACK) / give
        EA = (length + back) / (length / 2) * member.EA
        self.system.add_element([spring.below, spring.above], EA=EA, EI=EI)
        self.system.add_element([spring.above, here], EA=EA, EI=BACK * EI)

    def kept(self, node: int) -> int:
        """Return the node that stays in place, for one that ends a spring."""
        return self.springs[node].high if node in self.springs else node

    def _check_places(self) -> None:
        used = [i for i in self.ids.values() if i is not None]
        if len(set(used)) != len(used):
            twice = [n.name for i, n in enumerate(self.frame.nodes) if used.count(self.ids[i]) > 1]
            raise ValueError(f"plane nodes in one place: {', '.join(twice)}")

    def _support(self) -> None:
        for support in self.frame.supports:
            node = self.ids[support.node]
            if node is None or (self.stage == BEFORE and support.fitted == AFTER):
                continue
            if support.fixed:
                self.system.add_support_fixed(node)
                continue
            for axis, k in enumerate(support.k, start=1):
                if k:
                    self.system.add_support_spring(node, translation=axis, k=k, roll=True)
        if not self.system.supports_fixed:
            # A frame on springs alone is refused; a stub that touches nothing satisfies it.
            a, z = (min(at[axis] for at in self.place) - 1 for axis in (0, 1))
            self.system.add_element([(a, z), (a - 1, z)], EA=1.0, EI=1.0)
            self.system.add_support_fixed(self.system.find_node_id((a, z)))

    def add_line(self, guy: int) -> int:
        """Add a taut guy as a bar to an anchor of its own; return its element number."""
        g = self.frame.guys[guy]
        node = self.place[self.kept(g.node)]
        way = np.array(g.anchor) - node
        # Stiffness along the line is all that counts, so the far end may go where no node is.
        for reach in np.linspace(1.0, 0.3, 71):
            end = plain_point(node + reach * way)
            if self.system.find_node_id(end, tolerance=1e-3) is None:
                break
        else:
            raise ValueError(f"{g.name}: no free place for its anchor in the plane")
        stiffness = g.share**2 / g.give
        element = self.system.add_truss_element(
            [node, end], EA=stiffness * single_length(node, end)
        )
        self.system.add_support_fixed(self.system.find_node_id(end))
        return int(element)

    def put_loads(self, loads: Loads) -> None:
        """Put the loads on the nodes and elements."""
        total = onto_springs(tuple(self.springs.values()), loads)
        for i, (Fa, Fz, M) in enumerate(total):
            if not total[i].any():
                continue
            node = self.ids[i]
            if node is None:
                raise ValueError(f"{self.frame.nodes[i].name}: loaded before it is there")
            self.system.point_load(node, Fx=float(Fa), Fy=float(Fz))
            self.system.moment_load(node, Tz=float(self.frame.turn * M))
        for i, (wa, wz) in enumerate(loads.members):
            if wa or wz:
                self.system.q_load(
                    q=float(wa), q_perp=float(-wz), rotation=0.0, element_id=self.elements[i]
                )
