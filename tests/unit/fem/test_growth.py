"""Second-order answers in a few shapes: against benchmarks, the whole frame solved, statics."""

from dataclasses import replace
from math import cos, pi, sqrt, tan

import numpy as np
import pytest
import scipy.sparse.linalg

from frame.fem.cases import Answer, solve
from frame.fem.model import Model, Support, UnitLoad
from frame.fem.pile import Picked, StackedAnswers
from frame.fem.response import respond
from frame.fem.second_order.buckling import geometric_stiffness
from frame.fem.second_order.ritz import NEAR, Ritz
from frame.fem.second_order.shapes import Statics
from frame.fem.stage import stage
from tests.unit.fem.builders import FIXED, PIPE, member, node, point, post_and_beam

EI, LENGTH, PIECES = PIPE["E"] * PIPE["Iy"], 2.0, 4
EULER = pi**2 * EI / (4 * LENGTH**2)
FACTORS = np.array(
    [[1, 0, 0], [1, 1, 0], [1, 4, 0], [1, -3, 1], [1, 2, -3], [0.6, 5, 2], [2, 0, 4]], dtype=float
)


def cantilever() -> Model:
    return Model(
        nodes=tuple(node((0, 0, LENGTH * i / PIECES)) for i in range(PIECES + 1)),
        members=tuple(member(i, i + 1) for i in range(PIECES)),
        supports=(Support(node=0, fixed=FIXED),),
        unit_loads=(
            point(PIECES, name="down", Fz=-1.0),
            point(PIECES, name="along", Fx=1.0),
            UnitLoad(
                name="across",
                acts="after",
                members=tuple((i, (0.0, 1.0, 0.0)) for i in range(PIECES)),
            ),
        ),
    )


def grown(model: Model, factors, alpha: float = 1.0, **more) -> tuple[Answer, Ritz]:
    answer = solve(respond(model), factors, **more)
    # Shapes are chosen from weak and strong cases, as a rack's are.
    weak = solve(answer.response, answer.factors / 2, **more)
    shapes = Statics.of(answer.response).ritz(weak, answer)
    return shapes.grown(answer, alpha), shapes


@pytest.mark.parametrize("nearness", [10.0, 3.0, 1.5])
def test_cantilever_with_a_load_at_its_tip(nearness: float) -> None:
    # Timoshenko and Gere, Theory of Elastic Stability, 2nd ed., sec. 1.3 and 1.4: a half wave of
    # a pinned strut, M = H tan(k L) / k, sway H (tan(k L) / k - L) / P, k = sqrt(P / E I).
    P, H = EULER / nearness, 100.0
    found, _ = grown(cantilever(), [P, H, 0.0])
    k = sqrt(P / EI)
    assert found.reactions[0, 0, 4] == pytest.approx(-H * tan(k * LENGTH) / k, rel=2e-3)
    assert found.member_forces[0, 0, 4] == pytest.approx(found.reactions[0, 0, 4], rel=4e-3)
    sway = H * (tan(k * LENGTH) / k - LENGTH) / P
    assert found.displacements[0, PIECES, 0] == pytest.approx(sway, rel=2e-3)
    assert found.lowest[0] == pytest.approx(nearness, rel=2e-3)


def test_cantilever_under_a_spread_load() -> None:
    # y'' = k^2 (D - y) + w (L - x)^2 / 2 E I, solved by hand: at the foot the moment is
    # w / k^2 (1 - 1 / cos(k L) + k L tan(k L)).
    P, w = EULER / 2.5, 40.0
    found, _ = grown(cantilever(), [P, 0.0, w])
    k = sqrt(P / EI)
    foot = w / k**2 * (1 - 1 / cos(k * LENGTH) + k * LENGTH * tan(k * LENGTH))
    assert found.reactions[0, 0, 3] == pytest.approx(foot, rel=3e-3)


def test_alpha_brings_the_forces_nearer_but_does_not_make_them_more() -> None:
    P, H = EULER / 5, 100.0
    once, _ = grown(cantilever(), [2 * P, H, 0.0])
    twice, _ = grown(cantilever(), [P, H, 0.0], alpha=2.0)
    # The shapes chosen differ a little.
    assert twice.reactions[0, 0, 4] == pytest.approx(once.reactions[0, 0, 4], rel=3e-3)
    assert twice.lowest[0] == pytest.approx(2 * once.lowest[0], rel=3e-3)


def exact(answer: Answer, case: int, alpha: float) -> tuple[np.ndarray, np.ndarray]:
    """Growth of movement (N, 6) and of end forces (M, 12), the whole frame solved."""
    at = stage(answer.response.model, "after", taut=answer.tensions[case] > 0.0)
    Kg = geometric_stiffness(
        at, answer.member_forces[case], answer.connection_forces[case], answer.tensions[case]
    )
    push = -alpha * (Kg @ answer.displacements[case].ravel())
    K = (at.T.T @ (at.K + alpha * Kg) @ at.T).tocsc()
    more = at.T @ scipy.sparse.linalg.spsolve(K, at.T.T @ push)
    e = at.elements
    forces = e.stiffness @ (e.to_local @ more[e.dofs][:, :, None])
    return more.reshape(-1, 6), forces[:, :, 0]


@pytest.mark.parametrize("alpha", [1.0, 2.0])
@pytest.mark.parametrize("guyed", [False, True])
def test_rack_on_arms_and_springs_against_the_whole_frame(guyed: bool, alpha: float) -> None:
    factors = 4 * FACTORS
    found, _ = grown(post_and_beam(), factors, alpha, fitted=[guyed] * 4)
    first = solve(found.response, factors, fitted=[guyed] * 4)
    bare = replace(found, alpha=0.0)  # without the bow of the members, which `exact` has not
    for case in np.flatnonzero(found.lowest > 1.5 * alpha):
        moved, forces = exact(first, int(case), alpha)
        more = found.displacements[case] - first.displacements[case]
        for part in (slice(0, 3), slice(3, 6)):
            size = np.abs(first.displacements[case] + moved)[:, part].max()
            assert np.abs(more - moved)[:, part].max() < 0.01 * size
        ours = bare.member_forces[case] - first.member_forces[case]
        size = np.abs(first.member_forces[case] + forces).max()
        assert np.abs(ours - forces).max() < 0.03 * size


def test_growth_goes_on_evenly_where_the_rack_topples() -> None:
    H = 1.0
    loads = [[EULER / n, H, 0.0] for n in (1.01, 1 + 2 * NEAR, 1 + NEAR, 1.0, 0.8, 0.5)]
    found, _ = grown(cantilever(), loads)
    sway = found.displacements[:, PIECES, 0]
    assert np.isfinite(found.member_forces).all()
    assert (np.diff(sway[:3]) > 0).all()
    # Held at 1 / NEAR times the first mode from there on: no sign turns, nothing jumps.
    assert sway[3:] == pytest.approx(sway[2], rel=0.1)
    assert 500 < sway[-1] / (H * LENGTH**3 / 3 / EI) < 1100


def test_a_post_stands_as_it_would_alone_beside_one_that_topples() -> None:
    # H (tan(k L) / k - L) / P as above; nothing joins the two posts.
    one = cantilever()
    many = len(one.nodes)
    apart = tuple(node((5, 0, LENGTH * i / PIECES)) for i in range(many))
    model = replace(
        one,
        nodes=(*one.nodes, *apart),
        members=(*one.members, *(member(many + i, many + i + 1) for i in range(PIECES))),
        supports=(*one.supports, Support(node=many, fixed=FIXED)),
        unit_loads=(
            *(point(PIECES, name="there", Fz=-1.0), point(PIECES, name="pushed", Fy=1.0)),
            *(
                point(many + PIECES, name=n, **f)
                for n, f in (("a", {"Fz": -1.0}), ("b", {"Fx": 1.0}))
            ),
        ),
    )
    P, H = EULER / 3, 100.0
    found, _ = grown(model, [2 * EULER, H, P, H])
    k = sqrt(P / EI)
    sway = H * (tan(k * LENGTH) / k - LENGTH) / P
    assert found.topples[0]
    assert found.displacements[0, many + PIECES, 0] == pytest.approx(sway, rel=3e-3)


def test_a_guy_grows_with_the_sway_it_holds() -> None:
    model = post_and_beam()
    found, _ = grown(model, 8 * FACTORS)
    first = solve(found.response, 8 * FACTORS)
    moved = found.displacements - first.displacements
    stretch = -(moved.reshape(len(moved), -1) @ found.response.pulls)
    more = np.where(first.tensions > 0, stretch / found.response.slackness, 0.0)
    expected = np.maximum(first.tensions + more, 0.0)
    assert found.tensions == pytest.approx(expected, rel=1e-6, abs=1e-3)
    assert (found.tensions[first.tensions == 0] == 0).all()


def test_connections_and_members_stay_in_balance() -> None:
    # The free end of the beam, past the last rail: what is on it does not sway with it.
    found, _ = grown(cantilever(), [EULER / 2, 100.0, 0.0])
    ends = found.member_forces[0].reshape(PIECES, 2, 6)
    length = LENGTH / PIECES
    moments = ends[:, 0, 4] + ends[:, 1, 4] + length * ends[:, 0, 2]
    assert np.abs(moments).max() < 1e-6 * np.abs(ends).max()


def test_piles_and_picks_tell_the_same() -> None:
    found, _ = grown(post_and_beam(), 8 * FACTORS, 2.0)
    some = np.array([4, 1])
    pile = StackedAnswers((found, found.only(some)))
    for name in ("member_forces", "connection_forces"):
        together = np.moveaxis(getattr(pile, name), -1, 0)
        apart = np.concatenate([getattr(found, name), getattr(found, name)[some]])
        assert together == pytest.approx(apart, rel=1e-9, abs=1e-6)
    assert (pile.tensions[len(FACTORS) :] == found.tensions[some]).all()
    assert found.only(some).lowest == pytest.approx(found.lowest[some])


@pytest.mark.parametrize("rows", [[2, 0, 5], list(range(len(FACTORS) + 2))])
def test_picks_of_a_pile_tell_what_the_answers_tell(rows: list[int]) -> None:
    """One case at a time; at stations the ends' own forces (section forces, DEVELOPERS.md)."""
    found, _ = grown(post_and_beam(), 8 * FACTORS, 2.0)
    picked = Picked(StackedAnswers((found, found.only(np.array([4, 1])))), np.array(rows))
    order = [*range(len(FACTORS)), 4, 1]
    one = found.only(np.array([order[i] for i in rows]))
    members, shares = [2, 7, 0], np.array([0.1, 0.6])
    for ours, theirs in (
        (picked.along(members), one.along(members)),
        (picked.along(members, 3), one.along(members, 3)),
        (picked.cut(members, shares), one.cut(members, shares)),
    ):
        for name in ("N", "Vy", "Vz", "T", "My", "Mz"):
            told = getattr(theirs, name)
            assert getattr(ours, name) == pytest.approx(told, rel=1e-9, abs=1e-6), name
    ends = picked.on_members(members)
    assert picked.along(members).N[:, :, 0] == pytest.approx(-ends[:, :, 0], abs=1e-6)
    assert picked.along(members).N[:, :, -1] == pytest.approx(ends[:, :, 6], abs=1e-6)
    assert picked.along(members).My[:, :, -1] == pytest.approx(ends[:, :, 10], abs=1e-6)
    assert picked.on_connections([1, 0]) == pytest.approx(one.on_connections([1, 0]), abs=1e-6)
    assert (picked.tensions == one.tensions).all()
    assert (picked.first_tensions == one.pulled).all()
