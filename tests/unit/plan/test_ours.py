"""Bracing of our own: knees that no file has to make room for."""

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import Edits, edited
from frame.changes.offered import all_series
from frame.changes.series import Thing
from frame.changes.stock import supply
from frame.plan.ours import described
from frame.rack.rack import Rack
from tests.builders import INCH
from tests.decided import file_of

LONGEST = {"us": 24 * INCH, "metric": 0.6}
"""Longest sleeve that is cut, judgement; no longer than half the post's height either."""


def sleeves(rack: Rack, text: str) -> list[object]:
    """Return the lengths of sleeve on offer."""
    found = {s.thing: s for s in all_series(rack, (), supply(rack, text))}
    rungs = found[Thing.SLEEVE_LENGTH].rungs
    return [value for rung in rungs for value in rung.edits.values()]


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("post", ["4 in nominal", "6 in nominal"])
@pytest.mark.parametrize("high", ["5 ft 6 in", "6 ft 4 in", "10 ft"])
def test_knees_of_ours_leave_every_sleeve_on_offer_its_room(
    units: str, post: str, high: str
) -> None:
    text, name = file_of("fifteen_lines")
    changes: Edits = {("post", "pipe"): post, ("post", "height"): high}
    text = edited(text, changes)
    bare = parse_rack(text, name, units)
    ours = described(text, bare)
    braced = parse_rack(ours, name, units)
    assert braced.knees is not None
    assert braced.knees.drop < 0.75 * bare.posts.height
    assert sleeves(braced, ours) == sleeves(bare, text)
    for length in sleeves(braced, ours):
        longer: Edits = {("sleeve", "length"): str(length)}
        assert (
            parse_rack(edited(ours, longer), name, units).sleeve.length <= LONGEST[units] * 1.001
        )


@pytest.mark.parametrize("length", ["8 in", "16 in", "24 in", "30 in", "40 in"])
@pytest.mark.parametrize("beam", ["2 ft", "4 ft", "10 ft"])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_what_is_described_can_always_be_read(length: str, beam: str, units: str) -> None:
    """Short arms and long sleeves leave knees no room: then there are none, and no complaint."""
    text, name = file_of("fifteen_lines")
    changes: Edits = {
        ("sleeve", "length"): length,
        ("beam", "length"): beam,
        ("panels", "across"): 1,
        ("panels", "size"): "18 in x 30 in",
        ("panels", "weight"): "10 lb",
        ("post", "pipe"): "6 in nominal",
    }
    text = edited(text, changes)
    rack = parse_rack(text, name, units)
    assert "guys" in parse_rack(described(text, rack), name, units).bracing_names
