"""Rails and clamps against published tables.

- Uniform beam loads of 12 gauge 1-5/8 in. strut channel at 25 ksi, as in load tables that follow
  MFMA-4 (from memory of those tables).
- AISC Manual (14th ed.) Table 4-22, available critical stress for Fy = 35 ksi.
- AISC Manual Table 7-2, available tension of A307 bolts (from memory).
- IEC 61215-2: test loads 2400 and 5400 Pa stand for design loads 1600 and 3600 Pa (from memory).
"""

import dataclasses

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import inch, lbf

from frame.checks.fasteners import clamp
from frame.checks.steel import rail
from tests.strut import KSI, STOCK, STRUT

KIP = 1000 * lbf
SOLID = dataclasses.replace(STOCK, slot_factor=1.0)


@pytest.mark.parametrize(
    ("span", "load"), [(24, 1690), (36, 1130), (48, 845), (72, 560), (96, 420), (120, 340)]
)
def test_allowable_uniform_load_of_a_braced_strut(span: float, load: float) -> None:
    moment = load * lbf * span * inch / 8
    assert_allclose(rail.bending(SOLID, moment, 0.0, 1.0).utilisation, 1.0, rtol=0.012)


@pytest.mark.parametrize(
    ("slenderness", "stress"),
    [(10, 20.9), (20, 20.5), (25, 20.3), (50, 18.4), (100, 12.56), (150, 6.68), (200, 3.76)],
)
def test_critical_stress_where_twisting_is_prevented(slenderness: float, stress: float) -> None:
    stiff = dataclasses.replace(STRUT, J=1e6 * STRUT.J)
    steel = dataclasses.replace(SOLID, channel=stiff, yield_stress=35 * KSI)
    length = slenderness * (STRUT.I1 / STRUT.area) ** 0.5
    check = rail.tie_rail(steel, -stress * KSI * STRUT.area, 0.0, 0.0, length)
    assert_allclose(check.utilisation, 1.0, rtol=4e-3)
    assert_allclose(check.extra["slenderness"], slenderness)


@pytest.mark.parametrize(
    ("diameter", "tension"), [(0.625, 6.90), (0.75, 9.94), (0.875, 13.5), (1.0, 17.7)]
)
def test_bolt_tension(diameter: float, tension: float) -> None:
    area = np.pi * (diameter * inch) ** 2 / 4
    check = clamp.hold_down(tension * KIP, 1.0, area, 60 * KSI)
    assert_allclose(check.utilisation, 1.0, rtol=3e-3)


@pytest.mark.parametrize(("test", "design"), [(2400.0, 1600.0), (5400.0, 3600.0)])
def test_panel_test_load_stands_for_two_thirds(test: float, design: float) -> None:
    check = clamp.panel_rating(design, -1.0, test)
    assert_allclose(check.utilisation, 1.0)
    assert_allclose(check.nominal, test)
