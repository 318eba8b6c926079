"""The worst case of every check: picked by brute force, reduced by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.checks.check import Check, Step
from frame.parts.checkers import CHECKERS
from frame.parts.steel.pipes import pipe_checks
from frame.search.governing import by_case, governing, pick, run_checks
from frame.solved.situation import fixed, windy
from tests.builders import case, case_blocks

numbers = st.lists(st.floats(0, 10), min_size=6, max_size=6).map(lambda v: np.reshape(v, (3, 2)))


def made(demand, allowable=1.0, **more):
    return Check(
        name="made up",
        demand=demand,
        allowable=allowable,
        nominal=2.0,
        unit="N",
        source="made up",
        **more,
    )


@given(numbers)
def test_the_worst_place_of_a_case_is_picked_with_its_steps(demand):
    check = made(demand, steps=(Step("N", "pull", "", demand, "N"),), extra={"twice": 2 * demand})
    for case_at in range(3):
        hand = pick(check, case_at, 3)
        assert hand.demand == demand[case_at].max()
        assert hand.steps[0].value == hand.demand
        assert hand.extra["twice"] == 2 * hand.demand


def test_a_check_of_one_number_stands_for_every_case():
    hand = pick(made(0.5, 2.0), 2, 3)
    assert (hand.demand, hand.allowable, hand.nominal) == (0.5, 2.0, 2.0)
    assert by_case(np.array([0.25]), 4).tolist() == [0.25] * 4


def test_what_is_covered_and_comes_out_as_no_number_fails():
    """In the use, in the worst of a case and in what is picked; not covered stays nil."""
    demand = np.array([[0.1, np.nan], [0.4, 0.2], [0.3, np.nan]])
    check = made(demand, covered=np.array([[True, True], [True, True], [True, False]]))
    assert by_case(check.utilisation, 3).tolist() == [np.inf, 0.4, 0.3]
    assert by_case(check.let_go, 3).tolist() == [np.inf, 0.2, 0.15]
    assert np.isnan(pick(check, 0, 3).demand)
    assert pick(check, 2, 3).demand == 0.3
    assert made(np.nan, np.nan).utilisation == np.inf
    assert np.isnan(made(np.nan, covered=False).utilisation)


def test_largest_place_of_each_case_and_nil_where_not_covered():
    use = np.array([[0.1, np.nan], [0.4, 0.2], [np.inf, 0.0]])
    assert by_case(use, 3).tolist() == [0.1, 0.4, np.inf]


@pytest.mark.parametrize(
    ("name", "bracing"),
    [("boat_shed", ("knees", "guys")), ("wash_house", ()), ("fifteen_lines", ())],
)
def test_rows_are_the_worst_of_every_block_and_case(name, bracing):
    """Every check of every part: largest use over tilts, corners, winds and places."""
    gust = case(name).site.map_gust
    nows = [make for b in case_blocks(name, bracing) for make in (windy(b, gust), fixed(b))]
    largest: dict = {}
    for now in nows:
        for checker in CHECKERS:
            for part, check in checker(now):
                use = float(np.nan_to_num(check.utilisation, nan=0.0, posinf=np.inf).max())
                largest[part, check.name] = max(largest.get((part, check.name), 0.0), use)
    rows = governing(run_checks(nows, CHECKERS))
    assert {(r.part, r.check) for r in rows} == set(largest)
    assert [r.utilisation for r in rows] == sorted((r.utilisation for r in rows), reverse=True)
    for row in rows:
        assert row.utilisation == pytest.approx(largest[row.part, row.check])
        if row.covered and np.isfinite(row.utilisation) and row.allowable:
            assert row.demand / row.allowable == pytest.approx(row.utilisation, abs=1e-12)
        assert row.case
        assert row.words
        assert row.source


def test_the_unknown_that_decides_is_one_whose_other_end_is_kinder():
    """A post in soft ground and in stiff: named is the ground it is worst in, if it matters."""
    blocks = case_blocks("fifteen_lines")
    gust = case("fifteen_lines").site.map_gust
    nows = [windy(b, gust) for b in blocks]
    by_soil = {
        now.block.state.soil: max(
            float(np.nanmax(c.utilisation)) for part, c in pipe_checks(now) if part == "post"
        )
        for now in nows
    }
    worse = max(by_soil, key=by_soil.get)
    for row in governing(run_checks(nows, (pipe_checks,))):
        if row.part == "post":
            assert row.state.soil in by_soil
            if "ground" in row.decided_by:
                wet = "wet" in row.decided_by
                assert worse == ("soft" if wet else "stiff")
                assert max(by_soil.values()) > 1.05 * min(by_soil.values())
