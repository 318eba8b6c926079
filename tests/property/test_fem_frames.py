"""What must hold of every frame: equilibrium, reciprocity, superposition, mirror symmetry."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.fem.assembly import load_matrix
from frame.fem.cases import Answer, solve
from frame.fem.model import Model, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import applied, moments_about_origin, point, post_and_beam
from tests.unit.fem.test_cases import by_bars

FACTORS = st.lists(st.floats(-20.0, 20.0), min_size=3, max_size=3)
SEEDS = st.integers(0, 2**32 - 1)


def varied(seed: int) -> Model:
    """The post and beam with every stiffness, place and pull drawn anew."""
    rng = np.random.default_rng(seed)
    base = post_and_beam(late_tie=bool(seed % 2))

    def moved(xyz):
        return tuple(np.array(xyz) + rng.uniform(-0.04, 0.04, 3))

    def scaled(value):
        return float(value * 10.0 ** rng.uniform(-0.5, 0.5))

    joints = tuple(
        replace(c, k=tuple(None if k is None else scaled(k) for k in c.k))
        for c in base.connections
    )
    return replace(
        base,
        nodes=tuple(replace(n, xyz=moved(n.xyz)) for n in base.nodes),
        members=tuple(
            replace(m, A=scaled(m.A), Iy=scaled(m.Iy), Iz=scaled(m.Iz), J=scaled(m.J))
            for m in base.members
        ),
        connections=joints,
        supports=tuple(replace(s, k=tuple(scaled(k) for k in s.k)) for s in base.supports),
        guys=tuple(
            replace(g, anchor=moved(g.anchor), EA=scaled(g.EA), pretension=scaled(g.pretension))
            for g in base.guys
        ),
    )


def out_of_balance(model: Model, answer: Answer) -> np.ndarray:
    """Loads, reactions and pulls of the guys, summed about the origin (n, 6)."""
    feet = np.array([model.nodes[s.node].xyz for s in model.supports])
    total = answer.factors @ applied(model) + moments_about_origin(feet, answer.reactions)
    for i, guy in enumerate(model.guys):
        hook = np.array(model.nodes[guy.node].xyz) + guy.setback
        line = (guy.anchor - hook) / np.linalg.norm(guy.anchor - hook)
        total += answer.tensions[:, i, None] * np.concatenate([line, np.cross(hook, line)])
    return total


@settings(max_examples=40, deadline=None)
@given(SEEDS, FACTORS)
def test_equilibrium(seed: int, factors: list[float]) -> None:
    model = varied(seed)
    answer = solve(respond(model), factors)
    size = np.abs(np.abs(answer.factors) @ np.abs(applied(model))).max() + answer.tensions.sum()
    assert np.abs(out_of_balance(model, answer)).max() <= 1e-9 * size


@settings(max_examples=30, deadline=None)
@given(SEEDS, st.tuples(st.integers(1, 13), st.integers(1, 13)), st.data())
def test_reciprocity(seed: int, places: tuple[int, int], data: st.DataObject) -> None:
    # Maxwell and Betti: what a unit load at i moves j by, the same at j moves i by.
    names = ("Fx", "Fy", "Fz", "Mx", "My", "Mz")
    ways = [data.draw(st.integers(0, 5)) for _ in places]
    loads = tuple(
        point(at, name=str(i), **{names[way]: 1.0})
        for i, (at, way) in enumerate(zip(places, ways, strict=True))
    )
    u = respond(replace(varied(seed), unit_loads=loads)).displacements
    there, back = u[0, places[1], ways[1]], u[1, places[0], ways[0]]
    largest = max(abs(u[0, places[0], ways[0]]), abs(u[1, places[1], ways[1]]))
    assert there == pytest.approx(back, abs=1e-9 * largest)


@settings(max_examples=30, deadline=None)
@given(SEEDS, FACTORS)
def test_superposition_without_guys(seed: int, factors: list[float]) -> None:
    model = replace(varied(seed), guys=())
    late = tuple(replace(load, acts="after") for load in model.unit_loads)
    model = replace(model, unit_loads=late)
    together = UnitLoad(
        name="together",
        acts="after",
        nodes=tuple(
            (at, tuple(f * x for x in six))
            for f, load in zip(factors, late, strict=True)
            for at, six in load.nodes
        ),
        members=tuple(
            (at, tuple(f * x for x in w))
            for f, load in zip(factors, late, strict=True)
            for at, w in load.members
        ),
    )
    sums = solve(respond(model), factors)
    once = solve(respond(replace(model, unit_loads=(together,))), [1.0])
    for name in ("displacements", "member_forces", "connection_forces", "reactions"):
        a, b = getattr(sums, name), getattr(once, name)
        assert a == pytest.approx(b, abs=1e-9 * max(np.abs(b).max(), 1e-12))


def mirrored(model: Model) -> Model:
    """The same frame seen in a mirror at x = 0."""

    def arrow(v):
        return (-v[0], v[1], v[2])

    def load(six):
        return (-six[0], six[1], six[2], six[3], -six[4], -six[5])

    return replace(
        model,
        nodes=tuple(replace(n, xyz=arrow(n.xyz)) for n in model.nodes),
        members=tuple(
            replace(m, y_axis=arrow(m.y_axis), setback=tuple(map(arrow, m.setback)))
            for m in model.members
        ),
        connections=tuple(replace(c, axes=tuple(map(arrow, c.axes))) for c in model.connections),
        guys=tuple(
            replace(g, anchor=arrow(g.anchor), setback=arrow(g.setback)) for g in model.guys
        ),
        unit_loads=tuple(
            replace(
                u,
                nodes=tuple((at, load(six)) for at, six in u.nodes),
                members=tuple((at, arrow(w)) for at, w in u.members),
            )
            for u in model.unit_loads
        ),
    )


@settings(max_examples=30, deadline=None)
@given(SEEDS, FACTORS)
def test_mirror_symmetry(seed: int, factors: list[float]) -> None:
    model = varied(seed)
    here, there = (solve(respond(m), factors) for m in (model, mirrored(model)))
    flip = np.array([-1.0, 1, 1, 1, -1, -1])
    for name in ("displacements", "reactions"):
        a, b = getattr(here, name), getattr(there, name)
        assert b * flip == pytest.approx(a, abs=1e-8 * np.abs(a).max())
    assert there.tensions == pytest.approx(here.tensions, abs=1e-7 * here.tensions.max())
    # Axial force keeps its sign, torque changes it.
    N, T = here.member_forces[..., 6], here.member_forces[..., 9]
    assert there.member_forces[..., 6] == pytest.approx(N, abs=1e-7 * np.abs(N).max())
    assert there.member_forces[..., 9] == pytest.approx(-T, abs=1e-7 * np.abs(T).max())


def gusts(seed: int) -> np.ndarray:
    """Growing loads (12, 3): dead load, and wind from nothing to far more than still air."""
    rng = np.random.default_rng(seed)
    way = rng.normal(size=2)
    return np.array([[1.0, *(way * v)] for v in np.linspace(0.0, 25.0, 12)])


def test_200_random_racks_against_every_taut_set() -> None:
    came_back = slack = 0
    for seed in range(200):
        model = varied(seed)
        factors = gusts(seed)
        answer = solve(respond(model), factors)
        late = factors * [load.acts == "after" for load in model.unit_loads]
        P = load_matrix(model, "after") @ late.T
        for case in (0, 3, 11):
            expected = by_bars(model, P[:, case])
            close = 1e-6 * max(expected.max(), 1.0)
            assert answer.tensions[case] == pytest.approx(expected, abs=close)
        still = [g.pretension for g in model.guys]
        assert answer.tensions[0] == pytest.approx(still, rel=1e-9)
        taut = answer.tensions > 0
        slack += int((~taut).any())
        came_back += int((np.diff(taut.astype(int), axis=0) > 0).any())
    assert slack > 100
    assert came_back >= 1
