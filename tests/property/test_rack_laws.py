"""Laws that every rack's frame obeys: equilibrium, mirror images, superposition, guys one-way."""

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from frame.bracing.movement import sags_of_beam, still_air
from frame.fem.cases import solve
from frame.fem.model import AFTER, BEFORE, UnitLoad
from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.state import State
from frame.loads.combinations import ASD, WHOLE_WIND
from frame.rack.rack import KNEES, TIES
from tests.builders import (
    WEIGHT,
    blocks_of,
    case,
    case_blocks,
    every_bracing,
    near,
    only,
    racks,
)
from tests.unit.fem.builders import applied, moments_about_origin

EVERY = (*ASD, *WHOLE_WIND)


def unbalanced(block, table, answer) -> float:
    """Largest force and moment about grade left over by loads, ground and anchors, relative."""
    model = block.frame.ideal.model
    xyz = np.array([n.xyz for n in model.nodes])
    feet, tops = xyz[[s.node for s in model.supports]], xyz[[g.node for g in model.guys]]
    lines = np.array([g.anchor for g in model.guys]).reshape(-1, 3) - tops
    lines /= np.linalg.norm(lines, axis=1, keepdims=True)
    pulls = answer.tensions[..., None] * lines
    total = table @ applied(model) + moments_about_origin(feet, answer.reactions)
    total += moments_about_origin(tops, np.concatenate([pulls, 0 * pulls], axis=-1))
    # Against the sum of sizes: a moment of the load's size at a metre.
    size = np.abs(answer.reactions[..., :3]).sum(axis=(1, 2)) + answer.tensions.sum(axis=1)
    return float((np.abs(total).max(axis=1) / size).max())


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_every_case_of_the_case_files_is_in_equilibrium(name, bracing):
    for block in case_blocks(name, bracing):
        factors = block.frame.cases(EVERY).at(block.frame.pressure(case(name).site.map_gust))
        assert unbalanced(block, factors, block.answer(factors)) < 1e-9


@given(racks())
def test_any_rack_is_in_equilibrium(rack):
    block = blocks_of(rack, rack.bracing_names)[0]
    factors = block.frame.cases(WHOLE_WIND[:1]).at(1000.0)[::3]
    assert unbalanced(block, factors, block.answer(factors)) < 1e-9


def mirror_nodes(model) -> np.ndarray:
    """For each node its mirror image's position; nodes at one place pair in their order."""
    xyz = np.array([n.xyz for n in model.nodes])
    same = np.linalg.norm(xyz[:, None] - xyz[None], axis=2) < 1e-9
    image = np.linalg.norm(xyz[:, None] * (-1, 1, 1) - xyz[None], axis=2) < 1e-9
    rank = [int(same[i, :i].sum()) for i in range(len(xyz))]
    return np.array([np.flatnonzero(image[i])[rank[i]] for i in range(len(xyz))])


def mirror_cases(table) -> list[int]:
    """For each case the position of its mirror image."""
    swap = {"left": "right", "right": "left"}
    names = [wind.name for wind in table.winds]
    words = [[swap.get(w, w) for w in re.split(r"\b", name)] for name in names]
    return [names.index("".join(w)) for w in words]


@given(racks())
def test_a_mirrored_gust_is_answered_by_the_mirror_image(rack):
    """Left for right: u_x, r_y and r_z change sign, the rest does not; and so for the pulls."""
    block = blocks_of(rack, rack.bracing_names)[0]
    table = block.frame.cases(WHOLE_WIND[:1])
    answer = block.answer(table.at(900.0))
    images, nodes = mirror_cases(table), mirror_nodes(block.frame.ideal.model)
    sense = np.array([-1, 1, 1, 1, -1, -1])
    u = answer.displacements
    assert near(u[images][:, nodes] * sense, u, 1e-8)
    feet = [s.node for s in block.frame.ideal.model.supports]
    swap = [feet.index(nodes[f]) for f in feet]
    assert near(answer.reactions[images][:, swap] * sense, answer.reactions, 1e-7)
    order = [1, 0, 3, 2][: len(answer.tensions[0])]
    assert near(answer.tensions[images][:, order], answer.tensions, 1e-7)


@given(racks(guyed=False), st.integers(0, 1000))
def test_without_guys_a_load_made_of_others_does_what_they_do_together(rack, seed):
    """One unit load put together from all others before the frame is solved."""
    ideal = blocks_of(rack, rack.bracing_names)[0].frame.ideal
    rng = np.random.default_rng(seed)
    for stage in (BEFORE, AFTER):
        loads = [u for u in ideal.model.unit_loads if u.acts == stage]
        factors = rng.uniform(-2, 2, len(loads))
        together = UnitLoad(
            name="together",
            acts=stage,
            nodes=tuple(
                (n, tuple(f * np.array(six)))
                for u, f in zip(loads, factors, strict=True)
                for n, six in u.nodes
            ),
            members=tuple(
                (m, tuple(f * np.array(w)))
                for u, f in zip(loads, factors, strict=True)
                for m, w in u.members
            ),
        )
        found = respond(replace(ideal.model, unit_loads=(*loads, together)))
        for array in (found.displacements, found.member_forces, found.reactions):
            assert near(array[-1], np.tensordot(factors, array[:-1], axes=1), 1e-9)


@given(racks(guyed=True))
def test_guys_pull_by_what_they_are_stretched_and_never_push(rack):
    """Each guy told from the movement of its node: t = t0 + EA / L x stretch, or slack by it.

    Movement counts from still air: weights and pretension read there are behind it.
    """
    block = blocks_of(rack, rack.bracing_names)[-1]
    model = block.frame.ideal.model
    factors = block.frame.cases(WHOLE_WIND[:1]).at(1200.0)
    answer = block.answer(factors)
    moved = answer.displacements - still_air(block)[1]
    EA, pretension = block.band
    for i, guy in enumerate(model.guys):
        line = np.subtract(guy.anchor, model.nodes[guy.node].xyz)
        length = np.linalg.norm(line)
        stretch = -moved[:, guy.node, :3] @ line / length
        pull = pretension[i] + EA[i] / length * stretch
        size = np.abs(pull).max()
        assert answer.tensions[:, i] == pytest.approx(np.maximum(pull, 0), abs=1e-7 * size)
        slack = np.maximum(-pull, 0) * length / EA[i]
        assert answer.slack[:, i] == pytest.approx(slack, abs=1e-7 * size * length / EA[i])


@given(racks(guyed=True))
def test_still_air_pulls_are_those_given(rack):
    block = blocks_of(rack, rack.bracing_names)[0]
    answer = block.answer(only(block, **WEIGHT)[None])
    assert answer.tensions[0] == pytest.approx(block.band[1])


def with_guys(block, factor: float, pretension: float | None = None):
    """Unit answers of a block's model, its guys `factor` times as stiff, and the pulls."""
    EA, pull = block.band
    response = respond(block.with_band(factor * EA))
    return response, pull if pretension is None else np.full(len(pull), pretension)


@given(racks(guyed=True))
def test_very_soft_guys_only_pull_as_in_still_air(rack):
    """EA a hundred millionth: the tension stays, the wind moves the rack as if bare."""
    block = blocks_of(rack, rack.bracing_names)[0]
    response, pull = with_guys(block, 1e-8)
    still = solve(response, only(block, **WEIGHT), pull).displacements
    factors = block.frame.cases(WHOLE_WIND[:1]).at(900.0)
    answer = solve(response, factors, pull)
    assert near(answer.tensions, np.tile(pull, (len(factors), 1)), 1e-3)
    bare = solve(response, factors, fitted=np.zeros(len(pull), dtype=bool)).displacements
    bare = bare - solve(response, only(block, **WEIGHT), fitted=pull < 0).displacements
    assert near(answer.displacements - still, bare, 1e-4)


@pytest.mark.parametrize("name", ["boat_shed", "salvage_yard"])
def test_very_stiff_guys_hold_the_post_where_it_is(name):
    """Post-top guys ten thousand times as stiff, tight enough to stay taut: the lug stands."""
    bracing = case(name).bracing_names[1 if name == "boat_shed" else 0 :][:1]
    for block in case_blocks(name, bracing):
        response, pull = with_guys(block, 1e4, pretension=2e5)
        factors = block.frame.cases(WHOLE_WIND[:1]).at(900.0)
        rows = {"fitted": block.fitted}
        answer = solve(response, factors, pull, **rows)
        assert (answer.tensions[:, block.fitted] > 0).all()
        moved = (
            answer.displacements
            - solve(response, only(block, **WEIGHT), pull, **rows).displacements
        )
        bare = solve(response, factors, pull, fitted=~block.fitted & block.fitted)
        lug = block.frame.ideal.marks["post lug"]
        swayed = np.linalg.norm(bare.displacements[:, lug, :2], axis=1)
        held = np.linalg.norm(moved[:, lug, :2], axis=1)
        assert held.max() < 1e-3 * swayed.max()


@given(racks())
def test_what_is_fitted_after_the_panels_leaves_the_rack_its_sag(rack):
    """Knees and ties fitted after: the dead load stays where it was, but for their own weight.

    Shown on the panels' weight: its movement and forces are those of the bare rack.
    """
    assume(rack.knees or rack.ties)
    late = replace(
        rack,
        knees=rack.knees and replace(rack.knees, fitted="after"),
        ties=rack.ties and replace(rack.ties, fitted="after"),
        stays=None,
    )
    stiff = tuple(n for n in late.bracing_names if n in (KNEES, TIES))
    bare, braced = (blocks_of(late, b)[0] for b in ((), stiff))
    row = {"panel_weight": 1.0}
    no_guys = np.zeros(len(bare.frame.ideal.model.guys), dtype=bool)
    first = solve(bare.frame.response, only(bare, **row), fitted=no_guys)
    then = solve(braced.frame.response, only(braced, **row), fitted=no_guys)
    shared = len(bare.frame.ideal.model.nodes)
    assert near(then.displacements[0, :shared], first.displacements[0], 1e-9)
    for i, m in enumerate(braced.frame.ideal.model.members):
        if m.fitted == AFTER:
            assert np.abs(then.member_forces[0, i]).max() == 0


@given(racks(posts=1))
def test_knees_before_or_jacked_share_the_dead_load_alike(rack):
    assume(rack.knees)
    one, other, late = (
        replace(rack, knees=replace(rack.knees, fitted=f), guys=())
        for f in ("before", "jacked", "after")
    )
    made = [build(r, r.tilts[0], (KNEES,), State()).model for r in (one, other)]
    assert made[0] == made[1]
    sag = {
        r.knees.fitted: max(s.dead for s in sags_of_beam(blocks_of(r, (KNEES,))[0]))
        for r in (one, late)
    }
    bare = max(s.dead for s in sags_of_beam(blocks_of(one)[0]))
    assert sag["before"] < bare
    # Half of each knee's own weight hangs on the beam (Timoshenko, art. 40), nothing else.
    knees, arm = one.knees, one.arms[0]
    weight = knees.pipe.weight * np.hypot(knees.drop, knees.reach) / 2
    EI = 199.948e9 * one.beam.pipe.design.second_moment
    own = weight * knees.reach**2 * (3 * arm - knees.reach) / (6 * EI)
    assert sag["after"] == pytest.approx(bare + own, rel=1e-3)
