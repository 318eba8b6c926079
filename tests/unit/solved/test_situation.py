"""Cases of a block at given gusts."""

from dataclasses import replace

import numpy as np
import pytest

from frame.changes.tried import OtherStrength
from frame.parts.checker import Alike
from frame.parts.whole import rack_checks
from frame.search.stack import stacked
from frame.solved.blocks import split
from frame.solved.situation import (
    at_gusts,
    blown,
    fixed,
    situation,
    situations,
    whole_table,
    whole_wind,
    windy,
)
from frame.solved.worst import worst_case
from frame.tables import steels
from frame.tables.expected import spreads, variants
from frame.whatif.losses import LostGuy
from tests.builders import MPH, case, case_blocks, case_models, changed, every_bracing, models_of


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_the_code_s_wind_is_the_whole_wind_of_a_lesser_gust(name, bracing):
    """ASCE/SEI 7-22 2.4.1 takes 0.6W; pressure goes with the square of the gust."""
    for block in case_blocks(name, bracing):
        gust = case(name).site.map_gust
        code, whole = windy(block, gust), blown(block, whole_wind(gust))
        np.testing.assert_allclose(code.solved.factors, whole.solved.factors, rtol=1e-12)


def test_second_order_kept_is_that_of_the_cases_alone():
    blocks = case_blocks("boat_shed", ("knees", "guys"))
    for now in (*situations(blocks), *(blown(b, 60 * MPH) for b in blocks)):
        some = np.arange(0, len(now.case), 7)[::-1]
        alone = at_gusts(now.block, now.table, now.case[some], now.gust[some])
        for same in (now.grown.only(some), now.only(some).grown):
            np.testing.assert_allclose(same.lowest, alone.lowest, rtol=1e-9)
            np.testing.assert_allclose(
                same.amplitudes, alone.grown.amplitudes, rtol=1e-6, atol=1e-9
            )


def test_a_block_of_other_strength_has_the_growth_of_its_like():
    like = case_blocks("boat_shed")[0]
    other = OtherStrength(
        frame=like.frame, bracing=(), state=like.state, like=like, changed=like.rack
    )
    assert windy(other, 40.0).grown is windy(like, 40.0).grown
    assert fixed(other).grown is fixed(like).grown


@pytest.mark.parametrize("bracing", [("corner guys",), ("post-top guys", "corner guys")])
def test_a_rack_relieved_is_one_whose_corner_guys_were_left_slack(bracing):
    """Second route: a file that gives them a millionth of the pull. Others keep theirs."""
    slack = changed("salvage_yard", ('pretension = "100 lb"', 'pretension = "0.0001 lb"'))
    both = split(case_models("salvage_yard", bracing))[1], split(models_of(slack, bracing))[1]
    for taut, left in zip(*both, strict=True):
        relieved, now, then = (
            situation(b, whole_table(b), [0.0, 25.0]) for b in (taut.relieved, taut, left)
        )
        pulls = relieved.solved.tensions
        np.testing.assert_allclose(pulls, then.solved.tensions, rtol=1e-5, atol=0.01)
        some = np.arange(3, len(now.case), 5)
        for same in (now.relieved, now.relieved.only(some), now.only(some).relieved):
            rows = some if len(same.case) == len(some) else slice(None)
            np.testing.assert_allclose(same.solved.tensions, pulls[rows], rtol=1e-9)
        stack = stacked([now])
        (_, _, piled), *_ = stack.groups(Alike(rack_checks), some)
        np.testing.assert_allclose(
            piled.relieved.answer.tensions, relieved.answer.tensions[some], rtol=1e-9
        )


def test_a_rack_without_corner_guys_has_nothing_to_be_relieved_of():
    for block in case_models("salvage_yard", ("post-top guys",)):
        assert block.relieved is block
        now = blown(block, 30.0)
        assert now.relieved is now
        whole = stacked([now])
        assert whole.relieved is whole


def test_what_is_made_of_other_blocks_is_relieved_as_they_are():
    """A rack changed in strength, and one that lost a corner guy."""
    (*_, taut) = case_models("salvage_yard", ("corner guys",))
    given = {"frame": taut.frame, "bracing": taut.bracing, "state": taut.state, "median": True}
    other = OtherStrength(**given, like=taut, changed=taut.rack).relieved
    assert other.like is taut.relieved
    assert blown(other, 30.0).grown is blown(taut.relieved, 30.0).grown
    slack = LostGuy(**given, lost=8).relieved
    pulls = blown(slack, 0.0).answer.tensions
    assert slack.lost == 8
    assert pulls.max() < 0.02 * blown(taut, 0.0).answer.tensions.max()


def test_the_code_counts_forces_twice_and_what_is_expected_once():
    """AISC 360-22 C2: 1.6 on ASD loads, 0.8 on the stiffness."""
    code, median = split(models_of(case("fifteen_lines")))
    assert {b.alpha for b in code} == {2.0}
    assert {b.alpha for b in median} == {1.0}
    for block in (code[0], median[0]):
        now = blown(block, 70 * MPH)
        assert (now.topples == (now.lowest <= block.alpha)).all()
        ((part, check),) = rack_checks(now)
        assert part == "rack"
        assert check.let_go == pytest.approx(block.alpha / np.minimum(now.lowest, 1000))


@pytest.mark.parametrize(
    ("values", "first"),
    [
        ([1.0, 2.0, 2.0 + 1e-12], 1),
        ([1.0, 2.0, 2.0 + 1e-6], 2),
        ([3.0, np.inf, np.inf], 1),
        ([0.0, 0.0], 0),
        ([-2.0, -1.0 - 1e-12, -1.0], 1),
    ],
)
def test_of_mirrored_cases_the_first_is_named_on_any_machine(values, first):
    assert worst_case(np.array(values)) == first


CODE, MEDIAN = split(case_models("hay_barn"))


def in_every_variant():
    """One windy case of the median model, once in each variant."""
    count = len(variants())
    case = np.full(count, 3)
    table = whole_table(MEDIAN[0])
    return at_gusts(MEDIAN[0], table, case, np.full(count, 25.0), np.arange(count))


def test_one_input_at_a_time_is_at_an_end_the_others_at_their_medians():
    now = in_every_variant()
    for key, spread in spreads().items():
        found = now.expected(key)
        for value, variant in zip(found, variants(), strict=True):
            at_end = spread.high if variant.high else spread.low
            assert value == (at_end if variant.key == key else spread.median)


def test_inputs_broadcast_against_parts_and_stations():
    now = in_every_variant()
    assert now.expected("weld", 3).shape == (len(variants()), 1, 1)
    assert now.read == {"weld"}


def test_yield_and_wall_are_those_of_papers_calipers_or_guesses():
    """Unmarked pipe is guessed more widely than pipe with papers; a measured wall not at all."""
    now, post = in_every_variant(), case("hay_barn").posts.pipe
    unmarked, papers = steels.find("unknown sound"), steels.find("A53 B")
    for steel, key in ((unmarked, "yield_unmarked"), (papers, "yield_papers")):
        share = now.yield_of(steel) / steel.expected_fy
        assert share.min() == pytest.approx(spreads()[key].low)
        assert share.max() == pytest.approx(spreads()[key].high)
    listed = replace(post, basis="listed", rust=0.0)
    assert now.wall_of(listed).min() == pytest.approx(0.93 * post.wall)
    assert now.wall_of(listed).max() == pytest.approx(post.wall)
    assert np.ptp(now.wall_of(post)) == 0.0
    assert now.wall_of(replace(listed, rust=1e-3))[0] == pytest.approx(0.97 * post.wall - 1e-3)


def test_the_wind_pushes_with_the_share_expected_of_it():
    """Velocity pressure times 0.95 at the median, 0.7 and 1.3 at its ends."""
    now = in_every_variant()
    coded = MEDIAN[0].frame.pressure(25.0)
    for value, variant in zip(now.pressure, variants(), strict=True):
        share = {False: 0.7, True: 1.3}[variant.high] if variant.key == "wind" else 0.95
        assert value == pytest.approx(share * coded)


def test_the_code_s_model_knows_no_medians():
    now = at_gusts(CODE[0], whole_table(CODE[0]), np.array([0]), np.array([25.0]))
    with pytest.raises(AssertionError, match="medians"):
        now.expected("weld")
