import numpy as np
import pytest

from frame.checks.ground.post_lateral import (
    bearing_width,
    doubled,
    expected_width,
    presumptive_free,
    presumptive_held,
)
from frame.checks.ground.post_ultimate import (
    ExpectedSand,
    expected_clay,
    expected_sand,
    ultimate_clay,
    ultimate_sand,
)
from tests.step_check import assert_steps

P, D = np.array([0.0, 800.0, 4e3]), np.array([1.0, 1.4, 5.0])
FREE = presumptive_free(P, 2e3, D, 0.3, 2e4, 0.3)
CLAY = ultimate_clay(P, 2e3, D, 0.3, 25e3, np.array([0.1, 0.6, 0.0]))
SAND = ultimate_sand(P, 2e3, D, 0.3, 9e3, 0.52, 0.3)
FIRM = expected_clay(P, 2e3, D, 0.3, 48e3, np.array([0.1, 0.6, 0.0]))
MOIST = expected_sand(P, 2e3, D, 0.3, ExpectedSand(17e3, 0.6, np.array([0.7, 1.0, 1.4])), 0.3)


@pytest.mark.parametrize(
    "check",
    [FREE, CLAY, SAND, FIRM, MOIST, presumptive_held(P + 1, D, 0.3, 2e4)],
    ids=lambda c: c.name,
)
@pytest.mark.parametrize("i", [0, 1, 2])
def test_steps(check, i):
    assert_steps(check, (i,))


def test_steps_with_plain_numbers_and_no_load():
    assert_steps(presumptive_free(800.0, 2e3, 1.5, 0.3, 2e4))
    assert_steps(ultimate_clay(0.0, 0.0, 1.5, 0.3, 25e3))
    assert_steps(ultimate_sand(0.0, 0.0, 1.5, 0.3, 9e3, 0.52))
    assert float(ultimate_sand(0.0, 0.0, 1.5, 0.3, 9e3, 0.52).let_go) == 0


def test_presumptive_rule_never_says_what_lets_go():
    assert np.all(FREE.let_go == 0)


def test_post_that_ends_in_the_ignored_top_is_not_covered():
    for check in (
        presumptive_free(1e3, 0.0, 0.3, 0.3, 2e4, 0.3),
        ultimate_clay(1e3, 0.0, 0.4, 0.3, 25e3, 0.4),
        ultimate_sand(1e3, 0.0, 0.2, 0.3, 9e3, 0.52, 0.3),
        presumptive_free(1e3, 0.0, 2.0, 0.3, 0.0),
        ultimate_sand(1e3, 0.0, 1.2, 0.3, 9e3, 0.1),
    ):
        assert np.isnan(check.utilisation)
        assert np.isnan(check.let_go)


def test_senses_do_not_matter():
    a = [presumptive_free(s * 1e3, t * 2e3, 1.5, 0.3, 2e4) for s in (1, -1) for t in (1, -1)]
    assert len({float(c.utilisation) for c in a}) == 1


def test_only_a_single_free_standing_post_is_doubled():
    assert doubled(1.5e4, posts=1, guyed=False) == 3e4
    assert doubled(1.5e4, posts=1, guyed=True) == 1.5e4
    assert doubled(1.5e4, posts=2, guyed=False) == 1.5e4


def test_only_concrete_fills_the_hole():
    assert bearing_width(0.1, 0.3, "concrete") == 0.3
    assert bearing_width(0.1, 0.3, "earth") == 0.1
    assert expected_width(0.1, 0.3, "concrete") == 0.3
    assert expected_width(0.1, 0.3, "earth") == pytest.approx(0.125)
    assert expected_width(0.1, 0.11, "gravel") == pytest.approx(0.11)
