"""Welds of the one-post rack at 30 degrees by statics in pounds (pressures: see test_sleeve)."""

import math

import numpy as np
import pytest

from frame.parts.steel.sleeve import sleeve_forces
from frame.parts.welds.welds import knee_ends, weld_checks
from tests.unit.parts.solved import FACE_B, INCH, ONE_POST_30, POUND, found, solved, value, worst

SADDLE = "weld, beam to sleeve"
# Wind 3208 cos 30, panels 392, rails 8 x 21.8, beam 9.12 lb/ft x 14.21 ft,
# sleeve 1.4 x 14.63 lb/ft x 2/3 ft.
DOWN = 3208 * math.cos(math.radians(30)) + 392 + 174.5 + 129.6 + 13.7


def test_saddle_by_hand():
    """Sleeve 6.168 in on 4 in, in pounds and inches, length and lever by Simpson's rule over y.

    Two lines (sqrt(3.084^2 - y^2), y, sqrt(2^2 - y^2)): 12.98 in long, y^2 summed along them 26.0
    in3; the faces nowhere open by 135 deg, as 2^2 / (3.084 x 2) = 0.65 is less than cos 45.
    N/L + M y/I and 2 V/L, M = 8 x 6312 in-lb about the beam, V = 1669 lb.
    """
    now = solved("one_post", (), ONE_POST_30)
    check = found(weld_checks, now)[SADDLE, "weld metal"]
    across = DOWN / 12.98 + 8 * 6312 * 2 / 26.02
    by_hand = math.hypot(across, 2 * 1669 / 12.98)
    assert value(now, check, "f")[0] == pytest.approx(by_hand * POUND / INCH, rel=0.01)
    # E70, 3/16 in leg, half of it as throat: 0.3 x 70 x 0.09375 = 1.969 kip/in, and 1 + 0.5
    # sin^1.5 of the angle between load and weld (AISC 360-22 J2.4).
    more = 1 + 0.5 * (across / by_hand) ** 1.5
    allowed = check.allowable[now.table.labels.index(FACE_B), 0]
    assert allowed == pytest.approx(more * 1968.75 * POUND / INCH, rel=1e-3)


def test_knees_and_sleeve_carry_the_whole_load_down():
    """The beam cut free: what sleeve and knees push up equals all that lies on it."""
    now = solved("one_post", ("knees",), ONE_POST_30)
    case = now.table.labels.index(FACE_B)
    up = sleeve_forces(now).push[case, 0]
    assert now.rack.knees
    for name, z in (("knee, left", -1.0), ("knee, right", 1.0)):
        _, beam = knee_ends(now, name, now.rack.knees)
        N, Vz = beam.force[case, 0], beam.force[case, 2]
        up += (N + z * Vz) * math.cos(math.pi / 4) * -1.0
    assert up == pytest.approx(DOWN * POUND, rel=0.01)


def test_welded_knees_have_rings_and_pinned_ones_lugs():
    welded = found(weld_checks, solved("one_post", ("knees",), ONE_POST_30))
    pinned = found(
        weld_checks, solved("one_post", ("knees",), (*ONE_POST_30, ("ends", 'ends = "pinned"')))
    )
    part = ("weld, knee, left at post", "weld metal")
    assert "d" in {s.symbol for s in welded[part].steps}
    assert "l" in {s.symbol for s in pinned[part].steps}


def test_lug_by_hand():
    """A knee at 45 degrees pulls N/sqrt(2) along and square to a 3 in lug, hole 1.5 in out."""
    now = solved("one_post", ("knees",), (*ONE_POST_30, ("ends", 'ends = "pinned"')))
    check = found(weld_checks, now)["weld, knee, left at post", "weld metal"]
    assert now.rack.knees
    post, _ = knee_ends(now, "knee, left", now.rack.knees)
    N = abs(post.force[now.table.labels.index(FACE_B), 0]) / math.sqrt(2)
    inches = N / INCH
    by_hand = math.hypot(inches / 6 + 3 * inches * 1.5 / 9, inches / 6)
    assert value(now, check, "f")[0] == pytest.approx(by_hand, rel=0.03)  # own weight of the knee


def test_the_metal_beside_a_lug_is_the_wall_and_half_the_plate_for_each_fillet():
    """Pinned knees of 1/4 in plate: 1/8 in of 30 ksi to either fillet, less than the post's wall.

    AISC 360-22 J4.1 (from memory of the standard): 30 / 1.67 / 8 = 2.246 kip/in in pull.
    """
    now = solved("one_post", ("knees",), (*ONE_POST_30, ("ends", 'ends = "pinned"')))
    check = found(weld_checks, now)["weld, knee, left at post", "base metal at weld"]
    pull = next(s.value for s in check.steps if s.symbol == "ta")
    assert pull == pytest.approx(2246 * POUND / INCH, rel=1e-3)


def test_base_metal_of_unknown_steel_by_hand():
    """30 ksi on the knee's 0.145 in x 0.93: 0.6 x 30 x 0.1349 / 1.5 = 1.618 kip/in in shear.

    In pull 30 x 0.1349 / 1.67 = 2.423 kip/in.
    """
    now = solved("one_post", ("knees",), ONE_POST_30)
    check = found(weld_checks, now)["weld, knee, left at post", "base metal at weld"]
    pull, shear = (next(s.value for s in check.steps if s.symbol == x) for x in ("ta", "sa"))
    assert pull == pytest.approx(2423 * POUND / INCH, rel=1e-3)
    assert shear == pytest.approx(1618 * POUND / INCH, rel=1e-3)
    assert np.all((check.allowable > shear) & (check.allowable <= pull))
    assert "A3.1b" in check.note


def test_steel_that_is_only_said_to_be_strong_counts_as_35_ksi():
    strong = ('pipe = "3-1/2', 'pipe = "3-1/2 in nominal"\nsteel = "A500 C round"')
    check = found(weld_checks, solved("one_post", (), (*ONE_POST_30, strong)))[
        SADDLE, "base metal at weld"
    ]
    Fy = next(s.value for s in check.steps if s.symbol == "Fy")
    assert Fy <= 35 * 6.894757e6


@pytest.mark.parametrize("line", ['leg = "1/4 in"', 'electrode = "E70"'])
def test_bigger_welds_and_better_rod_never_raise_the_use(line):
    worse = "[welds] leg", 'electrode = "E60"'
    before = found(weld_checks, solved("one_post", ("knees",), (*ONE_POST_30, worse)))
    better = ("[welds] leg", line)
    after = found(weld_checks, solved("one_post", ("knees",), (*ONE_POST_30, better)))
    for key, check in after.items():
        if key[1] == "weld metal":
            assert worst(check) < worst(before[key])
