"""What the members and guys of the space frame become in the plane of an elevation."""

import numpy as np

from frame.fem.model import Member
from frame.fem.plane.model import BEAM, TRUSS, Array, PlaneGuy, PlaneMember
from frame.idealize.plane_sketch import Sketch
from frame.idealize.reduction import CLOSE, Reduction

STRAIGHT = 1e-6
"""A beam whose direction leaves the plane by more than this (1 - cosine) is refused."""

LEAST_ARM = 1 / 16
"""A rigid arm to the line of a bar or guy is no shorter [m]: short ones cost digits."""


def _grip(sketch: Sketch, body: int, at: Array, way: Array) -> Array:
    """Slide the end of a pull from `at` along its line (unit vector `way`) to suit a body.

    Where on its line a pull takes hold of a rigid body makes no difference: best at the body's own
    node, with no arm, or else not too near it; and where no other body has a node.
    """
    if body in sketch.own:
        own = np.array(sketch.nodes[sketch.own[body]].at)
        foot = at + (own - at) @ way * way
        off, past = float(np.linalg.norm(own - foot)), float((at - foot) @ way)
        if off < CLOSE:
            at = own
        elif (reach := LEAST_ARM**2 - off**2) > past**2:
            at = foot + np.sqrt(reach) * way
    return sketch.clear(body, at, way)


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


def add_bending_member(sketch: Sketch, index: int) -> None:
    """Add a member that bends, from set-back end to set-back end."""
    member = sketch.reduction.model.members[index]
    _, tips = _tips(sketch, member)
    along = (tips[1] - tips[0]) / np.linalg.norm(tips[1] - tips[0])
    bodies = [sketch.reduction.body[n] for n in member.ends]
    first, second = (
        sketch.node_at(body, sketch.reduction.view.flat(tip), f"{member.name} end")
        for body, tip in zip(bodies, tips, strict=True)
    )
    sketch.add(
        index,
        PlaneMember(
            name=member.name, part=member.part, of=member.part.kind, ends=(first, second),
            kind=BEAM, EA=member.E * member.A, EI=_bending(sketch.reduction, member, along)[0],
            fitted=member.fitted,
        ),
    )  # fmt: skip


def add_truss(sketch: Sketch, index: int) -> None:
    """Add a pinned bar along its line of force; seen aslant it has EA c^3 on the length seen.

    Its ends slide along that line to where they need least of arms, EA going with the length.
    """
    reduction = sketch.reduction
    member = reduction.model.members[index]
    _, tips = _tips(sketch, member)
    line = tips[1] - tips[0]
    length = float(np.linalg.norm(line))
    way = reduction.view.flat(line / length)
    share = float(np.linalg.norm(way))
    found = []
    for node, tip, out in zip(member.ends, tips, (-way, way), strict=True):
        body = reduction.body[node]
        inward = (out if body in reduction.held else -out) / share
        spot = _grip(sketch, body, reduction.view.flat(tip), inward)
        found.append(sketch.node_at(body, spot, f"{member.name} end"))
    seen = np.linalg.norm(np.array(sketch.nodes[found[1]].at) - sketch.nodes[found[0]].at)
    sketch.add(
        index,
        PlaneMember(
            name=member.name, part=member.part, of=member.part.kind, ends=(found[0], found[1]),
            kind=TRUSS, EA=member.E * member.A / length * share**2 * float(seen), EI=0.0,
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
    node = sketch.node_at(body, _grip(sketch, body, at, way / np.linalg.norm(way)), guy.name)
    anchor = sketch.nodes[node].at + way * length
    return PlaneGuy(
        name=guy.name, node=node, anchor=(float(anchor[0]), float(anchor[1])), share=share,
        give=length / guy.EA,
    )  # fmt: skip
