"""The stop against tilting, from its parts by hand and against the European form for the wall."""

import math
from dataclasses import replace

import numpy as np
import pytest

from frame.checks.check import Check
from frame.checks.fasteners.tilt_stop import TiltStop, stop_line, stop_plate, stop_wall
from tests.step_check import assert_steps, printed

INCH, KSI, LB_IN = 0.0254, 6.894757e6, 0.1129848

STOP = TiltStop(
    beam_od=4.0 * INCH,
    beam_wall=0.21 * INCH,
    beam_yield=35 * KSI,
    plate=0.375 * INCH,
    plate_yield=36 * KSI,
    bolt=0.5 * INCH,
    bolt_shear=24 * KSI,
    rail_wall=0.105 * INCH,
    rail_tensile=52 * KSI,
    rail_edge=1.625 / 2 * INCH,
)


def test_the_rail_tears_first_by_hand() -> None:
    """In inches and ksi, AISC 360-22 from memory of the standard:

    bolts 4 - 3 * 0.5 = 2.5 apart; plate 36 * 0.375 * 16 / 4 = 54 kip-in, over 1.67: 32.3; bolts
    24 * pi/4 * 0.25 * 2.5 = 11.78, over 2: 5.89; rail 1.2 * 0.5 * 0.105 * 52 * 2.5 = 8.19, over 2:
    4.095 kip-in, the least.
    """
    found = stop_plate(2000 * LB_IN, STOP)
    assert found.allowable == pytest.approx(4095 * LB_IN, rel=1e-3)
    assert found.nominal == pytest.approx(8190 * LB_IN, rel=1e-3)
    assert found.utilisation == pytest.approx(2000 / 4095, rel=1e-3)
    assert stop_plate(-2000 * LB_IN, STOP).utilisation == pytest.approx(found.utilisation)


def test_a_thin_plate_bends_and_soft_bolts_shear_first_by_hand() -> None:
    """As above: plate 36 * 0.03 * 16 / 4 = 4.32 kip-in, over 1.67: 2.587; bolts of 8 ksi 3.927,
    over 2: 1.963.
    """
    for change, least, factor in (
        ({"plate": 0.03 * INCH}, 4320, 1.67),
        ({"bolt_shear": 8 * KSI}, 3927, 2.0),
    ):
        found = stop_plate(1.0, replace(STOP, **change))
        assert found.nominal == pytest.approx(least * LB_IN, rel=1e-3)
        assert found.allowable == pytest.approx(least / factor * LB_IN, rel=1e-3)


def test_bolts_without_room_side_by_side_hold_nothing() -> None:
    assert stop_plate(1.0, replace(STOP, bolt=1.5 * INCH)).allowable == 0


def test_what_is_clear_of_the_edge_is_torn_by_hand() -> None:
    """In inches and ksi as above, the hole 1/16 wider than its bolt.

    Bolts of 3/4 in halfway up channel 1-5/8 in deep: 13/16 - 13/32 = 13/32 clear, 4 - 9/4 = 1.75
    apart: 1.2 * 13/32 * 0.105 * 52 * 1.75 = 4.658. As far from an edge as may be, a bolt's width
    counts: 1.2 * 0.75 * 0.105 * 52 * 1.75 = 8.6. Halfway up 13/16 in: of 1/2 in, 1/8 clear, less
    than the back and its bend, 0.21; of 1/4 in, 1/4: 1.2 * 0.25 * 0.105 * 52 * 3.25 = 5.324, but
    they shear at 24 * pi/4 / 16 * 3.25 = 3.829.
    """
    for bolt, edge, least in (
        (3 / 4, 13 / 16, 4.658),
        (3 / 4, 13 / 8, 8.6),
        (1 / 2, 13 / 8, 8.19),
        (1 / 2, 13 / 32, 0.0),
        (1 / 4, 13 / 32, 3.829),
    ):
        at = replace(STOP, bolt=bolt * INCH, rail_edge=edge * INCH)
        found = stop_plate(1000 * LB_IN, at)
        assert found.nominal == pytest.approx(1000 * least * LB_IN, rel=1e-3)
        assert found.allowable == pytest.approx(500 * least * LB_IN, rel=1e-3)
        assert at.clears_back == (least > 0)
        assert_steps(found)


def test_the_weld_is_two_straight_lines() -> None:
    """0.8 * 4 = 3.2 in welded, two lines of modulus 3.2^2 / 6 each: f = M / 3.413 in2."""
    line = stop_line(1000 * LB_IN, STOP, 0.25 * INCH)
    pounds_an_inch = 4.448222 / INCH
    assert line.force == pytest.approx(1000 / (3.2**2 / 3) * pounds_an_inch, rel=1e-5)
    assert printed(line.steps, "fs") == 0


@pytest.mark.parametrize("slender", [12.0, 19.0, 35.0])
def test_the_wall_is_close_to_the_european_form(slender: float) -> None:
    """EN 1993-1-8 Table 7.3, transverse plate (from memory): N = 5 kp fy t^2 / (1 - 0.81 b1/d),
    Mop = 0.5 b1 N, partial factor 1: a tenth less than 5.5 of AISC Table K2.1.
    """
    t = STOP.beam_od / slender
    at = replace(STOP, beam_wall=t)
    b1 = 0.8 * 4 * INCH
    european = 0.5 * b1 * 5 * 35 * KSI * t**2 / (1 - 0.81 * 0.8)
    found = stop_wall(1000.0, at)
    assert found.covered
    assert 1000.0 / (found.demand / found.nominal) == pytest.approx(1.1 * european, rel=1e-6)
    assert 1000.0 / found.utilisation == pytest.approx(1.1 * european / 1.67, rel=1e-6)


def test_compression_in_the_beam_leaves_less_and_thin_walls_are_not_covered() -> None:
    """AISC Eq. K2-4 at half of 0.6 Fy: 1 - 0.3 * 0.5 * 1.5 = 0.775."""
    loaded = stop_wall(1000.0, STOP, 0.3 * 35 * KSI)
    assert stop_wall(1000.0, STOP).utilisation / loaded.utilisation == pytest.approx(0.775)
    assert not np.all(stop_wall(1.0, replace(STOP, beam_wall=0.05 * INCH)).covered)


def test_what_is_expected_takes_no_factor() -> None:
    assert stop_wall(1000.0, STOP, 0.0, 1.2).utilisation == pytest.approx(
        stop_wall(1000.0, STOP).utilisation / 1.67 / 1.2
    )
    # What tears, bends and shears first by hand above, kip-in.
    for change, least in (
        ({}, 8.19),
        ({"plate": 0.03 * INCH}, 4.32),
        ({"bolt_shear": 8 * KSI}, 3.927),
    ):
        plain = stop_plate(1000.0, replace(STOP, **change), factored=False)
        assert plain.allowable == pytest.approx(1000 * least * LB_IN, rel=1e-3)
        assert math.isclose(plain.allowable, plain.nominal)


@pytest.mark.parametrize(
    "check",
    [
        stop_plate(900.0, STOP),
        stop_plate(900.0, STOP, factored=False),
        stop_wall(900.0, STOP, 50e6),
        stop_wall(900.0, STOP, 50e6, 1.2),
    ],
)
def test_the_steps_lead_to_the_use(check: Check) -> None:
    assert_steps(check)
