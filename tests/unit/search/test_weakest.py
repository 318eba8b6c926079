"""The lowest gust of a bracing is the same from wherever the search for it begins."""

import pytest

from frame.search.weakest import limit_of
from tests.builders import MPH, case_blocks


@pytest.mark.parametrize(
    ("name", "bracing"), [("boat_shed", ("knees", "guys")), ("wash_house", ())]
)
def test_the_limit_gust_does_not_hang_on_where_it_is_thought_to_be(name, bracing):
    """Uses are convex in the velocity pressure: norms of forces that are straight in it."""
    blocks = case_blocks(name, bracing)
    everywhere = limit_of(blocks)
    for near in (30 * MPH, 75 * MPH, 200 * MPH):
        found = limit_of(blocks, near)
        assert found.key == everywhere.key
        assert found.gust == pytest.approx(everywhere.gust, rel=1e-6)
