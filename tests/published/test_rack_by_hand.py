"""Whole racks against beam theory worked out here: sag, knees, swing, and common practice.

Beam formulas: tip of a cantilever under a load P at a, P a2 (3 L - a) / 6 E I, and under a uniform
load q, q L4 / 8 E I (Timoshenko, Strength of Materials, part I, art. 40-41); knees by the force
method; turning of a shaft T L / G J (art. 63).
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from frame.bracing.movement import sags_of_beam, worst_sag
from frame.fem.cases import solve
from frame.fem.model import Model, Support, UnitLoad
from frame.fem.response import respond
from frame.loads.combinations import WHOLE_WIND
from frame.rack.rack import KNEES
from frame.whatif.knee_card import knee_card
from tests.builders import (
    CASES,
    FOOT,
    INCH,
    MPH,
    POUND,
    WEIGHT,
    blocks_of,
    case,
    case_blocks,
    changed,
    only,
)
from tests.unit.fem.builders import member, node

E, G = 29_000 * 6.894757e6, 11_200 * 6.894757e6  # ksi, AISC 360-22
PARTS = {1 / 6: 0.58, 1 / 4: 0.42, 1 / 3: 0.29, 1 / 2: 0.11}


def inertia(pipe) -> float:
    """I [m4] of the pipe counted on."""
    od, bore = pipe.design.od, pipe.design.od - 2 * pipe.design.wall
    return np.pi / 64 * (od**4 - bore**4)


def arm_loads(rack, side: int) -> list[tuple[float, float]]:
    """(distance from the post, weight) of what hangs on one arm, panels by halves of a column.

    Rails stand at the quarter points of the columns, so each carries half a column.
    """
    root = rack.posts.positions[0 if side < 0 else -1]
    rail = rack.rails.channel.weight * rack.rails.length
    half_column = rack.panels.up * rack.panels.weight / 2
    arms = [side * (x - root) for x in rack.rails.positions]
    return [(a, rail + half_column) for a in arms if a > 0]


def cantilever(rack, side: int) -> float:
    """Sag of a beam end with its root held [m], by superposition."""
    arm, EI = rack.arms[0 if side < 0 else 1], E * inertia(rack.beam.pipe)
    points = sum(P * a**2 * (3 * arm - a) / (6 * EI) for a, P in arm_loads(rack, side))
    return points + rack.beam.pipe.weight * arm**4 / (8 * EI)


@pytest.mark.parametrize("name", CASES)
def test_the_pipes_share_of_the_sag_is_that_of_a_cantilever(name):
    """Every tilt, both ends, soft and stiff ground: what sleeve and post turn is told apart."""
    rack = case(name)
    for block in case_blocks(name):
        by_end = {str(sag.where): sag for sag in sags_of_beam(block)}
        for side, where in ((-1, "beam end, left"), (1, "beam end, right")):
            assert by_end[where].pipe == pytest.approx(cantilever(rack, side), rel=1e-3)
            sag = by_end[where]
            assert sag.pipe + sag.sleeve + sag.post == pytest.approx(sag.dead, abs=1e-12)


def left_by_a_prop(part: float) -> float:
    """Share of the tip's sag left by a rigid prop at `part` of a cantilever, uniform load.

    Force method, L = q = E I = 1. Free beam at x: (x2 / 24) (6 - 4 x + x2). Unit force at a:
    a3 / 3 at itself, a2 (3 - a) / 6 at the tip. The prop's force makes the movement at a nil.
    """
    force = part**2 / 24 * (6 - 4 * part + part**2) / (part**3 / 3)
    return 1 - force * part**2 * (3 - part) / 6 / (1 / 8)


@pytest.mark.parametrize(("part", "left"), PARTS.items())
def test_the_force_method_gives_the_shares_known(part, left):
    assert left_by_a_prop(part) == pytest.approx(left, abs=0.005)


def held_arm(part: float | None, arm: float = 2.0, drop: float = 0.8) -> float:
    """Sag of the end of an arm with its root held, a rigid pinned knee at `part` of it."""
    stiff, hinged = {"A": 10.0}, (("ry", "rz"), ("ry", "rz"))
    at = arm * (part or 0.5)
    nodes = [node(p) for p in ((0, 0, 0), (at, 0, 0), (arm, 0, 0), (0, 0, -drop))]
    members = [member(0, 1, **stiff), member(1, 2, **stiff)]
    if part:
        members.append(member(3, 1, free=hinged, **stiff))
    weight = UnitLoad(name="weight", acts="after", members=((0, (0, 0, -1.0)), (1, (0, 0, -1.0))))
    held = tuple(Support(node=i, fixed=(True,) * 6) for i in (0, 3))
    model = Model(nodes=tuple(nodes), members=tuple(members), supports=held, unit_loads=(weight,))
    return float(-respond(model).displacements[0, 2, 2])


@pytest.mark.parametrize("part", PARTS)
def test_rigid_knees_on_a_held_root_leave_what_statics_says(part):
    assert held_arm(part) / held_arm(None) == pytest.approx(left_by_a_prop(part), rel=1e-4)


@pytest.mark.parametrize("part", PARTS)
def test_the_racks_own_knees_leave_more_for_they_give(part):
    """Knee card of the boat shed: each reach leaves more of the sag than a rigid prop."""
    (choice,) = (k for k in card() if k.part == pytest.approx(part))
    assert left_by_a_prop(part) < choice.left < left_by_a_prop(part) + 0.1


@cache
def card():
    rack = case("boat")
    bare = worst_sag(case_blocks("boat")).dead
    return knee_card(rack, bare, rack.tilts[:1])


def propped(rack) -> float:
    """Sag of a beam end over a rigid prop where the knee meets the beam, by the force method."""
    arm, EI, a = rack.arms[1], E * inertia(rack.beam.pipe), rack.knees.reach
    loads = arm_loads(rack, 1)
    pieces = (np.arange(4000) + 0.5) / 4000 * arm
    loads += [(x, rack.beam.pipe.weight * arm / 4000) for x in pieces]

    def moved(at: float, by: float, P: float) -> float:
        """Movement at one place of a cantilever by P at another (Maxwell: either way round)."""
        low, high = sorted((at, by))
        return P * low**2 * (3 * high - low) / (6 * EI)

    prop = sum(moved(a, x, P) for x, P in loads) / moved(a, a, 1.0)
    return sum(moved(arm, x, P) for x, P in loads) - moved(arm, a, prop)


def stiffened(model: Model, parts: tuple[str, ...]) -> Model:
    """The same model, some parts unable to stretch."""
    return replace(
        model,
        members=tuple(
            replace(m, A=1e5 * m.A) if m.part.split(",")[0] in parts else m for m in model.members
        ),
    )


def test_what_the_rack_leaves_more_is_the_give_of_knee_beam_and_post():
    """Pinned knees from before the panels: made unable to stretch, statics is met to 0.1 %.

    The post's and sleeve's turning is nil here, loads being alike left and right.
    """
    rack = changed("boat", ("jacked", "before"), ('"welded"', '"pinned"'))
    block = blocks_of(rack, (KNEES,))[0]
    marks, model = block.frame.ideal.marks, block.frame.ideal.model
    row = only(block, **WEIGHT)
    found = []
    for parts in ((), ("knee",), ("knee", "beam"), ("knee", "beam", "post")):
        u = solve(respond(stiffened(model, parts)), row).displacements[0]
        found.append(float(u[marks["beam at post"], 2] - u[marks["beam end, right"], 2]))
    assert found == sorted(found, reverse=True)
    # Half a knee's weight hangs at each end of it, over the prop, and moves nothing.
    assert found[-1] == pytest.approx(propped(rack), rel=1e-3)
    assert found[0] < 1.5 * found[-1]


@pytest.mark.parametrize(("side", "sign"), [("left", -1), ("right", 1)])
def test_swing_is_the_yaw_of_a_one_sided_gust(side, sign):
    """Boat shed, wind in the face with 1.8 and 0.2 of it on the halves.

    Halves are centred 41.5 in. beside the post (a fifth of the spread times all of the force,
    within the gaps): T = (1.8 - 0.2) / 2 x 41.5 in. x N sin(tilt), drag being alike on both
    sides. The same torque is in the sleeve and in the post down to the ground, which turns the
    post by T L / G J between grade and top.
    """
    rack = case("boat")
    for block in case_blocks("boat"):
        ideal, table = block.frame.ideal, block.frame.cases(WHOLE_WIND[:1])
        q = block.frame.pressure(100 * MPH)
        answer = block.answer(table.at(q))
        case_at = next(
            i for i, label in enumerate(table.labels) if f"front, A, gust {side}" in label
        )
        quarters = dict(table.winds[case_at].coefficients)
        mean = np.mean([v for k, v in quarters.items() if k.startswith("panels")])
        N = q * mean * 8 * 41 * 69 * INCH**2
        torque = sign * 0.8 * 41.5 * INCH * N * np.sin(ideal.tilt)
        assert abs(torque) == pytest.approx(
            0.2 * rack.panels.spread * N * np.sin(ideal.tilt), rel=5e-3
        )
        names = [c.name for c in ideal.model.connections]
        sleeve = answer.connection_forces[case_at, names.index("sleeve"), 5]
        # The sleeve's force is that on the beam, which holds it against the wind.
        assert sleeve == pytest.approx(-torque, rel=1e-9)
        u = answer.displacements[case_at, :, 5]
        turned = u[ideal.marks["post top"]] - u[ideal.marks["post at grade"]]
        shaft = torque * 78 * INCH / (G * 2 * inertia(rack.posts.pipe))
        assert turned == pytest.approx(shaft, rel=1e-4)
        in_post = answer.along(ideal.model.members_of("post")[-1:]).T[case_at]
        assert np.abs(in_post) == pytest.approx(abs(torque), rel=1e-9)
        ground = -answer.reactions[case_at, :, 5].sum()
        assert ground == pytest.approx(torque, rel=1e-6)


def test_a_sixteen_foot_beam_droops_visibly_but_slightly():
    """Common practice, no source: a 3-1/2 in. pipe beam some 16 ft long on one middle post,
    several hundred pounds of panels: between 1/8 in. and 1 in., and knees make the difference.
    """
    rack = changed("boat", ('"14 ft 2-1/2 in"', '"16 ft"'), ('"41 in x 69 in"', '"47 in x 69 in"'))
    assert rack.beam.length == pytest.approx(16 * FOOT)
    assert 300 * POUND < rack.panels.total_weight < 900 * POUND
    bare, kneed = (
        max(s.dead for s in sags_of_beam(blocks_of(rack, b)[0])) for b in ((), (KNEES,))
    )
    assert 1 / 8 < bare / INCH < 1
    assert kneed / INCH < 1 / 8
    assert kneed < bare / 2
