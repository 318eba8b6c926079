"""A lug and its bolt: what governs, nothing left, step by step."""

import numpy as np
import pytest

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from tests.step_check import assert_steps

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
