"""What each bracing does, solved on the case files at one same gust for all.

Sag is judged against the beam at its post, sway from still air at the file's service gust.
"""

from dataclasses import replace

import numpy as np
import pytest

from frame.bracing.movement import sags_of_beam, still_air, worst_sag, worst_sway
from frame.fem.model import AFTER, UnitLoad
from frame.fem.response import respond
from frame.parts.ground.posts import ground_checks
from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.sleeve import sleeve_checks
from frame.rack.rack import KNEES, STAYS, TIES
from frame.search.survey import search
from tests.builders import (
    DEGREE,
    blocks_of,
    by_no_checks_but,
    case,
    case_blocks,
    changed,
    every_bracing,
    models_of,
    path_of,
)

TOP, ENDS, CORNERS = "post-top guys", "beam-end guys", "corner guys"
GUYED = [("boat_shed", "guys"), ("salvage_yard", TOP)]
STAYED = """
[stays]
from = "{}"
pipe = "1-1/2 in nominal"
out = "5 ft"
along = "2 ft"
fitted = "after"
"""
TIED = '\n[ties]\nat = ["lower", "upper"]\nfitted = "after"\n'


def sag(blocks, still=False) -> float:
    """Deepest droop of any beam end [m]."""
    ends = [s for b in blocks for s in sags_of_beam(b) if s.where.span is None]
    return max(abs(s.still_air if still else s.dead) for s in ends)


def sway(blocks) -> float:
    return worst_sway(blocks).top


@pytest.mark.parametrize(("name", "guys"), GUYED)
def test_post_top_guys_cure_sway_and_leave_sag(name, guys):
    bare, guyed = case_blocks(name), case_blocks(name, (guys,))
    assert sway(guyed) <= 0.35 * sway(bare)
    for still in (False, True):
        assert sag(guyed, still) == pytest.approx(sag(bare), rel=0.10)


@pytest.mark.parametrize("fitted", ["before", "jacked"])
def test_knees_cure_sag_and_leave_sway(fitted):
    rack = changed("boat_shed", ('fitted = "jacked"', f'fitted = "{fitted}"'))
    bare, kneed = blocks_of(rack), blocks_of(rack, (KNEES,))
    assert sag(kneed) <= 0.45 * sag(bare)
    assert sway(kneed) == pytest.approx(sway(bare), rel=0.15)


def test_knees_on_two_posts_cure_sag_too():
    """Wash house: deepest is the middle of the beam, whose span the knees cut from 3.2 to 2 m.

    They leave a little under half of it, and of the pipe's own droop at the ends a seventh.
    """
    bare, kneed = case_blocks("wash_house"), case_blocks("wash_house", (KNEES,))
    deepest, pipe = (
        [max(f(s) for b in blocks for s in sags_of_beam(b)) for blocks in (bare, kneed)]
        for f in (lambda s: s.dead, lambda s: s.pipe * (s.where.span is None))
    )
    assert deepest[1] < 0.5 * deepest[0]
    assert pipe[1] < 0.45 * pipe[0]
    assert worst_sag(kneed).dead < 0.45 * worst_sag(bare).dead
    assert sway(kneed) == pytest.approx(sway(bare), rel=0.15)


def test_knees_fitted_after_the_panels_leave_the_sag():
    rack = changed("boat_shed", ('fitted = "jacked"', 'fitted = "after"'))
    assert sag(blocks_of(rack, (KNEES,))) == pytest.approx(sag(blocks_of(rack)), rel=0.02)


def test_corner_guys_leave_more_sway_than_post_top_guys_of_the_same_wire():
    """As described, and with their anchors as far out as the post-top guys' and as tight."""
    assert sway(case_blocks("salvage_yard", (CORNERS,))) > sway(
        case_blocks("salvage_yard", (TOP,))
    )
    alike = changed(
        "salvage_yard",
        ('out = "3 ft"\nalong = "2 ft"', 'out = "4 ft 6 in"\nalong = "4 ft 6 in"'),
        ('pretension = "100 lb"', 'pretension = "150 lb"'),
    )
    assert sway(blocks_of(alike, (CORNERS,))) > sway(blocks_of(alike, (TOP,)))


@pytest.mark.parametrize("guys", [CORNERS, ENDS])
def test_guys_out_on_an_unkneed_beam_deepen_the_still_air_sag(guys):
    """They pull the ends down all year; the weights alone leave them where they were."""
    bare, guyed = case_blocks("salvage_yard"), case_blocks("salvage_yard", (guys,))
    assert sag(guyed, still=True) > 1.5 * sag(bare)
    assert sag(guyed) == pytest.approx(sag(bare))


def bending(block, rail: int) -> float:
    """Movement of a rail's lower end against its own root for 1 N square to the panels [m]."""
    ideal = block.frame.ideal
    end, root = (ideal.marks[f"rail {rail} {at}"] for at in ("lower end", "at beam"))
    down = np.array([0, np.sin(ideal.tilt), -np.cos(ideal.tilt)])
    push = UnitLoad(name="push", acts=AFTER, nodes=((end, (*down, 0, 0, 0)),))
    u = respond(replace(ideal.model, unit_loads=(push,))).displacements[0]
    arm = np.subtract(ideal.model.nodes[end].xyz, ideal.model.nodes[root].xyz)
    return float((u[end, :3] - u[root, :3] - np.cross(u[root, 3:], arm)) @ down)


@pytest.mark.parametrize("name", ["boat_shed", "wash_house", "salvage_yard"])
def test_ties_cure_a_rail_bending_alone_but_neither_sag_nor_sway(name):
    """A push on one rail end is shared with its neighbours; the sag grows by the ties' weight."""
    rack = case(name) if case(name).ties else changed(name, more=TIED)
    bare, tied = blocks_of(rack), blocks_of(rack, (TIES,))
    assert sag(tied) == pytest.approx(sag(bare), rel=0.15)
    assert sway(tied) == pytest.approx(sway(bare), rel=0.05)
    assert bending(tied[0], 1) < 0.8 * bending(bare[0], 1)
    assert bending(tied[0], 3) < 0.5 * bending(bare[0], 3)


def test_stays_from_the_post_top_cure_sway_like_guys_that_never_slacken():
    rack = changed("boat_shed", more=STAYED.format("post top"))
    bare, stayed = blocks_of(rack), blocks_of(rack, (STAYS,))
    assert sway(stayed) <= 0.35 * sway(bare)
    assert sag(stayed) == pytest.approx(sag(bare), rel=0.10)


def test_stays_from_the_beam_ends_carry_the_ends_too():
    """Fitted before the panels they prop the ends, which then hardly sink towards grade.

    The post still does in soft ground, so the ends stand high against it. Fitted after, they
    leave the sag that is there and add half their weight to it.
    """
    late = changed("boat_shed", more=STAYED.format("beam ends"))
    early = changed("boat_shed", more=STAYED.format("beam ends").replace("after", "before"))
    bare, after, before = blocks_of(late), blocks_of(late, (STAYS,)), blocks_of(early, (STAYS,))
    assert sag(bare) < sag(after) < 1.3 * sag(bare)
    assert sinking(before) < 0.02 * sinking(bare)
    for stayed in (after, before):
        assert sway(stayed) <= 0.35 * sway(bare)


def sinking(blocks) -> float:
    """Deepest that a beam end comes down against grade under the weights [m]."""
    return max(
        -still_air(b)[0][b.frame.ideal.marks[f"beam end, {side}"], 2]
        for b in blocks
        for side in ("left", "right")
    )


@pytest.mark.parametrize(("name", "bracing"), [(n, b) for n, b in every_bracing() if len(b) < 2])
def test_lying_flatter_raises_the_gust_that_the_post_bears(name, bracing):
    """From 35 down to 10 degrees: pipe of the post and the ground that holds it."""
    limits = []
    for tilt in (35, 10):
        blocks = blocks_of(case(name), bracing, (tilt * DEGREE,))
        with by_no_checks_but(pipe_checks, ground_checks):
            found = search(blocks)
        post = [g.limit for (part, _), g in found.items() if part.startswith("post")]
        limits.append(min(np.inf if gust is None else gust for gust in post))
    assert limits[1] > limits[0] > 0


PIN = 'pin = "3/4 in"'
SWING = ("grip against swing", "pin in", "post turning in the ground")


def swing_gust(rack) -> dict[str, float]:
    """Gust at which each thing that holds the swing lets go [m/s], bare."""
    with by_no_checks_but(sleeve_checks, ground_checks):
        found = search(models_of(rack))
    return {
        check: g.going.gust if g.going else np.inf
        for (_, check), g in found.items()
        if check.startswith(SWING)
    }


def test_a_through_pin_cures_swing_only_where_the_post_does_not_turn_in_the_ground():
    """Boat shed with its set bolts and with a pin, in concrete and in a shallow hole of earth."""
    text = path_of("boat_shed").read_text(encoding="utf-8")
    bolts = text[text.index("set_bolts") : text.index("[beam]")].rstrip()
    bolted, pinned = case("boat_shed"), changed("boat_shed", (bolts, PIN))
    shallow = replace(bolted.posts.footing, backfill="earth", depth=0.6)
    firm = swing_gust(bolted), swing_gust(pinned)
    weak = [
        swing_gust(replace(r, posts=replace(r.posts, footing=shallow))) for r in (bolted, pinned)
    ]
    assert min(firm[0], key=firm[0].get) == "grip against swing"
    assert min(firm[1].values()) > 1.5 * min(firm[0].values())
    assert min(weak[1], key=weak[1].get) == "post turning in the ground"
    assert min(weak[1].values()) == pytest.approx(min(weak[0].values()), rel=1e-6)
