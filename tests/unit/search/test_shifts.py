"""Ends of a range from shifts of one input at a time, against sums and extremes of normals."""

import numpy as np
import pytest
from scipy.stats import norm

from frame.search.shifts import drawn_ends
from frame.tables.expected import variants

NEAR = 0.03
"""Part by which the ends of a few thousand draws may be off."""


def by_case(*cases: dict[tuple[str, bool], float], middles=None) -> np.ndarray:
    """Ln(gust) of cases in every variant, from the shifts that are not nil."""
    middles = middles or [3.0] * len(cases)
    return np.array(
        [
            [middle + shifts.get((v.key, v.high), 0.0) for v in variants()]
            for middle, shifts in zip(middles, cases, strict=True)
        ]
    )


def both_ways(**shifts: float) -> dict[tuple[str, bool], float]:
    """Inputs that shift as far down at the low end as up at the high one."""
    return {(key, high): by if high else -by for key, by in shifts.items() for high in (0, 1)}


def test_shifts_straight_in_their_scores_add_up_by_their_squares():
    """Sum of independent normals: 0.03, 0.04 and 0.12 make 0.13."""
    low, high = drawn_ends(by_case(both_ways(weld=0.03, rail=0.04, wall=-0.12)))
    assert low == pytest.approx(-0.13, rel=NEAR)
    assert high == pytest.approx(0.13, rel=NEAR)


def test_one_input_alone_gives_its_own_ends_on_either_side():
    low, high = drawn_ends(by_case({("clay", False): -0.4, ("clay", True): 0.2}))
    assert low == pytest.approx(-0.4, rel=NEAR)
    assert high == pytest.approx(0.2, rel=NEAR)


def test_what_shifts_one_way_at_both_ends_never_shifts_the_other():
    """Half the draws lie on each side: a tenth of all at the score of a twentieth in each half."""
    low, high = drawn_ends(by_case({("case_b", False): -0.1, ("case_b", True): -0.1}))
    assert low == pytest.approx(-0.1 * norm.ppf(0.95) / norm.ppf(0.9), rel=NEAR)
    assert -0.02 < high <= 0


def test_a_case_that_never_goes_first_changes_nothing():
    one = both_ways(weld=0.1)
    alone = drawn_ends(by_case(one))
    np.testing.assert_allclose(drawn_ends(by_case(one, one)), alone)
    np.testing.assert_allclose(drawn_ends(by_case(one, one, middles=[3.0, 9.0])), alone)


def test_of_two_cases_that_go_by_themselves_the_least_goes_first():
    """Least of two independent normals: 1 - (1 - F)^2 is 0.1 and 0.9."""
    low, high = drawn_ends(by_case(both_ways(weld=0.1), both_ways(rail=0.1)))
    spread = 0.1 / norm.ppf(0.9)
    assert low == pytest.approx(spread * norm.ppf(1 - np.sqrt(0.9)), abs=NEAR * 0.1)
    assert high == pytest.approx(spread * norm.ppf(1 - np.sqrt(0.1)), abs=NEAR * 0.1)
