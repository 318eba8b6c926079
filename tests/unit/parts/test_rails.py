"""Rails of the one-post rack at 30 degrees, and the tie rails, by statics in pounds."""

import numpy as np
import pytest

from frame.parts.rails.local_rails import local_rail_checks
from frame.parts.rails.rails import left_by_twisting, rail_checks, tie_checks
from frame.search.governing import pick
from tests.step_check import assert_steps
from tests.unit.parts.solved import FACE_B, IN_LB, ONE_POST_30, found, solved, value, worst

MARKED = ("[rails] marked", 'marked = "yes"')
BENDING = ("rail", "bending of the rail, both ways")


def test_bending_at_the_u_bolt_by_hand():
    """Lower arm: 289.6 lb of wind and 24.5 cos 30 lb of panel at 34.75 in; the rail's own weight
    1.89 lb/ft x cos 30 on 69.25 in; panel 12.25 lb along the slope 0.8125 in above the axis."""
    now = solved("one_post", (), ONE_POST_30)
    moment = value(now, found(rail_checks, now)[BENDING], "M1")
    by_hand = 289.6 * 34.75 + 21.22 * 34.75 + 1.89 / 12 * 0.866 * 69.25**2 / 2 + 12.25 * 0.8125
    assert np.abs(moment).max() == pytest.approx(by_hand * IN_LB, rel=0.01)


def test_strength_by_hand():
    """25 ksi x 0.202 in3, slotted 0.85, 52 in from the U-bolt to the last clamp: 0.82 (5 ft)."""
    now = solved("one_post", (), (*ONE_POST_30, MARKED))
    check = found(rail_checks, now)[BENDING]
    allowed = next(s.value for s in check.steps if s.symbol == "M_a1")
    assert allowed == pytest.approx(25e3 * 0.202 * 0.85 * 0.82 * IN_LB, rel=1e-6)
    use = check.utilisation[now.table.labels.index(FACE_B)]
    assert use.max() == pytest.approx(11138 / 3520, rel=0.01)


def test_rails_of_unknown_make_are_allowed_six_tenths_of_their_yield_stress():
    """19.8 ksi of 33 (AISI S100 F1: 1 / 1.67), where MFMA-4 has 25: 26 % more use of the same."""
    local = ("rail", "bending of the rail in a local gust")
    for checker, name in ((rail_checks, BENDING), (local_rail_checks, local)):
        plain, marked = (
            found(checker, solved("one_post", (), changes))[name].utilisation
            for changes in (ONE_POST_30, (*ONE_POST_30, MARKED))
        )
        np.testing.assert_allclose(plain, marked * 25 / 19.8, rtol=1e-9)


def test_a_rail_beyond_the_table_of_spans_is_not_covered():
    assert left_by_twisting(10 * 0.3048) == 0.66
    assert np.isnan(left_by_twisting(11 * 0.3048))


def test_what_is_expected_lies_between_the_spans_of_the_table():
    """0.94 at 3 ft, 0.88 at 4 ft; nothing lost up to 2 ft."""
    feet = [1.5, 2.0, 3.0, 3.5, 4.0]
    shares = [left_by_twisting(f * 0.3048, expected=True) for f in feet]
    assert shares == pytest.approx([1.0, 1.0, 0.94, 0.91, 0.88])
    assert np.isnan(left_by_twisting(11 * 0.3048, expected=True))


def test_two_channels_back_to_back_do_not_twist_as_one_does():
    """19.8 ksi x 0.571 in3, slotted 0.85; 52 in to the last clamp cost nothing."""
    change = ("[rails] channel", 'channel = "1-5/8 x 1-5/8 in 12 ga back to back"')
    now = solved("one_post", (), (*ONE_POST_30, change))
    for checker, name in (
        (rail_checks, BENDING[1]),
        (local_rail_checks, "bending of the rail in a local gust"),
    ):
        check = found(checker, now)["rail", name]
        allowed = next(s.value for s in check.steps if s.symbol == "M_a1")
        assert allowed == pytest.approx(19.8e3 * 0.571 * 0.85 * IN_LB, rel=1e-6)
        assert_steps(pick(check, 0, len(now.case)))


def test_a_thinner_channel_raises_the_use():
    change = ("[rails] channel", 'channel = "1-5/8 x 1-5/8 in 14 ga"')
    before = found(rail_checks, solved("one_post", (), ONE_POST_30))
    after = found(rail_checks, solved("one_post", (), (*ONE_POST_30, change)))
    assert worst(after[BENDING]) > worst(before[BENDING])


def test_rails_under_corner_guys_carry_axial_force_too():
    named = ("rail", "axial force and bending of the rail")
    assert named in found(rail_checks, solved("three_guyings", ("corner guys",)))
    assert named not in found(rail_checks, solved("three_guyings"))


def test_tie_rails_only_where_fitted():
    assert not found(tie_checks, solved("two_posts"))
    now = solved("two_posts", ("ties",))
    (part, _), check = next(iter(found(tie_checks, now).items()))
    assert part == "tie, lower"
    length = next(s.value for s in check.steps if s.symbol == "L")
    # Rails at the quarter points of 1.05 m panels with 20 mm gaps: 525 and 545 mm apart.
    assert length == pytest.approx(0.545)
