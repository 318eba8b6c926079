"""Buried logs by statics done another way, by hand, and against the table for loam."""

import math

import numpy as np
import pytest

from frame.checks.guys.anchor import expected_screw, helix_in_clay
from frame.checks.guys.deadman import (
    Earth,
    Log,
    deadman,
    deadman_holding,
    expected_deadman,
    wedge,
)
from frame.units import FT, FT_LB, INCH, LB, PCF, PSF
from tests.step_check import assert_steps

DEG = math.pi / 180
LOAM = Earth(unit_weight=110 * PCF, phi=30 * DEG)
FIRM = Earth(unit_weight=110 * PCF, cohesion=1000 * PSF)
WET = Earth(unit_weight=55 * PCF, phi=28 * DEG)


def log(depth: float, height: float = 1.0, length: float = 4.0) -> Log:
    """A face in feet."""
    return Log(depth=depth * FT, height=height * FT, length=length * FT)


def pounds(slope: float, face: Log, earth: Earth) -> float:
    return float(wedge(slope, face, earth)[0]) / LB


def test_level_pull_in_sand_by_hand() -> None:
    """110 pcf, 30 deg, 1 x 4 ft with its foot at 3.5 ft, as in texts on sheet pile anchors.

    Kp 3, Ka 1/3: (Pp - Pa) = 110 x 3.5^2 / 2 x 2.667 = 1797 lb/ft, times 4; ends K0 = 0.5:
    0.5 x 110 x 0.577 x (1.732 + 0.577) x 3.5^3 / 3 = 1048 lb. Together 8235 lb.
    """
    assert pounds(0.0, log(3.0), LOAM) == pytest.approx(8235, rel=1e-3)


def test_level_pull_in_clay_by_hand() -> None:
    """cu 300 psf, 110 pcf, 1 x 2 ft with its foot at 2.5 ft.

    Pp = 110 x 2.5^2 / 2 + 2 x 300 x 2.5 = 1844 lb/ft; it stands to 2 x 300 / 110 = 5.45 ft, so
    Pa is nil; ends 300 x 2.5^2 = 1875 lb: 1844 x 2 + 1875 = 5563 lb. A deep face of 2 ft2 bears
    9 x 300 x 2 = 5400 lb, which is less.
    """
    soft = Earth(unit_weight=110 * PCF, cohesion=300 * PSF)
    assert pounds(0.0, log(2.0, 1.0, 2.0), soft) == pytest.approx(5400, rel=1e-3)
    wide = log(2.0, 1.0, 6.0)
    assert pounds(0.0, wide, soft) == pytest.approx(1844 * 6 + 1875, rel=1e-3)


def test_straight_up_is_the_prism_above() -> None:
    """1 x 4 ft, its top at 3.5 ft: 110 x 3.5 x 4 = 1540 lb of earth, its sides,

    2 (1 + 4) 3.5 = 35 ft2, bear a mean of 110 x 3.5 / 2 x 0.5 x 0.577 = 55.6 psf: 1945 lb.
    """
    assert pounds(math.pi / 2, log(4.0), LOAM) == pytest.approx(1540 + 1945, rel=1e-3)


@pytest.mark.parametrize("earth", [LOAM, WET, FIRM])
def test_level_pull_by_trying_every_wedge(earth: Earth) -> None:
    """Another route: the lightest of all plane wedges, with the friction on its ends summed up.

    Wedge at angle a: W = g H^2 / (2 tan a), cohesion c H / sin a along it, push level
    W tan(a + phi) + c H cos(phi) / (sin a cos(a + phi)). Behind, the heaviest.
    """
    face = log(3.0, 2.0, 5.0)
    foot, width = 4.0 * FT, 5.0 * FT
    g, c, phi = earth.unit_weight, earth.cohesion, earth.phi
    a = np.linspace(5 * DEG, 85 * DEG - phi, 200_001)
    push = g * foot**2 / 2 / np.tan(a) * np.tan(a + phi)
    push += c * foot * np.cos(phi) / (np.sin(a) * np.cos(a + phi))
    steep = np.linspace(phi + 1 * DEG, 89 * DEG, 200_001)
    press = g * foot**2 / 2 / np.tan(steep) * np.tan(steep - phi)
    press -= c * foot * np.cos(phi) / (np.sin(steep) * np.cos(steep - phi))
    level = (push.min() - max(press.max(), 0.0)) * width
    # Ends: strips of the triangles in front (and, in sand, behind), two sides.
    z = (np.arange(4000) + 0.5) / 4000 * foot
    slip = g * z * (1 - np.sin(phi)) * np.tan(phi)
    front, back = np.tan(math.pi / 4 + phi / 2), np.tan(math.pi / 4 - phi / 2)
    strip = foot / 4000 * (foot - z)
    level += 2 * float((slip * strip * (front + back) + c * strip * front).sum())
    assert float(wedge(0.0, face, earth)[0]) == pytest.approx(level, rel=2e-3)


def test_oblique_pull_lies_between_and_meets_its_own_curve() -> None:
    face = log(4.0)
    level, up = pounds(0.0, face, LOAM), pounds(math.pi / 2, face, LOAM)
    for slope in (0.2, 0.6, 1.0, 1.4):
        pull = pounds(slope, face, LOAM)
        on = pull * math.sin(slope) / up + (pull * math.cos(slope) / level) ** 2
        assert on == pytest.approx(1.0)


def test_the_wedge_and_the_table_for_loam_agree_though_neither_was_fitted() -> None:
    """TM 5-5420-278-10 Table 9; the wedge in loam of 110 pcf and 30 deg, face 8 x 36 in."""
    ratios = [
        pounds(math.atan(1 / run), log(depth, 8 / 12, 3.0), LOAM) * LB
        / float(deadman_holding(depth * FT, math.atan(1 / run)) * 8 / 12 * 3 * FT**2)
        for depth in (3, 4, 5, 6, 7)
        for run in (1, 2, 3, 4)
    ]  # fmt: skip
    assert min(ratios) > 0.8
    assert max(ratios) < 1.3
    assert np.exp(np.mean(np.log(ratios))) == pytest.approx(1.0, abs=0.06)


def test_carried_on_through_the_table_and_beyond_its_ends() -> None:
    for feet, run, listed in ((3, 1, 950), (4, 1, 1750), (5, 2, 3600), (7, 4, 8400)):
        assert deadman_holding(feet * FT, math.atan(1 / run)) / PSF == pytest.approx(listed)
    # By the power of the last rows, ln(5100 / 3800) / ln(7 / 6) = 1.909: 5100 (8 / 7)^1.909.
    assert deadman_holding(8 * FT, math.pi / 4) / PSF == pytest.approx(6581, rel=1e-3)
    # ln(1750 / 950) / ln(4 / 3) = 2.124: 950 (2 / 3)^2.124.
    assert deadman_holding(2 * FT, math.pi / 4) / PSF == pytest.approx(401.6, rel=1e-3)
    assert deadman_holding(4 * FT, 1.3) / PSF == pytest.approx(1750)


def test_the_lesser_of_table_and_wedge_is_counted_on_and_half_of_it_allowed() -> None:
    """1 x 4 ft, 5 ft deep, pulled at 1 in 2; the table has 3600 psf in loam, half in wet sand.

    Firm clay: 3600 x 4 = 14,400 lb; the wedge of clay of 1000 psf has more (see above).
    Wet sand, 55 pcf and 28 deg: Kp 2.770, Ka 0.361, (2.770 - 0.361) 55 x 5.5^2 / 2 x 4 ft = 8015
    lb; ends 0.5305 x 55 x 0.5317 x (1.664 + 0.601) x 5.5^3 / 3 = 1949 lb; level 9964 lb. Prism
    55 x 4.5 x 4 = 990 lb and sides 45 ft2 x 34.9 psf = 1571 lb; up 2561 lb. R of
    0.4472 R / 2561 + (0.8944 R / 9964)^2 = 1 is 4705 lb, less than 7200.
    """
    slope = math.atan(1 / 2)
    for earth, share, held in ((FIRM, 1.0, 14_400), (FIRM, 0.5, 7200), (WET, 0.5, 4705)):
        check = deadman(1.0, slope, log(5.0), earth, share)
        assert float(check.nominal) / LB == pytest.approx(held, rel=1e-3)
        assert float(check.allowable) / LB == pytest.approx(held / 2, rel=1e-3)


@pytest.mark.parametrize("earth", [LOAM, WET, FIRM])
@pytest.mark.parametrize("share", [1.0, 0.5])
def test_a_deeper_or_longer_log_never_holds_less(earth: Earth, share: float) -> None:
    slope = math.atan(1 / 2)
    inside = deadman(1.0, slope, log(5.0), earth, share)
    for bigger in (log(6.0), log(7.0), log(9.0), log(5.0, 1.0, 5.1), log(5.0, 1.0, 8.0)):
        beyond = deadman(1.0, slope, bigger, earth, share)
        assert beyond.covered
        assert beyond.nominal > inside.nominal
    for lesser in (log(2.9), log(1.5)):
        assert deadman(1.0, slope, lesser, earth, share).nominal < inside.nominal
    steep = deadman(1.0, 60 * DEG, log(5.0), earth, share)
    assert steep.nominal <= deadman(1.0, 45 * DEG, log(5.0), earth, share).nominal
    # A thin log ten times as long as high counts no longer than that.
    long, longer = (deadman(1.0, slope, log(5.0, 0.5, n), earth, share) for n in (5.0, 9.0))
    assert longer.nominal == pytest.approx(float(long.nominal))
    assert "as a beam" in long.note
    assert not inside.note


def test_a_steep_pull_draws_light_earth_up() -> None:
    """Nearly straight up the prism above goes first, by hand."""
    light = Earth(unit_weight=40 * PCF, phi=20 * DEG)
    steep = deadman(1.0, 89.9 * DEG, log(3.5), light)
    sides = 2 * 5 * 3 * (40 * 3 * (1 - math.sin(20 * DEG)) * math.tan(20 * DEG) / 2)
    assert float(steep.nominal) / LB == pytest.approx(40 * 3 * 4 + sides, rel=1e-3)


def test_what_no_rule_covers() -> None:
    assert not deadman(1.0, 0.5, log(0.4), LOAM).covered
    nothing = Earth(unit_weight=50 * PCF)
    assert not deadman(1.0, 60 * DEG, log(0.5), nothing).covered


def test_steps() -> None:
    pull = np.array([1e3, 2e4])
    for face in (log(2.0), log(5.0), log(9.0), log(5.0, 0.5, 4.0)):
        for earth in (LOAM, FIRM):
            for check in (
                deadman(pull, 0.7, face, earth, np.array([1.0, 0.5])),
                expected_deadman(pull, 0.7, face, earth, 0.7, np.array([1.0, 0.5])),
            ):
                assert_steps(check, (0,))
                assert_steps(check, (1,))


def test_expected_log_is_midway_between_wedge_and_table() -> None:
    face, slope = log(4.0), math.pi / 4
    check = expected_deadman(1.0, slope, face, FIRM, 0.7, 1.0)
    middle = math.sqrt(pounds(slope, face, FIRM) * 1750 * 4 * 0.7)
    assert float(check.nominal) / LB == pytest.approx(middle, rel=1e-6)
    wide = expected_deadman(1.0, slope, face, FIRM, 0.7, np.array([0.5, 1.8]))
    assert wide.nominal / LB == pytest.approx([0.5 * middle, 1.8 * middle], rel=1e-6)


def test_helix_in_clay() -> None:
    """6 in helix 3 ft down in clay of 1000 psf: 6 diameters, so 7.2 x 1000 x 0.1963 ft2
    = 1414 lb; from 7-1/2 diameters on 9 cu A, 1767 lb.
    """
    area = math.pi / 4 * (6 * INCH) ** 2
    depth = np.array([3.0, 4.0, 6.0]) * FT
    found = helix_in_clay(1000 * PSF, area, depth, 6 * INCH) / LB
    assert found == pytest.approx([1414, 1767, 1767], rel=1e-3)


def test_expected_screw_goes_by_its_torque_and_without_one_by_the_clay() -> None:
    """Kt 9 per ft (ICC-ES AC358): 150 ft-lb hold 1350 lb."""
    turns = np.array([150.0, 0.0]) * FT_LB
    check = expected_screw(500 * LB, turns, 9 / FT, 4 * FT, 6 * INCH, 1000 * PSF, 1.0)
    assert check.nominal / LB == pytest.approx([1350, 1767], rel=1e-3)
    assert_steps(check, (0,))
    assert_steps(check, (1,))
    shallow = expected_screw(500 * LB, turns, 9 / FT, 1 * FT, 6 * INCH, 1000 * PSF, 1.0)
    assert shallow.nominal / LB == pytest.approx([471, 471], rel=2e-3)
    # From 5 diameters on the torque tells (common practice, no source), 30 in here.
    for inches, pounds in ((29.9, 1.2 * 29.9 / 6 * 196.35), (30, 1350), (30.1, 1350)):
        made = expected_screw(1.0, turns, 9 / FT, inches * INCH, 6 * INCH, 1000 * PSF, 1.0)
        assert made.nominal[0] / LB == pytest.approx(pounds, rel=1e-3)
    assert not expected_screw(1.0, 0.0, 9 / FT, 4 * FT, 6 * INCH, 0.0, 1.0).covered
