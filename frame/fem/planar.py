"""The plane solver: the only file that imports anastruct, and where its habits are undone.

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

from frame.fem.diagram import Loads, Result, approach, diagram, gather, gives, nothing, pulled
from frame.fem.joint import JOINT, Joint, cut, onto_joints, point, single_length
from frame.fem.model import AFTER, BEFORE
from frame.fem.plane import BEAM, RIGID, TRUSS, Array, Mask, PlaneAnswer, PlaneFrame, PlaneMember
from frame.fem.polish import Assembled, moves_apart, polish

STIFF = 3e7
"""How much stiffer a rigid element is than the stiffest member would be over the frame's span.

Both EI and EA go by its own length, so that however short it is, what all of them give comes to
no more than rounding; what they bring of that, `polish` takes away."""
BACK = 128
"""EI of the element that comes back to a joint, over that of its spring: with no more than 1/128
of the give, it shifts the spring's centre by a thousandth of its length."""
HINGE = 1e-6
"""Rotational stiffness of a free joint over EI / m of the member it ends."""


def solve(
    frame: PlaneFrame,
    factors: Array,
    pretension: Array | None = None,
    taut: Mask | None = None,
    fitted: Mask | None = None,
) -> PlaneAnswer:
    """Solve one load case of a plane frame in the order of building.

    Parameters
    ----------
    factors
        (L,) factors over the frame's loads [1].
    pretension
        (G,) pull of the guys in still air [N]; none if left out.
    taut, fitted
        (G,) which guys pull in this case, which are there at all. The set of taut guys is taken as
        given; `slack` of the answer shows whether it is right.

    Notes
    -----
    Loads that act "before" are solved on the frame of that stage; the pull in still air on the
    whole frame; later loads on the whole frame with its taut guys as bars, those that go slack
    losing their pull. Totals are summed. First order.
    """
    guys = len(frame.guys)
    there = np.ones(guys, dtype=bool) if fitted is None else fitted
    pull = np.zeros(guys) if pretension is None else np.where(there, pretension, 0.0)
    pulling = there if taut is None else taut & there
    early, late = gather(frame, factors, BEFORE), gather(frame, factors, AFTER)
    drawn = pulled(frame, pull)
    lost = pulled(frame, np.where(pulling, 0.0, -pull))
    later = Loads(late.nodes + lost, late.members)
    if any(m.fitted == AFTER for m in frame.members):
        still = Loads(drawn, np.zeros_like(early.members))
        rest = _solve(frame, BEFORE, early).plus(_solve(frame, AFTER, still))
    elif there.any():
        rest = _solve(frame, AFTER, Loads(early.nodes + drawn, early.members))
    else:
        rest = nothing(frame)
        later = Loads(early.nodes + late.nodes, early.members + late.members)
    moved = _solve(frame, AFTER, later, pulling)
    shares = np.array([g.share for g in frame.guys])
    seen = shares > 0
    change = np.where(seen, moved.pulls / np.where(seen, shares, 1.0), 0.0)
    tensions = np.where(pulling, pull + change, 0.0)
    slack = np.where(pulling, 0.0, approach(frame, moved.displacements) - gives(frame) * pull)
    total = rest.plus(moved)
    loads = early.members + late.members
    return PlaneAnswer(
        frame=frame,
        displacements=total.displacements,
        diagrams=tuple(
            diagram(frame, i, total, loads[i])
            for i, m in enumerate(frame.members)
            if m.kind != RIGID
        ),
        tensions=tensions,
        slack=np.where(there, slack, np.nan),
    )


def _solve(frame: PlaneFrame, stage: str, loads: Loads, taut: Mask | None = None) -> Result:
    """Solve one set of loads on what stands in a stage."""
    mask = np.zeros(len(frame.guys), dtype=bool) if taut is None else taut
    if not loads.nodes.any() and not loads.members.any():
        return nothing(frame)
    return _System(frame, stage).solve(loads, mask)


class _System:
    """One anastruct system: built, loaded, solved and read once."""

    def __init__(self, frame: PlaneFrame, stage: str) -> None:
        self.frame = frame
        self.stands = [stage == AFTER or m.fitted == BEFORE for m in frame.members]
        self.stage = stage
        self.system = SystemElements()
        beams = [m for m in frame.members if m.kind == BEAM]
        self.span = float(np.ptp([n.at for n in frame.nodes], axis=0).max())
        self.stiffest = max(m.EA for m in beams), max(m.EI for m in beams)
        self.joints = {
            joint.low: joint for joint in (cut(frame, s.ends, s.k) for s in frame.springs)
        }
        self.place = [
            self.joints[i].below if i in self.joints else n.at for i, n in enumerate(frame.nodes)
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
                # A joint moves as one: a bar may hold either of its nodes, the one kept in place.
                ends = [self.place[self._kept(n)] for n in member.ends]
                found[i] = self.system.add_truss_element(ends, EA=member.EA)
            else:
                ends = [self.place[n] for n in member.ends]
                EA, EI = member.EA, member.EI
                if member.kind == RIGID:
                    EA, EI = self._rigid(single_length(*ends))
                found[i] = self.system.add_element(ends, EA=EA, EI=EI)
        for joint in self.joints.values():
            member = self.frame.members[joint.member]
            self._add_spring(joint, member)
        return found

    def _rigid(self, length: float) -> tuple[float, float]:
        """Return EA and EI of a rigid element of this length."""
        EA, EI = (STIFF * length / self.span * most for most in self.stiffest)
        return EA, EI

    def _add_spring(self, joint: Joint, member: PlaneMember) -> None:
        """Add the short element of a spring, with half its length's bending of the real member.

        It and the one that comes back share the give so that they turn as far as joint and pipe.
        """
        here = self.place[joint.high]
        if self.system.find_node_id(joint.above) is not None:
            raise ValueError(f"no room for a spring at {self.frame.nodes[joint.high].name}")
        length, back = single_length(joint.below, joint.above), single_length(joint.above, here)
        give = 1 / max(joint.k, HINGE * member.EI) + length / (2 * member.EI)
        EI = (length + back / BACK) / give
        EA = (length + back) / (length / 2) * member.EA
        self.system.add_element([joint.below, joint.above], EA=EA, EI=EI)
        self.system.add_element([joint.above, here], EA=EA, EI=BACK * EI)

    def _kept(self, node: int) -> int:
        """Return the node that stays where the joint is, for one that ends a spring."""
        return self.joints[node].high if node in self.joints else node

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

    def solve(self, loads: Loads, taut: Mask) -> Result:
        """Put the loads and taut guys on, solve, and read the answers in our senses."""
        lines = {
            int(i): self._line(int(i))
            for i in np.flatnonzero(taut)
            if self.frame.guys[i].share > 0
        }
        self._load(loads)
        system = self.system
        system.solve(naked=True)
        u = self._polished()
        result = nothing(self.frame)
        for i, element in self.elements.items():
            if self.frame.members[i].kind != RIGID:
                result.ends[i] = self._ends(i, element, loads.members[i])
        for i in range(len(self.frame.nodes)):
            result.displacements[i] = self._movement(i, u, result.ends)
        for guy, element in lines.items():
            result.pulls[guy] = self._sections(element)[1, 0]
        return result

    def _polished(self) -> Array:
        """Return movements (nodes, 3), with the end forces, freed of rounding."""
        system, elements = self.system, list(self.system.element_map.values())
        nodes = np.array([(e.node_id1, e.node_id2) for e in elements]) - 1
        springs = np.zeros(len(system.system_force_vector))
        springs[list(system.system_spring_map)] = list(system.system_spring_map.values())
        held = [3 * (node.id - 1) + way for node in system.supports_fixed for way in range(3)]
        frame = Assembled(
            elements=np.array([e.stiffness_matrix for e in elements]),
            places=(3 * nodes[:, :, None] + np.arange(3)).reshape(-1, 6),
            springs=springs,
            free=np.delete(np.arange(len(springs)), held),
            matrix=system.reduced_system_matrix,
            loads=system.system_force_vector,
        )
        u = polish(frame, system.system_displacement_vector)
        for element, apart in zip(elements, moves_apart(u[frame.places], 2), strict=True):
            element.element_displacement_vector = apart
            element.determine_force_vector()
        return u.reshape(-1, 3)

    def _line(self, guy: int) -> int:
        """Add a taut guy as a bar to an anchor of its own; return its element number."""
        g = self.frame.guys[guy]
        node = self.place[self._kept(g.node)]
        way = np.array(g.anchor) - node
        # Stiffness along the line is all that counts, so the far end may go where no node is.
        for reach in np.linspace(1.0, 0.3, 71):
            end = point(node + reach * way)
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

    def _load(self, loads: Loads) -> None:
        """Put the loads on the nodes and elements."""
        total = onto_joints(tuple(self.joints.values()), loads)
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

    def _ends(self, member: int, element: int, w: Array) -> Array:
        """End forces (2, N V M) over the member's whole length, in our senses."""
        ends = self._sections(element)
        if self.frame.members[member].kind == TRUSS:
            return ends * (1.0, 0.0, 0.0)
        along, _ = self.frame.line(member)
        if np.float32(self.place[self.frame.members[member].ends[1]][0]) < np.float32(
            self.place[self.frame.members[member].ends[0]][0]
        ):
            ends = ends[::-1] * (1.0, 1.0, -1.0)
        wt, wn = float(along @ w), float(along[0] * w[1] - along[1] * w[0])
        for end, node in enumerate(self.frame.members[member].ends):
            if node in self.joints and self.joints[node].member == member:
                step = JOINT / 2 * (1 if end else -1)
                ends[end, 2] += ends[end, 1] * step + wn * step**2 / 2
                ends[end, 1] += wn * step
                ends[end, 0] -= wt * step
        return ends

    def _sections(self, element: int) -> Array:
        """Return section forces (2, N V M) at the ends of an element, left end first."""
        e = self.system.element_map[element]
        pushed = (e.element_force_vector + e.element_primary_force_vector).reshape(2, 3)
        c, s = np.cos(e.angle), np.sin(e.angle)
        onto = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
        return np.asarray(pushed @ onto.T * [[-1.0], [1.0]])

    def _movement(self, node: int, u: Array, ends: Array) -> Array:
        """Movement (ua, uz, rotation) of a node; below a spring the last bit of bending counts."""
        kept, own = self.ids[self._kept(node)], self.ids[node]
        if kept is None or own is None:
            return np.zeros(3)
        turn = u[own - 1, 2]
        if node in self.joints:
            member = self.frame.members[self.joints[node].member]
            end = member.ends.index(node)
            moment = ends[self.joints[node].member, end, 2]
            turn += (1 if end else -1) * moment / member.EI * JOINT / 2
        return np.array([u[kept - 1, 0], -u[kept - 1, 1], self.frame.turn * turn])
