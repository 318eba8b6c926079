"""The 10 to 90 range of what lets go against a plain Monte Carlo of the same spreads.

One input at a time, the squares of the shifts added up, must come to what all of them drawn at
once give. 256 scrambled Sobol points stand for plain draws.
"""

import pytest

from frame.solved.blocks import split
from tests.builders import MPH, case_models
from tests.monte_carlo import compared
from tests.often import LONG

RACKS = ("salvage_yard", *(("boat_shed", "hay_barn") if LONG else ()))
WITHIN = 0.05
"""Part of each end by which it may be off."""


@pytest.mark.parametrize("name", RACKS)
def test_both_ends_of_every_range_are_those_of_draws(name):
    _, blocks = split(case_models(name))
    found = compared(blocks, 256)
    assert len(found) >= 3
    for key, ((low, _, high), (drawn_low, _, drawn_high)) in found.items():
        told = [round(gust / MPH, 1) for gust in (low, drawn_low, high, drawn_high)]
        assert low == pytest.approx(drawn_low, rel=WITHIN), (key, told)
        assert high == pytest.approx(drawn_high, rel=WITHIN), (key, told)
