"""Where the beam has nodes and strips of wind begin and end, by hand; posts not in the middle."""

from dataclasses import replace

import pytest

from frame.idealize.actions import strip_windows
from frame.idealize.posts import beam_stations
from tests.builders import case

BOAT = case("boat")
UNEVEN = replace(BOAT, posts=replace(BOAT.posts, positions=(-1.7, 0.4, 1.5)), knees=None)


def test_each_span_has_a_node_midway_between_its_posts() -> None:
    marks = {mark: x for x, mark in beam_stations(UNEVEN)}
    assert marks["beam midspan 1"] == pytest.approx((-1.7 + 0.4) / 2)
    assert marks["beam midspan 2"] == pytest.approx((0.4 + 1.5) / 2)
    ends = marks["beam end, left"], marks["beam end, right"]
    assert ends == pytest.approx((-BOAT.beam.length / 2, BOAT.beam.length / 2))


def test_knees_reach_as_far_to_either_side_of_their_own_post() -> None:
    """Boat shed: 30 in. of reach."""
    rack = replace(BOAT, posts=replace(BOAT.posts, positions=(-1.2, 0.9)))
    marks = {mark: x for x, mark in beam_stations(rack)}
    knees = sorted(x for mark, x in marks.items() if "knee" in mark)
    assert knees == pytest.approx([-1.2 - 0.762, -1.2 + 0.762, 0.9 - 0.762, 0.9 + 0.762])


@pytest.mark.parametrize("beside", [6e-4, -6e-4])
def test_a_knee_beside_a_rail_shares_its_place_alike_on_both_sides(beside: float) -> None:
    """The inner of the two: the rail, or the knee where that ends nearer the middle."""
    rail = next(x for x in BOAT.rails.positions if x > 0.4)
    rack = replace(BOAT, knees=replace(BOAT.knees, reach=rail + beside))
    marks = {mark: x for x, mark in beam_stations(rack)}
    knees = marks["beam at knee of post, left"], marks["beam at knee of post, right"]
    inner = rail + min(beside, 0.0)
    assert knees == pytest.approx((-inner, inner), abs=1e-12)
    rails = sorted(x for mark, x in marks.items() if "rail" in mark)
    assert rails == pytest.approx(sorted(-x for x in rails), abs=1e-12)
    assert any(x == marks["beam at knee of post, right"] for x in rails)


@pytest.mark.parametrize(
    ("heights", "by_hand"),
    [
        (0.4, [(-0.5, -0.1), (-0.1, 0.3), (0.3, 0.5)]),
        (0.6, [(-0.5, 0.1), (0.1, 0.5)]),
        (0.5, [(-0.5, 0.0), (0.0, 0.5)]),
        (1.0, [(-0.5, 0.5)]),
        (0.2, [(-0.5, -0.3), (-0.3, -0.1), (-0.1, 0.5)]),
    ],
)
def test_strips_of_wind_along_the_beam_end_with_the_panels(heights, by_hand) -> None:
    """ASCE/SEI 7-22 Fig. 27.3-7: one height, two, and all beyond, from the windward edge.

    As shares of the panels' spread; from the right the mirror image.
    """
    spread = BOAT.panels.spread
    found = strip_windows(BOAT, heights * spread)
    assert len(found) == 2 * len(by_hand)
    for i, (near, far) in enumerate(by_hand, start=1):
        left, right = found[f"strip {i} from left"], found[f"strip {i} from right"]
        assert left == pytest.approx((near * spread, far * spread), abs=1e-12)
        assert right == pytest.approx((-far * spread, -near * spread), abs=1e-12)
