"""anastruct against the space solver's own reduction, on the case files."""

from itertools import islice

import numpy as np
import pytest

from frame.fem.plane.model import RIGID
from frame.idealize.elevation import elevation, solve_twice
from frame.loads.combinations import ASD, WHOLE_WIND
from tests.builders import bare_and_all, case_blocks
from tests.often import often

SOME = often(23, 1)
"""Every so many cases are compared, others in each block and view; at length all of them."""


def worst(block, view: str, combinations, start: int = 0, step: int = 1) -> float:
    """Largest difference of movements, turns, forces, moments and pulls, each relative.

    Each is measured against the largest of its kind over the winds looked at: where a wind's
    lift happens to balance the weight, single precision leaves only rounding to compare. No case
    by itself may differ by more than ten times as much.
    """
    factors = block.frame.cases(combinations).at(block.frame.pressure(gust(block)))
    stiffness, pretension = block.band
    elev = elevation(block.with_band(stiffness), view)
    both = [
        solve_twice(elev, view, row, pretension, block.fitted)
        for row in islice(factors, start, None, step)
    ]
    assert max(b.worst for b in both) < 1e-3
    gap, size = (np.max(each, axis=0) for each in zip(*map(compared, both), strict=True))
    return float((gap[size > 0] / size[size > 0]).max())


def compared(both) -> tuple[np.ndarray, np.ndarray]:
    """Largest differences and largest sizes: movement, turn, N and V, M, guy pulls."""
    plane, space = both.plane, both.space
    shown = [i for i, m in enumerate(plane.frame.members) if m.kind != RIGID]
    forces = np.array([[[d.N[e], d.V[e], d.M[e]] for e in (0, -1)] for d in plane.diagrams])
    pairs = [
        (plane.displacements[:, :2], space.displacements[0, :, :2]),
        (plane.displacements[:, 2], space.displacements[0, :, 2]),
        (forces[..., :2], space.ends[0, shown, :, :2]),
        (forces[..., 2], space.ends[0, shown, :, 2]),
        (plane.tensions, space.tensions[0]),
    ]
    gap = [np.abs(a - b).max(initial=0) for a, b in pairs]
    return np.array(gap), np.array([np.abs(b).max(initial=0) for _, b in pairs])


def gust(block) -> float:
    """The file's map gust [m/s]."""
    return block.frame.rack.site.map_gust


@pytest.mark.parametrize(("name", "bracing"), bare_and_all())
def test_the_two_solvers_agree_in_every_combination_and_corner(name, bracing):
    """Every bracing, tilt and corner; weight, the code's combinations and the whole wind."""
    for i, block in enumerate(case_blocks(name, bracing)):
        for j, view in enumerate(("front", "side")):
            assert worst(block, view, (*ASD, *WHOLE_WIND[:1]), (i + j) % SOME, SOME) < 1e-4


def test_guys_are_slack_in_some_of_these_cases_and_taut_in_others():
    """Else the agreement would say little of them."""
    for name, bracing in (("boat_shed", ("guys",)), ("salvage_yard", ("corner guys",))):
        pulls = [
            b.answer(b.frame.cases(WHOLE_WIND[:1]).at(b.frame.pressure(gust(b)))).tensions[
                :, b.fitted
            ]
            for b in case_blocks(name, bracing)
        ]
        slack = np.concatenate(pulls) == 0
        assert slack.any(axis=0).all()
        assert (~slack).any(axis=0).all()
