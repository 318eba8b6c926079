"""Stops against tilting on the one-post rack at 30 degrees, by statics in pounds."""

import numpy as np
import pytest

from frame.checks.check import Kind
from frame.parts.rails.tilt_stops import tilt_stop_checks
from frame.parts.rails.u_bolts import u_bolt_checks
from frame.search.weakest import weakest
from frame.solved.blocks import solved_models
from tests.step_check import assert_steps
from tests.unit.parts.solved import (
    IN_LB,
    ONE_POST_30,
    changed,
    expected,
    found,
    solved,
    value,
)

LOOSE = (*ONE_POST_30, ("[rails] u_bolt_torque", 'u_bolt_torque = "10 ft-lb"'))
STOPS = (*LOOSE, ("[rails] tilt_stops", "tilt_stops = 4"))
STOP = ("tilt stop", "plate and bolts of the tilt stop")


def test_what_friction_leaves_comes_on_the_stops_by_hand():
    """8 rails of 6312 in-lb each (see test_u_bolts); grip 2441 lb on a beam of 4 in. holds 4882.

    (8 * 6312 - 4882) / 4 = 11 400 in-lb on each of four stops.
    """
    now = solved("one_post", (), STOPS)
    turning = value(now, found(tilt_stop_checks, now)[STOP], "M")
    assert turning == pytest.approx([(8 * 6312 - 4882) / 4 * IN_LB], rel=0.02)


def test_a_second_u_bolt_on_each_rail_holds_as_much_again_by_hand():
    """Statics: 2 * 2441 lb on a beam of 4 in. hold 9764 in-lb of 8 * 6312, on four stops."""
    now = solved("one_post", (), (*STOPS, ("[rails] u_bolts", "u_bolts = 2")))
    turning = value(now, found(tilt_stop_checks, now)[STOP], "M")
    assert turning == pytest.approx([(8 * 6312 - 2 * 4882) / 4 * IN_LB], rel=0.02)


def test_where_nothing_grips_the_stops_take_all_that_turns():
    """Nuts hardly tightened: all that turns, as told of the rack without stops, is theirs."""
    loose = (*ONE_POST_30, ("[rails] u_bolt_torque", 'u_bolt_torque = "0.0001 ft-lb"'))
    now = solved("one_post", (), (*loose, STOPS[-1]))
    bare = found(u_bolt_checks, solved("one_post", (), loose))["U-bolt", "grip of the U-bolt"]
    turning = next(s.value for s in bare.steps if s.symbol == "M")
    stops = next(s.value for s in found(tilt_stop_checks, now)[STOP].steps if s.symbol == "M")
    assert np.ravel(stops) * 4 == pytest.approx(np.ravel(turning), abs=0.05)


def test_friction_is_left_the_sliding_alone():
    now = solved("one_post", (), STOPS)
    grip = found(u_bolt_checks, now)["U-bolt", "grip of the U-bolt"]
    assert value(now, grip, "M") == pytest.approx([0.0])


@pytest.mark.parametrize(
    ("channel", "edge"),
    [
        ("1-5/8 x 1-5/8 in 12 ga", 13 / 16),
        ("1-5/8 x 1-5/8 in 12 ga back to back", 13 / 16),
        ("1-5/8 x 2-7/16 in 12 ga back to back", 39 / 32),
        ("1-5/8 x 3-1/4 in 12 ga back to back", 13 / 8),
    ],
)
@pytest.mark.parametrize("situation", [solved, expected])
def test_the_bolts_tear_one_wall_of_one_channel_halfway_up(situation, channel, edge):
    """Half the depth of one channel from its name, wall of 12 gauge; a bolt of 1/2 in counts.

    So no depth of these changes what the wall holds: 1.2 * 1/2 * 0.105 in of it.
    """
    now = situation("one_post", (), (*STOPS, ("[rails] channel", f'channel = "{channel}"')))
    check = found(tilt_stop_checks, now)[STOP]
    told = {s.symbol: s.value for s in check.steps}
    assert told["e"] == pytest.approx(edge * 0.0254)
    assert told["lc"] == pytest.approx(0.5 * 0.0254)
    assert told["t"] == pytest.approx(0.105 * 0.0254)
    torn = 1.2 * 0.5 * 0.105 * 0.0254**2 * told["Fu"] * told["s"]
    assert np.ravel(told["Mt"]) == pytest.approx(np.ravel(torn))
    assert_steps(check, 0)


def test_without_stops_nothing_is_checked_of_them():
    assert not found(tilt_stop_checks, solved("one_post", (), LOOSE))


@pytest.mark.parametrize("situation", [solved, expected])
def test_the_steps_of_every_check_work_out(situation):
    now = situation("one_post", (), STOPS)
    checks = found(tilt_stop_checks, now)
    assert len(checks) == 4
    for check in checks.values():
        assert_steps(check, 0)


def test_stops_keep_loose_rails_from_tilting_and_lower_no_gust():
    """With loose nuts the panels tilt first of all; with stops they do so much later, if ever."""
    then, now = (
        weakest(solved_models(changed("one_post", lines), ())) for lines in (LOOSE, STOPS)
    )
    tilts = [next(g.gust for g in w.going if g.kind is Kind.TILTS) for w in (then,)]
    later = [g.gust for g in now.going if g.kind is Kind.TILTS]
    assert min(later, default=200.0) > 1.5 * tilts[0]
    assert now.limit_gust >= then.limit_gust
    assert now.first_break is not None
    assert then.first_break is not None
    assert now.first_break.gust >= 0.999 * then.first_break.gust
