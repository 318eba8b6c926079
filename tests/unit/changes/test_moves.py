"""Moves: a kept one must stand when its rack is solved afresh by the full search of every row."""

from pathlib import Path

import pytest

from frame.casefile.read import read_rack
from frame.changes.catalogue import changes, stronger
from frame.changes.cost import pipe_weight
from frame.changes.moves import Move, moves
from frame.idealize.actions import STEEL
from frame.parts.checkers import CHECKERS
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.records.results import BracingResult
from frame.search.survey import search, survey
from frame.search.weakest import weakest
from frame.solved.frames import Block, solved_models
from frame.units import INCH

CASES = Path(__file__).parents[3] / "cases"


def every_block(rack: Rack, bracing: tuple[str, ...]) -> tuple[Block, ...]:
    return solved_models(rack, bracing)


def least(gusts: list[float]) -> float:
    return min(gusts, default=float("inf"))


def by_rows(rack: Rack, bracing: tuple[str, ...]) -> tuple[float, float]:
    """Limit and let-go gust by the search of every row."""
    found = search(every_block(rack, bracing), CHECKERS).values()
    return (
        least([g.limit for g in found if g.limit is not None]),
        least([g.going.gust for g in found if g.going]),
    )


def result_of(rack: Rack, bracing: tuple[str, ...]) -> BracingResult:
    found = every_block(rack, bracing)
    rows = survey(found, CHECKERS)
    return BracingResult(
        bracing=bracing,
        title="",
        sag=None,
        sway=None,
        swing=None,
        rows=rows,
        braces=(),
        guys=(),
        steel=0.0,
        added_steel=0.0,
        effort=0.0,
        agreement=None,
    )


@pytest.fixture(scope="module")
def rack() -> Rack:
    return read_rack(CASES / "boat_shed.toml")


@pytest.fixture(scope="module")
def found(rack: Rack) -> tuple[Move, ...]:
    return moves(rack, result_of(rack, ("guys",)), CHECKERS)


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
        limit, let_go = by_rows(move.rack, move.bracing)
        assert move.limit_gust[1] == pytest.approx(limit, rel=1e-6)
        assert move.let_go_gust[1] == pytest.approx(let_go, rel=1e-6)


@pytest.mark.parametrize(
    ("case", "bracing"),
    [("boat_shed", ("knees", "guys")), ("wash_house", ("ties",)), ("salvage_yard", ())],
)
def test_the_quick_search_finds_what_the_search_of_every_row_finds(
    case: str, bracing: tuple[str, ...]
) -> None:
    rack = read_rack(CASES / f"{case}.toml")
    quick = weakest(every_block(rack, bracing), CHECKERS)
    limit, let_go = by_rows(rack, bracing)
    assert quick.limit_gust == pytest.approx(limit, rel=1e-6)
    assert quick.let_go_gust == pytest.approx(let_go, rel=1e-6)


def test_every_change_gives_a_rack_that_solves(rack: Rack) -> None:
    made = list(changes(rack, ("knees", "guys")))
    assert len({c.words for c in made}) == len(made) >= 12
    assert any(isinstance(c.rack.sleeve.lock, Pin) for c in made)
    for change in made:
        every_block(change.rack, change.bracing)


def test_stronger_pipes_are_no_smaller_and_bend_less(rack: Rack) -> None:
    bigger = stronger(rack.beam.pipe)
    assert bigger[0].od >= 3.99 * INCH  # 3-1/2 nominal is 4.000 in outside, ASME B36.10M
    assert all(p.design.elastic_modulus > rack.beam.pipe.design.elastic_modulus for p in bigger)


@pytest.mark.parametrize("bracing", [(), ("knees",)])
def test_added_pipe_weighs_what_the_frame_puts_on_the_ground(
    rack: Rack, bracing: tuple[str, ...]
) -> None:
    """Two ways: lengths times weights against the frame's reactions, for a bigger beam."""
    change = next(c for c in changes(rack, bracing) if c.words.startswith("a beam of"))
    rise = pipe_weight(change.rack, bracing) - pipe_weight(rack, bracing)
    down = []
    for one in (change.rack, rack):
        response = every_block(one, bracing)[0].frame.response
        at = response.model.load_index[STEEL]
        down.append(response.reactions[at, :, 2].sum())
    assert rise == pytest.approx(down[0] - down[1], rel=0.01)
