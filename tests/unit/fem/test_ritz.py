"""A few shapes against closed forms, and against the exact factors of the whole frame."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from frame.fem.cases import solve
from frame.fem.model import Guy, Model, Support
from frame.fem.response import Response, respond
from frame.fem.second_order.buckling import buckling_factors, geometric_stiffness
from frame.fem.second_order.like_frames import ritz_like
from frame.fem.second_order.pieces import Pieces
from frame.fem.second_order.shapes import SMALL, Statics
from tests.unit.fem.builders import FIXED, PIPE, member, node, point, post_and_beam

EI = PIPE["E"] * PIPE["Iy"]
LENGTH = 2.0


def post(guys: tuple[Guy, ...] = ()) -> Model:
    return Model(
        nodes=tuple(node((0, 0, LENGTH * i / 8)) for i in range(9)),
        members=tuple(member(i, i + 1) for i in range(8)),
        supports=(Support(node=0, fixed=FIXED),),
        guys=guys,
        unit_loads=(
            point(8, name="down", Fz=-1.0),
            point(8, name="along", Fx=1.0),
            point(8, name="across", Fy=1.0),
        ),
    )


def lowest(model: Model, factors: list[list[float]], pretension: float = 0.0) -> np.ndarray:
    response = respond(model)
    answer = solve(response, factors, [pretension] * len(model.guys))
    shapes = Statics.of(response).ritz(answer)
    return shapes.factors(answer.factors, answer.tensions, response.slackness)


def test_post_built_in_at_its_foot() -> None:
    # P = pi^2 E I / (4 L^2): Gere, Mechanics of Materials, 6th ed., Eq. 11-38 (fixed-free).
    found = lowest(post(), [[1, 0, 0], [3, 0, 0], [1, 0.001, 0]])
    expected = pi**2 * EI / (4 * LENGTH**2) / np.array([1, 3, 1])
    assert found == pytest.approx(expected, rel=1e-3)
    assert (found >= expected * (1 - 1e-9)).all()


def test_post_pinned_at_its_top_by_stiff_guys() -> None:
    # P = 2.046 pi^2 E I / L^2: Gere, 6th ed., Eq. 11-50 (fixed-pinned).
    guys = tuple(
        Guy(name=f"g{i}", node=8, anchor=(x, y, LENGTH), EA=1e9, pretension=1e-3)
        for i, (x, y) in enumerate(((9, 0), (-9, 0), (0, 9), (0, -9)))
    )
    # One case and three loads leave little to choose shapes from: 1 % high.
    load = EI / LENGTH**2
    found = lowest(post(guys), [[load, 0, 0]], 1e-3)[0] / pi**2
    assert 2.045 < found < 2.046 * 1.015


def test_post_hung_from_its_top_never_buckles() -> None:
    assert lowest(post(), [[-1, 0, 0]])[0] == np.inf
    assert lowest(post(), [[0, 0, 0]])[0] == np.inf


def test_shapes_found_in_one_case_serve_another() -> None:
    response = respond(post())
    shapes = Statics.of(response).ritz(solve(response, [[-1.0, 0, 0]]))
    found = shapes.factors(np.array([[1.0, 0, 0]]), np.zeros((1, 0)), np.zeros(0))
    assert found[0] == pytest.approx(pi**2 * EI / (4 * LENGTH**2), rel=0.02)


def rack() -> tuple[Response, np.ndarray]:
    factors = [[1, 0, 0], [1, 1, 0], [1, 4, 0], [1, -3, 1], [1, 2, -3], [0.6, 5, 2], [2, 0, 4]]
    return respond(post_and_beam()), np.array(factors, dtype=float)


@pytest.mark.parametrize("guyed", [False, True])
def test_rack_on_arms_and_springs_against_the_whole_frame(guyed: bool) -> None:
    response, factors = rack()
    answer = solve(response, factors, fitted=[guyed] * 4)
    shapes = Statics.of(response).ritz(answer)
    found = shapes.factors(answer.factors, answer.tensions, response.slackness)
    exact = buckling_factors(answer, range(len(factors)))
    # By share of 1 / lambda, or of what is added to it where that is small: see shapes.py.
    assert 1 / found + SMALL == pytest.approx(1 / exact + SMALL, rel=0.01)
    assert (found >= exact * (1 - 1e-6)).all()


def test_softer_guys_count_with_their_own_give() -> None:
    response, factors = rack()
    soft = replace(response, slackness=3 * response.slackness)
    guys = tuple(replace(g, EA=g.EA / 3) for g in response.model.guys)
    answer = solve(soft, factors)
    model = replace(response.model, guys=guys)
    exact = buckling_factors(replace(answer, response=replace(soft, model=model)), range(7))
    shapes = Statics.of(response).ritz(answer)
    found = shapes.factors(answer.factors, answer.tensions, soft.slackness)
    assert found == pytest.approx(exact, rel=0.01)


def test_shapes_found_at_both_ends_of_the_band_serve_either() -> None:
    response, factors = rack()
    ends = [replace(response, slackness=give * response.slackness) for give in (1, 10)]
    answers = [solve(end, factors) for end in ends]
    shapes = Statics.of(response).ritz(*answers)
    for end, give, answer in zip(ends, (1, 10), answers, strict=True):
        guys = tuple(replace(g, EA=g.EA / give) for g in response.model.guys)
        model = replace(response.model, guys=guys)
        exact = buckling_factors(replace(answer, response=replace(end, model=model)), range(7))
        found = shapes.factors(answer.factors, answer.tensions, end.slackness)
        assert found == pytest.approx(exact, rel=0.01)
        assert (found >= exact * (1 - 1e-6)).all()


def test_shapes_carried_to_a_stiffer_post_on_a_spring() -> None:
    # A post twice as stiff, its foot sprung by beta = 10 E I / L: u tan u = beta L / E I, the
    # transcendental equation of such a column (Timoshenko and Gere, Theory of Elastic Stability,
    # 2nd ed., sec. 2.2), whose root by interval halving is u = 1.428870.
    response = respond(post())
    known = Statics.of(response).ritz(solve(response, [[1.0, 0.01, 0.01]])).chosen
    turning = 10 * 2 * EI / LENGTH
    foot = Support(
        node=0,
        fixed=(True, True, True, False, False, True),
        k=(0.0, 0.0, 0.0, turning, turning, 0.0),
    )
    members = tuple(member(i, i + 1, E=2 * PIPE["E"]) for i in range(8))
    model = replace(post(), members=members, supports=(foot,))
    found = ritz_like(respond(model), known)
    lowest = found.factors(np.array([[1.0, 0, 0]]), np.zeros((1, 0)), np.zeros(0))
    assert lowest[0] == pytest.approx(1.428870**2 * 2 * EI / LENGTH**2, rel=2e-3)


@pytest.mark.parametrize("guyed", [False, True])
def test_shapes_carried_to_a_rack_of_other_pipe(guyed: bool) -> None:
    response, factors = rack()
    known = Statics.of(response).ritz(solve(response, factors, fitted=[guyed] * 4)).chosen
    model = response.model
    members = tuple(
        replace(m, E=(2.0 if i % 2 else 0.7) * m.E) for i, m in enumerate(model.members)
    )
    other = respond(replace(model, members=members))
    answer = solve(other, factors, fitted=[guyed] * 4)
    found = ritz_like(other, known).factors(answer.factors, answer.tensions, other.slackness)
    exact = buckling_factors(answer, range(len(factors)))
    assert 1 / found + SMALL == pytest.approx(1 / exact + SMALL, rel=0.03)
    assert (found >= exact * (1 - 1e-6)).all()


def test_pieces_add_up_to_the_geometric_stiffness() -> None:
    response, factors = rack()
    answer = solve(response, factors)
    statics = Statics.of(response)
    size = 6 * len(response.model.nodes)
    for case in range(len(factors)):
        whole = geometric_stiffness(
            response.at,
            answer.member_forces[case],
            answer.connection_forces[case],
            answer.tensions[case],
        ).toarray()
        amounts = np.concatenate([answer.factors[case], answer.tensions[case]])
        summed = sum(spread(piece, amounts, size) for piece in statics.pieces)
        assert np.abs(summed - whole).max() < 1e-9 * np.abs(whole).max()


def spread(piece: Pieces, amounts: np.ndarray, size: int) -> np.ndarray:
    total = np.zeros((size, size))
    for dofs, blocks, amount in zip(piece.dofs, piece.block, piece.amount @ amounts, strict=True):
        total[np.ix_(dofs, dofs)] += np.tensordot(amount, blocks, axes=1)
    return total


def test_more_push_never_raises_the_factor() -> None:
    amounts = np.linspace(0.1, 5.0, 40)
    response, _ = rack()
    factors = np.column_stack([amounts, np.ones(40), np.zeros(40)])
    answer = solve(response, factors, fitted=[False] * 4)
    shapes = Statics.of(response).ritz(answer)
    found = shapes.factors(answer.factors, answer.tensions, response.slackness)
    assert (np.diff(found) < 0).all()
    doubled = shapes.factors(2 * answer.factors, answer.tensions, response.slackness)
    assert doubled == pytest.approx(found / 2, rel=1e-9)
