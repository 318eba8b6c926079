"""One part gone, checked against the laws of one-way lines and against racks built without it."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import frame.whatif.losses as module
from frame.casefile.read import read_rack
from frame.loads.combinations import WHOLE_WIND
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.search.weakest import weakest
from frame.solved.blocks import Block, blocks, solved_models
from frame.solved.frames import solve_frames
from frame.whatif.losses import LostGuy, LostPart, losses, unstressed, without_part

CASES = Path(__file__).parents[3] / "cases"


@pytest.fixture(scope="module")
def rack() -> Rack:
    return read_rack(CASES / "boat_shed.toml")


def first_block(rack: Rack, bracing: tuple[str, ...]) -> Block:
    tilts = rack.tilts[-1:]
    return blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)[0]


def some_cases(block: Block, gust: float = 25.0) -> np.ndarray:
    return block.frame.cases(WHOLE_WIND).at(block.frame.pressure(gust))


def lengths_used(block: Block, factors: np.ndarray) -> np.ndarray:
    """How much each line is short of its attachment's distance, geometry alone (cases, guys).

    Stretch of wire and slack are what the solution says; how far the attachments moved from the
    shape under the weights alone comes from the displacements and the guys' directions.
    """
    answer, model = block.answer(factors), block.frame.ideal.model
    response = block.response
    weights = [response.model.load_index[n] for n in ("steel weight", "panel weight")]
    rest = np.tensordot(factors[:, weights], response.displacements[weights], axes=1)
    moved = answer.displacements - rest
    short = []
    for i, guy in enumerate(model.guys):
        line = np.subtract(guy.anchor, model.nodes[guy.node].xyz)
        way = line / np.linalg.norm(line)
        closer = moved[:, guy.node, :3] @ way
        wire = answer.tensions[:, i] * response.slackness[i]
        short.append(wire - answer.slack[:, i] + closer)
    return np.array(short).T


def test_the_other_guys_keep_their_unstressed_lengths(rack: Rack) -> None:
    whole = first_block(rack, ("guys",))
    lost = LostGuy(frame=whole.frame, bracing=whole.bracing, state=whole.state, lost=0)
    factors = some_cases(whole)
    before, after = lengths_used(whole, factors), lengths_used(lost, factors)
    assert np.allclose(before[:, 1:], after[:, 1:], atol=1e-9)
    assert np.allclose(before, unstressed(whole), atol=1e-9)
    assert not lost.answer(factors).tensions[:, 0].any()


def test_a_lost_brace_is_the_rack_without_that_brace_where_there_are_no_guys(rack: Rack) -> None:
    """Linear frame: both knees gone one after the other is the bare rack, but for their weight."""
    whole = first_block(rack, ("knees",))
    frame = without_part(without_part(whole.frame, "knee, left"), "knee, right")
    bare = first_block(rack, ())
    pushes = np.zeros((1, len(frame.ideal.model.unit_loads)))
    pushes[0, frame.ideal.model.load_index["panels, upper left"]] = 100.0
    gone = Block(frame=frame, bracing=("knees",), state=whole.state).answer(pushes)
    marks = (frame.ideal.marks, bare.frame.ideal.marks)
    ends = [m["beam end, left"] for m in marks]
    moved = gone.displacements[0, ends[0]], bare.answer(pushes).displacements[0, ends[1]]
    assert np.allclose(*moved, rtol=1e-5, atol=1e-9)


def test_guys_keep_their_unstressed_lengths_when_a_brace_goes(rack: Rack) -> None:
    """In still air the guy lines lengthen or shorten only as the frame settles without it."""
    whole = first_block(rack, ("knees", "guys"))
    frame = without_part(whole.frame, "knee, left")
    lost = LostPart(frame=frame, bracing=whole.bracing, state=whole.state, whole=whole)
    factors = some_cases(whole, 0.0)[:1]
    model = whole.frame.ideal.model
    weights = [model.load_index[n] for n in ("steel weight", "panel weight")]
    settled = [b.response.displacements[weights].sum(axis=0) for b in (whole, lost)]
    before, after = lengths_used(whole, factors)[0], lengths_used(lost, factors)[0]
    for i, guy in enumerate(model.guys):
        line = np.subtract(guy.anchor, model.nodes[guy.node].xyz)
        way = line / np.linalg.norm(line)
        closer = (settled[1] - settled[0])[guy.node, :3] @ way
        assert after[i] + closer == pytest.approx(before[i], abs=1e-9)


def test_the_worst_loss_comes_first_and_left_right_pairs_are_tried_once(
    rack: Rack, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = losses(rack, ("knees", "guys"), rack.tilts[-1:])
    assert [x.let_go_gust for x in found] == sorted(x.let_go_gust for x in found)
    assert {x.part for x in found} >= {"guy, front left", "guy, back left", "knee, left"}
    assert not [x.part for x in found if x.part.endswith("right")]
    lopsided = replace(
        rack,
        rails=replace(
            rack.rails, positions=(rack.rails.positions[0] + 0.05, *rack.rails.positions[1:])
        ),
    )
    # What each loss does was looked at above; here only which are tried.
    monkeypatch.setattr(module, "weakest", lambda *_: found[0].whole)
    parts = {x.part for x in losses(lopsided, ("guys",), rack.tilts[-1:])}
    assert {"guy, front left", "guy, front right"} <= parts


def test_the_only_set_bolt_gone_leaves_what_the_weight_rubs_against_swing(rack: Rack) -> None:
    lock = replace(rack.sleeve.lock, count=1)
    alone = replace(rack, sleeve=replace(rack.sleeve, lock=lock))
    lost = {x.part: x for x in losses(alone, (), rack.tilts[-1:])}
    assert 0.0 < lost["set bolt"].let_go_gust < 5.0


def test_a_pin_gone_leaves_nothing_against_swing_on_one_post_and_two_posts_need_none() -> None:
    def pinned(name: str, tilts: int = 1) -> list[str]:
        drawn = read_rack(CASES / f"{name}.toml")
        sleeve = replace(drawn.sleeve, lock=Pin(diameter=0.019))
        made = replace(drawn, sleeve=sleeve)
        found = losses(made, (), made.tilts[-tilts:])
        return [x.part for x in found if x.let_go_gust == 0]

    assert pinned("boat_shed") == ["through pin"]
    assert "through pin" not in pinned("wash_house")


def test_a_loss_tells_the_median_gusts_of_the_rack_without_the_part() -> None:
    """A rack drawn with one bolt less goes as the rack that lost it: the same median gusts."""
    drawn = read_rack(CASES / "boat_shed.toml")
    lock = replace(drawn.sleeve.lock, count=2)
    two = replace(drawn, sleeve=replace(drawn.sleeve, lock=lock))
    one = replace(drawn, sleeve=replace(drawn.sleeve, lock=replace(lock, count=1)))
    tilts = two.tilts[-1:]
    lost = {x.part: x for x in losses(two, (), tilts)}["set bolt"]
    drawn_so = weakest(solved_models(one, (), tilts))
    assert lost.let_go_gust == pytest.approx(drawn_so.let_go_gust, rel=1e-9)
    assert lost.act_by_gust == pytest.approx(drawn_so.act_by_gust, rel=1e-9)
    assert lost.limit_gust == pytest.approx(drawn_so.limit_gust, rel=1e-9)
    assert lost.whole.let_go_gust >= lost.let_go_gust
