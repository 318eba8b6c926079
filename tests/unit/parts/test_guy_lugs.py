"""Lugs of guys: the pull resolved by the geometry of the line; weld, wall and bolt by hand."""

import numpy as np
import pytest

from frame.loads.combinations import ASD_WINDY
from frame.parts.guys.guys import fitted_guys
from frame.parts.rails.rail_ends import rail_end_checks
from frame.parts.welds.guy_lugs import guy_lug_checks
from frame.solved.blocks import median_blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import at_gusts, situation, whole_table
from frame.tables.expected import variants
from frame.units import INCH, KSI
from tests.builders import MPH, POUND, case, case_blocks
from tests.step_check import assert_steps, printed
from tests.unit.parts.solved import assert_one_strength

CHECKERS = (guy_lug_checks, rail_end_checks)


def checks(name, bracing):
    block = case_blocks(name, bracing)[-1]
    now = situation(block, block.frame.cases(ASD_WINDY), [60 * MPH])
    return now, {(part, c.name): c for checker in CHECKERS for part, c in checker(now)}


def expected_at(name):
    """Every whole wind at 60 mph in the median model, in each variant of the inputs."""
    rack = case(name)
    bracing = tuple(group.name for group in rack.guys)
    tilts = rack.tilts[:1]
    block = median_blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)[0]
    table, count = whole_table(block), len(variants())
    winds = np.arange(len(table.labels))
    gusts = np.full(len(winds) * count, 60 * MPH)
    return at_gusts(
        block, table, np.tile(winds, count), gusts, np.repeat(np.arange(count), len(winds))
    )


def test_a_post_top_lug_takes_the_pull_along_and_square_to_the_post():
    """Boat shed: guys run 5.5 ft out and along; fall from the lug to grade, H / N = fall / run.

    Two lines of 3 in., hole 1.5 in. off: f = sqrt((N/6 + 3 H 1.5/9)^2 + (H/6)^2) lb/in (elastic
    line method by hand, inches).
    """
    now, found = checks("boat_shed", ("guys",))
    weld, metal = (found["weld, lugs of guys", n] for n in ("weld metal", "base metal at weld"))
    lines = list(fitted_guys(now))
    pull = np.stack([line.pull for line in lines], axis=1)
    model = now.block.frame.ideal.model
    fall = model.nodes[model.guys[0].node].xyz[2] - model.guys[0].anchor[2]
    run = np.hypot(66, 66) * INCH
    steep = fall / np.hypot(fall, run)
    H, N = pull * steep, pull * np.sqrt(1 - steep**2)
    by_hand = np.sqrt((N / 6 + 3 * H * 1.5 / 9) ** 2 + (H / 6) ** 2) / INCH
    force = next(s for s in weld.steps if s.symbol == "f").value
    assert force == pytest.approx(by_hand, rel=1e-9)
    # Either fillet has half of the 1/4 in plate to itself; 30 ksi in pull with factor 1.67
    # (AISC 360-22 J4.1, from memory): 30 / 1.67 / 8 kip/in.
    assert np.all(printed(metal.steps, "ta") == pytest.approx(30e3 / 1.67 / 8 * POUND / INCH))


def test_guys_on_rail_corners_have_no_lug_and_those_on_the_beam_run_along_it():
    _, found = checks("salvage_yard", ("beam-end guys", "corner guys"))
    lugs = "lugs of beam-end guys"
    assert {part for part, _ in found} == {
        lugs,
        f"weld, {lugs}",
        f"beam wall at {lugs}",
        "rail ends of corner guys",
    }


def test_the_wall_of_the_post_under_the_lugs_by_hand():
    """5.563 x 0.258 in, counted as 0.93 of that wall and 30 ksi: in kip and inches.

    AISC 360-22 Table K2.1, a plate along the pipe (from memory of the standard): P = 5.5 Fy t^2
    (1 + 0.25 l/D), in its plane 0.8 l P, factor 1.67, Qf of K2-4 on 0.6 Fy. EN 1993-1-8 Table 7.3
    has 5 for 5.5, its partial factor in it.
    """
    now, found = checks("boat_shed", ("guys",))
    wall = found["post wall at lugs of guys", "chord wall"]
    t, D = 0.93 * 0.258, 5.563
    P = 5.5 * 30e3 * t**2 * (1 + 0.25 * 3 / D) * POUND
    pull = np.stack([line.pull for line in fitted_guys(now)], axis=1)
    model, lines = now.block.frame.ideal.model, now.block.frame.ideal.model.guys
    fall = model.nodes[lines[0].node].xyz[2] - lines[0].anchor[2]
    steep = fall / np.hypot(fall, np.hypot(66, 66) * INCH)
    U = printed(wall.steps, "fc") / (18e3 * POUND / INCH**2)
    left = 1 - 0.3 * U * (1 + U)
    by_hand = pull * (np.sqrt(1 - steep**2) + steep * 1.5 / (0.8 * 3)) / P * 1.67 / left
    assert np.all(left > 0)
    assert wall.utilisation == pytest.approx(by_hand, rel=1e-3)
    assert_steps(wall, (7, 2))


def test_the_post_is_squeezed_at_the_lugs_by_weight_and_wind_above_them():
    """N/A + M/S of the section right over or under the lug, the worse of both."""
    now, found = checks("boat_shed", ("guys",))
    wall = found["post wall at lugs of guys", "chord wall"]
    ideal, tube = now.block.frame.ideal, now.rack.posts.pipe.design
    at = ideal.marks["post lug"]
    worst = np.zeros(len(now.case))
    for m in ideal.model.members_of("post"):
        if at in ideal.model.members[m].ends:
            end = ideal.model.members[m].ends.index(at)
            cut = now.ends([m])
            N, My, Mz = (x[:, 0, end] for x in (cut.N, cut.My, cut.Mz))
            stress = -N / tube.area + np.hypot(My, Mz) * tube.od / 2 / tube.second_moment
            worst = np.maximum(worst, stress)
    assert worst.any()
    assert printed(wall.steps, "fc") == pytest.approx(worst[:, None] * np.ones(4), rel=1e-6)


def test_a_lug_at_the_open_end_of_the_beam_finds_half_the_wall():
    """AISC 360-22 K halves a connection at an uncapped end (from memory of the standard)."""
    now, found = checks("salvage_yard", ("beam-end guys",))
    wall = found["beam wall at lugs of beam-end guys", "chord wall"]
    pipe = now.rack.beam.pipe
    t, D, lug = pipe.design.wall, pipe.design.od, 3 * INCH
    whole = 5.5 * min(pipe.steel.fy, 35 * KSI) * t**2 * (1 + 0.25 * lug / D)
    assert printed(wall.steps, "P1") == pytest.approx(whole / 2)
    assert np.all(printed(wall.steps, "fc") < 1e-3 * KSI), "nothing bends a free end"
    assert_steps(wall, (7, 2))


def test_lug_and_bolt_take_the_whole_pull_in_one_plane():
    """21.6 ksi on 1/2 in, factor 2 (AISC 360-22 J3.7, half an A307 bolt): 2121 lb, 1/4 in plate
    4 in wide and its other ways of failing are stronger (`test_lugs` has them by hand).
    """
    now, found = checks("boat_shed", ("guys",))
    lug = found["lugs of guys", "lug and its bolt"]
    pull = np.stack([line.pull for line in fitted_guys(now)], axis=1)
    assert lug.demand == pytest.approx(pull)
    assert lug.allowable == pytest.approx(2121 * POUND, rel=2e-3)


def test_the_end_of_a_rail_bears_on_its_bolt_by_hand():
    """Back of 1-5/8 in channel 0.105 in thick, 1/2 in bolt: bearing 1.8 x 33 x 0.5 x 0.105 / 2 is
    1559 lb (AISC 360-22 J7, from memory of the standard), less than the bolt's 2121 lb.
    """
    now, found = checks("salvage_yard", ("corner guys",))
    end = found["rail ends of corner guys", "rail end and its bolt"]
    pull = np.stack([line.pull for line in fitted_guys(now)], axis=1)
    assert now.rack.rails.channel.wall == pytest.approx(0.105 * INCH)
    assert end.demand == pytest.approx(pull)
    assert end.allowable == pytest.approx(1559 * POUND, rel=1e-3)
    assert_steps(end, (7, 2))


@pytest.mark.parametrize("name", ["boat_shed", "salvage_yard"])
def test_what_is_expected_of_lugs_is_one_strength(name):
    now = expected_at(name)
    assert_one_strength(now, CHECKERS)
    for part, check in guy_lug_checks(now):
        if check.name == "chord wall":
            assert np.std(check.utilisation.max(axis=1)) > 0, part


def test_without_guys_there_is_nothing_to_check():
    assert not checks("boat_shed", ("knees",))[1]
