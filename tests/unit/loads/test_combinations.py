"""Factors of every combination against the standard's own list."""

import pytest

from frame.loads import combinations
from frame.loads.cases import ActionCase
from frame.loads.combinations import Combination
from frame.loads.ice import ASD_ICE_AND_WIND, ice_cases
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


def test_ice_with_its_wind_and_snow() -> None:
    """ASCE/SEI 7-22 2.4.3 (from memory): D + 0.7Di + 0.7Wi + S, and 0.6D + 0.7Di + 0.7Wi.

    One factor stands on what lies on the rack, so snow comes put up by as much.
    """
    found = {c.name: (c.dead, c.wind, c.other) for c in ASD_ICE_AND_WIND}
    assert found == {
        "D + 0.7Di + 0.7Wi + S": (1.0, 0.7, 0.7),
        "0.6D + 0.7Di + 0.7Wi": (0.6, 0.7, 0.7),
    }
    snow = ActionCase(name="snow", words="", kind=LoadKind.SNOW, factors=(("snow, all", 500.0),))
    alone, both = ice_cases([snow])
    assert 0.7 * dict(alone.factors)["ice"] == pytest.approx(0.7)
    factors = dict(both.factors)
    assert (0.7 * factors["ice"], 0.7 * factors["snow, all"]) == pytest.approx((0.7, 500.0))
