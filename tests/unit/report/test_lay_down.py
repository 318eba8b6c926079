"""The lay-down card in words, from curves made up by hand."""

import math

import pytest
from rich.console import Console

from frame.checks.check import Check, Kind
from frame.named.limit_state import LimitState
from frame.named.part import BEAM, SET_BOLT, U_BOLT, Part, post
from frame.records.going import Going
from frame.report import going_words, lay_down
from frame.search.weakest import Limit
from frame.tables.limit_states import by_limit_state
from frame.units import DEG, MPH
from frame.whatif.tilts import AtTilt, TiltCurve
from frame.whatif.tilts import lay_down as stages_of
from tests.builders import case

HAND = Check(name="", demand=1.0, allowable=1.0, nominal=1.0, unit="1", source="")
MILD = {
    "grip against swing", "post turning in the ground", "post in ground, leaning",
    "post in ground, pressed down", "post in ground, pulled up", "wall bearing at the sleeve",
}  # fmt: skip


def going(part: Part, check: str, kind: Kind, low: float, gust: float, tilt: float) -> Going:
    return Going(
        part=part, check=check, kind=kind, gust=gust * MPH, low=low * MPH, high=1.5 * gust * MPH,
        case="", words="", tilt=tilt * DEG, shifts=(), hand=HAND,
    )  # fmt: skip


def point(tilt: float, *some: Going, own: bool = True) -> AtTilt:
    covered = 8 <= tilt <= 45
    return AtTilt(tilt=tilt * DEG, limit=Limit(9.0), going=some, covered=covered, own=own)


def said(*points: AtTilt, system: str = "us") -> str:
    curve = TiltCurve(bracing=(), title="bare", points=points)
    out = Console(width=400, record=True, file=None, highlight=False)
    with out.capture() as told:
        out.print(
            lay_down.lay_down_card(case("boat_shed"), curve, stages_of(curve), "why", system)
        )
    return told.get()


def tilts(tilt: float, low: float, gust: float) -> Going:
    return going(U_BOLT, "grip of the U-bolt", Kind.TILTS, low, gust, tilt)


def turns(tilt: float, low: float, gust: float) -> Going:
    return going(SET_BOLT, "grip against swing", Kind.TURNS, low, gust, tilt)


def test_each_line_says_before_which_gust_to_do_what() -> None:
    text = said(
        point(15, tilts(15, 50.6, 70), own=False),
        point(35, turns(35, 15, 24), tilts(35, 30.2, 40)),
    )
    assert "30 mph   from 35 deg to 15 deg or flatter, not under 8 deg" in text
    assert "50 mph   panels off the calm day before" in text
    assert "the U-bolts slip and the panels tilt at about 40 mph (30 to 60) at 35 deg" in text
    assert "Apart    the set bolt slips and the beam turns at about 24 mph (15 to 36)" in text
    assert "Cure: a through pin, or more, thicker or tighter set bolts." in text
    assert len(text.splitlines()) <= 10


def test_a_tilt_that_ends_a_stage_is_named_with_what_the_stage_stands_alone() -> None:
    """From 40 deg at 73 mph; 20 deg, a tilt of the file, stands 81, 35 deg alone 89."""
    sideways = going(post(), "post in ground, sideways", Kind.BREAKS, 73.6, 109, 40)
    steep, flat = point(40, sideways), point(20, tilts(20, 81.5, 117))
    between = point(35, tilts(35, 89.2, 116), own=False)
    text = said(flat, between, steep)
    assert "73 mph   from 40 deg to 35 deg or flatter" in text
    assert "81 mph   panels off" in text
    assert "the panels tilt at about 117 mph (81 to 175) at 20 deg" in text
    limit = (
        "Limit    81 mph is what 20 deg stands, a tilt of the file; kept at 35 deg it is good to "
    )
    assert f"{limit}89 mph." in text
    hole = point(25, tilts(25, 70.0, 100), own=False)
    assert "to 35 deg, or to 20 deg, nothing between" in said(flat, hole, between, steep)
    near = point(25, tilts(25, 80.6, 116), own=False)
    passed = said(point(10, tilts(10, 60, 90), own=False), flat, near, between, steep)
    assert "from 40 deg to anything from 20 deg to 35 deg, not flatter" in passed
    assert "80 mph is what 25 deg stands, on the way to 20 deg, a tilt of the file" in passed


def test_what_slips_after_the_panels_are_off_is_not_warned_of() -> None:
    assert "Apart" not in said(point(30, tilts(30, 30, 40), turns(30, 40, 70)))


def test_tilts_without_an_answer_and_racks_that_go_in_still_air_are_said_so() -> None:
    text = said(point(30, tilts(30, 30, 40)), point(50, tilts(50, 1, 2)))
    assert "no answer at 50 deg" in text
    assert "30 mph   panels off" in text
    text = said(point(30, going(BEAM, "pull", Kind.BREAKS, 0, 0, 30)))
    assert "do not hang them: no tilt stands still air" in text
    assert "the beam tears in still air" in text
    assert "no answer at 5 deg" in said(point(5, tilts(5, 30, 40)))
    assert "leave it at 30 deg: no gust looked at is too much" in said(point(30))


def test_what_leans_no_way_is_said_to_dent_or_sink() -> None:
    """A wall cannot lean, and a post pressed down stands plumb: plain words, judgement."""
    checks = (
        "wall bearing at the sleeve",
        "post in ground, pressed down",
        "post in ground, leaning",
    )
    found = [going(post(), LimitState(c), Kind.LEANS, 1, 2, 3) for c in checks]
    assert [going_words.how(one) for one in found] == ["dents", "sinks", "leans"]


def test_metric_gusts_are_metric() -> None:
    assert "13 m/s" in said(point(30, tilts(30, 30, 40)), system="metric")  # 30 mph


@pytest.mark.parametrize("check", sorted(MILD))
def test_every_slip_that_leaves_the_rack_standing_has_a_cure(check: str) -> None:
    assert going_words.cure(going(U_BOLT, check, Kind.TURNS, 1, 2, 3))


def test_cures_are_for_checks_that_have_words() -> None:
    assert set(by_limit_state("slip_cures")) <= set(by_limit_state("check_words"))


def test_ranges_read_alike() -> None:
    some = tilts(30, 25.9, 33.9)
    assert going_words.ranged(some, "us") == "33 (25 to 50)"
    assert going_words.ranged(None, "us") == "none"
    assert going_words.ranged(going("a", "b", Kind.LEANS, 0, 0, 1), "us") == "still air"
    assert going_words.forecast(math.inf, "us") == "none"
    lowest = going_words.mildest([point(30, turns(30, 20, 30)), point(45, turns(45, 15, 25))])
    assert [g.gust for g in lowest] == [25 * MPH]
