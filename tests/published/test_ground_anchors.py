"""Anchors and wire against printed values, in their own units.

US Army TM 5-5420-278-10 Table 9 (deadman, loamy soil, lb per square foot of face); US Navy manual
(700 lb a picket); 24 CFR 3285.402 (3150 lb working, tested to 4725 lb); Hoyt and Clemence 1989
(Kt 10 per foot); ASTM A475 Table 1 (breaking strengths); FF-C-450 clip tables.
"""

import numpy as np
import pytest

from frame.checks.guys.anchor import (
    pickets,
    proof_pull,
    proved,
    rock_eye,
    screw,
    torque_factor,
)
from frame.checks.guys.anchor_block import block_sliding, tipping
from frame.checks.guys.deadman import Earth, Log, deadman
from frame.checks.guys.guy import clips, hardware, termination_efficiency, wire, working_load
from frame.tables.wires import find
from frame.units import FT, FT_LB, INCH, LB, PCF, PSF, PSI

STIFF = Earth(unit_weight=110 * PCF, cohesion=2000 * PSF)
"""So stiff that the wedge holds more than the table: what is counted on is the table."""


@pytest.mark.parametrize(
    ("depth", "run", "per_foot"),
    [(3, 1, 950), (4, 1, 1750), (5, 2, 3600), (6, 3, 5800), (7, 4, 8400), (7, 1, 5100)],
)
def test_deadman_rows(depth, run, per_foot):
    c = deadman(
        1.0, np.arctan(1 / run), Log(depth=depth * FT, height=1 * FT, length=4 * FT), STIFF
    )
    assert float(c.nominal) / LB == pytest.approx(4 * per_foot, rel=1e-6)
    assert float(c.allowable) / LB == pytest.approx(2 * per_foot, rel=1e-6)


def test_deadman_between_rows_lies_between_and_below_the_straight_line():
    c = deadman(1.0, np.pi / 4, Log(depth=3.5 * FT, height=1 * FT, length=1 * FT), STIFF)
    assert 950 < float(c.nominal) / LB < (950 + 1750) / 2


def test_the_table_halves_in_wet_ground():
    log = Log(depth=4 * FT, height=1 * FT, length=4 * FT)
    wet = deadman(500 * LB, np.pi / 4, log, STIFF, np.array([1.0, 0.5]))
    assert wet.let_go == pytest.approx([500 / 7000, 500 / 3500], rel=1e-6)


def test_single_picket():
    assert float(pickets(350 * LB, 0.3, "1").utilisation) == pytest.approx(1.0)


def test_home_anchor_is_tested_to_4725_lb():
    assert float(proof_pull(3150 * LB, 0.0)) / LB == pytest.approx(4725)
    assert float(proved(3150 * LB, 4725 * LB).utilisation) == pytest.approx(1.0)


def test_square_shaft_screwed_in_at_400_ft_lb():
    kt = torque_factor("square, 1-1/2 to 1-3/4 in")
    c = screw(1000 * LB, 400 * FT_LB, kt, 1.5, 0.2)
    assert float(c.nominal) / LB == pytest.approx(4000)
    assert float(c.utilisation) == pytest.approx(0.5)


def test_eye_in_rock():
    c = rock_eye(1.0, 1 * INCH, 12 * INCH, 100 * PSI)
    assert float(c.allowable) / LB == pytest.approx(3770, abs=1)


def test_cubic_yard_block_by_hand():
    """27 ft3 of 150 pcf is 4050 lb; 700 lb at 45 deg on sand: 495 + 495 / 0.25 = 2475 lb of it."""
    half = 700 * LB * np.sin(np.pi / 4)
    c = block_sliding(half, half, 4050 * LB, 0.25)
    assert float(c.let_go) == pytest.approx(2475 / 4050, rel=1e-3)
    # rule of thumb met as well: level pull under mu (W - V) / 1.5, lift under W / 1.5
    top = 1 / float(c.utilisation)
    assert top * half <= 0.25 * (4050 * LB - top * half) / 1.5
    # tipping of a 3 ft cube, eye on top: 495 x 3 + 495 x 1.5 = 2227 of 6075 ft-lb
    t = tipping(half, half, 4050 * LB, 3 * FT, 3 * FT)
    assert float(t.let_go) == pytest.approx(2227 / 6075, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "breaking"),
    [("1/4 in EHS strand", 6650), ("5/16 in common strand", 3200), ("3/16 in EHS strand", 3990)],
)
def test_breaking_strengths(name, breaking):
    w = wire(1.0, find(name).breaking, termination_efficiency("helical grip", strand=True))
    assert float(w.nominal) / LB == pytest.approx(breaking)
    assert float(w.allowable) / LB == pytest.approx(breaking / 3)


def test_quarter_inch_aircraft_rope_in_clips():
    """7x19, 7000 lb, 80 % in forged clips: 5600 lb; two clips, 4-3/4 in back, 15 ft-lb."""
    rope = find("1/4 in 7x19 rope")
    w = wire(1.0, rope.breaking, termination_efficiency("forged clips", strand=False))
    assert float(w.nominal) / LB == pytest.approx(5600)
    found = clips(rope.diameter)
    assert found.count == 2
    assert found.turn_back / INCH == pytest.approx(4.75)
    assert found.torque / FT_LB == pytest.approx(15)


def test_three_eighths_turnbuckle():
    c = hardware(600 * LB, working_load("turnbuckle, eye or jaw", 3 / 8 * INCH))
    assert float(c.utilisation) == pytest.approx(0.5)
    assert float(c.let_go) == pytest.approx(0.1)
