"""Two solvers, one reduction: anastruct and the space frame's T' K T give the same answers."""

import numpy as np
import pytest

from frame.idealize.elevation import agreement, elevation
from tests.builders_plane import rack_like, wind


@pytest.mark.parametrize("view", ["front", "side"])
@pytest.mark.parametrize("seed", range(50))
def test_the_two_solvers_agree(seed, view):
    """Movements, rotations, tensions, slack lengths and end forces of one strong wind case."""
    model = rack_like(seed)
    assert agreement(elevation(model, view), view, wind(model, seed)).worst < 1e-4


@pytest.mark.parametrize("guys", ["lug", "beam end", "corner"])
def test_guys_go_slack_and_both_solvers_say_which(guys):
    """Over a few winds each kind of guying has slack and taut guys, with slack lengths alike."""
    seen = set()
    for seed in range(100, 106):
        model = rack_like(seed, guys=guys)
        for view in ("front", "side"):
            answer = agreement(model, view, 3 * wind(model, seed))
            assert answer.worst < 1e-4
            slack = answer.space.tensions[0] == 0
            seen.update(slack.tolist())
            assert (answer.plane.slack[slack] > -1e-7).all()
            assert (answer.plane.tensions[~slack] > 0).all()
    assert seen == {True, False}


def test_a_guy_left_off_changes_the_answer_but_not_the_agreement():
    model = rack_like(7, guys="beam end", knees=None, stays=False)
    factors = wind(model, 7)
    whole = agreement(model, "front", factors)
    part = agreement(model, "front", factors, fitted=np.array([True, False, True, False]))
    assert part.worst < 1e-4
    assert part.space.tensions[0, [1, 3]].tolist() == [0, 0]
    assert np.abs(part.space.displacements - whole.space.displacements).max() > 1e-4


@pytest.mark.parametrize("ends", ["pinned", "welded"])
def test_fitting_knees_after_the_panels_leaves_the_sag(ends):
    """Dead load on the bare frame: knees fitted after carry none of it, in both solvers."""
    made = {f: rack_like(3, knees=ends, knees_fitted=f, posts=1, stays=False, guys=None)
            for f in ("before", "after")}  # fmt: skip
    dead = np.array([1.0, 1.0, 0, 0, 0, 0, 0, 0])
    answers = {f: agreement(m, "front", dead) for f, m in made.items()}
    sag = {f: np.abs(a.plane.displacements[:, 1]).max() for f, a in answers.items()}
    assert sag["after"] > 1.05 * sag["before"]
    assert max(a.worst for a in answers.values()) < 1e-4
    assert answers["after"].plane.axial("knee, left") == 0
    assert answers["before"].plane.axial("knee, left") < 0
