"""Small frames for the tests, made without the rack layers."""

from collections.abc import Sequence

import numpy as np

from frame.fem.model import Connection, Guy, Member, Model, Node, Support, UnitLoad

FIXED = (True,) * 6
GLOBAL_AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
RIGID = (None,) * 6
PIPE = {"A": 1.73e-3, "Iy": 1.99e-6, "Iz": 1.99e-6, "J": 3.98e-6, "E": 200e9, "G": 77e9}


def node(xyz: Sequence[float], name: str = "") -> Node:
    x, y, z = map(float, xyz)
    return Node(name=name or f"({x:g}, {y:g}, {z:g})", xyz=(x, y, z))


def member(first: int, second: int, name: str = "", **changes) -> Member:
    values = {"y_axis": (0.0, 1.0, 0.0), "part": "part", **PIPE, **changes}
    return Member(name=name or f"{first}-{second}", ends=(first, second), **values)


def point(at: int, *, acts: str = "after", name: str = "load", **force: float) -> UnitLoad:
    names = ("Fx", "Fy", "Fz", "Mx", "My", "Mz")
    return UnitLoad(name=name, acts=acts, nodes=((at, tuple(force.get(n, 0.0) for n in names)),))


def moments_about_origin(xyz: np.ndarray, six: np.ndarray) -> np.ndarray:
    """Sum of forces and of moments about the origin of (k, n, 6) at points (n, 3)."""
    force, moment = six[..., :3], six[..., 3:]
    total = moment + np.cross(np.broadcast_to(xyz, force.shape), force)
    return np.concatenate([force.sum(axis=-2), total.sum(axis=-2)], axis=-1)


def applied(model: Model) -> np.ndarray:
    """Resultant (L, 6) of each unit load about the origin, summed here by hand."""
    xyz = np.array([n.xyz for n in model.nodes])
    total = np.zeros((len(model.unit_loads), 6))
    for i, load in enumerate(model.unit_loads):
        for at, six in load.nodes:
            total[i] += [*six[:3], *(np.array(six[3:]) + np.cross(xyz[at], six[:3]))]
        for at, w in load.members:
            m = model.members[at]
            ends = xyz[list(m.ends)] + np.array(m.setback)
            force = np.array(w) * np.linalg.norm(ends[1] - ends[0])
            total[i] += [*force, *np.cross(ends.mean(axis=0), force)]
    return total


def post_and_beam(*, guys: bool = True, late_tie: bool = True) -> Model:
    """A post on soil springs, a beam on a sprung sleeve, rails on arms, knees, tie, guys."""
    nodes = [
        node(p)
        for p in (
            (0, 0, -1.2),
            (0, 0, 0),
            (0, 0, 1.8),
            (0, 0, 2.0),
            (0, 0.05, 2.08),
            (-2, 0.05, 2.08),
            (2.1, 0.05, 2.08),
            (1.0, 0.05, 2.08),
            (2.1, -0.02, 2.2),
            (2.1, -1.5, 1.5),
            (2.1, 1.4, 2.9),
            (-2, -0.02, 2.2),
            (-2, -1.5, 1.5),
            (-2, 1.4, 2.9),
        )
    ]
    hinged = (("ry", "rz"), ("ry", "rz"))
    slope = {"part": "rail", "y_axis": (1.0, 0.0, 0.0), "Iy": 3e-7, "Iz": 5e-7, "J": 3e-9}
    members = [
        member(0, 1, part="post"),
        member(1, 2, part="post"),
        member(2, 3, part="post"),
        member(4, 5, part="beam", setback=((-0.06, 0, 0), (0, 0, 0))),
        member(4, 7, part="beam", setback=((0.06, 0, 0), (0, 0, 0))),
        member(7, 6, part="beam"),
        member(1, 7, part="knee", free=hinged, setback=((0.05, 0, 0.3), (0, 0, -0.05))),
        member(8, 9, **slope),
        member(8, 10, **slope),
        member(11, 12, **slope),
        member(11, 13, **slope),
    ]
    if late_tie:
        members.append(member(12, 9, part="tie", fitted="after", free=((), ("rz",))))
    sleeve = (None, None, 4e7, 9e5, 7e5, None)
    tilted = ((0.6, 0.8, 0.0), (-0.8, 0.6, 0.0), (0.0, 0.0, 1.0))
    connections = (
        Connection(name="sleeve", ends=(3, 4), axes=tilted, k=sleeve),
        Connection(name="u-bolt 1", ends=(6, 8), axes=GLOBAL_AXES, k=RIGID),
        Connection(
            name="u-bolt 2", ends=(5, 11), axes=GLOBAL_AXES, k=(None, None, None, 5e4, None, 0)
        ),
    )
    # The rail turns freely about z at u-bolt 2, so something else must hold it there.
    supports = (
        Support(
            node=0, fixed=(False, False, True, False, False, False), k=(2e6, 2e6, 0, 0, 0, 3e5)
        ),
        Support(node=1, k=(4e6, 4e6, 0, 0, 0, 1e5)),
        Support(node=13, k=(2e3, 1e3, 0, 0, 0, 2e3)),
    )
    lines = (
        Guy(
            name="a", node=3, anchor=(-3, -2.5, 0), EA=3e6, pretension=900.0, setback=(0, 0, -0.1)
        ),
        Guy(name="b", node=3, anchor=(3, -2.5, 0), EA=2e6, pretension=700.0),
        Guy(name="c", node=10, anchor=(2.5, 4, 0), EA=1e6, pretension=400.0, setback=(0.1, 0, 0)),
        Guy(name="d", node=5, anchor=(-2.4, 0.5, 0), EA=4e5, pretension=600.0),
    )
    loads = (
        UnitLoad(
            name="weight",
            acts="before",
            nodes=((9, (0, 0, -300.0, 0, 0, 0)), (13, (0, 0, -280.0, 5, 0, 0))),
            members=tuple((i, (0.0, 0.0, -120.0)) for i in range(11)),
        ),
        UnitLoad(
            name="wind",
            acts="after",
            nodes=((10, (0, 400.0, -700.0, 0, 0, 20)),),
            members=tuple((i, (3.0, 30.0, -25.0)) for i in range(len(members))),
        ),
        point(12, name="corner", Fx=10, Fy=-350, Fz=900, Mx=30),
    )
    return Model(
        nodes=tuple(nodes),
        members=tuple(members),
        connections=connections,
        supports=supports,
        guys=lines if guys else (),
        unit_loads=loads,
    )
