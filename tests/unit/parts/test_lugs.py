"""Lugs and bolts of pinned knees and of stays."""

import numpy as np
import pytest

from frame.parts.steel.braces import brace_checks
from frame.parts.welds.lugs import lug_checks
from tests.step_check import assert_steps, printed
from tests.unit.parts.solved import ONE_POST_30, found, solved, worst

PINNED = (*ONE_POST_30, ("ends", 'ends = "pinned"'))
LUG = ("lug, knee, left", "lug and its bolt")


def test_the_bolt_of_a_pinned_knee_takes_what_the_knee_pulls():
    """Pull or push of the knee, but for its own weight; 21.6 ksi on 1/2 in, factor 2: 2121 lb."""
    now = solved("one_post", ("knees",), PINNED)
    check = found(lug_checks, now)[LUG]
    knee = found(brace_checks, now)
    axial = [np.max(knee["knee, left", name].demand, axis=(1, 2)) for name in ("buckling", "pull")]
    large = np.maximum(*axial) > 1e3
    assert large.sum() > 30
    assert check.demand[large] == pytest.approx(np.maximum(*axial)[large], rel=0.03)
    assert check.allowable == pytest.approx(2121 * 4.44822, rel=2e-3)
    assert_steps(check, 3)


def test_a_short_lug_tears_out_by_hand():
    """AISC 360-22 D5-2, Fu 48 ksi, lug 1-1/4 x 1-1/4 x 1/4 in, its hole of 9/16 in in the middle.

    From the hole to the end 0.625 - 0.281 = 0.344 in: 0.6 x 48 x 2 x 1/4 x (0.344 + 0.25) = 8.55
    kip. Where the hole is, is our judgement.
    """
    small = ("[welds] lug_length", 'lug_length = "1-1/4 in"')
    thin = ("[welds] lug_plate", 'lug_plate = "1/4 in"')
    now = solved("one_post", ("knees",), (*PINNED, small, thin))
    check = found(lug_checks, now)[LUG]
    assert printed(check.steps, "Rt") == pytest.approx(8.55e3 * 4.44822, rel=2e-3)


def test_welded_knees_have_no_lugs():
    assert not found(lug_checks, solved("one_post", ("knees",), ONE_POST_30))


def test_a_thicker_bolt_lowers_the_use():
    change = ("[welds] lug_bolt", 'lug_bolt = "5/8 in"')
    thick = solved("one_post", ("knees",), (*PINNED, change))
    thin = solved("one_post", ("knees",), PINNED)
    assert worst(found(lug_checks, thick)[LUG]) < worst(found(lug_checks, thin)[LUG])
