"""Moves: a kept one must stand when its rack is solved afresh by the full search of every row."""

from itertools import chain

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.cost import pipe_weight
from frame.idealize.actions import STEEL_WEIGHT
from frame.named.aim import Key
from frame.plan.moves import moves
from frame.plan.offers import offers
from frame.rack.rack import Rack
from frame.records.results import Move
from frame.search.survey import CheckGusts, search
from frame.search.survived import NOTHING_LEARNED
from frame.search.weakest import weakest
from frame.solved.blocks import Block, solved_models
from tests.builders import case_models
from tests.decided import file_of, searched


def every_block(rack: Rack, bracing: tuple[str, ...]) -> tuple[Block, ...]:
    return solved_models(rack, bracing)


def least(gusts: list[float]) -> float:
    return min(gusts, default=float("inf"))


def by_rows(rack: Rack, bracing: tuple[str, ...]) -> tuple[float, float]:
    """Limit and let-go gust by the search of every row."""
    return lowest(search(every_block(rack, bracing)))


def lowest(searched: dict[Key, CheckGusts]) -> tuple[float, float]:
    found = searched.values()
    return (
        least([g.limit for g in found if g.limit is not None]),
        least([g.going.gust for g in found if g.going]),
    )


@pytest.fixture(scope="module")
def found() -> tuple[Move, ...]:
    text, name = file_of("boat_shed")
    return moves(text, parse_rack(text, name), ("guys",), NOTHING_LEARNED)


def test_kept_moves_raise_a_gust_and_lower_none(found: tuple[Move, ...]) -> None:
    assert 1 <= len(found) <= 3
    for move in found:
        assert move.limit_gust[1] >= move.limit_gust[0] * (1 - 1e-6)
        assert move.let_go_gust[1] >= move.let_go_gust[0] * (1 - 1e-6)
        assert (
            move.limit_gust[1] > 1.01 * move.limit_gust[0]
            or move.let_go_gust[1] > 1.01 * move.let_go_gust[0]
        )


def test_kept_moves_equal_a_fresh_solve_of_every_row(found: tuple[Move, ...]) -> None:
    for move in found:
        limit, let_go = by_rows(parse_rack(move.text, ""), ("guys",))
        assert move.limit_gust[1] == pytest.approx(limit, rel=1e-6)
        assert move.let_go_gust[1] == pytest.approx(let_go, rel=1e-6)


@pytest.mark.parametrize(
    ("name", "bracing"),
    [("boat_shed", ("knees", "guys")), ("wash_house", ("ties",)), ("salvage_yard", ())],
)
def test_the_quick_search_finds_what_the_search_of_every_row_finds(
    name: str, bracing: tuple[str, ...]
) -> None:
    quick = weakest(case_models(name, bracing))
    limit, let_go = lowest(searched(name, bracing))
    assert quick.limit_gust == pytest.approx(limit, rel=1e-6)
    assert quick.let_go_gust == pytest.approx(let_go, rel=1e-6)


@pytest.mark.parametrize("bracing", [(), ("knees",)])
def test_added_pipe_weighs_what_the_frame_puts_on_the_ground(
    bracing: tuple[str, ...],
) -> None:
    """Two ways: lengths times weights against the frame's reactions, for a bigger beam."""
    text, name = file_of("boat_shed")
    rack = parse_rack(text, name)
    sizes = chain.from_iterable(offers(rack, bracing, text))
    bigger = parse_rack(edited(text, next(o for o in sizes if "a beam of" in o.do).edits), name)
    rise = pipe_weight(bigger, bracing) - pipe_weight(rack, bracing)
    down = []
    for one in (bigger, rack):
        response = every_block(one, bracing)[0].frame.response
        at = response.model.load_index[STEEL_WEIGHT]
        down.append(response.reactions[at, :, 2].sum())
    assert rise == pytest.approx(down[0] - down[1], rel=0.01)
