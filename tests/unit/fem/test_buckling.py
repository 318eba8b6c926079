"""Buckling of frames with arms, springs and guys against closed forms derived here."""

from math import pi, tan

import numpy as np
import pytest
from scipy.optimize import brentq

from frame.fem.cases import solve
from frame.fem.model import Connection, Guy, Model, Support, UnitLoad
from frame.fem.response import respond
from frame.fem.second_order.buckling import buckling_factors
from tests.unit.fem.builders import (
    FIXED,
    GLOBAL_AXES,
    PIPE,
    RIGID,
    member,
    node,
    point,
    post_and_beam,
)

EI = PIPE["E"] * PIPE["Iy"]
LENGTH = 2.0


def factor(model: Model, factors: tuple[float, ...] = (1.0,)) -> float:
    return float(buckling_factors(solve(respond(model), factors), [0])[0])


def post(pieces: int = 4, top: int | None = None, **parts) -> Model:
    values = {
        "nodes": tuple(node((0, 0, LENGTH * i / pieces)) for i in range(pieces + 1)),
        "members": tuple(member(i, i + 1) for i in range(pieces)),
        "supports": (Support(node=0, fixed=FIXED),),
        "unit_loads": (point(pieces if top is None else top, Fz=-1.0),),
        **parts,
    }
    return Model(**values)


def rigid_top(h: float) -> float:
    """Cantilever with a rigid top h under a dead load: tan(k L) = 1 / (k h), P = E I k^2.

    y'' = k^2 (D - y) with D the sideways shift of the load, D = y(L) + h y'(L).
    """
    k = brentq(lambda k: tan(k * LENGTH) * k * h - 1, 1e-6, pi / 2 / LENGTH - 1e-9)
    return EI * k**2


@pytest.mark.parametrize("h", [0.1, 0.5, 1.5])
def test_rigid_arm_of_a_connection_leans(h: float) -> None:
    base = post()
    top = len(base.nodes)
    model = post(
        top=top,
        nodes=(*base.nodes, node((0, 0, LENGTH + h))),
        connections=(Connection(name="arm", ends=(top - 1, top), axes=GLOBAL_AXES, k=RIGID),),
    )
    assert factor(model) == pytest.approx(rigid_top(h), rel=1e-3)


@pytest.mark.parametrize("h", [0.1, 0.5, 1.5])
def test_rigid_setback_leans(h: float) -> None:
    base = post()
    nodes = (*base.nodes[:-1], node((0, 0, LENGTH + h)))
    last = member(3, 4, setback=((0, 0, 0), (0, 0, -h)))
    assert factor(post(nodes=nodes, members=(*base.members[:-1], last))) == pytest.approx(
        rigid_top(h), rel=1e-3
    )


def test_stiff_post_on_a_turning_spring() -> None:
    # A rigid bar on a rotational spring k: P = k / L; the bar is stiff beside the spring here.
    k = 400.0
    foot = Support(node=0, fixed=(True, True, True, False, True, True), k=(0, 0, 0, k, 0, 0))
    assert factor(post(supports=(foot,))) == pytest.approx(k / LENGTH, rel=2e-3)


def test_leaning_strut_loads_the_post_it_leans_on() -> None:
    # A pinned strut under Q beside a cantilever of lateral stiffness s: Q = s L (no load on it).
    hinged = (("ry", "rz"), ("ry", "rz"))
    base = post()
    nodes = (*base.nodes, node((1, 0, 0)), node((1, 0, LENGTH)))
    leaning = member(5, 6, free=hinged)
    link = member(4, 6, free=hinged)
    feet = (
        *base.supports,
        Support(node=5, fixed=FIXED),
        Support(node=6, fixed=(False, True, False, True, True, True)),
    )
    model = post(
        nodes=nodes,
        members=(*base.members, leaning, link),
        supports=feet,
        unit_loads=(point(6, Fz=-1.0),),
    )
    assert factor(model) == pytest.approx(3 * EI / LENGTH**2, rel=2e-3)


def test_guy_that_props_the_top() -> None:
    # Very stiff guys both ways make the top a pin: P = 20.19 E I / L^2 (fixed-pinned).
    guys = tuple(
        Guy(name=f"g{i}", node=8, anchor=(x, y, LENGTH), EA=1e9, pretension=1e-3)
        for i, (x, y) in enumerate(((9, 0), (-9, 0), (0, 9), (0, -9)))
    )
    assert factor(post(8, guys=guys)) == pytest.approx(20.19 * EI / LENGTH**2, rel=2e-3)
    assert factor(post(8)) == pytest.approx(pi**2 * EI / 4 / LENGTH**2, rel=1e-3)


def test_pull_toward_a_fixed_anchor_holds_its_line() -> None:
    # A post under a taut line from its top to its own foot buckles as if pinned (Timoshenko and
    # Gere, Theory of Elastic Stability, 2nd ed., sec. 2.4: load through a fixed point).
    down = Guy(name="down", node=8, anchor=(0, 0, 0), EA=1e3, pretension=1.0)
    model = post(8, guys=(down,), unit_loads=(UnitLoad(name="none", acts="after"),))
    assert factor(model) == pytest.approx(pi**2 * EI / LENGTH**2, rel=1e-3)


def test_tension_never_buckles() -> None:
    assert factor(post(unit_loads=(point(4, Fz=5.0),))) == np.inf


@pytest.mark.parametrize(("pieces", "error"), [(1, 0.2159), (2, 0.0076), (4, 0.0005)])
def test_pieces_between_pins(pieces: int, error: float) -> None:
    # One piece gives 12 E I / L^2 (McGuire et al., sec. 9.3); the rest converge from above.
    foot = Support(node=0, fixed=(True, True, True, False, False, True))
    head = Support(node=pieces, fixed=(True, True, False, False, False, False))
    found = factor(post(pieces, supports=(foot, head)))
    assert found * LENGTH**2 / (pi**2 * EI) - 1 == pytest.approx(error, rel=0.05)


def test_a_case_scales_inversely_and_the_rack_answers() -> None:
    answer = solve(respond(post_and_beam()), [[1, 0, 0], [2, 0, 0], [1, 3, 1]], [1e-6] * 4)
    one, two, three = buckling_factors(answer, [0, 1, 2])
    assert 1 < one < np.inf
    assert two == pytest.approx(one / 2, rel=1e-6)
    assert three > 0
