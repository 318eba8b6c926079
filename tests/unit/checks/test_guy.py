import numpy as np
import pytest

from frame.checks.guys.guy import (
    clips,
    eye_bolt_share,
    hardware,
    termination_efficiency,
    wire,
    working_load,
)
from frame.errors import CatalogError
from frame.units import INCH
from tests.step_check import assert_steps


def test_steps():
    c = wire(np.array([0.0, 4e3]), 29e3, np.array([0.8, 1.0]), np.array([3.0, 4.0]))
    assert_steps(c, (0,))
    assert_steps(c, (1,))
    assert_steps(hardware(2e3, 5e3, 0.55, 3.0))


def test_slack_guy_uses_nothing():
    assert float(wire(0.0, 29e3, 0.8).utilisation) == 0
    assert float(wire(-1e-9, 29e3, 0.8).utilisation) == 0


def test_clips_take_the_next_size_up():
    assert clips(7 / 32 * INCH) == clips(0.25 * INCH)
    assert clips(0.5 * INCH).count == 3
    with pytest.raises(CatalogError, match="1/2 in"):
        clips(0.6 * INCH)


def test_clips_bite_poorly_on_strand():
    assert termination_efficiency("forged clips", strand=True) == 0.6
    assert termination_efficiency("helical grip", strand=True) == 1.0
    with pytest.raises(CatalogError, match="helical grip"):
        termination_efficiency("knot", strand=True)


def test_fitting_between_sizes_counts_as_the_smaller():
    item = "shackle, screw pin"
    assert working_load(item, 0.3 * INCH) == working_load(item, 0.25 * INCH)
    # In a metric file sizes are written in whole millimetres: 6, 8, 10, 13, 16, 19 mm.
    for inches in (1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4):
        assert working_load(item, round(inches * 25.4) / 1000) == working_load(item, inches * INCH)
    with pytest.raises(CatalogError, match="smaller than any"):
        working_load(item, 0.1 * INCH)
    with pytest.raises(CatalogError, match="is none of"):
        working_load("carabiner", 0.25 * INCH)


def test_eye_bolt_pulled_slanting():
    angles = np.radians([0, 5, 10, 15, 30, 45, 60])
    assert eye_bolt_share(angles) == pytest.approx([1, 1, 0.55, 0.55, 0.25, 0.25, 0])
    assert np.isnan(hardware(1e3, 5e3, eye_bolt_share(np.radians(60))).utilisation)
