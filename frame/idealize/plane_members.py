"""What the members and guys of the space frame become in the plane of an elevation."""

import numpy as np

from frame.fem.model import Member
from frame.fem.plane import BEAM, TRUSS, Array, PlaneGuy, PlaneMember
from frame.idealize.plane_sketch import Sketch
from frame.idealize.reduction import CLOSE, Reduction

STRAIGHT = 1e-6
"""A beam whose direction leaves the plane by more than this (1 - cosine) is refused."""


def _tips(sketch: Sketch, member: Member) -> tuple[Array, Array]:
    """Find the places in space of a member's nodes (2, 3) and of its set-back ends (2, 3)."""
    nodes = np.array([sketch.reduction.model.nodes[n].xyz for n in member.ends])
    return nodes, nodes + np.array(member.setback)


def _bending(reduction: Reduction, member: Member, along: Array) -> tuple[float, str]:
    """Find the flexural stiffness in the plane [N m2], and which local rotation bends it there."""
    y = np.array(member.y_axis) - np.dot(member.y_axis, along) * along
    y /= np.linalg.norm(y)
    normal = np.zeros(3)
    flat = reduction.view.flat(along)
    normal[[reduction.view.axis, 2]] = -flat[1], flat[0]
    part = float(np.dot(y, normal)) ** 2 / float(normal @ normal)
    inertia = part * member.Iz + (1 - part) * member.Iy
    return member.E * inertia, "rz" if part > 0.5 else "ry"


def is_truss(reduction: Reduction, member: Member) -> bool:
    """Tell whether a member is let go at both ends in the plane; one end alone is not covered."""
    first, second = (np.array(reduction.model.nodes[n].xyz) for n in member.ends)
    along = second + member.setback[1] - first - member.setback[0]
    along = along / np.linalg.norm(along)
    share = float(np.linalg.norm(reduction.view.flat(along)))
    if 1 - share > STRAIGHT:
        if not all({"ry", "rz"} <= set(free) for free in member.free):
            raise ValueError(f"{member.name!r} bends and leaves the plane of the elevation")
        return True
    _, name = _bending(reduction, member, along)
    free = [name in ends for ends in member.free]
    if any(free) != all(free):
        raise ValueError(f"{member.name!r} is pinned at one end only: not covered in elevations")
    return all(free)


def add_beam(sketch: Sketch, index: int) -> None:
    """Add a member that bends, from set-back end to set-back end."""
    member = sketch.reduction.model.members[index]
    _, tips = _tips(sketch, member)
    along = (tips[1] - tips[0]) / np.linalg.norm(tips[1] - tips[0])
    bodies = [sketch.reduction.body[n] for n in member.ends]
    first, second = (
        sketch.point(body, sketch.reduction.view.flat(tip), f"{member.name} end")
        for body, tip in zip(bodies, tips, strict=True)
    )
    sketch.add(
        index,
        PlaneMember(
            name=member.name, part=member.part, ends=(first, second), kind=BEAM,
            EA=member.E * member.A, EI=_bending(sketch.reduction, member, along)[0],
            fitted=member.fitted,
        ),
    )  # fmt: skip


def add_truss(sketch: Sketch, index: int) -> None:
    """Add a pinned bar along its line of force; seen aslant it has EA c^3 on the length seen.

    Where the line of force runs through the nodes, it goes from node to node with EA scaled by
    the lengths, which is exact and needs no arms.
    """
    reduction = sketch.reduction
    member = reduction.model.members[index]
    nodes, tips = _tips(sketch, member)
    line = tips[1] - tips[0]
    length = float(np.linalg.norm(line))
    way = reduction.view.flat(line / length)
    share = float(np.linalg.norm(way))
    aside = np.linalg.norm(np.cross(nodes - tips, line / length), axis=1)
    ends = [reduction.view.flat(p) for p in (nodes if aside.max() < CLOSE else tips)]
    found = []
    for node, at, out in zip(member.ends, ends, (-way, way), strict=True):
        body = reduction.body[node]
        spot = sketch.clear(body, at, (out if body in reduction.held else -out) / share)
        found.append(sketch.point(body, spot, f"{member.name} end"))
    seen = np.linalg.norm(np.array(sketch.nodes[found[1]].at) - sketch.nodes[found[0]].at)
    sketch.add(
        index,
        PlaneMember(
            name=member.name, part=member.part, ends=(found[0], found[1]), kind=TRUSS,
            EA=member.E * member.A / length * share**2 * float(seen), EI=0.0,
            fitted=member.fitted,
        ),
    )  # fmt: skip


def see_guy(sketch: Sketch, index: int) -> PlaneGuy:
    """Return a guy as the plane sees it."""
    reduction = sketch.reduction
    guy = reduction.model.guys[index]
    tie = np.array(reduction.model.nodes[guy.node].xyz) + guy.setback
    line = np.array(guy.anchor) - tie
    length = float(np.linalg.norm(line))
    way = reduction.view.flat(line / length)
    share = float(np.linalg.norm(way))
    if share < CLOSE:
        way, share = np.array([0.0, -1.0]), 0.0
    at = reduction.view.flat(tie)
    body = reduction.body[guy.node]
    node = sketch.point(body, sketch.clear(body, at, way), guy.name)
    anchor = sketch.nodes[node].at + way * length
    return PlaneGuy(
        name=guy.name, node=node, anchor=(float(anchor[0]), float(anchor[1])), share=share,
        give=length / guy.EA,
    )  # fmt: skip
