"""Cases of a block at given gusts."""

import numpy as np
import pytest

from frame.loads.cases import WHOLE_WIND
from frame.study.moves import OtherStrength
from frame.study.situation import (
    at_gusts,
    blown,
    fixed,
    situations,
    whole_wind,
    windy,
    worst_case,
)
from tests.builders import MPH, case, case_blocks, every_bracing


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_the_code_s_wind_is_the_whole_wind_of_a_lesser_gust(name, bracing):
    """ASCE/SEI 7-22 2.4.1 takes 0.6W; pressure goes with the square of the gust."""
    for block in case_blocks(name, bracing):
        gust = case(name).site.map_gust
        code, whole = windy(block, gust), blown(block, whole_wind(gust))
        np.testing.assert_allclose(code.solved.factors, whole.solved.factors, rtol=1e-12)


def test_second_order_factors_kept_are_those_of_the_cases_alone():
    blocks = case_blocks("boat_shed", ("knees", "guys"))
    for now in (*situations(blocks), *(blown(b, 60 * MPH) for b in blocks)):
        some = np.arange(0, len(now.case), 7)[::-1]
        alone = at_gusts(now.block, now.table, now.case[some], now.gust[some])
        np.testing.assert_allclose(now.second_order_of(some), alone.second_order, rtol=1e-12)
        np.testing.assert_allclose(now.only(some).second_order, alone.second_order, rtol=1e-12)


def test_a_block_of_other_strength_has_the_factors_of_its_like():
    like = case_blocks("boat_shed")[0]
    other = OtherStrength(
        frame=like.frame, bracing=(), state=like.state, like=like, changed=like.rack
    )
    count = len(like.frame.cases(WHOLE_WIND).labels)
    assert (windy(other, 40.0).second_order == windy(like, 40.0).second_order).all()
    assert len(blown(other, 40.0).second_order) == count
    assert (fixed(other).second_order == fixed(like).second_order).all()


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
