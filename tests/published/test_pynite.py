"""Random space frames against PyNite (PyniteFEA, a general open-source frame library) to 0.01 %.

PyNite has no rigid setbacks and no joint springs in its members, so those are given to it as
members 10 000 times stiffer and as springs of its own.
"""

from math import atan2, degrees

import numpy as np
import pytest
from Pynite import FEModel3D

from frame.fem.cases import solve
from frame.fem.model import Connection, Member, Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import FIXED, GLOBAL_AXES, node

E, G = 200e9, 77e9
FREEDOMS = ("DX", "DY", "DZ", "RX", "RY", "RZ")
CLOSE = 1e-4


def random_section(rng: np.random.Generator) -> dict[str, float]:
    Iy, Iz, J = 10.0 ** rng.uniform(-6.5, -5, 3)
    return {"A": 10.0 ** rng.uniform(-3.3, -2.3), "Iy": Iy, "Iz": Iz, "J": J, "E": E, "G": G}


def random_frame(seed: int) -> Model:
    rng = np.random.default_rng(seed)
    count = int(rng.integers(5, 11))
    points = rng.uniform(0.0, 4.0, size=(count, 3)) + np.arange(count)[:, None] * [0.3, 0.0, 0.1]
    if seed % 3 == 0:
        points[1] = points[0] + [0.0, 0.0, 2.5]
    pairs = [(int(rng.integers(0, i)), i) for i in range(1, count)]
    extra = {(i, j) for i in range(count) for j in range(i + 2, count) if rng.random() < 0.25}
    pairs += sorted(extra - set(pairs))
    members = []
    for i, (first, second) in enumerate(pairs):
        loose = tuple(tuple(f for f in ("ry", "rz") if rng.random() < 0.5) for _ in "12")
        members.append(
            Member(
                name=f"m{i}",
                part="m",
                ends=(first, second),
                y_axis=tuple(rng.normal(size=3)),
                free=loose if i >= count - 1 else ((), ()),
                **random_section(rng),
            )
        )
    springs = tuple(10.0 ** rng.uniform(4, 7, 6))
    supports = (
        Support(node=0, fixed=FIXED),
        Support(node=count - 1, fixed=(True, False, True, False, False, True)),
        Support(node=count // 2, k=springs),
    )
    w = rng.normal(size=(len(members), 3)) * 500.0
    P = rng.normal(size=(count, 6)) * 2000.0
    load = UnitLoad(
        name="all",
        acts="after",
        nodes=tuple((i, tuple(p)) for i, p in enumerate(P)),
        members=tuple((i, tuple(v)) for i, v in enumerate(w)),
    )
    return Model(
        nodes=tuple(node(p, f"n{i}") for i, p in enumerate(points)),
        members=tuple(members),
        supports=supports,
        unit_loads=(load,),
    )


def add_member(
    to: FEModel3D, name: str, ends: tuple[str, str], section: dict[str, float], y: np.ndarray
) -> None:
    """Add a member to PyNite, rolled so that its local y lies as ours does."""
    to.add_section(name, section["A"], section["Iy"], section["Iz"], section["J"])
    to.add_member(name, *ends, "steel", name)
    m = to.members[name]
    axes = m.T()[:3, :3]
    m.rotation = degrees(atan2(axes[2] @ y, axes[1] @ y))
    turned = m.T()[:3, :3]
    assert turned[1] @ (y - (y @ axes[0]) * axes[0]) > 0.0
    assert abs(turned[2] @ y) < 1e-9 * np.linalg.norm(y)


def as_pynite(model: Model) -> FEModel3D:
    other = FEModel3D()
    other.add_material("steel", E, G, 0.3, 0.0)
    for n in model.nodes:
        other.add_node(n.name, *n.xyz)
    for m in model.members:
        section = {k: getattr(m, k) for k in ("A", "Iy", "Iz", "J")}
        ends = tuple(model.nodes[i].name for i in m.ends)
        add_member(other, m.name, ends, section, np.array(m.y_axis))
        flags = {f"R{f[1]}{e}": True for e, free in zip("ij", m.free, strict=True) for f in free}
        if flags:
            other.def_releases(m.name, **flags)
    for s in model.supports:
        name = model.nodes[s.node].name
        if any(s.fixed):
            other.def_support(name, *s.fixed)
        for freedom, k in zip(FREEDOMS, s.k, strict=True):
            if k:
                other.def_support_spring(name, freedom, k)
    add_loads(other, model)
    other.analyze_linear()
    return other


def add_loads(to: FEModel3D, model: Model) -> None:
    for at, six in model.unit_loads[0].nodes:
        for direction, value in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), six, strict=True):
            to.add_node_load(model.nodes[at].name, direction, value)
    for at, w in model.unit_loads[0].members:
        for direction, value in zip(("FX", "FY", "FZ"), w, strict=True):
            to.add_member_dist_load(model.members[at].name, direction, value, value)


def pynite_displacements(other: FEModel3D, names: list[str]) -> np.ndarray:
    found = [[getattr(other.nodes[n], f)["Combo 1"] for f in FREEDOMS] for n in names]
    return np.array(found, dtype=float)


def assert_close(ours: np.ndarray, theirs: np.ndarray) -> None:
    """Compare forces or movements with their largest, moments or turns with theirs."""
    for part in (slice(0, 3), slice(3, 6)):
        a, b = (x.reshape(-1, 6)[:, part] for x in (ours, theirs))
        assert np.abs(a - b).max() < CLOSE * np.abs(b).max()


@pytest.mark.parametrize("seed", range(40))
def test_random_frames(seed: int) -> None:
    model = random_frame(seed)
    other = as_pynite(model)
    ours = solve(respond(model), [1.0])
    names = [n.name for n in model.nodes]
    assert_close(ours.displacements[0], pynite_displacements(other, names))
    theirs = np.array([other.members[m.name].f("Combo 1").ravel() for m in model.members])
    assert_close(ours.member_forces[0], theirs.astype(float))
    for i, s in enumerate(model.supports):
        if any(s.fixed):
            there = other.nodes[names[s.node]]
            keys = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
            found = np.array([getattr(there, k)["Combo 1"] for k in keys], dtype=float)
            assert_close(ours.reactions[0, i], found)


@pytest.mark.parametrize("seed", range(8))
def test_setbacks_against_stiff_stubs(seed: int) -> None:
    rng = np.random.default_rng(100 + seed)
    points = np.array([(0, 0, 0), (0.1, 0, 2), (2, 0.4, 2.2), (2.2, 0.3, 0.1)], dtype=float)
    offsets = rng.uniform(-0.25, 0.25, size=(3, 2, 3))
    sections = [random_section(rng) for _ in range(3)]
    axes = rng.normal(size=(3, 3))
    P = rng.normal(size=(2, 6)) * 1000.0
    w = rng.normal(size=(3, 3)) * 300.0
    members = tuple(
        Member(
            name=f"m{i}",
            part="m",
            ends=(i, i + 1),
            y_axis=tuple(axes[i]),
            setback=tuple(map(tuple, offsets[i])),
            **sections[i],
        )
        for i in range(3)
    )
    load = UnitLoad(
        name="all",
        acts="after",
        nodes=((1, tuple(P[0])), (2, tuple(P[1]))),
        members=tuple((i, tuple(v)) for i, v in enumerate(w)),
    )
    model = Model(
        nodes=tuple(node(p, f"n{i}") for i, p in enumerate(points)),
        members=members,
        supports=(Support(node=0, fixed=FIXED), Support(node=3, fixed=FIXED)),
        unit_loads=(load,),
    )
    ours = solve(respond(model), [1.0])
    other = setback_twin(model, points, offsets, stub=1e4)
    names = [f"n{i}" for i in range(4)]
    for ours_one, theirs in (
        (ours.displacements[0], pynite_displacements(other, names)),
        (
            ours.member_forces[0],
            np.array([other.members[f"m{i}"].f("Combo 1").ravel() for i in range(3)], float),
        ),
    ):
        # The stubs give a little, so ten times the closeness of the plain frames.
        assert np.abs(ours_one.ravel() - theirs.ravel()).max() < 1e-3 * np.abs(theirs).max()


def setback_twin(model: Model, points: np.ndarray, offsets: np.ndarray, stub: float) -> FEModel3D:
    other = FEModel3D()
    other.add_material("steel", E, G, 0.3, 0.0)
    for i, p in enumerate(points):
        other.add_node(f"n{i}", *p)
    for i, m in enumerate(model.members):
        stiff = {"A": 5e-3 * stub, "Iy": 1e-5 * stub, "Iz": 1e-5 * stub, "J": 1e-5 * stub}
        for e in (0, 1):
            other.add_node(f"t{i}{e}", *(points[i + e] + offsets[i, e]))
            add_member(other, f"s{i}{e}", (f"n{i + e}", f"t{i}{e}"), stiff, np.array([0.3, 1, 2]))
        section = {k: getattr(m, k) for k in ("A", "Iy", "Iz", "J")}
        add_member(other, m.name, (f"t{i}0", f"t{i}1"), section, np.array(m.y_axis))
    add_loads(other, model)
    for foot in ("n0", "n3"):
        other.def_support(foot, *FIXED)
    other.analyze_linear()
    return other


@pytest.mark.parametrize("k", [(4e4, 2e3), (9e5, 6e6)])
def test_joint_springs_against_spring_supports(k: tuple[float, float]) -> None:
    # A frame on a sprung joint to a held node is that frame on spring supports.
    model = random_frame(1)
    last = len(model.nodes) - 1
    springs = (k[0], 2 * k[0], 3 * k[0], k[1], 2 * k[1], 3 * k[1])
    on_springs = Model(
        nodes=model.nodes,
        members=model.members,
        supports=(Support(node=0, k=springs), Support(node=last, fixed=FIXED)),
        unit_loads=model.unit_loads,
    )
    jointed = Model(
        nodes=(*model.nodes, node(model.nodes[0].xyz, "ground")),
        members=model.members,
        connections=(Connection(name="j", ends=(0, last + 1), axes=GLOBAL_AXES, k=springs),),
        supports=(Support(node=last + 1, fixed=FIXED), Support(node=last, fixed=FIXED)),
        unit_loads=model.unit_loads,
    )
    theirs = pynite_displacements(as_pynite(on_springs), [n.name for n in model.nodes])
    ours = solve(respond(jointed), [1.0])
    assert_close(ours.displacements[0, :-1], theirs)
    # The force on the joint's second node is what the frame leans on the ground with.
    leant = np.array(springs) * theirs[0]
    assert_close(ours.connection_forces[0, 0], leant)
    assert_close(ours.reactions[0, 0], -leant)
