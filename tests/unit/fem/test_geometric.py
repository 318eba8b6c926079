"""Kg under rotation: a stressed frame that turns as a body turns its forces, and strains nothing.

The expected forces are those of statics: a force f becomes theta x f, and a moment m, told by
rotation vectors, theta x m / 2 (half of what it turns by goes into the way of telling).
"""

from dataclasses import replace

import numpy as np
import pytest

from frame.fem.cases import solve
from frame.fem.model import Model, Support, UnitLoad
from frame.fem.response import respond
from frame.fem.second_order.buckling import geometric_stiffness
from tests.property.test_fem_frames import varied
from tests.published.test_pynite import random_frame
from tests.unit.fem.builders import FIXED, member, post_and_beam

AXES = np.eye(3)


def without_line_loads(model: Model) -> Model:
    """Only loads at nodes: a uniform load counts as if it acted at the ends of its member."""
    loads = tuple(replace(u, members=()) for u in model.unit_loads)
    return replace(model, unit_loads=loads)


def frames() -> list[Model]:
    found = [post_and_beam(), *map(varied, range(4)), *map(random_frame, range(4))]
    return [without_line_loads(m) for m in found]


@pytest.mark.parametrize("model", frames())
@pytest.mark.parametrize("theta", AXES, ids="xyz")
def test_a_frame_that_turns_turns_its_forces(model: Model, theta: np.ndarray) -> None:
    response = respond(model)
    factors = np.random.default_rng(3).normal(size=len(model.unit_loads))
    answer = solve(response, factors * 100, [50.0] * len(model.guys))
    forces = answer.member_forces[0], answer.connection_forces[0]
    # Guys run to anchors that stay: what they pull with is a load like the others here.
    Kg = geometric_stiffness(response.at, *forces, np.zeros(len(model.guys)))
    xyz = np.array([n.xyz for n in model.nodes])
    motion = np.hstack([np.cross(theta, xyz), np.tile(theta, (len(xyz), 1))])
    found = (Kg @ motion.ravel()).reshape(-1, 6)
    on_nodes = response.loads @ answer.factors[0] + response.pulls @ answer.tensions[0]
    on_nodes = on_nodes.reshape(-1, 6)
    for support, reaction in zip(model.supports, answer.reactions[0], strict=True):
        on_nodes[support.node] += reaction
    turned = np.cross(theta, on_nodes[:, :3]), np.cross(theta, on_nodes[:, 3:]) / 2
    assert found == pytest.approx(np.hstack(turned), abs=1e-9 * np.abs(on_nodes).max())


@pytest.mark.parametrize("theta", AXES, ids="xyz")
def test_a_frame_stressed_by_itself_turns_without_work(theta: np.ndarray) -> None:
    # A bar that is too short pulls two of its nodes together; one foot holds it, by no force.
    base = without_line_loads(post_and_beam(guys=False))
    # The joint that turns freely is held now that its far end is not.
    stiff = (None, None, None, 5e4, None, 3e4)
    held = (*base.connections[:-1], replace(base.connections[-1], k=stiff))
    base = replace(base, supports=(Support(node=0, fixed=FIXED),), connections=held)
    ends, xyz = (1, 9), np.array([n.xyz for n in base.nodes])
    line = xyz[ends[1]] - xyz[ends[0]]
    pull = {n: (*(sign * line), 0, 0, 0) for n, sign in zip(ends, (1, -1), strict=True)}
    load = UnitLoad(name="pull", acts="after", nodes=tuple(pull.items()))
    answer = solve(respond(replace(base, unit_loads=(load,))), [1.0])
    assert np.abs(answer.reactions).max() < 1e-9
    hinged = (("ry", "rz"), ("ry", "rz"))
    whole = replace(base, members=(*base.members, member(*ends, "short", free=hinged)))
    in_bar = np.zeros(12)
    in_bar[[0, 6]] = np.linalg.norm(line) * np.array([-1, 1])
    forces = np.vstack([answer.member_forces[0], in_bar])
    at = respond(whole).at
    Kg = geometric_stiffness(at, forces, answer.connection_forces[0], np.zeros(0))
    motion = np.hstack([np.cross(theta, xyz), np.tile(theta, (len(xyz), 1))]).ravel()
    assert np.abs(Kg @ motion).max() < 1e-9 * np.abs(Kg).max()
    assert abs(motion @ Kg @ motion) < 1e-9 * np.abs(Kg).max()
