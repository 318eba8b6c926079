"""Parts in the median model: what is expected of each, by hand and by laws."""

import numpy as np
import pytest

from frame.parts.guys.guys import guy_checks
from frame.parts.rails.clamps import clamp_checks
from frame.parts.rails.local_rails import local_rail_checks
from frame.parts.rails.local_wind import local_wind
from frame.parts.rails.rails import rail_checks, tie_checks
from frame.parts.rails.strips import struck
from frame.parts.steel.braces import brace_checks
from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.sleeve import sleeve_pipe
from frame.parts.steel.splices import splice_checks
from frame.parts.welds.guy_lugs import guy_lug_checks
from frame.parts.welds.joints import joint_checks
from frame.parts.welds.lugs import lug_checks
from frame.parts.welds.welds import weld_checks
from frame.solved.situation import at_gusts
from frame.tables.expected import Variant, variants
from frame.units import INCH, KSI
from tests.unit.parts.solved import (
    ONE_POST_30,
    POUND,
    assert_one_strength,
    expected,
    found,
    solved,
)

MINE = (
    pipe_checks,
    brace_checks,
    splice_checks,
    weld_checks,
    lug_checks,
    joint_checks,
    rail_checks,
    tie_checks,
    clamp_checks,
    guy_checks,
    guy_lug_checks,
)
PINNED = (*ONE_POST_30, ("ends", 'ends = "pinned"'))
SPLICED = (*ONE_POST_30, ("[beam] splices", 'splices = ["3 ft"]'))
RACKS = (
    ("one_post", (), SPLICED),
    ("one_post", ("knees",), ONE_POST_30),
    ("one_post", ("knees",), PINNED),
    ("two_posts", ("ties",), ()),
    ("three_guyings", ("corner guys",), ()),
    ("three_guyings", ("beam-end guys",), ()),
)


@pytest.mark.parametrize("rack", RACKS)
def test_expected_strength_is_allowable_and_nominal_at_once_with_steps_by_hand(rack):
    now = expected(*rack)
    assert any(True for checker in MINE for _ in checker(now))
    assert_one_strength(now, MINE)


@pytest.mark.parametrize("rack", RACKS)
def test_parts_and_names_are_those_of_the_code(rack):
    coded, median = solved(*rack), expected(*rack)
    for checker in MINE:
        assert set(found(checker, median)) <= set(found(checker, coded))


@pytest.mark.parametrize("rack", RACKS)
def test_a_stronger_input_is_never_used_more(rack):
    now = expected(*rack)
    winds = len(now.table.labels)
    keys = ("yield_unmarked", "yield_papers", "wall", "chord_wall", "weld", "rail", "guy", "clamp")
    for checker in MINE:
        for part, check in checker(now):
            use = check.let_go.reshape(len(variants()), winds, -1)
            for key in (*keys, "rod_shear", "panel"):
                low, high = (use[variants().index(Variant(key, h))] for h in (False, True))
                fair = ~np.isnan(low)
                assert np.all(high[fair] <= low[fair] * (1 + 1e-9)), (part, key)


def test_bending_of_the_beam_by_hand():
    """45 ksi on the plastic modulus (D^3 - d^3) / 6 of 0.97 of the wall of 3-1/2 in. nominal."""
    check = found(pipe_checks, expected("one_post", (), ONE_POST_30))[
        "beam", "bending, axial force and twist together"
    ]
    Mn = next(s.value for s in check.steps if s.symbol == "Mn")
    D = 4.0
    Z = (D**3 - (D - 2 * 0.97 * 0.226) ** 3) / 6
    assert Mn[0, 0, 0] == pytest.approx(45 * Z * KSI * INCH**3, rel=1e-4)
    assert {s.formula for s in check.steps if s.symbol == "m"} == {"M/(Mn/1)"}


def test_the_saddle_weld_by_hand():
    """E70, 3/16 in fillet all round loaded across: 0.6 x 70 x 0.707 x 3/16 x 1.5 = 8.35 kip/in."""
    check = found(weld_checks, expected("one_post", (), ONE_POST_30))[
        "weld, beam to sleeve", "weld metal"
    ]
    most = 0.6 * 70e3 * 0.707 * 3 / 16 * 1.5 * POUND / INCH
    winds = len(expected("one_post", (), ONE_POST_30).table.labels)
    middle = check.nominal[:winds]
    assert np.all(middle <= most * (1 + 1e-6))
    assert middle.max() == pytest.approx(most, rel=0.02)


def test_a_rail_by_hand():
    """45 ksi x 1.15 x 0.88 x 0.202 in3; 34.5 in from clamp to clamp, 1 at 2 ft, 0.94 at 3 ft."""
    now = expected("one_post", (), ONE_POST_30)
    for checker, name in (
        (rail_checks, "bending of the rail, both ways"),
        (local_rail_checks, "bending of the rail in a local gust"),
    ):
        check = found(checker, now)["rail", name]
        reach = np.ravel(next(s.value for s in check.steps if s.symbol == "M_a1"))[0]
        left = 1 - 0.06 * 10.5 / 12
        assert reach == pytest.approx(45e3 * 1.15 * 0.88 * 0.202 * left * POUND * INCH, rel=1e-3)


def test_no_rail_is_struck_harder_in_a_one_sided_gust_than_in_a_local_one():
    """At 30 deg, an arm of 9.86 ft2 between a2 and 4 a2: CN 3.9 local (ASCE/SEI 7-22 Fig. 30.5-1).

    One-sided: 1.8 x 2.6 = 4.68 on the windward half of case B (Fig. 27.3-4): 3.9 / 4.68.
    """
    now = solved("one_post", (), ONE_POST_30)
    share = struck(now)
    label = now.table.labels.index
    assert share[label("D + 0.6W, front, B, gust left")] == pytest.approx(3.9 / 4.68)
    assert share[label("D + 0.6W, front, B")] == 1.0
    assert np.all((share > 0) & (share <= 1))
    assert np.all(share[local_wind(now).pressure == 0] == 1)


def test_rails_under_corner_guys_bear_their_weight_alone_in_still_air():
    """Half a panel of 44 lb a rail at 10 deg, 11 lb at 16.5 in. on either side, and 1.89 lb/ft of
    30 in.: 179 + 70 in-lb. Of 45 ksi x 1.15 x 0.88 x 0.202 in3, 9.2 kip-in, that is 0.027.
    """
    now = expected("three_guyings", ("corner guys",))
    calm = at_gusts(now.block, now.table, np.arange(3), np.zeros(3))
    bending = found(rail_checks, calm)["rail", "bending of the rail, both ways"]
    assert np.nanmax(bending.let_go) == pytest.approx(0.027, rel=0.02)
    assert not list(tie_checks(expected("two_posts", ("ties",))))


def test_a_sleeve_not_told_of_is_expected_as_thick_as_the_post():
    """Post 5 in nominal, 0.258 in: 0.97 of it, not 0.97 of the 0.93 that the code counts."""
    now = expected("one_post", (), ONE_POST_30)
    wall, _ = sleeve_pipe(now)
    assert np.ravel(wall)[0] == pytest.approx(0.97 * 0.258 * INCH, rel=1e-4)
    told = expected("one_post", (), (*ONE_POST_30, ("[sleeve] wall", 'wall = "3/8 in"')))
    assert sleeve_pipe(told)[0] == pytest.approx(0.375 * INCH, rel=1e-6)
