"""Every step by hand of every check on every case file comes to the number that the check has.

Each printed formula is worked out again by a parser of its own (`tests/step_check.py`), which
shares nothing with the checks, and what the last line says is the use that decides. So whatever a
check works out with numpy and writes as steps beside it cannot come apart unseen.
"""

import numpy as np
import pytest

from frame.parts.checkers import CHECKERS
from frame.solved.blocks import split
from frame.solved.situation import fixed, situation, whole_table, windy
from tests.builders import case_models, every_bracing, models_of
from tests.step_check import assert_steps
from tests.unit.parts.solved import changed

MODERATE, FIERCE = 15.0, 45.0
"""Gusts [m/s]: nothing much happens, and almost everything is over its strength."""


def all_at_once(check) -> list[np.ndarray]:
    """The use and the value of every step, at every place of every case."""
    return np.broadcast_arrays(check.utilisation, *(step.value for step in check.steps))


def places(use: np.ndarray) -> set[tuple[int, ...]]:
    """The worst place of all that the check covers and holds, the first and the last one."""
    told = np.flatnonzero(~np.isnan(use))
    if not len(told):
        return set()
    worst = told[np.argmax(np.nan_to_num(use.flat[told], posinf=-1.0))]
    return {tuple(map(int, np.unravel_index(i, use.shape))) for i in (told[0], worst, told[-1])}


CONCRETE = 'anchor = { kind = "concrete block", weight = "600 lb" }'
OTHERWISE = [
    ("one_post", ("guys",), (("anchor", 'anchor = "pickets"'),)),
    ("one_post", ("knees", "guys"), (("ends", 'ends = "pinned"'), ("anchor", CONCRETE))),
    (
        "two_posts",
        ("knees",),
        (("ends", 'ends = "pinned"'), ("[rails] tilt_stops", "tilt_stops = 2")),
    ),
    ("two_posts", (), (("[panels] rating", 'rating = "2400 Pa"'),)),
]
"""Racks with what no case file has: anchors, pinned knees, stops, rated panels."""


def hold(code, median) -> None:
    """Hold every step of every check of a block of either model."""
    nows = [
        windy(code, FIERCE),
        fixed(code),
        situation(code, whole_table(code), [MODERATE]),
        situation(median, whole_table(median), [0.0, MODERATE, FIERCE]),
    ]
    for now in nows:
        for checker in CHECKERS:
            for _, check in checker(now):
                use, *steps = all_at_once(check)
                told = ~np.isnan(use)
                np.testing.assert_allclose(
                    steps[-1][told], use[told], rtol=1e-9, err_msg=check.name
                )
                for place in places(use):
                    assert_steps(check, place)


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_every_step_comes_to_the_number(name, bracing):
    hold(*(blocks[0] for blocks in split(case_models(name, bracing))))


@pytest.mark.parametrize(("name", "bracing", "changes"), OTHERWISE)
def test_every_step_of_racks_built_otherwise(name, bracing, changes):
    rack = changed(name, changes)
    hold(*(blocks[0] for blocks in split(models_of(rack, bracing, rack.tilts[:1]))))
