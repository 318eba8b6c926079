"""Load cases: order of building, guys by an independent route, limits, section forces."""

import numpy as np
import pytest

from frame.fem.assembly import load_matrix, pull_matrix, stiffness
from frame.fem.cases import solve
from frame.fem.constraints import reduction
from frame.fem.model import Guy, Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import FIXED, PIPE, member, node, point, post_and_beam


def test_later_parts_feel_no_dead_load() -> None:
    staged, bare = respond(post_and_beam()), respond(post_and_beam(late_tie=False))
    assert staged.member_forces[0, -1] == pytest.approx(np.zeros(12))
    assert staged.displacements[0] == pytest.approx(bare.displacements[0], rel=1e-9)
    assert np.abs(staged.member_forces[1, -1]).max() > 1.0
    assert (staged.stretch[0] == 0.0).all()


def test_later_nodes_move_from_fitting_on() -> None:
    model = Model(
        nodes=(node((0, 0, 0)), node((2, 0, 0)), node((2, 0, 1))),
        members=(member(0, 1), member(1, 2, part="mast", fitted="after")),
        supports=(Support(node=0, fixed=FIXED),),
        unit_loads=(point(1, Fz=-5.0, acts="before", name="dead"), point(2, Fz=-3.0)),
    )
    u = respond(model).displacements
    assert u[0, 2] == pytest.approx(np.zeros(6))
    assert u[0, 1, 2] < 0
    assert u[1, 2, 2] == pytest.approx(u[1, 1, 2] - 3.0 / (PIPE["E"] * PIPE["A"]))


def test_later_support_takes_no_dead_load() -> None:
    prop = Support(node=1, fixed=(False, False, True, False, False, False), fitted="after")
    model = Model(
        nodes=(node((0, 0, 0)), node((2, 0, 0))),
        members=(member(0, 1),),
        supports=(Support(node=0, fixed=FIXED), prop),
        unit_loads=(point(1, Fz=-5.0, acts="before", name="dead"), point(1, Fz=-3.0)),
    )
    r = respond(model)
    assert r.reactions[:, 1, 2] == pytest.approx([0.0, 3.0])
    assert r.reactions[:, 0, 2] == pytest.approx([5.0, 0.0], abs=1e-12)
    assert r.displacements[1, 1, 2] == pytest.approx(0.0, abs=1e-15)


def test_factor_on_dead_load_does_not_touch_the_guys() -> None:
    r = respond(post_and_beam())
    answer = solve(r, [[1.0, 4.0, 1.0], [0.6, 4.0, 1.0]])
    assert answer.tensions[0] == pytest.approx(answer.tensions[1], rel=1e-12)


def by_bars(model: Model, p: np.ndarray, lost: int | None = None) -> np.ndarray:
    """Tensions by another route: taut guys as bars in the stiffness, every taut set tried."""
    T = reduction(model, "after").toarray()
    K = T.T @ stiffness(model, "after") @ T
    B, lengths = pull_matrix(model)
    B = T.T @ B
    k = np.array([g.EA for g in model.guys]) / lengths
    t0 = np.array([g.pretension for g in model.guys])
    short = t0 / k + B.T @ np.linalg.solve(K, B @ t0)
    for choice in range(2 ** len(k)):
        taut = (choice >> np.arange(len(k))) & 1 == 1
        if lost is not None and taut[lost]:
            continue
        C = B[:, taut]
        u = np.linalg.solve(K + (C * k[taut]) @ C.T, T.T @ p + C @ (k[taut] * short[taut]))
        missing = short - B.T @ u
        t = np.where(taut, k * missing, 0.0)
        there = np.arange(len(k)) != lost
        if (t >= 0).all() and (missing[~taut & there] <= 1e-12).all():
            return t
    raise AssertionError("no taut set fits")


@pytest.mark.parametrize("wind", [0.0, 1.0, 5.0, 25.0])
@pytest.mark.parametrize("lost", [None, 0, 2])
def test_guys_as_bars(wind: float, lost: int | None) -> None:
    model = post_and_beam()
    r = respond(model)
    answer = solve(r, [1.0, wind, wind / 2], lost=lost)
    p = load_matrix(model, "after") @ [0.0, wind, wind / 2]
    expected = by_bars(model, p, lost)
    assert answer.tensions[0] == pytest.approx(expected, rel=1e-7, abs=1e-6)
    assert (answer.tensions * answer.slack == 0.0).all()


def mast(EA: float, pretension: float = 100.0) -> Model:
    guy = Guy(name="g", node=1, anchor=(-3.0, 0, 2.0), EA=EA, pretension=pretension)
    return Model(
        nodes=(node((0, 0, 0)), node((0, 0, 2))),
        members=(member(0, 1),),
        supports=(Support(node=0, fixed=FIXED),),
        guys=(guy,),
        unit_loads=(point(1, Fx=1.0),),
    )


def test_a_very_stiff_guy_holds_its_node() -> None:
    answer = solve(respond(mast(1e14)), [[0.0], [500.0], [-99.0], [-150.0]])
    still, pulled, eased, let_go = answer.displacements[:, 1, 0]
    assert [pulled, eased] == pytest.approx([still, still], rel=1e-6)
    assert answer.tensions[:, 0] == pytest.approx([100.0, 600.0, 1.0, 0.0])
    stiffness_of_post = 3 * PIPE["E"] * PIPE["Iy"] / 8
    assert let_go == pytest.approx(-150.0 / stiffness_of_post)
    assert answer.slack[3, 0] == pytest.approx(50.0 / stiffness_of_post, rel=1e-6)


def test_a_very_soft_guy_pulls_evenly() -> None:
    answer = solve(respond(mast(1e-3)), [[0.0], [500.0], [-5000.0]])
    assert answer.tensions[:, 0] == pytest.approx([100.0] * 3, rel=1e-6)


def test_only_some_guys_fitted() -> None:
    model = post_and_beam()
    two = np.array([True, False, False, True])
    fewer = Model(
        nodes=model.nodes,
        members=model.members,
        connections=model.connections,
        supports=model.supports,
        guys=tuple(g for g, on in zip(model.guys, two, strict=True) if on),
        unit_loads=model.unit_loads,
    )
    factors = [[1.0, 3.0, 2.0], [0.6, -6.0, 1.0]]
    part, alone = solve(respond(model), factors, fitted=two), solve(respond(fewer), factors)
    assert part.tensions[:, two] == pytest.approx(alone.tensions)
    assert (part.tensions[:, ~two] == 0).all()
    assert part.displacements == pytest.approx(alone.displacements, rel=1e-9, abs=1e-12)
    assert part.reactions == pytest.approx(alone.reactions, rel=1e-9, abs=1e-6)


def test_wrong_shapes_are_refused() -> None:
    r = respond(post_and_beam())
    with pytest.raises(ValueError, match="match the model"):
        solve(r, [1.0, 2.0])
    with pytest.raises(ValueError, match="match the model"):
        solve(r, [1.0, 2.0, 3.0], [5.0])
    with pytest.raises(ValueError, match="push"):
        solve(r, [1.0, 2.0, 3.0], [5.0, 5.0, -1.0, 5.0])
    with pytest.raises(ValueError, match="not fitted"):
        solve(r, [1.0, 2.0, 3.0], fitted=[True, True, True, False], lost=3)


def test_section_forces_join_up() -> None:
    answer = solve(respond(post_and_beam()), [[1.0, 2.0, 1.0], [0.6, 5.0, -1.0]])
    sections = answer.along(range(12), stations=2)
    for i, values in enumerate(
        (sections.N, sections.Vy, sections.Vz, sections.T, sections.My, sections.Mz)
    ):
        assert -values[..., 0] == pytest.approx(answer.member_forces[..., i])
        assert values[..., 1] == pytest.approx(answer.member_forces[..., 6 + i], abs=1e-6)


def test_no_loads_and_no_guys() -> None:
    r = respond(
        Model(nodes=mast(1.0).nodes, members=mast(1.0).members, supports=mast(1.0).supports)
    )
    assert r.flexibility.shape == (0, 0)
    assert solve(r, np.zeros((2, 0))).displacements.shape == (2, 2, 6)


def test_empty_load_gives_nothing() -> None:
    model = Model(
        nodes=mast(1.0).nodes,
        members=mast(1.0).members,
        supports=mast(1.0).supports,
        unit_loads=(UnitLoad(name="none", acts="after"),),
    )
    assert not respond(model).displacements.any()
