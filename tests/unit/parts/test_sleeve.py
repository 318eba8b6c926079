"""Sleeve, set bolt and pin of the one-post rack at 30 degrees, by statics done by hand in pounds.

q = 0.00256 x 0.85 x 0.9935 x 110^2 = 26.16 psf (ASCE/SEI 7-22, exposure C, 180 ft); face wind,
case B, clear: CN 2.6 low, 1.0 high (Fig. 27.3-4); p = 26.16 x 0.85 x 0.85 x 0.6 x CN = 29.48 and
11.34 psf. Each half of the chord is 4 x 41 in x 69 in = 78.58 ft2: 2317 lb and 891 lb.
"""

import numpy as np
import pytest

from frame.parts.steel.sleeve import sleeve_checks
from tests.unit.parts.solved import (
    FACE_B,
    GUST_LEFT,
    IN_LB,
    ONE_POST_30,
    POUND,
    found,
    solved,
    value,
    worst,
)

LEANING = "D, leaning along"
SWING = ("set bolt", "grip against swing")
LIFT = ("set bolt", "grip against lift")
BEARING = "wall bearing at the sleeve"
INTERACTION = "bending, axial force and twist together"


def test_swing_by_hand():
    """Level push (2317 + 891) sin 30 = 1604 lb; halves 1.8 and 0.2 of 802 lb, 41.5 in out."""
    now = solved("one_post", (), ONE_POST_30)
    check = found(sleeve_checks, now)[SWING]
    assert value(now, check, "T", GUST_LEFT)[0] == pytest.approx(
        802 * 1.6 * 41.5 * IN_LB, rel=0.01
    )
    assert value(now, check, "T", FACE_B)[0] == pytest.approx(0.0, abs=1.0)


def test_grip_by_hand():
    """1500 lb at 620 in-lb (low chart); 360 in-lb, half of it kept; radius 2.7815 in; factor 2.

    On the post 392 lb of panels, 8 rails of 21.8 lb, beam 130 lb, sleeve 14 lb: 710 lb, 0.6 of it
    at friction 0.15 and two thirds of the radius 118 in-lb.
    """
    now = solved("one_post", (), ONE_POST_30)
    bolts, weight = 1500 * (0.5 * 360 / 620) * 2.7815, 0.15 * 0.6 * 710 * 2 / 3 * 2.7815
    check, case = found(sleeve_checks, now)[SWING], now.table.labels.index(FACE_B)
    assert check.nominal[case] == pytest.approx([(bolts + weight) * IN_LB], rel=3e-3)
    assert check.allowable == pytest.approx(check.nominal / 2)
    # A gust that lifts more than the rack weighs leaves the bolts alone.
    lifted = now.table.labels.index("0.6D + 0.6W, back, A")
    assert check.nominal[lifted] == pytest.approx([bolts * IN_LB], rel=1e-3)


def test_side_force_by_hand():
    """Couple 8 x 6312 in-lb from the rails less 6 in x 1669 lb, over 2/3 of 8 in; half the shear.

    The rails' couple turns the low edge down, against the wind: at the top of the sleeve the wind
    takes half of its push off it, at the foot it adds as much (equilibrium).

    6312 in-lb a rail: see the U-bolts; 1669 lb is 1604 and the beam's drag 11.34 x 1.2 x 4 in x
    170.5 in = 64 lb; the middle of the sleeve is 2 + 4 in below the beam's axis.
    """
    now = solved("one_post", (), ONE_POST_30)
    couple = (8 * 6312 - 6 * 1669) / (8 * 2 / 3)
    checks = found(sleeve_checks, now)
    for part, by_hand in (
        ("post wall at foot of sleeve", couple + 1669 / 2),
        ("post wall at its top", couple - 1669 / 2),
        ("sleeve wall at its foot", couple + 1669 / 2),
    ):
        force = value(now, checks[part, BEARING], "F")[0]
        assert force == pytest.approx(by_hand * POUND, rel=0.01)


def test_a_gust_on_one_half_turns_the_couple_from_the_side_force_by_hand():
    """The halves 1.8 and 0.2 of (2317 + 891) cos 30 / 2 = 1389 lb straight down, 41.5 in out.

    They bend by 1389 x 1.6 x 41.5 = 92,230 in-lb across the 8 x 6312 - 6 x 1669 = 40,480 in-lb of
    the front wind, as above, at the middle of the sleeve: 100,700 in-lb in all. Its push is turned
    from the 1669 lb so that 40,480 / 100,700 of them lie along it and 92,230 / 100,700 square.
    """
    now = solved("one_post", (), ONE_POST_30)
    check = found(sleeve_checks, now)["post wall at foot of sleeve", BEARING]
    across, along = 1389 * 1.6 * 41.5, 8 * 6312 - 6 * 1669
    whole = float(np.hypot(across, along))
    for symbol, by_hand in (
        ("M", whole * IN_LB),
        ("V", 1669 * along / whole * POUND),
        ("B", 1669 * across / whole * POUND),
    ):
        found_there = value(now, check, symbol, GUST_LEFT)[0]
        assert found_there == pytest.approx(by_hand, rel=0.015), symbol


def test_an_open_end_has_half_the_wall():
    """AISC 360-22 K, connections near an uncapped end."""
    checks = found(sleeve_checks, solved("one_post", (), ONE_POST_30))
    foot, top = (checks[f"post wall at {w}", BEARING].steps for w in ("foot of sleeve", "its top"))
    strength = [next(s.value for s in steps if s.symbol == "R") for steps in (foot, top)]
    assert strength[0] == pytest.approx(2 * strength[1])


def test_pin_by_hand():
    """Wash house: a pin takes the place of set bolts and its force is half the lift or weight."""
    now = solved("two_posts")
    checks = found(sleeve_checks, now)
    assert SWING not in checks
    shear = checks["through pin", "pin in shear"]
    case = now.table.labels.index(LEANING)
    U = value(now, shear, "U", LEANING)
    # Five heaters of 42 kg, rails and beam: more than the heaters alone, less than twice them.
    assert 5 * 42 * 9.80665 < U.sum() < 2 * 5 * 42 * 9.80665
    assert (shear.demand[case] >= U / 2 - 1e-9).all()
    # 21.6 ksi on 16 mm, factor 2.
    assert shear.allowable == pytest.approx(21.6 * 6.894757e6 * np.pi / 4 * 0.016**2 / 2)


def test_weight_presses_the_post_at_its_pin_hole_and_lift_pulls_it():
    """Wash house: five heaters of 42 kg, rails and beam, as above; pull is positive.

    Pressed, the post is a column of 1.7 m and may buckle (AISC 360-22 E3); pulled, it yields (D2).
    """
    now = solved("two_posts")
    hole = found(sleeve_checks, now)["post at pin hole", INTERACTION]
    N = value(now, hole, "N", LEANING)
    assert 5 * 42 * 9.80665 < -N.sum() < 2 * 5 * 42 * 9.80665
    lifting = "D + 0.6W, back, A, obstructed"
    assert (value(now, hole, "N", lifting) > 0).all()
    pressed, pulled = (value(now, hole, "Pc", label) for label in (LEANING, lifting))
    assert (pressed < 0.95 * pulled).all()


@pytest.mark.parametrize(
    ("part", "check", "change"),
    [
        (*SWING, ("set_bolt_torque", 'set_bolt_torque = "45 ft-lb"')),
        (*SWING, ("[sleeve] jam_nuts", 'jam_nuts = "yes"')),
        (*SWING, ("set_bolts", "set_bolts = 3")),
        ("sleeve wall at its foot", BEARING, ("[sleeve] wall", 'wall = "3/8 in"')),
        ("sleeve wall at its foot", BEARING, ('length = "8 in"', 'length = "12 in"')),
        ("post wall at its top", BEARING, ('length = "8 in"', 'length = "12 in"')),
    ],
)
def test_more_of_it_lowers_the_use(part, check, change):
    before = found(sleeve_checks, solved("one_post", ("guys",), ONE_POST_30))
    after = found(sleeve_checks, solved("one_post", ("guys",), (*ONE_POST_30, change)))
    assert worst(after[part, check]) < worst(before[part, check])


def test_several_posts_keep_the_beam_from_swinging():
    bolts = ("pin", "set_bolts = 1")
    now = solved("two_posts", (), (bolts,))
    check = found(sleeve_checks, now)[LIFT]
    assert not value(now, check, "T", now.table.labels[5]).any()


def test_steel_nobody_identified_is_said():
    checks = found(sleeve_checks, solved("one_post", (), ONE_POST_30))
    assert "A3.1b" in checks["post wall at its top", BEARING].note
