"""Gusts that strike unevenly: the resultant of their halves by statics."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.loads.cases import DEAD, QUARTER_LOADS, case_table, wind_cases
from frame.loads.combinations import WHOLE_WIND
from frame.loads.expected_winds import expected_table
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wording import EVEN, LEFT, RIGHT

OFF = st.floats(0.0, 0.25)
SHARE = st.floats(0.0, 1.0)


@given(OFF)
def test_halves_have_their_resultant_where_it_is_said_to_be(off):
    """Two even halves of a beam of length 1, their middles at -1/4 and 1/4, moments about 0."""
    for side, sense in ((LEFT, -1), (RIGHT, 1), (EVEN, 0)):
        left, right = Unevenness(one_sided=off).shares(side)
        total = (left + right) / 2
        assert total == pytest.approx(1.0)
        assert (right - left) / 2 * 0.25 == pytest.approx(sense * off, abs=1e-12)


def test_the_median_gust_presses_half_as_much_again_on_one_half():
    """0.12 off centre: (1 + x) - (1 - x) = 2 x, over halves at quarters 0.25 x = 0.12."""
    assert Unevenness(one_sided=0.12).shares(RIGHT) == pytest.approx((0.52, 1.48))


@given(SHARE, st.floats(-3, 3), st.floats(-3, 3))
def test_off_centre_up_the_slope_is_the_share_of_the_standard_s(share, windward, leeward):
    """Chord 1, halves' middles a quarter from the middle: moment (w - l) / 8, force unchanged."""
    w, l = Unevenness(case_b=share).pair((windward, leeward), "B")
    assert w + l == pytest.approx(windward + leeward, abs=1e-12)
    assert (w - l) / 8 == pytest.approx(share * (windward - leeward) / 8, abs=1e-12)


@pytest.mark.parametrize(("off", "share"), [(0.0, 0.0), (0.07, 0.3), (0.2, 0.9), (0.12, 0.0)])
def test_expected_winds_struck_unevenly_are_those_worked_out_for_it(off, share):
    """Halves and quarters are products of both shares: the table made anew, case by case."""
    names = (*DEAD, *QUARTER_LOADS, "strip 1 from left", "strip 1 from right", "drag across")
    names = (*names, "drag along")

    def winds(uneven):
        return wind_cases(0.5, ("clear",), 1, uneven)

    there = winds(Unevenness(one_sided=off, case_b=share))
    made = case_table(WHOLE_WIND[:1], there, names).per_pressure
    count = len(made)
    found = expected_table(winds, names).per_pressure(
        np.arange(count), np.full(count, off), np.full(count, share)
    )
    assert found == pytest.approx(made, abs=1e-12)


@given(SHARE, st.floats(-3, 3), st.floats(-3, 3))
def test_case_a_and_the_code_keep_the_standard_s_pair(share, windward, leeward):
    pair = windward, leeward
    assert Unevenness(case_b=share).pair(pair, "A") == pair
    assert CODED.pair(pair, "B") == pytest.approx(pair, abs=1e-12)
