"""Tabs of pinned braces and feet of stays, by hand."""

import math

import numpy as np
import pytest

from frame.checks.welds.tab import Tab, slot_length, tab_line
from frame.parts.steel.braces import brace_checks
from frame.parts.welds.stay_heads import stay_head_checks
from frame.parts.welds.tabs import tab_checks
from tests.step_check import assert_steps, printed
from tests.unit.parts.solved import (
    INCH,
    ONE_POST_30,
    POUND,
    assert_one_strength,
    expected,
    found,
    solved,
)

PINNED = (*ONE_POST_30, ("ends", 'ends = "pinned"'))
STAYS = 'from = "post top"\npipe = "1-1/2 in nominal"\nout = "5 ft"\nalong = "3 ft"'
TAB = ("weld, knee, left at tab", "weld metal")


def test_a_tab_carries_its_knee_along_four_lines() -> None:
    """1.9 in pipe: slots 1.9 in long, four fillets of it; what the knee weighs is left out."""
    now = solved("one_post", ("knees",), PINNED)
    check = found(tab_checks, now)[TAB]
    knee = found(brace_checks, now)
    axial = [np.max(knee["knee, left", name].demand, axis=(1, 2)) for name in ("buckling", "pull")]
    force = np.maximum(*axial)
    large = force > 1e3
    assert large.sum() > 30
    assert check.demand[large] == pytest.approx(force[large] / (4 * 1.9 * INCH), rel=0.05)
    # E70, leg 3/16 in: 0.3 x 70 x 0.707 x 3/16 = 2.784 kip/in along the weld
    assert np.min(check.allowable) >= 2784 * POUND / INCH * 0.999
    assert np.max(check.allowable) <= 1.5 * 2784 * POUND / INCH
    assert_steps(check, 3)


def test_a_tab_is_bent_over_half_a_lug_and_a_quarter_inch_by_hand() -> None:
    """A hole amid 3 in of lug is 1.5 in off its pipe; 1/4 in more is free room (judgement)."""
    check = found(tab_checks, solved("one_post", ("knees",), PINNED))[TAB]
    assert printed(check.steps, "a") == pytest.approx((1.5 + 0.25) * INCH)


def test_four_lines_bent_by_a_force_at_the_hole() -> None:
    """Against the four lines cut into bits: direct shear and M y / sum of y^2 at their ends."""
    tab = Tab(length=2.0, arm=1.75, leg=0.1875)
    bits = np.linspace(-1, 1, 20001)
    share = 4 * 2.0 * np.mean(bits**2)
    line = tab_line(1000.0, 300.0, tab)
    across = 300 / 8 + 300 * (1.75 + 1.0) * 1.0 / share
    assert line.force == pytest.approx(math.hypot(1000 / 8, across), rel=1e-3)
    assert printed(line.steps, "fs") == pytest.approx(125.0)


def test_a_slot_is_no_shorter_than_its_pipe_is_thick() -> None:
    assert slot_length(3.0, 1.9) == 1.9
    assert slot_length(6.0, 1.9) == 3.0


def test_a_slotted_knee_tears_across_its_slots_by_hand() -> None:
    """1.9 x 0.145 in, 0.93 of that wall and 48 ksi: slots as long as the pipe is thick.

    Ae = (1 - 1/pi) (pi (1.9 - 0.1349) 0.1349 - 2 x 0.1349 x (1/4 + 1/16)) = 0.4525 in2 (AISC
    360-22 Table D3.1, from memory of the standard): 48 x 0.4525 / 2 = 10.86 kip, where 30 ksi on
    all of the pipe over 1.67 is 13.44. Welded knees have no slots.
    """
    pull = ("knee, left", "pull")
    slotted = found(brace_checks, solved("one_post", ("knees",), PINNED))[pull]
    whole = found(brace_checks, solved("one_post", ("knees",), ONE_POST_30))[pull]
    assert np.unique(slotted.allowable) == pytest.approx(10.86e3 * POUND, rel=2e-3)
    assert np.unique(whole.allowable) == pytest.approx(13.44e3 * POUND, rel=2e-3)
    assert_steps(slotted, (3, 0, 0))


def test_what_is_expected_of_slotted_ends_is_one_strength() -> None:
    """Stays are always pinned; the fit to tests leaves more than the rule for every shape."""
    now = expected("one_post", ("stays",), (*ONE_POST_30, ("[stays] from", STAYS)))
    assert_one_strength(now, (brace_checks,))
    pull = found(brace_checks, now)["stay, front left", "pull"]
    assert printed(pull.steps, "lag").min() > 1 - 1 / math.pi


def test_welded_knees_have_no_tabs() -> None:
    assert not found(tab_checks, solved("one_post", ("knees",), ONE_POST_30))


def test_the_foot_of_a_stay_is_welded_for_what_the_stay_brings_down() -> None:
    """5 ft out, 3 ft along: the lug pulled N sin square to its flat and N cos along it."""
    now = solved("one_post", ("stays",), (*ONE_POST_30, ("[stays] from", STAYS)))
    checks = found(tab_checks, now)
    name = "stay, front left"
    line = checks[f"weld, {name} at foot", "weld metal"]
    model = now.block.frame.ideal.model
    (number,) = model.members_of(name)
    ends = [np.array(model.nodes[n].xyz) for n in model.members[number].ends]
    run, rise = np.hypot(*(ends[1] - ends[0])[:2]), ends[1][2] - ends[0][2]
    N = np.abs(now.answer.on_members([number])[:, 0, 0])
    sine, cosine = rise / math.hypot(run, rise), run / math.hypot(run, rise)
    size = 3 * INCH
    across = N * sine / (2 * size) + 3 * N * cosine * size / 2 / size**2
    by_hand = np.hypot(across, N * cosine / (2 * size))
    large = N > 4e3
    assert large.any()
    assert line.demand[large] == pytest.approx(by_hand[large], rel=0.06)
    heads = found(stay_head_checks, now)
    assert (f"weld, {name}", "weld metal") in heads
    assert (f"weld, {name} at tab", "base metal at weld") in checks
