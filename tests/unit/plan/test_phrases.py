"""Parts are named in sentences as one would say them in a shop (common practice, no source)."""

import pytest

from frame.named.limit_state import LimitState
from frame.named.part import (
    Edge,
    Part,
    PartKind,
    Side,
    Spot,
    anchor,
    guy,
    knee,
    lug,
    lugs,
    post,
    rail,
    rail_end,
    rail_ends,
    sleeve,
    stay,
    tie,
    wall,
    weld,
)
from frame.plan.phrases import happens, spoken

KNEE = knee(None, Side.LEFT)
GUY = guy("guys", Edge.BACK, Side.RIGHT)
SAID = {
    post(): "the post",
    post(2): "the 2nd post from the left",
    rail(11): "the 11th rail from the left",
    sleeve(1): "the sleeve of the 1st post from the left",
    KNEE: "the left knee",
    knee(3, Side.RIGHT): "the right knee of the 3rd post from the left",
    tie(Edge.LOWER): "the lower tie",
    GUY: "the back right guy",
    anchor(GUY): "the anchor of the back right guy",
    lug(KNEE): "the lug of the left knee",
    lugs("guys"): "a lug of the guys",
    rail_ends("corner guys"): "a rail end at the corner guys",
    rail_end(stay(Edge.BACK, Side.LEFT)): "the rail end at the back left stay",
    wall(PartKind.POST, lugs("guys")): "the post wall at a lug of the guys",
    weld(KNEE, PartKind.POST): "the weld of the left knee at the post",
    weld(sleeve(), PartKind.BEAM): "the weld of the beam to the sleeve",
    wall(PartKind.BEAM, KNEE): "the beam wall at the left knee",
    wall(PartKind.BEAM, sleeve()): "the beam wall at the sleeve",
    wall(PartKind.POST, Spot.TOP): "the post wall at its top",
    wall(PartKind.POST, Spot.SLEEVE_FOOT): "the post wall at the foot of the sleeve",
    Part(PartKind.HOLE, on=PartKind.POST): "the pin hole of the post",
}


@pytest.mark.parametrize("part", SAID, ids=str)
def test_a_part_is_named_as_one_would_say_it(part: Part) -> None:
    assert spoken(part) == SAID[part]


@pytest.mark.parametrize(
    ("part", "told"),
    [
        (post(2), "a post"),
        (KNEE, "a knee"),
        (lug(KNEE), "the lug of a knee"),
        (weld(knee(2, Side.LEFT), PartKind.POST), "the weld of a knee at the post"),
    ],
)
def test_of_parts_that_are_alike_any_is_named(part: Part, told: str) -> None:
    assert spoken(part, several=True) == told


def test_it_is_told_which_post_and_which_gust() -> None:
    """Two posts lean apart, and rails go in five ways: unlike rows do not read alike."""
    leans = happens(post(2), LimitState.POST_LEANING)
    assert leans == "the 2nd post from the left leans in the ground"
    assert happens(post(2), LimitState.POST_LEANING, several=True) == "a post leans in the ground"
    rails = Part(PartKind.RAIL)
    assert len({happens(rails, s) for s in LimitState if s.name.startswith("RAIL_")}) == 5
