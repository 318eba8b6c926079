"""The lowest gust of a bracing is the same from wherever the search for it begins."""

import pytest

from frame.search.expected_going import expect, first_going
from frame.search.weakest import Limit, Weakest, lowest_limit
from frame.solved.blocks import median_blocks
from frame.solved.frames import solve_frames
from tests.builders import MPH, case, case_blocks


@pytest.mark.parametrize(
    ("name", "bracing"), [("boat_shed", ("knees", "guys")), ("wash_house", ())]
)
def test_the_limit_gust_does_not_hang_on_where_it_is_thought_to_be(name, bracing):
    """Uses are convex in the velocity pressure: norms of forces that are straight in it."""
    blocks = case_blocks(name, bracing)
    everywhere = lowest_limit(blocks)
    for near in (30 * MPH, 75 * MPH, 200 * MPH):
        found = lowest_limit(blocks, near)
        assert found.key == everywhere.key
        assert found.gust == pytest.approx(everywhere.gust, rel=1e-6)


@pytest.mark.parametrize(("name", "bracing"), [("hay_barn", ()), ("salvage_yard", ())])
def test_act_by_is_the_least_low_end_of_all_that_tilts_or_breaks(name, bracing):
    """Of the few that are ranged for it, as of every check ranged by itself."""
    rack = case(name)
    blocks = median_blocks(solve_frames(rack, [bracing], rack.tilts), bracing, rack.tilts)
    found = Weakest(limit=Limit(0.0), going=first_going(blocks))
    every = [g for g in expect(blocks)[bracing].values() if g.grave]
    assert found.act_by is not None
    assert found.act_by_gust == pytest.approx(min(g.low for g in every), rel=1e-9)
    first = min(every, key=lambda g: g.gust)
    assert found.act_by_gust <= first.low
    assert min(g.gust for g in found.going if g.grave) == pytest.approx(first.gust, rel=1e-9)
