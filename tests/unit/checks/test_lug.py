"""A lug and its bolt: what governs, nothing left, step by step."""

import numpy as np
import pytest

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from tests.step_check import assert_steps, printed

PLATE = {
    "width": 0.0762,
    "thickness": 0.00635,
    "diameter": 0.0127,
    "to_end": 0.0381,
    "yield_stress": 207e6,
    "tensile": 331e6,
    "shear_stress": 93e6,
}


def check(force=5e3, **change):
    return bolted_lug(force, BoltedLug(**{**PLATE, **change}))


def test_an_unmarked_bolt_goes_first_by_hand():
    """93 MPa on pi / 4 x 12.7^2 = 126.7 mm2: 11.78 kN, factor 2."""
    assert check().allowable == pytest.approx(11.78e3 / 2, rel=1e-3)
    assert check(-5e3).utilisation == pytest.approx(5.0 / 5.89, rel=1e-3)


def test_every_strength_by_hand():
    """In mm and MPa, AISC 360-22 D5.1, J7, J3.7, D2 (from memory of the standard).

    Hole 14.29; 2 t + 16 = 28.70 counts each side of it: 331 x 12.7 x 28.70 = 120.7 kN. Clear to
    the end 30.96, and half a bolt: 0.6 x 331 x 12.7 x 37.31 = 94.09 kN. Bearing 1.8 x 207 x 12.7 x
    6.35 = 30.05 kN, bolt 93 x 126.7 = 11.78 kN, gross 207 x 483.9 = 100.2 kN.
    """
    by_hand = {"Rn": 120.65e3, "Rt": 94.09e3, "Rb": 30.05e3, "Rv": 11.78e3, "Rg": 100.16e3}
    for symbol, strength in by_hand.items():
        assert printed(check().steps, symbol) == pytest.approx(strength, rel=3e-4)


def test_the_gross_section_has_its_own_factor():
    """AISC 360-22 D2 (from memory of the standard): Fy w t / 1.67.

    It governs only a narrow lug of a steel that yields long before it tears: 40 MPa x 18 x 6.35 mm
    is 4.572 kN, 2.738 kN allowed; beside the hole 400 x 12.7 x 1.856 / 2 = 4.71 kN, in bearing
    1.8 x 40 x 12.7 x 6.35 / 2 = 2.903 kN.
    """
    soft = check(width=0.018, yield_stress=40e6, tensile=400e6, shear_stress=500e6)
    assert soft.allowable == pytest.approx(2.738e3, rel=1e-3)
    assert soft.nominal == pytest.approx(4.572e3, rel=1e-3)


@pytest.mark.parametrize("change", [{"width": 0.0142}, {"to_end": 0.005}, {"width": 0.01}])
def test_nothing_is_left_where_the_hole_takes_it_all(change):
    assert check(**change).utilisation == np.inf


def test_more_metal_is_never_used_more():
    strong = {"shear_stress": 500e6}
    for change in ({"width": 0.1, "to_end": 0.05}, {"thickness": 0.01}, {"to_end": 0.05}):
        assert check(**strong, **change).utilisation <= check(**strong).utilisation
    assert check(diameter=0.016).utilisation < check().utilisation


def test_expected_strength_has_no_factor():
    made = bolted_lug(np.array([0.0, -2e3, 9e3]), BoltedLug(**PLATE), factored=False)
    assert made.utilisation == pytest.approx(made.let_go)
    assert made.allowable == pytest.approx(check().nominal)
    for case in range(3):
        assert_steps(made, case)


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"shear_stress": 500e6},
        {"shear_stress": 500e6, "width": 0.02},
        {"shear_stress": 500e6, "to_end": 0.008},
        {"shear_stress": 2e9, "yield_stress": 60e6, "width": 0.03},
    ],
)
def test_steps(change):
    made = check(np.array([0.0, -2e3, 9e3]), **change)
    for case in range(3):
        assert_steps(made, case)
    assert np.all(made.nominal >= 1.67 * made.allowable * (1 - 1e-12))
