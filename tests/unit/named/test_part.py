"""Parts by their ids: what they print, and what is the same of whichever post or side."""

import copy
import pickle

import pytest

from frame.named import part as p
from frame.named.part import FOUR_WAYS, Edge, Part, PartKind, Side, Spot

KNEE = p.knee(2, Side.LEFT)
GUY = p.guy("post-top guys", Edge.FRONT, Side.LEFT)


@pytest.mark.parametrize(
    ("part", "printed"),
    [
        (p.post(), "post"),
        (p.post(3), "post 3"),
        (KNEE, "knee 2, left"),
        (p.knee(None, Side.RIGHT), "knee, right"),
        (p.tie(Edge.LOWER), "tie, lower"),
        (p.stay(Edge.BACK, Side.RIGHT), "stay, back right"),
        (GUY, "post-top guy, front left"),
        (p.anchor(GUY), "post-top guy anchor, front left"),
        (p.weld(KNEE, PartKind.BEAM), "weld, knee 2, left at beam"),
        (p.weld(p.sleeve(), PartKind.BEAM), "weld, beam to sleeve"),
        (p.weld(p.lugs("guys")), "weld, lugs of guys"),
        (p.wall(PartKind.POST, KNEE), "post wall at knee 2, left"),
        (p.wall(PartKind.POST, Spot.SLEEVE_FOOT), "post wall at foot of sleeve"),
        (p.PIN_HOLE, "post at pin hole"),
        (p.rail_ends("corner guys"), "rail ends of corner guys"),
        (p.rail_end(p.stay(Edge.BACK, Side.RIGHT)), "rail end, stay, back right"),
    ],
)
def test_words_are_those_of_the_json_of_every_version(part: Part, printed: str) -> None:
    """JSON keys and values are stable: these stood in it before parts had ids."""
    assert str(part) == printed
    assert f"{part}" == printed
    assert part == printed


def test_whichever_post_or_side() -> None:
    weld = p.weld(KNEE, PartKind.BEAM)
    assert weld.unnumbered == p.weld(p.knee(None, Side.LEFT), PartKind.BEAM)
    other = p.weld(p.knee(2, Side.RIGHT), PartKind.BEAM)
    assert weld.unsided == other.unsided != weld
    assert GUY.unsided != p.guy("post-top guys", Edge.BACK, Side.LEFT).unsided


def test_a_part_is_frozen_and_copies_keep_its_ids() -> None:
    with pytest.raises(AttributeError):
        KNEE.side = Side.RIGHT  # type: ignore[misc]
    for made in (copy.deepcopy(KNEE), pickle.loads(pickle.dumps(KNEE))):
        assert (made.kind, made.number, made.side) == (PartKind.KNEE, 2, Side.LEFT)


def test_four_corners() -> None:
    assert len(set(FOUR_WAYS)) == 4
    assert len({p.guy("guys", *way) for way in FOUR_WAYS}) == 4
