"""Pipe with a plate in slots, in pull: what is left of it, and the steps."""

from dataclasses import replace

import numpy as np
import pytest

from frame.checks.steel import pipe
from frame.checks.steel.slotted import SlottedEnd
from tests.step_check import assert_steps, printed
from tests.unit.checks.test_pipe import round_pipe

SLOTS = SlottedEnd(length=0.1, width=0.008, plate=0.006)


@pytest.mark.parametrize("expected", [False, True])
def test_steps(expected: bool) -> None:
    pull = np.array([1e4, -1e4])
    check = pipe.tension(round_pipe(), pull, replace(SLOTS, expected=expected))
    for case in range(2):
        assert_steps(check, case)


def test_half_a_ring_pulls_past_its_plate_at_its_own_middle() -> None:
    """Distance of half a thin ring off the middle plane, summed along it: D/pi."""
    turn = np.linspace(0, np.pi, 100_001)
    middle = float(np.mean(np.sin(turn))) * 0.05
    steps = pipe.tension(round_pipe(0.1), 1.0, SLOTS).steps
    assert printed(steps, "x") == pytest.approx(middle, rel=1e-4)
    assert printed(steps, "lag") == pytest.approx(1 - middle / 0.1, rel=1e-4)


def test_longer_slots_leave_more_and_the_code_counts_on_less_than_is_expected() -> None:
    """In the end all of the net area is left: the pipe less 2 x 5.6 x 8 mm of slots."""
    length = np.array([0.1143, 0.15, 0.3, 50.0])
    counted, met = (
        printed(
            pipe.tension(
                round_pipe(), 1e4, replace(SLOTS, length=length, expected=expected)
            ).steps,
            "net",
        )
        for expected in (False, True)
    )
    net = 1 - 2 * 0.0056 * 0.008 / (np.pi * (0.1143 - 0.0056) * 0.0056)
    for left in (counted, met):
        assert np.all(np.diff(left) > 0)
        assert left[-1] == pytest.approx(net, rel=1e-3)
    assert np.all(counted <= met)
