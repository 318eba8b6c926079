"""Rails and U-bolts of the one-post rack at 30 degrees under local gusts, by hand in pounds.

Velocity pressure 26.16 psf x Kd G 0.7225 x 0.6 = 11.34 psf. Eight rails, two under each of four
panels 41 in wide: 20.5 in each; arms of 69.25 in. The edge zone is 0.9 m in plan (3 ft), 0.9 /
cos 30 up the slope, and a2 = 8.7 ft2: an arm of 9.86 ft2 and a rail of 19.7 ft2 lie between a2 and
4 a2. ASCE/SEI 7-22 Fig. 30.5-1 there, at 30 deg in clear flow: 3.9 and -3.8 at corners and edges,
2.6 and -2.5 inside. Panels 49 lb on 19.65 ft2, rails 1.89 lb/ft.
"""

from dataclasses import replace
from math import cos, radians

import numpy as np
import pytest

from frame.parts.rails.local_rails import local_rail_checks
from frame.parts.rails.local_wind import local_wind
from frame.parts.rails.strips import FASTENER, MEMBER, Strips, coefficients, strips
from frame.solved.situation import situation
from tests.step_check import assert_steps, printed
from tests.unit.parts.racks import first_order
from tests.unit.parts.solved import IN_LB, ONE_POST_30, POUND, found, solved, value, worst

RAIL = ("rail", "bending of the rail in a local gust")
BOLT = ("U-bolt", "pull of a local gust on the U-bolt")
WIDTH, ARM = 20.5 / 12, 69.25 / 12
WEIGHT = (49 / 19.65 * WIDTH + 1.89) * cos(radians(30))
"""Square to a rail [lb/ft]."""
GUST = 26.16 * 0.7225 * 0.6


def test_bending_by_hand():
    now = solved("one_post", (), ONE_POST_30)
    check = found(local_rail_checks, now)[RAIL]
    moments = value(now, check, "M1", "D + 0.6W, front, A")
    zone = 0.9 / cos(radians(30)) / (ARM * 0.3048)
    share = 1 - (1 - zone) ** 2
    inner = share * 3.9 + (1 - share) * 2.6
    hand = [(GUST * c * WIDTH + WEIGHT) * ARM**2 / 2 * 12 * IN_LB for c in (inner, 3.9)]
    assert sorted(moments) == pytest.approx(hand, rel=0.01)
    # A gust presses square to the panels: in their plane nothing bends the rail.
    assert np.all(printed(check.steps, "M2") == 0)
    assert np.all(check.covered)


def test_pull_by_hand():
    now = solved("one_post", (), ONE_POST_30)
    check = found(local_rail_checks, now)[BOLT]
    lift = value(now, check, "U", "0.6D + 0.6W, back, A")
    hand = (GUST * 3.8 * WIDTH - 0.6 * WEIGHT) * 2 * ARM * POUND  # one U-bolt a rail
    assert max(lift) == pytest.approx(hand, rel=0.01)
    assert max(value(now, check, "T", "0.6D + 0.6W, back, A")) == pytest.approx(hand / 2, rel=0.01)


def test_least_pressure_of_the_standard_by_hand():
    """16 psf on parts too, ASCE/SEI 7-22 30.2.2 (from memory), as it stands in every zone."""
    one = solved("one_post", (), ONE_POST_30).block
    now = first_order(situation(one, one.frame.fixed_cases(), [0.0]))
    check = found(local_rail_checks, now)[BOLT]
    moments = found(local_rail_checks, now)[RAIL]
    pressed = value(now, moments, "M1", "D + 0.6W, front, least")
    hand = (0.6 * 16 * WIDTH + WEIGHT) * ARM**2 / 2 * 12 * IN_LB
    assert pressed == pytest.approx(hand, rel=0.01)
    lift = value(now, check, "U", "0.6D + 0.6W, back, least")
    assert lift == pytest.approx((0.6 * 16 * WIDTH - 0.6 * WEIGHT) * 2 * ARM * POUND, rel=0.01)


def test_without_wind_the_weight_bends_and_nothing_lifts():
    now = solved("one_post", (), ONE_POST_30)
    checks = found(local_rail_checks, now)
    still = "D, leaning along"
    assert np.all(value(now, checks[BOLT], "U", still) == 0)
    hand = WEIGHT * ARM**2 / 2 * 12 * IN_LB
    assert value(now, checks[RAIL], "M1", still) == pytest.approx(hand, rel=0.01)


def test_steps():
    now = solved("one_post", (), ONE_POST_30)
    for check in found(local_rail_checks, now).values():
        for case in range(0, len(now.case), 7):
            for rail in range(check.utilisation.shape[1]):
                assert_steps(check, (case, rail))


def test_strips_share_the_whole_spread():
    now = solved("one_post", (), ONE_POST_30)
    on = strips(now.rack, radians(30))
    assert on.width == pytest.approx([WIDTH * 0.3048] * 2, rel=1e-6)
    assert set(on.outer) == {False, True}
    assert not np.any(np.isnan(local_wind(now).pressure))


class AreaAndZone:
    """A wind whose coefficients tell what area [m2] and which zone was asked for."""

    def coefficients(self, tilt: float, zone: str, area: float, edge: float):
        return np.array([area]), np.array([("interior", "edge", "corner").index(zone)])


def test_effective_wind_areas_by_the_standard():
    """ASCE/SEI 7-22 26.2 (from memory): span times width, of a member at least a third of it.

    A fastener counts the area that hangs on it. 3 m of rail under 0.2 m and under 1.5 m of panels.
    """
    on = Strips(
        width=np.array([0.2, 1.5]), outer=(False, True), margin=0.9, arm=2.0, tilt=radians(60)
    )
    for least, areas in ((MEMBER, (3.0, 4.5)), (FASTENER, (0.6, 4.5))):
        ends, rest = coefficients(AreaAndZone(), on, 3.0, least)
        for (area, zone), zones in ((ends, (1, 2)), (rest, (0, 1))):
            assert area[0] == pytest.approx(areas)
            assert tuple(zone[0]) == zones
    # 0.9 m in plan are 1.8 m up a slope of 60 degrees, and no more than half the chord.
    assert on.zone == pytest.approx(1.8)
    assert replace(on, arm=1.5).zone == 1.5


def test_a_strip_at_the_side_edge_is_an_outer_one_however_wide():
    """One column of panels 3 m wide on two rails: both strips begin at an edge (geometry)."""
    rack = solved("one_post", (), ONE_POST_30).rack
    wide = replace(
        rack,
        panels=replace(rack.panels, across=1, width=3.0),
        rails=replace(rack.rails, positions=(-0.75, 0.75)),
    )
    on = strips(wide, radians(30))
    assert on.width == pytest.approx([1.5])
    assert on.outer == (True,)
    assert on.arm == pytest.approx(rack.panels.chord / 2)


@pytest.mark.parametrize(("width", "outer"), [(0.85, (True,)), (0.95, (False, True))])
def test_a_strip_that_begins_in_the_edge_zone_is_an_outer_one(width, outer):
    """Four strips side by side: the second begins a width from the edge, the zone is 0.9 m."""
    rack = solved("one_post", (), ONE_POST_30).rack
    rails = tuple(width * x for x in (-1.5, -0.5, 0.5, 1.5))
    four = replace(
        rack,
        panels=replace(rack.panels, across=2, width=2 * width, gap=0.0),
        rails=replace(rack.rails, positions=rails),
    )
    assert strips(four, radians(30)).outer == outer


def test_two_channels_back_to_back_are_used_less():
    before = worst(found(local_rail_checks, solved("one_post", (), ONE_POST_30))[RAIL])
    thick = ("[rails] channel", 'channel = "1-5/8 x 1-5/8 in 12 ga back to back"')
    after = worst(found(local_rail_checks, solved("one_post", (), (*ONE_POST_30, thick)))[RAIL])
    assert after < before
