"""Factors of every combination against the standard's own list."""

import pytest

from frame.loads import combinations
from frame.loads.combinations import Combination
from frame.named.load_kind import LoadKind

BY_THE_STANDARD = {
    "D": (1.0, 0.0, 0.0),
    "D + 0.6W": (1.0, 0.6, 0.0),
    "0.6D + 0.6W": (0.6, 0.6, 0.0),
    "D + 0.7S": (1.0, 0.0, 0.7),
    "D + 0.75(0.6W) + 0.75(0.7S)": (1.0, 0.75 * 0.6, 0.75 * 0.7),
    "D + Lr": (1.0, 0.0, 1.0),
    "D + 0.7Di": (1.0, 0.0, 0.7),
    "D + W": (1.0, 1.0, 0.0),
    "0.6D + W": (0.6, 1.0, 0.0),
}
"""Dead, wind, other: ASCE/SEI 7-22 2.4.1 and 2.4.3 (from memory of the standard), then the whole
wind on all and on six tenths of the weight."""
GROUPS = ("ASD", "ASD_SNOW", "ASD_WORKER", "ASD_ICE", "WHOLE_WIND")


def every() -> list[Combination]:
    return [combinations.WEIGHT_ONLY, *(c for g in GROUPS for c in getattr(combinations, g))]


@pytest.mark.parametrize("one", every(), ids=lambda c: f"{c.name}, {c.kind}")
def test_factors_are_those_of_the_standard(one: Combination) -> None:
    # A rack out of plumb leans with all of what pushes it.
    other = 1.0 if one.kind is LoadKind.LEANING else BY_THE_STANDARD[one.name][2]
    factors = one.dead, one.wind, one.other
    assert factors == pytest.approx((*BY_THE_STANDARD[one.name][:2], other))
    assert one.code is (one not in combinations.WHOLE_WIND)


def test_each_combination_stands_once_and_none_is_left_out() -> None:
    names = [c.name for c in every()]
    assert set(names) == set(BY_THE_STANDARD)
    assert sorted(names) == sorted([*BY_THE_STANDARD, "D"])
