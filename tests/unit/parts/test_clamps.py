"""Panel clamps of the one-post rack at 30 degrees under local gusts, by hand in pounds."""

import numpy as np
import pytest

from frame.parts.rails.clamps import clamp_checks
from tests.step_check import printed
from tests.unit.parts.solved import ONE_POST_30, POUND, found, solved, value, worst

CLAMP = ("panel clamp", "clamp bolt against lift")


def test_lift_at_the_corner_by_hand():
    """CN -5.0 (ASCE/SEI 7-22 Fig. 30.5-1, 30 deg, clear, corner, small area).

    26.16 psf x 0.7225 x 0.6 x 5.0 x 19.65 ft2 - 0.6 x 49 cos 30 = 1089 lb, a quarter of it, and
    twice that in the bolt of an end clamp; 36 ksi on 1/4 in, factor 2: 884 lb, more than the 800
    lb that a nut of that size in the channel is listed for.
    """
    now = solved("one_post", (), ONE_POST_30)
    check = found(clamp_checks, now)[CLAMP]
    label = "0.6D + 0.6W, back, A"
    lift = value(now, check, "U", label)[0]
    assert lift == pytest.approx(1089 / 4 * POUND, rel=0.01)
    assert check.allowable == pytest.approx(800 * POUND, rel=0.01)
    use = check.utilisation[now.table.labels.index(label)]
    assert use == pytest.approx(2 * 1089 / 4 / 800, rel=0.01)


def test_a_clamp_counts_the_quarter_of_a_panel_that_hangs_on_it():
    """Panels of 75 x 72 in: a quarter is 0.871 m2, more than a2 = 0.81 m2, so CN -3.8."""
    large = (("across", "across = 2"), ("size", 'size = "75 in x 72 in"'), *ONE_POST_30)
    check = found(clamp_checks, solved("one_post", (), large))[CLAMP]
    assert np.min(printed(check.steps, "C_N")) == pytest.approx(-3.8)


def test_no_wind_no_lift():
    now = solved("one_post", (), ONE_POST_30)
    check = found(clamp_checks, now)[CLAMP]
    assert value(now, check, "U", "D, leaning along")[0] == 0.0


def test_thicker_bolt_lowers_the_use():
    change = ("[panels] clamp_bolt", 'clamp_bolt = "1/2 in"')
    before = found(clamp_checks, solved("one_post", (), ONE_POST_30))
    after = found(clamp_checks, solved("one_post", (), (*ONE_POST_30, change)))
    assert worst(after[CLAMP]) < worst(before[CLAMP])


def test_rating_only_where_given_by_hand():
    """A whole panel at the corner, pressed: 26.16 x 0.7225 x 0.6 x 3.9 psf; 5400 Pa / 1.5."""
    assert len(found(clamp_checks, solved("one_post", (), ONE_POST_30))) == 1
    change = ("[panels] rating", 'rating = "5400 Pa"')
    now = solved("one_post", (), (*ONE_POST_30, change))
    check = found(clamp_checks, now)["panel", "the panel's own pressure rating"]
    # 41 x 69 in = 19.65 ft2 lies between a2 = 8.7 ft2 and 4 a2: CN 3.9.
    psf = 26.16 * 0.7225 * 0.6 * 3.9
    assert np.max(check.demand) == pytest.approx(psf * 47.88, rel=0.01)
    assert check.allowable == pytest.approx(3600.0)
