"""The wall under a lug: limits, what lets go when, step by step."""

import numpy as np
import pytest

from frame.checks.welds.lug_wall import LugPull, LugWall, lug_wall
from frame.units import KSI
from tests.step_check import assert_steps

WALL = {
    "od": 0.1143,
    "wall": 0.0056,
    "length": 0.0762,
    "arm": 0.0381,
    "yield_stress": 30 * KSI,
    "tensile": 48 * KSI,
}


def check(*loads, stress=0.0, **change):
    normal, along, side = loads or (5e3, 4e3, 20.0)
    pull = LugPull(normal=normal, along=along, side=side)
    return lug_wall(pull, LugWall(**{**WALL, **change}), stress)


@pytest.mark.parametrize(
    "change",
    [
        {"wall": 0.0022},
        {"wall": 0.0026, "crossed": True},
        {"length": 0.5},
        {"yield_stress": 55 * KSI, "tensile": 75 * KSI},
        {"tensile": 36 * KSI},
    ],
)
def test_outside_the_limits_there_is_no_number(change):
    assert np.isnan(check(**change).utilisation)
    assert not np.isnan(check().utilisation)


def test_thicker_wall_and_longer_lug_are_used_less():
    assert check(wall=0.007).utilisation < check().utilisation
    assert check(length=0.1, arm=0.0381).utilisation < check().utilisation


def test_at_an_open_end_half_is_left_every_way():
    """AISC 360-22 K: half near an uncapped end (from memory of the standard)."""
    for loads in ((5e3, 0.0, 0.0), (0.0, 4e3, 0.0), (0.0, 0.0, 20.0)):
        ended = check(*loads, open_end=True)
        assert ended.utilisation == pytest.approx(2 * check(*loads).utilisation)
        assert ended.let_go == pytest.approx(2 * check(*loads).let_go)
    assert_steps(check(5e3, 4e3, 20.0, stress=5e7, open_end=True))


def test_a_squeezed_pipe_has_less_left_and_lets_go_later():
    """By hand: fc = 0.6 Fy leaves 0.4 at allowable, 1 - 0.3 x 0.6 x 1.6 = 0.712 at nominal."""
    squeezed = check(stress=18 * KSI)
    assert squeezed.utilisation == pytest.approx(check().utilisation / 0.4)
    assert squeezed.utilisation / squeezed.let_go == pytest.approx(1.67 * 0.712 / 0.4)


def test_where_nothing_is_allowed_the_nominal_use_is_solved_by_itself():
    """By hand: fc = 0.9 Fy leaves nothing at allowable, 1 - 0.3 x 0.9 x 1.9 = 0.487 at nominal."""
    squeezed, free = check(stress=27 * KSI), check()
    assert squeezed.utilisation == np.inf
    assert squeezed.let_go == pytest.approx(free.let_go / 0.487)
    assert check(0.0, 0.0, 0.0, stress=27 * KSI).let_go == 0


def test_expected_strength_is_the_nominal_one_at_what_is_expected():
    pull = LugPull(5e3, 4e3, 20.0)
    tested = np.array([0.9, 1.2, 1.5])
    made = lug_wall(pull, LugWall(**WALL), 12 * KSI, tested)
    assert made.utilisation == pytest.approx(made.let_go)
    assert made.let_go == pytest.approx(check(stress=12 * KSI).let_go / tested)
    for case in range(3):
        assert_steps(made, case)


def test_steps():
    made = check(np.array([0.0, -3e3, 8e3]), 2e3, -15.0, stress=5e7)
    for case in range(3):
        assert_steps(made, case)
    assert check(0.0, 0.0, 0.0).utilisation == 0
