"""Pieces weigh what the frame's dead load has of them, but for what is told beside each."""

import pytest

from frame.idealize.actions import SLEEVE_WEIGHT
from frame.idealize.build import build
from frame.idealize.state import State
from frame.rack.rack import Rack
from frame.shop.steel.cut_list import cut_list
from tests.builders import CASES, case
from tests.often import often
from tests.random_racks import random_rack


def dead_load(rack: Rack) -> float:
    """Weight of the steel in the frame [N]: nodes and members of its unit load."""
    model = build(rack, rack.tilts[0], rack.bracing_names, State()).model
    load = next(u for u in model.unit_loads if u.name == "steel weight")
    total = -sum(force[2] for _, force in load.nodes)
    for index, w in load.members:
        member = model.members[index]
        ends = [
            [a + b for a, b in zip(model.nodes[n].xyz, s, strict=True)]
            for n, s in zip(member.ends, member.setback, strict=True)
        ]
        span = sum((a - b) ** 2 for a, b in zip(*ends, strict=True)) ** 0.5
        total -= w[2] * span
    return total


@pytest.mark.parametrize("rack", [*CASES, *range(often(6, 12))], ids=str)
def test_pieces_weigh_the_dead_load_of_the_frame(rack: str | int) -> None:
    """The frame runs posts to the beam's axis, braces from axis to axis, rounds the sleeve.

    Bolts, clamps and the straps under several U-bolts are not in it.
    """
    found = case(rack) if isinstance(rack, str) else random_rack(rack)
    pieces = {p.name: p for p in cut_list(found, found.bracing_names, found.tilts[0])}
    posts, sleeve = found.posts, pieces["sleeve"]
    more = len(posts.positions) * posts.pipe.weight * found.beam.pipe.od / 2
    guessed = SLEEVE_WEIGHT * posts.pipe.weight * found.sleeve.length
    more += sleeve.count * (guessed - sleeve.weight)
    if found.knees:
        knee = pieces["knee"]
        more += knee.count * (found.knees.pipe.weight * found.knees.work_length - knee.weight)
    tie = pieces.get("tie rail")
    if tie and found.ties:
        more -= tie.count * found.ties.channel.weight * found.rails.channel.width
    total = sum(p.count * p.weight for name, p in pieces.items() if name != "strap")
    assert total + more == pytest.approx(dead_load(found), rel=2e-3)
    assert sleeve.weight == pytest.approx(guessed, rel=0.5)
