"""Reductions by hand: what the front and side elevations of a simple rack must hold.

Expected values by statics and beam formulas (AISC Manual Table 3-23 cases 21 and 22), not by
either solver.
"""

import subprocess
import sys
from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from frame.errors import MechanismError
from frame.fem.model import Guy, Support
from frame.idealize.elevation import elevation, solve_reduced, solve_twice
from frame.idealize.reduction import reduce
from tests.builders_plane import E, rack_like

BARE = {"knees": None, "stays": False, "ties": False, "guys": None}


def rack(**choice):
    return rack_like(11, **(BARE | choice))


def only(model, name, factor=1.0):
    return np.array([factor * (load.name == name) for load in model.unit_loads])


def clamped(model):
    """The same model with its posts built in at grade and nothing below."""
    grade = [i for i, n in enumerate(model.nodes) if n.name.endswith("at grade")]
    return replace(
        model, supports=tuple(Support(node=n, fixed=(True,) * 6) for n in grade) + model.supports
    )


def node(elev, name):
    return [n.name for n in elev.frame.nodes].index(name)


def test_rails_ride_rigidly_in_front():
    """A rail's end moves by the rotation of its beam node times its height over it."""
    model = rack(posts=1)
    T = reduce(model, "front").T
    rail = model.node_index["rail 1 at 0.5"]
    bolt = next(c for c in model.connections if c.name == "u-bolt, rail 1")
    beam = bolt.ends[0]
    rise = model.nodes[rail].xyz[2] - model.nodes[beam].xyz[2]
    np.testing.assert_allclose(T[6 * rail], T[6 * beam] + rise * T[6 * beam + 4], atol=1e-12)
    np.testing.assert_allclose(T[6 * rail + 2], T[6 * beam + 2], atol=1e-12)
    assert not T[6 * rail + 1].any()


def test_the_beam_rides_on_the_post_tops_from_the_side():
    """All beam nodes move alike; two posts are one, as are rails at one station."""
    model = rack(posts=2)
    T = reduce(model, "side").T
    beams = [n for m in model.members if m.part == "beam" for n in m.ends]
    assert all((T[6 * n : 6 * n + 6] == T[6 * beams[0] : 6 * beams[0] + 6]).all() for n in beams)
    for first, second in (("post 1 lug", "post 2 lug"), ("rail 1 at 0.3", "rail 2 at 0.3")):
        i, j = model.node_index[first], model.node_index[second]
        assert (T[6 * i : 6 * i + 6] == T[6 * j : 6 * j + 6]).all()


def test_members_seen_from_the_side_are_sums():
    model = rack(posts=2)
    elev = elevation(model, "side")
    post = model.members[model.members_of("post 1")[0]]
    rails = len({m.part for m in model.members if m.part.startswith("rail")})
    seen = {m.part: m for m in elev.frame.members}
    assert pytest.approx(2 * E * post.Iy) == seen["2 posts together"].EI
    assert pytest.approx(2 * E * post.A) == seen["2 posts together"].EA
    rail = model.members[model.members_of("rail 1")[0]]
    assert pytest.approx(rails * E * rail.Iz) == seen[f"{rails} rails together"].EI
    k = sum(c.k[3] for c in model.connections if c.name.startswith("sleeve"))
    assert elev.frame.springs[0].k == pytest.approx(k)


def test_sway_of_two_clamped_posts_from_the_side():
    """Cantilever with end load and end moment, from wind square to the panels above the beam."""
    model = clamped(rack(posts=2))
    elev = elevation(model, "side")
    height = max(n.xyz[2] for n in model.nodes if n.name.endswith("top"))
    load = model.unit_loads[model.load_index["panels, upper left"]]
    push = np.array([np.array(f[:3]) for _, f in load.nodes])
    arms = np.array([model.nodes[n].xyz for n, _ in load.nodes]) - (0, 0, height)
    moment = np.cross(arms, push).sum(axis=0)[0]
    EI = 2 * E * model.members[model.members_of("post 1")[0]].Iy
    F = push.sum(axis=0)[1]
    # A moment about +x tips the top toward -y.
    sway = F * height**3 / (3 * EI) - moment * height**2 / (2 * EI)
    factors = only(model, load.name, 400.0)
    found = solve_reduced(elev, factors).displacements[0, node(elev, "post 1 top"), 0]
    assert found == pytest.approx(400 * sway, rel=1e-6)
    plane = solve_twice(elev, "side", factors).plane
    assert plane.displacements[node(elev, "post 1 top"), 0] == pytest.approx(400 * sway, rel=1e-4)


def test_weight_on_the_post_is_all_the_weight():
    """The post's axial force at grade is the weight above it, front and side, in both solvers."""
    model = clamped(rack(posts=1))
    factors = np.array([1.0, 1.0] + 6 * [0.0])
    total = 0.0
    for load in model.unit_loads[:2]:
        total += sum(f[2] for _, f in load.nodes)
        for m, w in load.members:
            a, b = (np.array(model.nodes[n].xyz) for n in model.members[m].ends)
            if max(a[2], b[2]) > 0:
                total += w[2] * np.linalg.norm(b - a)
    for view in ("front", "side"):
        answer = solve_twice(model, view, factors)
        posts = [d for d in answer.plane.diagrams if d.part == "post" and d.at[0, 1] == 0]
        assert posts[0].N[0] == pytest.approx(total, rel=1e-5)
        i = [m.name for m in answer.plane.frame.members].index(posts[0].name)
        assert answer.space.ends[0, i, 0, 0] == pytest.approx(total, rel=1e-9)


def test_a_guy_seen_aslant():
    """Share of a guy's direction (3, 4, 12)/13 in front: sqrt(153)/13; stiffness by its square."""
    model = rack(posts=1)
    lug = model.node_index["post lug"]
    at = np.array(model.nodes[lug].xyz)
    anchor = (at[0] + 3, at[1] + 4, at[2] - 12)
    guy = Guy(name="guy", node=lug, anchor=anchor, EA=2.6e6, pretension=0.0)
    seen = elevation(replace(model, guys=(guy,)), "front").frame.guys[0]
    assert seen.share == pytest.approx(sqrt(153) / 13)
    assert seen.give == pytest.approx(13 / 2.6e6)
    along = np.array(seen.anchor) - at[[0, 2]]
    assert along[0] / along[1] == pytest.approx(-3 / 12)


def test_a_guy_that_runs_straight_down_the_post_in_front_is_no_node_of_the_post():
    """Its anchor falls on the post's line: the answer must not be held by the post's own nodes."""
    model = rack(posts=1)
    lug = model.node_index["post lug"]
    height = model.nodes[lug].xyz[2]
    guy = Guy(name="guy", node=lug, anchor=(0.0, -height, 0.0), EA=2e6, pretension=500.0)
    braced = replace(model, guys=(guy,))
    answer = solve_twice(braced, "front", only(model, "drag along", 500.0))
    assert answer.worst < 1e-4
    assert answer.plane.tensions[0] > 0


def test_two_guys_pull_the_post_down():
    """In still air a clamped post carries the upright part of its guys' pulls."""
    model = clamped(rack(posts=1, guys="lug"))
    pulls = np.full(4, 700.0)
    answer = solve_twice(model, "side", np.zeros(8), pulls)
    np.testing.assert_allclose(answer.plane.tensions, pulls, rtol=1e-9)
    down = 0.0
    for g in model.guys:
        line = np.array(g.anchor) - np.array(model.nodes[g.node].xyz) - g.setback
        down += 700.0 * line[2] / np.linalg.norm(line)
    foot = next(d for d in answer.plane.diagrams if d.at[0, 1] == 0)
    assert foot.N[0] == pytest.approx(down, rel=1e-5)


def test_a_pinned_knee_is_scaled_to_its_real_length():
    """Between work points, EA / flexible length: a bar in series with two rigid ends."""
    model = rack(posts=1, knees="pinned", knees_fitted="before")
    elev = elevation(model, "front")
    i = model.members_of("knee, left")[0]
    member = model.members[i]
    ends = np.array([model.nodes[n].xyz for n in member.ends])
    whole = np.linalg.norm(ends[1] - ends[0])
    seen = next(m for m in elev.frame.members if m.part == "knee, left")
    assert seen.kind == "truss"
    assert pytest.approx(E * member.A * whole / (whole - 0.13)) == seen.EA


def test_knees_and_ties_are_left_out_from_the_side():
    model = rack(posts=1, knees="welded", knees_fitted="before", ties=True)
    parts = {m.part.split()[0].rstrip(",") for m in elevation(model, "side").frame.members}
    assert not parts & {"knee", "tie"}


def test_no_ground_is_a_mechanism():
    with pytest.raises(MechanismError, match="front elevation"):
        elevation(replace(rack(posts=1), supports=()), "front")


def test_a_brace_pinned_at_one_end_is_refused():
    model = rack(posts=1, knees="welded", knees_fitted="before")
    i = model.members_of("knee, left")[0]
    members = list(model.members)
    members[i] = replace(members[i], free=(("ry", "rz"), ()))
    with pytest.raises(ValueError, match="pinned at one end"):
        elevation(replace(model, members=tuple(members)), "front")


def test_the_plane_solver_is_loaded_only_where_it_is_used():
    """anastruct takes half a second to import: looking at an elevation must not cost that."""
    code = "import sys, frame.idealize.elevation; sys.exit('anastruct' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize("gap", [1e-3, 3e-3])
def test_nodes_a_finger_apart_do_not_spoil_the_agreement(gap):
    """Parts that almost meet leave very short members; both solvers must bear them."""
    model = rack(posts=1, guys="lug")
    i = model.node_index["post lug"]
    x, y, z = model.nodes[model.node_index["post at knees"]].xyz
    nodes = list(model.nodes)
    nodes[i] = replace(nodes[i], xyz=(x, y, z + gap))
    near = replace(model, nodes=tuple(nodes))
    for view in ("front", "side"):
        assert solve_twice(near, view, np.array([1, 1, 300, 300, 200, 200, 90, 90.0])).worst < 1e-4


@pytest.mark.parametrize(
    ("axes", "front", "side"),
    [
        (((1, 0, 0), (0, 1, 0), (0, 0, 1)), (1, 3, 5), (2, 3, 4)),
        (((0, 1, 0), (-1, 0, 0), (0, 0, 1)), (2, 3, 4), (1, 3, 5)),
    ],
)
def test_an_elevation_sees_the_springs_that_lie_in_it(axes, front, side):
    """Springs 1 to 3 along a connection's axes, 4 to 6 about them; turned a quarter about z the
    first lies along y. The front has x, z and what turns about y; the side y, z, about x.
    """
    model = rack(posts=1)
    one = replace(model.connections[0], axes=axes, k=(1.0, 2.0, 3.0, 4.0, 5.0, 6.0))
    assert reduce(model, "front").plane_stiffness(one) == front
    assert reduce(model, "side").plane_stiffness(one) == side


def test_in_an_elevation_rigid_stays_rigid_and_what_gives_way_freely_gives() -> None:
    """Of the front x, z and the turn about y, of the side y, z and the turn about x."""
    model = rack(posts=1)
    axes = ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    one = replace(model.connections[0], axes=axes, k=(None, 2.0, 0.0, 0.0, None, 7.0))
    assert reduce(model, "front").plane_stiffness(one) == (None, 0.0, None)
    assert reduce(model, "side").plane_stiffness(one) == (2.0, 0.0, 0.0)
