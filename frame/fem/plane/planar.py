"""The plane solver: one load case of a plane frame, solved by anastruct and read in our senses.

How the frame is built there, and what habits are undone, stands in `system.py`.
"""

import numpy as np

from frame.fem.model import AFTER, BEFORE
from frame.fem.plane.diagram import (
    Loads,
    Result,
    approach,
    diagram,
    gives,
    loads_of_stage,
    nothing,
    pulled,
)
from frame.fem.plane.model import RIGID, TRUSS, Array, Mask, PlaneAnswer, PlaneFrame
from frame.fem.plane.polish import Assembled, moves_apart, polish
from frame.fem.plane.spring_cut import SPRING_LENGTH
from frame.fem.plane.system import System


def solve_plane(
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
    early, late = loads_of_stage(frame, factors, BEFORE), loads_of_stage(frame, factors, AFTER)
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
    return _answered(System(frame, stage), loads, mask)


def _answered(at: System, loads: Loads, taut: Mask) -> Result:
    """Put the loads and taut guys on, solve, and read the answers in our senses."""
    lines = {
        int(i): at.add_line(int(i)) for i in np.flatnonzero(taut) if at.frame.guys[i].share > 0
    }
    at.put_loads(loads)
    at.system.solve(naked=True)
    u = _polished(at)
    result = nothing(at.frame)
    for i, element in at.elements.items():
        if at.frame.members[i].kind != RIGID:
            result.ends[i] = _ends(at, i, element, loads.members[i])
    for i in range(len(at.frame.nodes)):
        result.displacements[i] = _movement(at, i, u, result.ends)
    for guy, element in lines.items():
        result.pulls[guy] = _sections(at, element)[1, 0]
    return result


def _polished(at: System) -> Array:
    """Return movements (nodes, 3), with the end forces, freed of rounding."""
    system, elements = at.system, list(at.system.element_map.values())
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


def _ends(at: System, member: int, element: int, w: Array) -> Array:
    """End forces (2, N V M) over the member's whole length, in our senses."""
    ends = _sections(at, element)
    if at.frame.members[member].kind == TRUSS:
        return ends * (1.0, 0.0, 0.0)
    along, _ = at.frame.line(member)
    if np.float32(at.place[at.frame.members[member].ends[1]][0]) < np.float32(
        at.place[at.frame.members[member].ends[0]][0]
    ):
        ends = ends[::-1] * (1.0, 1.0, -1.0)
    wt, wn = float(along @ w), float(along[0] * w[1] - along[1] * w[0])
    for end, node in enumerate(at.frame.members[member].ends):
        if node in at.springs and at.springs[node].member == member:
            step = SPRING_LENGTH / 2 * (1 if end else -1)
            ends[end, 2] += ends[end, 1] * step + wn * step**2 / 2
            ends[end, 1] += wn * step
            ends[end, 0] -= wt * step
    return ends


def _sections(at: System, element: int) -> Array:
    """Return section forces (2, N V M) at the ends of an element, left end first."""
    e = at.system.element_map[element]
    pushed = (e.element_force_vector + e.element_primary_force_vector).reshape(2, 3)
    c, s = np.cos(e.angle), np.sin(e.angle)
    onto = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    return np.asarray(pushed @ onto.T * [[-1.0], [1.0]])


def _movement(at: System, node: int, u: Array, ends: Array) -> Array:
    """Movement (ua, uz, rotation) of a node; below a spring the last bit of bending counts."""
    kept, own = at.ids[at.kept(node)], at.ids[node]
    if kept is None or own is None:
        return np.zeros(3)
    turn = u[own - 1, 2]
    if node in at.springs:
        member = at.frame.members[at.springs[node].member]
        end = member.ends.index(node)
        moment = ends[at.springs[node].member, end, 2]
        turn += (1 if end else -1) * moment / member.EI * SPRING_LENGTH / 2
    return np.array([u[kept - 1, 0], -u[kept - 1, 1], at.frame.turn * turn])
