"""Every check of a joint shows its steps, and they work out to the digit."""

import pytest

from frame.parts.rails.clamps import clamp_checks
from frame.parts.rails.rails import rail_checks, tie_checks
from frame.parts.rails.u_bolts import u_bolt_checks
from frame.parts.steel.sleeve import sleeve_checks
from frame.parts.steel.splices import splice_checks
from frame.parts.welds.guy_lugs import guy_lug_checks
from frame.parts.welds.joints import joint_checks
from frame.parts.welds.welds import weld_checks
from frame.search.governing import governing, run_checks
from tests.step_check import assert_steps
from tests.unit.parts.solved import solved

CHECKERS = (
    sleeve_checks,
    weld_checks,
    joint_checks,
    guy_lug_checks,
    rail_checks,
    tie_checks,
    u_bolt_checks,
    clamp_checks,
    splice_checks,
)


@pytest.mark.parametrize(
    ("name", "bracing"),
    [
        ("one_post", ("knees", "guys")),
        ("two_posts", ("knees", "ties")),
        ("three_guyings", ("corner guys",)),
    ],
)
def test_steps_of_the_governing_cases_work_out(name, bracing):
    more = (
        ("map_gust", 'map_gust = "50 mph"'),  # no wall yields, so that every use is finite
        ("[beam] splices", 'splices = ["12 in"]'),
        ("[panels] rating", 'rating = "2400 Pa"'),
    )
    rows = governing(run_checks((solved(name, bracing, more),), CHECKERS))
    assert len(rows) > 10
    for row in rows:
        assert_steps(row.hand)
        assert row.source
