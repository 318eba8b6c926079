"""The search for the lowest gust, on made-up checks whose crossings are known in closed form."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.checks.check import Check
from frame.named.limit_state import LimitState
from frame.named.part import RACK
from frame.search.grid import TOP
from frame.search.survey import search
from frame.solved.blocks import split
from tests.builders import MPH, by_no_checks_but, case_models

CODE, MEDIAN = split(case_models("fifteen_lines"))
BLOCKS = (CODE[0], MEDIAN[0])


def made(use, strength=1.0, *, everywhere=True):
    """A check whose use is a function of (case, gust) [m/s], covered where that is a number."""

    def checker(now):
        demand = np.asarray(use(now.case, now.gust), dtype=float)
        yield (
            "thing",
            Check(
                name="made up",
                demand=demand,
                allowable=1.0,
                nominal=strength,
                unit="",
                source="made up",
                covered=True if everywhere else ~np.isnan(demand),
            ),
        )

    return checker


def found(use, strength=1.0, **more):
    with by_no_checks_but(made(use, strength, **more)):
        return search(BLOCKS)["thing", "made up"]


@given(st.floats(5, 85))
def test_a_use_that_grows_with_pressure_crosses_where_it_should(gust):
    at = found(lambda case, V: (V / gust) ** 2 + 0 * case)
    assert at.whole == pytest.approx(gust, rel=1e-8)
    assert at.limit == pytest.approx(gust / np.sqrt(0.6)) or at.limit is None


@given(st.floats(10, 60), st.floats(1.1, 3))
def test_strength_is_reached_later_than_the_allowable(gust, margin):
    """Use against the strength is 1 / margin of it: V grows by the square root of the margin."""
    at = found(lambda case, V: (V / gust) ** 2 + 0 * case, margin)
    later = gust * np.sqrt(margin)
    if later < TOP:
        assert at.going.gust == pytest.approx(later, rel=1e-8)
    else:
        assert at.going is None


def test_the_worst_case_of_all_decides_and_is_named():
    worst = 7
    at = found(lambda case, V: (V / np.where(case == worst, 30.0, 31.0)) ** 2)
    assert at.whole == pytest.approx(30.0, rel=1e-8)
    labels = BLOCKS[1].frame.expected.table.labels
    assert at.going.case == labels[worst]


@given(st.floats(12, 80))
def test_a_use_that_jumps_is_found_at_its_jump(gust):
    at = found(lambda case, V: np.where(gust > V, 0.4, 1.7) + 0 * case)
    assert at.whole == pytest.approx(gust, rel=1e-6)
    assert at.whole >= gust * (1 - 1e-12)


def test_if_a_part_passes_again_at_a_higher_gust_the_lowest_stands():
    """Lift first eases a check and then turns it: use 1 - 3 x + 2.5 x2 with x = (V / 50)2.

    Over 1 in still air is 0; started at 0.9 it comes back to 1 at the larger root of
    2.5 x2 - 3 x - 0.1 = 0, x = (3 + sqrt 10) / 5.
    """
    at = found(lambda case, V: 0.9 - 3 * (V / 50) ** 2 + 2.5 * (V / 50) ** 4 + 0 * case)
    assert at.whole == pytest.approx(50 * np.sqrt((3 + np.sqrt(10)) / 5), rel=1e-8)
    hump = found(lambda case, V: np.where(V < 70, 1.2 * np.sin(np.pi * V / 70), 0) + 0 * case)
    assert hump.whole == pytest.approx(70 / np.pi * np.arcsin(1 / 1.2), rel=1e-6)


def test_what_fails_in_still_air_has_nil_and_what_never_fails_has_none():
    assert found(lambda case, V: 1.0 + 0 * case + 0 * V).whole == 0
    never = found(lambda case, V: 0.999 * (V / TOP) ** 2 + 0 * case)
    assert never.whole is None
    assert never.going is None
    assert never.limit is None


def test_a_limit_over_the_highest_gust_is_none_though_it_is_acted_on_below():
    """Act-by at 170 mph: the code's margin would last to 170 / sqrt 0.6 = 219 mph."""
    at = found(lambda case, V: (V / (170 * MPH)) ** 2 + 0 * case)
    assert at.whole == pytest.approx(170 * MPH)
    assert at.limit is None


def test_what_is_not_covered_never_decides():
    """Nan in the use, as where a formula does not apply."""
    at = found(lambda case, V: np.where(case == 3, np.nan, (V / 40) ** 2), everywhere=False)
    assert at.whole == pytest.approx(40, rel=1e-8)


def test_what_is_covered_but_no_number_fails_at_any_gust():
    at = found(lambda case, V: np.where(case == 3, np.nan, (V / 40) ** 2))
    assert at.whole < 1e-6


@pytest.mark.parametrize(("brace", "toppling"), [(120.0, 180.0), (75.0, 95.0), (150.0, 165.0)])
def test_a_brace_pressed_until_the_rack_topples_and_not_after_is_found(brace, toppling):
    """Its use goes with the pressure, as toppling does, and is nil once that is reached."""

    def checker(now):
        for part, name, gust in (
            (RACK, LimitState.TOPPLES, toppling),
            ("brace", "made up", brace),
        ):
            use = (now.gust / MPH / gust) ** 2 + 0.0 * now.case
            if part == "brace":
                use = np.where(now.gust / MPH < toppling, use, 0.0)
            yield (
                part,
                Check(
                    name=name, demand=use, allowable=1.0, nominal=1.0, unit="", source="made up"
                ),
            )

    with by_no_checks_but(checker):
        at = search(BLOCKS)["brace", "made up"]
    assert at.whole / MPH == pytest.approx(brace, rel=1e-8)
    assert at.going.gust / MPH == pytest.approx(brace, rel=1e-8)
