"""Values a file leaves half open: a weight between two, a wall by its gauge."""

import pickle

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.starter import starter_text
from frame.errors import InputError
from frame.rack.rack import Rack

INCH, POUND = 0.0254, 4.4482216152605  # NIST SP 811, appendix B


def changed(old: str, new: str) -> Rack:
    text = starter_text()
    assert old in text
    return parse_rack(text.replace(old, new, 1), "mine.toml")


def told(rack: Rack, key: str) -> str:
    return next(a.value for a in rack.assumptions if a.key == key)


@pytest.mark.parametrize("said", ["48-52 lb", "48 to 52 lb", "48 lb - 52 lb", "48\u201352 lb"])
def test_of_two_weights_of_a_panel_the_heavier_counts_and_is_said(said: str) -> None:
    rack = changed('weight = "49 lb"', f'weight = "{said}"')
    assert rack.panels.weight == pytest.approx(52 * POUND)
    assert told(rack, "panels.weight") == f'52 lb, of "{said}"'


def test_a_block_that_holds_a_guy_is_not_taken_at_its_heavier() -> None:
    old = 'anchor = { kind = "deadman", depth = "4 ft", height = "10 in", length = "4 ft" }'
    with pytest.raises(InputError, match=r"anchor.weight: .* gives two values"):
        changed(old, 'anchor = { kind = "concrete block", weight = "500-600 lb" }')


@pytest.mark.parametrize("said", ["7 ga", "7ga.", "7 gauge", "#7 GA"])
def test_a_wall_by_its_gauge_counts_as_sheet_and_is_said(said: str) -> None:
    """No. 7 of the Manufacturers' Standard Gauge: 0.1793 in, from memory of the standard."""
    pipe = f'pipe = {{ od = "4-1/2 in", wall = "{said}" }}'
    rack = changed('pipe = "5 in nominal"', pipe)
    assert rack.posts.pipe.wall == pytest.approx(0.1793 * INCH, rel=0.01)
    assert told(rack, "post.pipe.wall") == f'0.179 in, of "{said}"'


def test_a_rack_with_values_half_open_can_be_sent_to_another_process() -> None:
    rack = changed('weight = "49 lb"', 'weight = "48-52 lb"')
    assert pickle.loads(pickle.dumps(rack)) == rack
