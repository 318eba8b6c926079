"""Cases of a block at given gusts."""

from dataclasses import replace

import numpy as np
import pytest

from frame.changes.tried import OtherStrength
from frame.parts.whole import rack_checks
from frame.solved.blocks import split
from frame.solved.situation import (
    at_gusts,
    blown,
    fixed,
    situations,
    whole_table,
    whole_wind,
    windy,
    worst_case,
)
from frame.tables import steels
from frame.tables.expected import spreads, variants
from tests.builders import MPH, case, case_blocks, case_models, every_bracing, models_of


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
