"""The range from shifts, one input at a time."""

import math

import pytest

from frame.checks.check import Check, Kind
from frame.study.going import Going, Shift, spread


def test_shifts_of_each_side_add_up_by_their_squares():
    """3, 4 and 12 make 13: sides of right triangles, low and high side apart."""
    shifts = [
        Shift("strength", low=-0.3, high=0.12),
        Shift("grip", low=-0.4, high=0.05),
        Shift("wall", low=-1.2, high=0.0),
    ]
    low, high = spread(20.0, shifts)
    assert low == pytest.approx(20.0 * math.exp(-1.3))
    assert high == pytest.approx(20.0 * math.exp(0.13))


def test_an_input_that_loads_shifts_the_other_way_round():
    """More wind lets go sooner: its high end counts on the low side."""
    assert spread(1.0, [Shift("wind", low=0.2, high=-0.1)]) == pytest.approx(
        (math.exp(-0.1), math.exp(0.2))
    )


def test_an_input_that_shifts_one_way_at_both_ends_counts_once_and_on_that_side_only():
    low, high = spread(1.0, [Shift("half", low=-0.1, high=-0.3)])
    assert low == pytest.approx(math.exp(-0.3))
    assert high == 1.0


def test_without_shifts_there_is_no_range():
    assert spread(31.0, ()) == (31.0, 31.0)


@pytest.mark.parametrize("kind", list(Kind))
def test_only_what_tilts_or_breaks_is_to_be_acted_on_before(kind):
    """From the kinds' own words: turned or leaning the rack still stands (judgement)."""
    one = Going(
        part="",
        check="",
        kind=kind,
        gust=1.0,
        low=1.0,
        high=1.0,
        case="",
        words="",
        tilt=0.0,
        shifts=(),
        hand=Check(name="", demand=0.0, allowable=1.0, nominal=1.0, unit="", source=""),
    )
    assert one.grave == (kind in {Kind.TILTS, Kind.BREAKS})
    assert one.slips == (kind != Kind.BREAKS)
