"""Statics of the unit loads, by hand from the lines of the rack files; no solving.

Hand sums of the boat shed in inches and pounds: panels 41 x 69, four across, two up, gap 1/2;
beam's centre line at 78, 4.000 across; post 5.563 across, 54 deep; knees 30 by 30, 1.900 across.
"""

from dataclasses import replace
from math import cos, hypot, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given

from frame.fem.model import AFTER, BEFORE
from frame.idealize.build import build, on_other_ground
from frame.idealize.posts import sleeve_stiffness
from frame.idealize.state import SOFT, STIFF, State
from frame.loads.combinations import WHOLE_WIND
from frame.rack.rack import KNEES
from tests.builders import (
    CASES,
    DEGREE,
    FOOT,
    INCH,
    POUND,
    WEIGHT,
    blocks_of,
    case,
    case_blocks,
    changed,
    every_bracing,
    load,
    only,
    racks,
    resultant,
)
from tests.unit.parts.racks import ONE_POST

T = 35 * DEGREE
ALL = {f"panels__{c}_{s}": 1.0 for c in ("lower", "upper") for s in ("left", "right")}


def boat(bracing=()):
    """The boat shed at 35 degrees in soft ground."""
    return next(b for b in case_blocks("boat", bracing) if b.frame.ideal.tilt > 0.5)


def hand(block, **factors):
    return resultant(block.frame.ideal.model, only(block, **factors))


def test_one_pascal_on_all_panels_pushes_square_to_them():
    """8 panels of 41 in. by 69 in.: 157.2 sq ft; level part A sin 35, pressing part A cos 35."""
    area = 8 * 41 * 69 * INCH**2
    total = hand(boat(), **ALL)
    assert area / FOOT**2 == pytest.approx(157.17, abs=0.01)
    assert total.force == pytest.approx([0, area * sin(T), -area * cos(T)], abs=1e-12)


def test_it_turns_the_post_at_grade_by_its_level_part_at_the_beam():
    """An even pressure passes square through the beam's centre line, 78 in. up, at no arm."""
    area = 8 * 41 * 69 * INCH**2
    total = hand(boat(), **ALL)
    assert total.moment == pytest.approx([-area * sin(T) * 78 * INCH, 0, 0], abs=1e-9)


@pytest.mark.parametrize(("chord", "side"), [(-1, -1), (-1, 1), (1, -1), (1, 1)])
def test_a_quarter_of_the_panels(chord, side):
    """Two panels, their middle 41.5 in. beside the post and 34.75 in. along the slope.

    Middle of columns at 20.75 and 62.25; middle of a row (69 + 1/2) / 2 from mid-chord. Moment
    N = 39.3 sq ft x 1 Pa about the axes at grade: level part sin 35 N acts 78 + 34.75 sin 35 up.
    """
    push = 2 * 41 * 69 * INCH**2
    x, s = side * 41.5 * INCH, chord * 34.75 * INCH
    name = f"panels__{'lower' if chord < 0 else 'upper'}_{'left' if side < 0 else 'right'}"
    total = hand(boat(), **{name: 1.0})
    level, down = push * sin(T), push * cos(T)
    y, z = s * cos(T), 78 * INCH + s * sin(T)
    # The rails stand off square to the panels, along the push itself, which moves no arm.
    moment = [-y * down - z * level, x * down, x * level]
    assert total.force == pytest.approx([0, level, -down])
    assert total.moment == pytest.approx(moment)


def test_three_columns_and_one_row_are_cut_through_the_middle():
    """Salvage yard: the middle column counts half left, half right, a panel half low, half high.

    39 in. columns at a pitch of 40: 1.5 columns a side, middle at (40 + 9.75 / 2) / 1.5 in.;
    a half panel of 33 in. with its middle 16.5 in. from mid-chord.
    """
    block = case_blocks("yard")[-1]
    t = block.frame.ideal.tilt
    push = 1.5 * 39 * 33 * INCH**2
    x, s = (40 + 9.75 / 2) / 1.5 * INCH, -16.5 * INCH
    total = hand(block, panels__lower_right=1.0)
    assert total.force == pytest.approx([0, push * sin(t), -push * cos(t)])
    assert total.moment[2] == pytest.approx(x * push * sin(t))
    y, z = s * cos(t), 72 * INCH + s * sin(t)
    assert total.moment[0] == pytest.approx(-push * (y * cos(t) + z * sin(t)))


@pytest.mark.parametrize("name", CASES)
def test_front_wind_presses_and_back_wind_lifts(name):
    """The whole upright wind force in every case and tilt, air passing freely underneath.

    With the air blocked underneath the standard lets even the front wind lift a little, since
    the leeward half is sucked on; wind from behind lifts either way.
    """
    for block in case_blocks(name):
        table, model = block.frame.cases(WHOLE_WIND[:1]), block.frame.ideal.model
        for wind, row in zip(table.winds, table.per_pressure, strict=True):
            force = resultant(model, row).force
            if wind.direction == "front" and wind.flow == "clear":
                assert force[1] > 0 > force[2]
            elif wind.direction == "back":
                assert force[1] < 0 < force[2]
            elif wind.direction in ("left", "right"):
                assert force[0] * (1 if wind.direction == "left" else -1) > 0


def test_drag_across_is_that_of_post_and_beam():
    """Cf 1.2 on 78 in. of 5.563 and 170.5 in. of 4.000; the wind sees neither rails nor panels."""
    area = 1.2 * (78 * 5.563 + 170.5 * 4.0) * INCH**2
    total = hand(boat(), drag_across=1.0)
    assert total.force == pytest.approx([0, area, 0])
    arm = 1.2 * (78 * 5.563 * 39 + 170.5 * 4.0 * 78) * INCH**3
    assert total.moment == pytest.approx([-arm, 0, 0])


def test_drag_along_is_that_of_post_rails_and_panel_edges():
    """The beam is seen end on; eight rails 138.5 in. long and 1.625 deep, flat edge Cf 2.0.

    Four columns of panels, twice 69 in. up the slope, 1-3/8 in. thick.
    """
    area = (1.2 * 78 * 5.563 + 2.0 * 8 * 138.5 * 1.625 + 2.0 * 4 * 2 * 69 * 1.375) * INCH**2
    assert hand(boat(), drag_along=1.0).force == pytest.approx([area, 0, 0])


def test_knees_take_drag_over_what_shows_of_them():
    """Work length 30 sqrt 2, less half a post and half a beam cut at 45 degrees.

    Across, the wind sees the whole of it; along the beam its upright part.
    """
    shows = (30 - 5.563 / 2 - 4.0 / 2) * sqrt(2) * INCH
    drag = 1.2 * 1.9 * INCH * 2 * shows
    bare, kneed = boat(), boat((KNEES,))
    for axis, name, part in ((1, "drag_across", 1.0), (0, "drag_along", sqrt(0.5))):
        gain = hand(kneed, **{name: 1.0}).force - hand(bare, **{name: 1.0}).force
        assert gain[axis] == pytest.approx(part * drag)


def test_the_weights_are_those_listed():
    """ASME B36.10M pounds per foot: 14.62 for 5, 9.11 for 3-1/2, 2.72 for 1-1/2 in. pipe.

    Post 78 + 54 in., 8 in. of sleeve at 1.4 times it (judgement), beam 170.5 in., 8 rails of
    138.5 in., 8 panels of 49 lb.
    """
    rails = 8 * 138.5 * INCH * case("boat").rails.channel.weight
    pounds = (14.62 * (78 + 54 + 1.4 * 8) + 9.11 * 170.5) / 12
    bare = hand(boat(), steel_weight=1.0)
    assert -bare.force[2] == pytest.approx(pounds * POUND + rails, rel=1e-3)
    assert -hand(boat(), panel_weight=1.0).force[2] == pytest.approx(8 * 49 * POUND)
    kneed = hand(boat((KNEES,)), steel_weight=1.0)
    gain = (bare.force - kneed.force)[2] / POUND
    assert gain == pytest.approx(2 * hypot(30, 30) / 12 * 2.72, rel=1e-3)


def test_the_ground_carries_the_weights_listed():
    """Solved: what the frame puts into the ground, added up over its springs."""
    block = boat((KNEES,))
    answer = block.answer(only(block, **WEIGHT)[None])
    listed = -hand(block, **WEIGHT).force[2]
    assert answer.reactions[0, :, 2].sum() == pytest.approx(listed, rel=1e-9)


def test_panels_weigh_on_the_front_of_the_post_when_tilted():
    """They stand half a beam and a rail off it, square to the slope, so forward of the post."""
    off = 8 * 49 * POUND * (2.0 + 1.625) * INCH * sin(T)
    moment = hand(boat(), panel_weight=1.0).moment
    assert moment == pytest.approx([off, 0, 0], abs=1e-9)


@given(racks())
def test_strips_along_the_beam_make_up_the_whole(rack):
    """From either end the strips cover every panel once, whatever their number."""
    block = blocks_of(rack)[0]
    model = block.frame.ideal.model
    whole = hand(block, **ALL)
    for edge in ("left", "right"):
        names = [u.name for u in model.unit_loads if u.name.endswith(f"from {edge}")]
        row = np.zeros(len(model.unit_loads))
        row[[load(block, n) for n in names]] = 1.0
        total = resultant(model, row)
        assert total.force == pytest.approx(whole.force, rel=1e-9, abs=1e-9)
        assert total.moment == pytest.approx(whole.moment, rel=1e-9, abs=1e-6)


@given(racks())
def test_panel_loads_of_any_rack_keep_force_and_moment(rack):
    """One pascal on everything: area square to the slope, through the beam's centre line."""
    block = blocks_of(rack)[0]
    tilt, panels = rack.tilts[0], rack.panels
    area = panels.across * panels.up * panels.width * panels.height
    total = hand(block, **ALL)
    level, down = area * sin(tilt), area * cos(tilt)
    assert total.force == pytest.approx([0, level, -down], rel=1e-9, abs=1e-9)
    assert total.moment == pytest.approx([-level * rack.posts.height, 0, 0], rel=1e-9, abs=1e-6)


def test_knees_start_at_the_skin_of_the_pipes():
    """Setback along the brace: to the post's skin 5.563 / 2 level, to the beam's 4.000 / 2 up."""
    model = boat((KNEES,)).frame.ideal.model
    (at,) = model.members_of("knee, right")
    at_post, at_beam = (np.array(s) / INCH for s in model.members[at].setback)
    assert at_post == pytest.approx([5.563 / 2, 0, 5.563 / 2])
    assert at_beam == pytest.approx([-2.0, 0, -2.0])


@pytest.mark.parametrize(
    ("fitted", "stage"), [("before", BEFORE), ("after", AFTER), ("jacked", BEFORE)]
)
def test_when_knees_begin_to_carry_dead_load(fitted, stage):
    rack = changed("boat", ('fitted = "jacked"', f'fitted = "{fitted}"'))
    model = build(rack, T, (KNEES,), State()).model
    assert {m.fitted for m in model.members if m.part.startswith("knee")} == {stage}


def test_knees_fitted_after_hang_their_weight_on_what_stood_before():
    """Their weight is in the total, at their ends, and none of it on the knees themselves."""
    rack = changed("boat", ('fitted = "jacked"', 'fitted = "after"'))
    made = {b: build(rack, T, b, State()).model for b in ((), (KNEES,))}
    index = made[KNEES,].load_index["steel weight"]
    late = {i for i, m in enumerate(made[KNEES,].members) if m.fitted == AFTER}
    assert not late & {m for m, _ in made[KNEES,].unit_loads[index].members}
    row = np.eye(len(made[()].unit_loads))[index]
    gain = resultant(made[()], row).force[2] - resultant(made[KNEES,], row).force[2]
    assert gain / POUND == pytest.approx(2 * hypot(30, 30) / 12 * 2.72, rel=1e-3)


def test_sections_are_those_of_the_pipes_as_designed():
    """Salvage: 4-1/2 in. pipe of 10.2 lb/ft, 1/64 in. of rust off the outside, 0.93 of the wall.

    From the trade's 10.69 (D - t) t = 10.2: t = 0.224 in.
    """
    ideal = case_blocks("yard")[0].frame.ideal
    post = ideal.model.members[ideal.model.members_of("post")[-1]]
    wall = (4.5 - sqrt(4.5**2 - 4 * 10.2 / 10.69)) / 2
    od, bore = 4.5 - 2 / 64, 4.5 - 2 * 0.93 * wall
    area, inertia = pi / 4 * (od**2 - bore**2), pi / 64 * (od**4 - bore**4)
    found = [post.A / INCH**2, post.Iy / INCH**4, post.Iz / INCH**4, post.J / INCH**4]
    assert found == pytest.approx([area, inertia, inertia, 2 * inertia], rel=3e-3)
    moduli = [post.E, post.G]
    assert moduli == pytest.approx([200e9, 77.2e9], rel=1e-3)


def test_guys_and_their_anchors_stand_where_the_file_says():
    """Boat shed: from under the sleeve, 78 - 2 - 8 in. up, 66 in. out and along, to grade."""
    model = boat(("guys",)).frame.ideal.model
    seen = set()
    for guy in model.guys:
        assert model.nodes[guy.node].xyz == pytest.approx((0, 0, 68 * INCH))
        assert np.abs(guy.anchor) == pytest.approx([66 * INCH, 66 * INCH, 0])
        seen.add((np.sign(guy.anchor[0]), np.sign(guy.anchor[1])))
    assert len(seen) == 4


def test_nothing_else_changes_with_the_knees():
    """Bare, the knees' nodes stay: same nodes, same beam and post, only the knees gone."""
    rack = case("boat")
    bare, kneed = (build(rack, T, b, State()).model for b in ((), (KNEES,)))
    assert bare.nodes == kneed.nodes
    assert bare.members == tuple(m for m in kneed.members if not m.part.startswith("knee"))
    without = replace(rack, knees=None)
    assert len(build(without, T, (), State()).model.nodes) < len(bare.nodes)


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_a_rack_moved_to_other_ground_is_the_one_built_there(name, bracing):
    rack = case(name)
    moved = on_other_ground(build(rack, rack.tilts[0], bracing, State(soil=SOFT)), STIFF)
    assert moved == build(rack, rack.tilts[0], bracing, State(soil=STIFF))


def test_a_sleeve_turns_on_the_post_by_the_give_of_four_walls():
    """Statics in pounds and inches: a couple M pushes with M / s at either end of a sleeve of
    length s; post and sleeve wall give there by 40 / (E D) of the push each (judgement, of the
    order of Fessler 1986 for tubular joints); the two ends move apart over s.

    One post 5.563 in. outside, sleeve 8 in., E 29 000 ksi (AISC 360-22).
    """
    moment, s, D = 1000.0, 8.0, 5.563
    push = moment / s
    moved = 2 * push * 40 / (29e6 * D)
    stiff = moment / (2 * moved / s)
    assert sleeve_stiffness(ONE_POST) == pytest.approx(stiff * POUND * INCH, rel=1e-3)
