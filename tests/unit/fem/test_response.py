"""Unit answers against closed forms of beam statics and against equilibrium."""

from dataclasses import replace

import numpy as np
import pytest

from frame.fem.cases import solve
from frame.fem.model import Connection, Member, Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import (
    FIXED,
    GLOBAL_AXES,
    PIPE,
    applied,
    member,
    moments_about_origin,
    node,
    point,
    post_and_beam,
)

EI = PIPE["E"] * PIPE["Iy"]


def cantilever(length: float = 2.0, loads: tuple[UnitLoad, ...] = (), **changes) -> Model:
    return Model(
        nodes=(node((0, 0, 0)), node((length, 0, 0))),
        members=(member(0, 1, **changes),),
        supports=(Support(node=0, fixed=FIXED),),
        unit_loads=loads,
    )


def test_cantilever_under_a_point_and_a_uniform_load() -> None:
    # AISC Manual Table 3-23, cases 22 (P l^3 / 3 E I) and 19 (w l^4 / 8 E I, M = w l^2 / 2).
    uniform = UnitLoad(name="w", acts="after", members=((0, (0.0, 0.0, -10.0)),))
    r = respond(cantilever(loads=(point(1, Fz=-7.0), uniform)))
    assert r.displacements[:, 1, 2] == pytest.approx([-7 * 8 / (3 * EI), -10 * 16 / (8 * EI)])
    assert r.displacements[1, 1, 4] == pytest.approx(10 * 8 / (6 * EI))
    assert r.reactions[1, 0] == pytest.approx([0, 0, 20, 0, -20, 0], abs=1e-9)
    assert r.member_forces[1, 0, :6] == pytest.approx([0, 0, 20, 0, -20, 0], abs=1e-9)
    assert r.member_forces[1, 0, 6:] == pytest.approx(0.0, abs=1e-9)


def test_setback_is_a_rigid_arm() -> None:
    # A cantilever of 1.5 m flexible length on a rigid 0.5 m stub, load on a rigid 0.25 m tip.
    free = cantilever(2.25, (point(1, Fz=-1.0),), setback=((0.5, 0, 0), (-0.25, 0, 0)))
    r = respond(free)
    l, tip = 1.5, 0.25
    slope = (l**2 / 2 + tip * l) / EI
    assert r.displacements[0, 1, 2] == pytest.approx(
        -(l**3 / 3 + tip * l**2 / 2) / EI - tip * slope
    )
    assert r.member_forces[0, 0, 4] == pytest.approx(-(l + tip))
    assert r.reactions[0, 0, 4] == pytest.approx(-2.25)


def test_released_end_makes_a_propped_cantilever() -> None:
    # AISC Manual Table 3-23, case 12: prop 3 w l / 8, root moment w l^2 / 8.
    model = Model(
        nodes=(node((0, 0, 0)), node((2, 0, 0))),
        members=(member(0, 1, free=((), ("ry",))),),
        supports=(Support(node=0, fixed=FIXED), Support(node=1, fixed=FIXED)),
        unit_loads=(UnitLoad(name="w", acts="after", members=((0, (0.0, 0.0, -8.0)),)),),
    )
    r = respond(model)
    assert r.reactions[0, :, 2] == pytest.approx([5 / 8 * 16, 3 / 8 * 16])
    assert r.reactions[0, :, 4] == pytest.approx([-4.0, 0.0], abs=1e-9)
    ends = solve(r, [1.0]).along([0], stations=9)
    assert ends.My[0, 0, [0, 5]] == pytest.approx([4.0, -9 / 128 * 8 * 4])
    assert ends.My[0, 0, -1] == pytest.approx(0.0, abs=1e-9)


def test_connection_arm_springs_and_signs() -> None:
    # Cantilever along x; its tip carries, over a rigid 0.3 m arm along z, a node on springs.
    k = (None, 5000.0, None, None, 800.0, None)
    model = Model(
        nodes=(node((0, 0, 0)), node((2, 0, 0)), node((2, 0, 0.3))),
        members=(member(0, 1),),
        connections=(Connection(name="joint", ends=(1, 2), axes=GLOBAL_AXES, k=k),),
        supports=(Support(node=0, fixed=FIXED),),
        unit_loads=(point(2, Fy=10.0), point(2, My=6.0), point(2, Fx=4.0)),
    )
    r = respond(model)
    twist = 10 * 0.3 * 2 / (PIPE["G"] * PIPE["J"])
    sway = 10 * 8 / (3 * EI)
    assert r.displacements[0, 2, 1] == pytest.approx(sway + 0.3 * twist + 10 / 5000)
    assert r.connection_forces[0, 0] == pytest.approx([0, -10, 0, 0, 0, 0], abs=1e-9)
    assert r.displacements[1, 2, 4] == pytest.approx(6 * 2 / EI + 6 / 800)
    assert r.connection_forces[1, 0] == pytest.approx([0, 0, 0, 0, -6, 0], abs=1e-9)
    assert r.reactions[2, 0] == pytest.approx([-4, 0, 0, 0, -1.2, 0], abs=1e-9)


@pytest.mark.parametrize("late_tie", [False, True])
def test_every_unit_load_is_in_equilibrium(late_tie: bool) -> None:
    model = post_and_beam(late_tie=late_tie)
    r = respond(model)
    feet = np.array([model.nodes[s.node].xyz for s in model.supports])
    total = applied(model) + moments_about_origin(feet, r.reactions)
    assert np.abs(total).max() < 1e-9 * np.abs(applied(model)).max()


def test_every_node_is_in_equilibrium() -> None:
    model = post_and_beam()
    r = respond(model)
    load = np.zeros((3, len(model.nodes), 6))
    for i, unit in enumerate(model.unit_loads):
        for at, six in unit.nodes:
            load[i, at] += six
    for i, s in enumerate(model.supports):
        load[:, s.node] += r.reactions[:, i]
    for i, c in enumerate(model.connections):
        axes = np.array(c.axes)
        force, moment = (r.connection_forces[:, i, at] @ axes for at in (slice(3), slice(3, 6)))
        lever = np.array(model.nodes[c.ends[1]].xyz) - model.nodes[c.ends[0]].xyz
        load[:, c.ends[1]] += np.hstack([force, moment])
        load[:, c.ends[0]] -= np.hstack([force, moment + np.cross(lever, force)])
    for i, m in enumerate(model.members):
        for end in (0, 1):
            lever = np.array(m.setback[end])
            axes = local_axes(model, m)
            at = 6 * end
            force, moment = (r.member_forces[:, i, j : j + 3] @ axes for j in (at, at + 3))
            load[:, m.ends[end]] -= np.hstack([force, moment + np.cross(lever, force)])
    assert np.abs(load).max() < 1e-9 * 1500


def local_axes(model: Model, m: Member) -> np.ndarray:
    ends = [np.array(model.nodes[n].xyz) + s for n, s in zip(m.ends, m.setback, strict=True)]
    x = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    y = np.array(m.y_axis) - np.dot(m.y_axis, x) * x
    y /= np.linalg.norm(y)
    return np.array([x, y, np.cross(x, y)])


def test_arrays_are_read_only() -> None:
    r = respond(post_and_beam())
    with pytest.raises(ValueError, match="read-only"):
        r.displacements[0, 0, 0] = 1.0


@pytest.mark.parametrize("short", [0.02, 0.005])
def test_short_pieces_cost_no_digits(short: float) -> None:
    # Statics by hand: a tall soft cantilever with a stub of a piece, tip load 1000 N.
    model = Model(
        nodes=(node((0, 0, 0)), node((0, 0, 6)), node((0, 0, 6 + short)), node((0, 0, 9))),
        members=(member(0, 1), member(1, 2), member(2, 3)),
        supports=(Support(node=0, k=(1e6, 1e6, 1e6, 2e5, 2e5, 1e4)),),
        unit_loads=(point(3, Fx=1000.0),),
    )
    r = respond(model)
    assert r.reactions[0, 0] == pytest.approx([-1000, 0, 0, 0, -9000, 0], rel=1e-10, abs=1e-7)
    # Local z is -x on a member up z with local y along y.
    assert np.abs(r.member_forces[0, :, 8]) == pytest.approx([1000.0] * 3, rel=1e-10)
    assert np.abs(r.member_forces[0, 1, 4]) == pytest.approx(3000.0, rel=1e-10)


@pytest.mark.parametrize("size", [1e-4, 1e4])
def test_an_axis_points_and_measures_nothing(size: float) -> None:
    """Geometry: local y is a direction, however long it is given."""
    model = post_and_beam()
    longer = replace(
        model,
        members=tuple(replace(m, y_axis=tuple(size * a for a in m.y_axis)) for m in model.members),
    )
    found, expected = (respond(m).displacements for m in (longer, model))
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-12)
