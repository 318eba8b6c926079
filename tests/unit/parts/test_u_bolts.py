"""U-bolts of the one-post rack at 30 degrees by statics in pounds (pressures: see test_sleeve)."""

import pytest

from frame.parts.rails.u_bolts import u_bolt_checks
from tests.unit.parts.solved import (
    FACE_B,
    IN_LB,
    INCH,
    ONE_POST_30,
    POUND,
    found,
    solved,
    value,
    worst,
)

LOOSE_NUTS = (*ONE_POST_30, ("[rails] u_bolt_torque", 'u_bolt_torque = "10 ft-lb"'))
GRIP, TENSION = ("U-bolt", "grip of the U-bolt"), ("U-bolt", "tension of the U-bolt")


def test_turning_about_the_beam_by_hand():
    """Half rows of 20.5 x 69 in at 34.75 in: (289.6 - 111.4) lb x 34.75 in = 6193 in-lb.

    Weight: 49 lb of panel 3.625 in and 21.8 lb of rail 2.8125 in above the beam's axis, square to
    the panels, x sin 30: 89 and 31 in-lb.
    """
    now = solved("one_post", (), ONE_POST_30)
    turning = value(now, found(u_bolt_checks, now)[GRIP], "M")
    assert turning == pytest.approx([8 * (6193 + 89 + 31) * IN_LB], rel=0.01)
    assert value(now, found(u_bolt_checks, now)[TENSION], "M").shape == (8,)


def test_grip_by_hand():
    """120 in-lb / (0.2 x 3/8 in) = 1600 lb a leg, half kept; the face 0.15 of both legs.

    The rod (e^(0.15 pi) - 1) / (e^(0.15 pi) + 1) = 0.2314 of both; eight rails, factor 2.
    """
    now = solved("one_post", (), LOOSE_NUTS)
    allowed = value(now, found(u_bolt_checks, now)[GRIP], "Ga")
    assert allowed == pytest.approx([8 * 0.3814 * 2 * 1600 * 0.5 / 2 * POUND], rel=1e-3)


def test_tension_by_hand():
    """Pressed down, the far leg slack: 2 M over 4.375 in leg to leg; 48 ksi on 0.0775 in2, / 2."""
    now = solved("one_post", (), ONE_POST_30)
    check = found(u_bolt_checks, now)[TENSION]
    assert value(now, check, "U") == pytest.approx([0.0] * 8)
    assert value(now, check, "T") == pytest.approx([2 * 6312 / 4.375 * POUND] * 8, rel=0.01)
    assert check.allowable == pytest.approx(48e3 * 0.0775 / 2 * POUND, rel=1e-3)


def test_lift_by_hand():
    """Wind from behind, case A: CN -1.8 all over; 2 x 9.823 ft2 x 20.41 psf, 0.6 of 70.8 lb less.

    Square to the panels: 401 - 0.6 x 70.8 x cos 30 = 364 lb.
    """
    now = solved("one_post", (), ONE_POST_30)
    lift = value(now, found(u_bolt_checks, now)[TENSION], "U", "0.6D + 0.6W, back, A")
    assert lift == pytest.approx([364 * POUND] * 8, rel=0.01)


@pytest.mark.parametrize(
    "lines", [['u_bolt_torque = "12 ft-lb"'], ['u_bolt_torque = "10 ft-lb"', "u_bolts = 2"]]
)
def test_more_grip_lowers_the_use(lines):
    before = found(u_bolt_checks, solved("one_post", (), LOOSE_NUTS))
    added = [(f"[rails] {line.split()[0]}", line) for line in lines]
    now = solved("one_post", (), (*ONE_POST_30, *added))
    assert worst(found(u_bolt_checks, now)[GRIP]) < worst(before[GRIP])


def test_thicker_rod_lowers_the_tension():
    before = found(u_bolt_checks, solved("one_post", (), ONE_POST_30))
    thick = ("[rails] u_bolt", 'u_bolt = "1/2 in"')
    after = found(u_bolt_checks, solved("one_post", (), (*ONE_POST_30, thick)))
    assert worst(after[TENSION]) < worst(before[TENSION])


def test_guys_at_rail_corners_leave_a_check_uncovered():
    now = solved("three_guyings", ("corner guys",))
    check = found(u_bolt_checks, now)["U-bolt", "twist of the rail on its U-bolt"]
    assert not check.covered
    assert len(found(u_bolt_checks, solved("three_guyings"))) == 2
    assert FACE_B in now.table.labels
    assert now.rack.rails.u_bolts.diameter == pytest.approx(3 / 8 * INCH)
