"""Splices of the beam: the pipe's own forces at their place, the weld's share of its strength."""

import numpy as np
import pytest

from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.splices import splice_checks
from tests.unit.parts.solved import ONE_POST_30, found, solved, value, worst

MIDDLE = ("[beam] splices", 'splices = ["0 in", "10 in"]')


def spliced(*more):
    return solved("one_post", (), (*ONE_POST_30, *more))


def test_no_splice_no_check():
    assert not found(splice_checks, spliced())


def test_a_splice_over_the_post_has_the_moment_of_the_beam_there():
    """Second route: the beam's own check has it at the end of one of its members."""
    now = spliced(MIDDLE)
    (at,) = found(splice_checks, now).values()
    (beam,) = (c for (part, _), c in found(pipe_checks, now).items() if part == "beam")
    mine = value(now, at, "My")
    assert np.abs(mine[0]) == pytest.approx(np.abs(value(now, beam, "My")).max(), rel=1e-6)
    assert np.abs(mine[1]) < np.abs(mine[0])


def test_a_better_weld_lowers_the_use():
    poor, good = (
        found(splice_checks, spliced(MIDDLE, ("[beam] splice_e", f"splice_efficiency = {e}")))
        for e in (0.5, 0.9)
    )
    for key, check in good.items():
        assert worst(check) < worst(poor[key])
