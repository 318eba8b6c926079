"""The plane frame of an elevation: what the plane solver is given."""

from dataclasses import dataclass, replace

import numpy as np

from frame.fem.assembly import load_matrix
from frame.fem.model import AFTER, BEFORE
from frame.fem.plane.model import BEAM, Array, PlaneFrame, PlaneLoad, PlaneSpring, PlaneSupport
from frame.idealize.plane_members import add_bending_member, add_truss, is_truss, see_guy
from frame.idealize.plane_sketch import Sketch
from frame.idealize.reduction import CLOSE, Reduction


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A plane frame, where its nodes hang on the bodies, and what its members stand for.

    `hang` (3 P, 3 B) movement of the plane nodes from that of the bodies; `stands_for` the space
    members behind each plane member (none behind a rigid arm).
    """

    frame: PlaneFrame
    hang: Array
    stands_for: tuple[tuple[int, ...], ...]


def draw_plane_frame(reduction: Reduction) -> Drawn:
    """Draw the plane frame of a reduced model."""
    sketch = Sketch(reduction)
    model = reduction.model
    for body, lead in enumerate(reduction.lead):
        if body not in reduction.held:
            sketch.node_at(body, reduction.place(lead), model.nodes[lead].name)
    bars = []
    for i, member in enumerate(model.members):
        first, second = (reduction.body[n] for n in member.ends)
        if i in reduction.left_out or first == second:
            continue
        if is_truss(reduction, member):
            bars.append(i)
        else:
            add_bending_member(sketch, i)
    for i in bars:
        add_truss(sketch, i)
    guys = tuple(see_guy(sketch, i) for i in range(len(model.guys)))
    held = tuple(
        PlaneSupport(node=i, fixed=True, k=(0.0, 0.0, 0.0), fitted=BEFORE)
        for i, b in enumerate(sketch.bodies)
        if b in reduction.held
    )
    hang = np.zeros((3 * len(sketch.nodes), 3 * len(reduction.lead)))
    for i, (node, b) in enumerate(zip(sketch.nodes, sketch.bodies, strict=True)):
        arm = np.array(node.at) - reduction.place(reduction.lead[b])
        hang[3 * i : 3 * i + 3, 3 * b : 3 * b + 3] = reduction.view.ride(arm)
    frame = PlaneFrame(
        view=reduction.view.name,
        turn=reduction.view.turn,
        nodes=tuple(sketch.nodes),
        members=tuple(sketch.members),
        springs=_springs(sketch),
        supports=(*held, *_ground(sketch)),
        guys=guys,
        loads=_loads(sketch),
    )
    return Drawn(frame=frame, hang=hang, stands_for=tuple(map(tuple, sketch.stands_for)))


def _springs(sketch: Sketch) -> tuple[PlaneSpring, ...]:
    """Springs that turn: connections rigid in the plane but for a finite rotational spring."""
    found: dict[tuple[int, int, str], float] = {}
    for c in sketch.reduction.model.connections:
        bodies = [sketch.reduction.body[n] for n in c.ends]
        if bodies[0] == bodies[1]:
            continue
        ka, kz, turning = sketch.reduction.plane_stiffness(c)
        if ka is not None or kz is not None or turning is None:
            raise ValueError(
                f"connection {c.name!r} slides or cannot turn: not covered in elevations"
            )
        ends = sketch.own[bodies[0]], sketch.own[bodies[1]]
        found[(*ends, c.fitted)] = found.get((*ends, c.fitted), 0.0) + turning
    return tuple(PlaneSpring(ends=(i, j), k=k, fitted=f) for (i, j, f), k in found.items())


def _ground(sketch: Sketch) -> tuple[PlaneSupport, ...]:
    """Support springs, summed where nodes move as one."""
    reduction = sketch.reduction
    found: dict[tuple[int, str], Array] = {}
    for support in reduction.model.supports:
        body = reduction.body[support.node]
        freedoms = list(reduction.view.freedoms)
        if body in reduction.held:
            continue
        if np.array(support.fixed)[freedoms].any():
            raise ValueError("a support fixed in part is not covered in elevations")
        if (
            np.abs(reduction.place(support.node) - reduction.place(reduction.lead[body])).max()
            > CLOSE
        ):
            raise ValueError("a sprung support on a rigid arm is not covered in elevations")
        key = sketch.own[body], support.fitted
        found[key] = found.get(key, np.zeros(3)) + np.array(support.k)[freedoms]
    return tuple(
        PlaneSupport(node=n, fixed=False, k=(float(k[0]), float(k[1]), float(k[2])), fitted=f)
        for (n, f), k in found.items()
    )


def _loads(sketch: Sketch) -> tuple[PlaneLoad, ...]:
    """Uniform loads stay on beams that are drawn; all else goes to the bodies' own nodes."""
    reduction = sketch.reduction
    model = reduction.model
    drawn = {
        m: i
        for i, stands_for in enumerate(sketch.stands_for)
        for m in stands_for
        if sketch.members[i].kind == BEAM
    }
    bare = replace(
        model,
        unit_loads=tuple(
            replace(load, members=tuple(w for w in load.members if w[0] not in drawn))
            for load in model.unit_loads
        ),
    )
    nodal = reduction.W.T @ (load_matrix(bare, BEFORE) + load_matrix(bare, AFTER))
    found = []
    for j, load in enumerate(model.unit_loads):
        spread: dict[int, Array] = {}
        for m, w in load.members:
            if m in drawn:
                spread[drawn[m]] = spread.get(drawn[m], np.zeros(2)) + reduction.view.flat(w)
        forces = {
            sketch.own[b]: nodal[3 * b : 3 * b + 3, j]
            for b in range(len(reduction.lead))
            if b in sketch.own and b not in reduction.held
        }
        found.append(
            PlaneLoad(
                name=load.name,
                acts=load.acts,
                nodes=tuple((n, (f[0], f[1], f[2])) for n, f in forces.items() if f.any()),
                members=tuple((m, (w[0], w[1])) for m, w in spread.items() if w.any()),
            )
        )
    return tuple(found)
