"""The cut plan on many piles: every way looked at, two hundred without a fault, sixty of sixty.

.venv/bin/python -m pytest tests/long/cut_plans.py
"""

import pytest

from frame.shop.cutting.best import SECONDS
from tests.unit.shop.test_cutting import assert_as_brute_force, assert_in_time, count_of_plans


@pytest.mark.parametrize("seed", range(60))
def test_small_piles_are_cut_as_brute_force_finds(seed: int) -> None:
    assert_as_brute_force(seed)


def test_two_hundred_random_piles_never_break_a_rule() -> None:
    made, spliced = count_of_plans(range(200))
    assert (made, spliced > 80) == (200, True)


def test_sixty_of_sixty_within_twenty_seconds() -> None:
    assert_in_time(SECONDS, 20)
