"""Panel clamps of the one-post rack at 30 degrees under local gusts, by hand in pounds."""

import numpy as np
import pytest

from frame.parts.rails.clamps import clamp_checks
from frame.tables.expected import variants
from tests.step_check import printed
from tests.unit.parts.solved import (
    ONE_POST_30,
    POUND,
    assert_one_strength,
    expected,
    found,
    solved,
    value,
    worst,
)

CLAMP = ("panel clamp", "clamp bolt against lift")


def test_lift_at_the_corner_by_hand():
    """CN -5.0 (ASCE/SEI 7-22 Fig. 30.5-1, 30 deg, clear, corner, small area).

    26.16 psf x 0.7225 x 0.6 x 5.0 x 19.65 ft2 - 0.6 x 49 cos 30 = 1089 lb, a quarter of it, and
    twice that in the bolt of an end clamp; 36 ksi on 1/4 in, factor 2: 884 lb, more than the 450
    lb that trade tables give a 1/4 in nut in the channel (from memory, low certainty).
    """
    now = solved("one_post", (), ONE_POST_30)
    check = found(clamp_checks, now)[CLAMP]
    label = "0.6D + 0.6W, back, A"
    lift = value(now, check, "U", label)[0]
    assert lift == pytest.approx(1089 / 4 * POUND, rel=0.01)
    assert printed(check.steps, "T_n") == pytest.approx(2 * 884 * POUND, rel=0.01)
    assert check.allowable == pytest.approx(450 * POUND, rel=0.01)
    use = check.utilisation[now.table.labels.index(label)]
    assert use == pytest.approx(2 * 1089 / 4 / 450, rel=0.01)


def test_a_clamp_counts_the_quarter_of_a_panel_that_hangs_on_it():
    """Panels of 75 x 72 in: a quarter is 0.871 m2, more than a2 = 0.81 m2, so CN -3.8."""
    large = (("across", "across = 2"), ("size", 'size = "75 in x 72 in"'), *ONE_POST_30)
    check = found(clamp_checks, solved("one_post", (), large))[CLAMP]
    assert np.min(printed(check.steps, "C_N")) == pytest.approx(-3.8)


def test_a_bolt_no_channel_nut_is_known_for_is_not_covered_and_said_so():
    """The least nut of the trade is 1/4 in or M6; a number for a smaller would be made up."""
    small = (*ONE_POST_30, ("[panels] clamp_bolt", 'clamp_bolt = "5 mm"'))
    now = solved("one_post", (), small)
    check = found(clamp_checks, now)[CLAMP]
    assert not np.any(check.covered)
    assert np.isnan(check.utilisation).all()
    told = [w for w in now.rack.warnings if "channel nut" in w]
    assert len(told) == 1


@pytest.mark.parametrize(
    ("bolt", "pounds"), [("6 mm", 450), ("5/16 in", 600), ("8 mm", 600), ("10 mm", 800)]
)
def test_a_nut_holds_no_more_than_the_next_listed_below_it(bolt, pounds):
    """M6, M8 and M10 are as thick as 1/4, 5/16 and 3/8 in within 6 % (ISO 724, ASME B1.1)."""
    change = ("[panels] clamp_bolt", f'clamp_bolt = "{bolt}"')
    check = found(clamp_checks, solved("one_post", (), (*ONE_POST_30, change)))[CLAMP]
    assert check.allowable == pytest.approx(pounds * POUND, rel=0.01)


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


def test_a_panel_is_expected_to_break_by_a_scatter_of_its_own():
    """1.2 of what it was tested for, 0.8 to 1.8 (judgement): 5400 Pa. Clamps are no part of it."""
    now = expected("one_post", (), (*ONE_POST_30, ("[panels] rating", 'rating = "5400 Pa"')))
    check = found(clamp_checks, now)["panel", "the panel's own pressure rating"]
    strength = np.asarray(check.nominal).reshape(len(variants()), -1)
    told = dict(zip(variants(), strength[:, 0], strict=True))
    ends = {(v.key, v.high): p for v, p in told.items() if not np.isclose(p, 1.2 * 5400)}
    assert ends == pytest.approx({("panel", False): 0.8 * 5400, ("panel", True): 1.8 * 5400})
    assert_one_strength(now, [clamp_checks])
