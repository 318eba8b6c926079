"""Guys: series stiffness, bands of the pull, names; numbers by hand."""

import numpy as np
import pytest

from frame.idealize.bands import guy_band, guy_groups, guy_lengths
from frame.idealize.lines import anchor_give, effective_stiffness, guy_names, pretension
from frame.idealize.state import State
from tests.builders import INCH, POUND, case, case_blocks

GUYS = case("boat").guys[0]


def test_wire_and_anchor_give_one_after_the_other():
    """Stretch of 1 N: L / EA of the wire plus the give of a deadman, 1.5 kN/mm soft, 8 stiff."""
    length = 3.0
    for where, E, give in (("soft", GUYS.wire.E_low, 1.5e6), ("stiff", GUYS.wire.E_high, 8e6)):
        stretch = length / effective_stiffness(GUYS, length, where)
        assert stretch == pytest.approx(length / (E * GUYS.wire.area) + 1 / give)


def test_an_anchor_that_gives_softens_a_short_guy_most():
    per_length = [effective_stiffness(GUYS, length, "soft") for length in (1.0, 3.0, 9.0)]
    assert per_length == sorted(per_length)
    assert per_length[-1] < GUYS.wire.area * GUYS.wire.E_low


def test_no_anchor_is_unknown():
    with pytest.raises(ValueError, match="no anchor stiffness"):
        anchor_give("kite")


def test_the_pull_strays_with_the_season():
    """6.5e-6 per F and 30.6 F either way: 1.99e-4 of strain on the effective EA; a tenth lost."""
    given, EA = 250 * POUND, 1.0e6
    drift = 6.5e-6 * 1.8 * 17 * EA
    assert pretension(GUYS, EA, "middle") == pytest.approx(given)
    assert pretension(GUYS, EA, "high") == pytest.approx(given + drift)
    assert pretension(GUYS, EA, "low") == pytest.approx(0.9 * given - drift)


def test_a_stiff_guy_keeps_a_quarter_of_its_pull_at_worst():
    assert pretension(GUYS, 1e8, "low") == pytest.approx(250 * POUND / 4)


def test_names_say_which_corner():
    assert guy_names(GUYS) == (
        "guy, front left",
        "guy, front right",
        "guy, back left",
        "guy, back right",
    )


def test_known_better_of_a_built_frame():
    """Salvage yard: twelve guys of three groups, in the file's order; lengths by Pythagoras.

    Post-top guys tie on under the sleeve: 72 - 2.875 / 2 - 6 in. up, 54 out, 54 along.
    """
    ideal = case_blocks("yard", case("yard").bracing_names)[0].frame.ideal
    names = ("post-top guys", "beam-end guys", "corner guys")
    assert guy_groups(ideal) == tuple(n for n in names for _ in range(4))
    up = 72 - 2.875 / 2 - 6
    expected = np.sqrt(up**2 + 54**2 + 54**2) * INCH
    assert guy_lengths(ideal)[:4] == pytest.approx([expected] * 4)
    stiff, high = guy_band(ideal, State(guys="stiff", pretension="high"))
    soft, low = guy_band(ideal, State(guys="soft", pretension="low"))
    assert (stiff > soft).all()
    assert (high > low).all()
    _, given = guy_band(ideal, State())
    assert given == pytest.approx([150 * POUND] * 8 + [100 * POUND] * 4)
