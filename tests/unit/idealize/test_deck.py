"""Panel loads on the rails: the lever rule keeps force and moment."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.idealize.deck import Slope, carrying, clamp_stations, rail_shares
from tests.builders import DEGREE, INCH, case

positions = st.lists(st.integers(-300, 300), min_size=2, max_size=8, unique=True).map(
    lambda cm: np.array(sorted(cm)) / 100
)
strips = st.tuples(st.floats(-3, 3), st.floats(0.01, 2)).map(lambda s: (s[0], s[0] + s[1]))


@given(positions, strips)
def test_shares_keep_force_and_moment(rails, strip):
    """Resultant of a uniform strip: its length, at its middle (statics)."""
    left, right = strip
    shares = rail_shares(rails, left, right)
    assert shares.sum() == pytest.approx(right - left)
    assert shares @ rails == pytest.approx((right**2 - left**2) / 2, abs=1e-9)


@given(positions, strips)
def test_shares_are_those_of_single_points_added_up(rails, strip):
    """Midpoint rule over 2000 slices, each put on its two nearest rails like a seesaw."""
    left, right = strip
    slices = left + (np.arange(2000) + 0.5) * (right - left) / 2000
    inner = np.clip(np.searchsorted(rails, slices) - 1, 0, len(rails) - 2)
    to_right = (slices - rails[inner]) / (rails[inner + 1] - rails[inner])
    expected = np.zeros(len(rails))
    np.add.at(expected, inner, (1 - to_right) * (right - left) / 2000)
    np.add.at(expected, inner + 1, to_right * (right - left) / 2000)
    assert rail_shares(rails, left, right) == pytest.approx(expected, abs=5e-3)


def test_a_panel_on_its_quarter_points_loads_both_rails_alike():
    assert rail_shares(np.array([0.25, 0.75]), 0.0, 1.0) == pytest.approx([0.5, 0.5])


def test_half_a_panel_beyond_its_rail_lifts_the_far_rail():
    """By moments about the near rail, 0.25 in: R = 0.5 x (0.25 - 0.25) = 0; past it, uplift."""
    near = rail_shares(np.array([0.25, 0.75]), 0.0, 0.5)
    far = rail_shares(np.array([0.4, 0.75]), 0.0, 0.5)
    assert near == pytest.approx([0.5, 0.0], abs=1e-12)
    assert far == pytest.approx([0.5 + 0.075 / 0.35, -0.075 / 0.35])


def test_a_column_hangs_on_the_rails_under_it_or_the_two_nearest():
    rails = np.array([-1.0, -0.4, 0.3, 0.9])
    assert carrying(rails, -1.1, -0.3).tolist() == [0, 1]
    assert carrying(rails, 0.0, 0.6).tolist() == [2, 3]
    assert carrying(rails, -1.2, 1.0).tolist() == [0, 1, 2, 3]


def test_clamps_stand_at_the_quarter_points_of_each_panel():
    """Two rows of 69 in., gap 1/2: from mid-chord 0.25 + 17.25 and 0.25 + 51.75 in., both ways."""
    by_hand = [-52.0, -17.5, 17.5, 52.0]
    assert clamp_stations(case("boat")) == pytest.approx([s * INCH for s in by_hand])


@given(st.floats(0, 60).map(lambda d: d * DEGREE))
def test_the_slope_rises_to_the_back_and_its_face_looks_to_the_front(tilt):
    slope = Slope(tilt)
    assert np.cross([1, 0, 0], slope.up) == pytest.approx(slope.out)
    assert slope.up[1] > 0
    assert slope.out[1] <= 0
    assert slope.out[2] > 0
