"""Two solvers, one reduction: anastruct and the space frame's T' K T give the same answers.

They share neither stiffness matrices, nor places (single precision in one of them), nor rigid
pieces (exact in one of them). `ALIKE` is a tenth of what the program must reach, 0.01 %.
"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.idealize.elevation import elevation, solve_twice
from frame.loads.combinations import WHOLE_WIND
from tests.builders import WEIGHT, blocks_of, changed, only, racks
from tests.builders_plane import rack_like, wind
from tests.often import often

ALIKE = 1e-5


@pytest.mark.parametrize("view", ["front", "side"])
@pytest.mark.parametrize("seed", range(often(20, 50)))
def test_the_two_solvers_agree(seed, view):
    """Movements, rotations, tensions, slack lengths and end forces of one strong wind case."""
    model = rack_like(seed)
    assert solve_twice(elevation(model, view), view, wind(model, seed)).worst < ALIKE


@pytest.mark.parametrize("guys", ["lug", "beam end", "corner"])
def test_guys_go_slack_and_both_solvers_say_which(guys):
    """Over a few winds each kind of guying has slack and taut guys, with slack lengths alike."""
    seen = set()
    for seed in range(100, 106):
        model = rack_like(seed, guys=guys)
        for view in ("front", "side"):
            answer = solve_twice(model, view, 3 * wind(model, seed))
            assert answer.worst < ALIKE
            slack = answer.space.tensions[0] == 0
            seen.update(slack.tolist())
            assert (answer.plane.slack[slack] > -1e-7).all()
            assert (answer.plane.tensions[~slack] > 0).all()
    assert seen == {True, False}


def test_a_guy_left_off_changes_the_answer_but_not_the_agreement():
    model = rack_like(7, guys="beam end", knees=None, stays=False)
    factors = wind(model, 7)
    whole = solve_twice(model, "front", factors)
    part = solve_twice(model, "front", factors, fitted=np.array([True, False, True, False]))
    assert part.worst < ALIKE
    assert part.space.tensions[0, [1, 3]].tolist() == [0, 0]
    assert np.abs(part.space.displacements - whole.space.displacements).max() > 1e-4


@pytest.mark.parametrize("ends", ["pinned", "welded"])
def test_fitting_knees_after_the_panels_leaves_the_sag(ends):
    """Dead load on the bare frame: knees fitted after carry none of it, in both solvers."""
    made = {f: rack_like(3, knees=ends, knees_fitted=f, posts=1, stays=False, guys=None)
            for f in ("before", "after")}  # fmt: skip
    dead = np.array([1.0, 1.0, 0, 0, 0, 0, 0, 0])
    answers = {f: solve_twice(m, "front", dead) for f, m in made.items()}
    sag = {f: np.abs(a.plane.displacements[:, 1]).max() for f, a in answers.items()}
    assert sag["after"] > 1.05 * sag["before"]
    assert max(a.worst for a in answers.values()) < ALIKE
    assert answers["after"].plane.axial("knee, left") == 0
    assert answers["before"].plane.axial("knee, left") < 0


def differ(block, gust: float, chosen: slice = slice(None)) -> float:
    """Largest difference in some winds of a block, both views."""
    factors = block.frame.cases(WHOLE_WIND[:1]).at(block.frame.pressure(gust))[chosen]
    stiffness, pretension = block.band
    model = block.with_band(stiffness)
    return max(
        solve_twice(elev, elev.frame.view, row, pretension, block.fitted).worst
        for elev in (elevation(model, "front"), elevation(model, "side"))
        for row in factors
    )


@given(racks(), st.integers(1, 5))
def test_the_two_solvers_agree_on_any_rack(rack, first):
    """Racks of one to four posts with every bracing they have, a few winds each."""
    block = blocks_of(rack, rack.bracing_names)[0]
    assert differ(block, rack.site.map_gust, slice(first, None, 6)) < 1e-4


KNEES = """
[knees]
pipe = "1-1/2 in nominal"
drop = "2 ft"
reach = "2 ft"
"""
FOUR_POSTS = (
    ("across = 3", "across = 13"),
    ('depth = "5 ft"', 'depth = "5 ft"\ncount = 4\nspacing = "11 ft"'),
    ('pipe = "4 in nominal"', 'pipe = { od = "76 mm", wall = "5 mm" }'),
    ('length = "10 ft"', 'length = "13.6 m"'),
)


@pytest.mark.parametrize("knees", ["", KNEES])
@pytest.mark.parametrize(
    "swaps", [FOUR_POSTS, [('height = "6 ft 4 in"', 'height = "72 ft"')]], ids=["wide", "tall"]
)
def test_the_two_solvers_agree_on_wide_and_on_tall_racks(swaps, knees):
    """A short stiff piece between long soft ones costs either solver the most digits."""
    rack = changed("fifteen_lines", *swaps, more=knees)
    for bracing in rack.bracings():
        for block in blocks_of(rack, bracing)[::5]:
            assert differ(block, rack.site.map_gust, slice(None, None, 9)) < ALIKE


@pytest.mark.parametrize("gap", [1.2e-3, 1e-3, 0.6e-3, -0.6e-3, -1e-3])
def test_a_rack_alike_left_and_right_does_not_lean_under_its_own_weight(gap):
    """Symmetry: no sway and no turn at the post, though a knee ends a millimetre beside a rail.

    From a millimetre on, the piece of beam between them is 1e8 times stiffer than the arm, and
    the stiffness added to it lost. Any nearer they share a node, on both sides of the post alike.
    """
    rack = changed("fifteen_lines", more=KNEES)
    beside = next(x for x in rack.rails.positions if x > 0.4) + gap
    rack = replace(rack, knees=replace(rack.knees, reach=beside))
    block = blocks_of(rack, rack.bracing_names)[0]
    elev = elevation(block.frame.ideal.model, "front")
    answer = solve_twice(elev, "front", only(block, **WEIGHT))
    assert answer.worst < ALIKE
    top = [n.name for n in elev.frame.nodes].index("post top")
    sag = np.abs(answer.space.displacements[0, :, 1]).max()
    for moved in (answer.space.displacements[0, top], answer.plane.displacements[top]):
        assert np.abs(moved[[0, 2]]).max() < 1e-8 * sag
