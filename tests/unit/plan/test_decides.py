"""What decides the answer, by hand on a ladder made up for it."""

import math

import pytest

from frame.checks.check import Check, Kind
from frame.plan.decides import deciding
from frame.records.going import Going, Shift

HAND = Check(name="bend", demand=1.0, allowable=1.0, nominal=1.0, unit="N", source="none")


def going(gust: float, *shifts: Shift, kind: Kind = Kind.BREAKS) -> Going:
    return Going(
        part="beam", check="bend", kind=kind, gust=gust, low=gust, high=gust, case="", words="",
        tilt=0.5, shifts=shifts, hand=HAND,
    )  # fmt: skip


def test_an_unknown_lifts_what_goes_first_no_further_than_what_comes_next() -> None:
    """At its better end the weld would go at 40 e^0.3 = 54.0; the next, weld too, at 44 e^0.1."""
    ladder = [going(40, Shift("weld", -0.2, 0.3)), going(44, Shift("weld", -0.05, 0.1))]
    (one,) = deciding(ladder)
    assert one.key == "weld"
    assert one.going is ladder[0]
    assert one.gust_if_well == pytest.approx(44 * math.exp(0.1))


def test_what_does_not_hang_on_it_stays_in_the_way() -> None:
    (one,) = deciding([going(40, Shift("weld", -0.2, 0.3)), going(44)])
    assert one.gust_if_well == pytest.approx(44)


def test_the_better_end_may_be_the_low_one_and_others_may_suffer_from_it() -> None:
    """40 e^0.2 = 48.9 at the low end; there the next is down to 50 e^-0.1 = 45.2."""
    ladder = [going(40, Shift("sleeve_bearing", 0.2, -0.1)),
              going(50, Shift("sleeve_bearing", -0.1, 0.2))]  # fmt: skip
    (one,) = deciding(ladder)
    assert one.gust_if_well == pytest.approx(50 * math.exp(-0.1))


def test_the_greatest_rise_of_slips_and_breaks_comes_first_and_a_small_one_not_at_all() -> None:
    """Friction 0.4, weld 0.15, wall 0.02: under ln 1.03 = 0.0296, so it decides nothing."""
    ladder = [
        going(20, Shift("set_bolt_friction", -0.3, 0.4), kind=Kind.TURNS),
        going(40, Shift("wall", -0.02, 0.02), Shift("weld", -0.2, 0.15)),
    ]
    assert [one.key for one in deciding(ladder)] == ["set_bolt_friction", "weld"]


def test_the_wind_is_not_to_be_found_out_nor_what_goes_in_still_air() -> None:
    assert not deciding([going(40, Shift("wind", -0.2, 0.2), Shift("one_sided", -0.1, 0.1))])
    assert not deciding([going(0, Shift("weld", -0.2, 0.3))])
    assert not deciding([])


def test_it_says_how_to_find_it_out() -> None:
    (one,) = deciding([going(40, Shift("yield_unmarked", -0.2, 0.3))])
    assert one.unknown == "the steel of the pipe"
    assert "papers" in one.find_out
