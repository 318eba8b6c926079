"""Unknowns one at a time, against files that say what is known, and the law that knowing helps."""

from dataclasses import replace
from functools import cache

import pytest

from frame.idealize.state import State
from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.sleeve import sleeve_checks
from frame.search.weakest import lowest_limit
from frame.solved.frames import solve_frames
from frame.whatif.known_better import KnownBetter, known_better, ladder_of, limit_with
from frame.whatif.unknowns import Unknown, unknowns
from tests.builders import blocks_of, by_no_checks_but, case, changed
from tests.decided import searched

RACKS = [
    ("boat_shed", ("knees", "guys")),
    ("wash_house", ("ties",)),
    ("salvage_yard", ("post-top guys", "corner guys")),
    ("fifteen_lines", ()),
]
UNDER = "panels, free or blocked"


@cache
def of_case(name: str, bracing: tuple[str, ...]) -> KnownBetter:
    return known_better(case(name), bracing)


def with_end(rack, bracing, unknown: Unknown, number: int) -> float:
    frames = solve_frames(rack, [bracing], rack.tilts)
    return limit_with(rack, bracing, frames, (unknown.ends[number],))


def named(rack, bracing, words: str) -> Unknown:
    (found,) = (u for u in unknowns(rack, bracing) if words in u.name)
    return found


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_the_worst_is_the_answer_of_the_comparison(name, bracing):
    found = searched(name, bracing).values()
    worst = of_case(name, bracing).worst
    assert worst == pytest.approx(min(g.limit for g in found if g.limit is not None), rel=1e-6)


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_knowing_more_never_lowers_a_gust(name, bracing):
    """No end of any unknown, mixed corners of the guys among them, is worse than the worst."""
    rack = case(name)
    frames = solve_frames(rack, [bracing], rack.tilts)
    worst = limit_with(rack, bracing, frames, ())
    for unknown in unknowns(rack, bracing):
        for end in unknown.ends:
            found = limit_with(rack, bracing, frames, (end,))
            assert found >= worst * (1 - 1e-3), (unknown.name, end.words)


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_ranked_by_what_knowing_lifts_and_within_worst_and_best(name, bracing):
    found = of_case(name, bracing)
    ranks = [k.limit_gust for k in found.known]
    assert ranks == sorted(ranks, reverse=True)
    for known in found.known:
        assert found.worst <= known.limit_gust <= found.best * (1 + 1e-6)


FILES = [
    ("salvage_yard", UNDER, 0, (("[site]", '[site]\nflow = "clear"'),)),
    ("salvage_yard", UNDER, 1, (("[site]", '[site]\nflow = "obstructed"'),)),
    ("fifteen_lines", "torque left on the set bolts", 0,
     (("[beam]", '[sleeve]\njam_nuts = "yes"\n[beam]'),)),
    ("fifteen_lines", "the steel of the pipe", 0,
     (("[beam]", '[sleeve]\nsteel = "A53 B"\n[beam]\nsteel = "A53 B"'),
      ("[post]", '[post]\nsteel = "A53 B"'))),
]  # fmt: skip


@pytest.mark.parametrize(("name", "words", "number", "swaps"), FILES)
def test_what_is_known_equals_the_file_that_says_so(name, words, number, swaps):
    rack = case(name)
    found = with_end(rack, (), named(rack, (), words), number)
    told = lowest_limit(blocks_of(changed(name, *swaps))).gust
    assert found == pytest.approx(told, rel=1e-6)


def test_each_thing_that_is_known_shows_where_it_alone_decides():
    """Fifteen lines, a checker at a time: what the row is about is what decides."""
    rack = case("fifteen_lines")
    for words, checker in (
        ("torque left on the set bolts", sleeve_checks),
        ("the steel of the pipe", pipe_checks),
    ):
        with by_no_checks_but(checker):
            before = lowest_limit(blocks_of(rack)).gust
            assert with_end(rack, (), named(rack, (), words), 0) > before


def test_a_wall_that_was_measured_counts_as_the_file_with_its_calipers():
    """Tubing 2-7/8 in, 0.217 in of wall: 0.875 of it unmeasured, 0.93 of it measured."""
    listed = changed("fifteen_lines", ('"3 in nominal"', '"2-7/8 in tubing 6.5 lb/ft"'))
    calipers = changed(
        "fifteen_lines", ('"3 in nominal"', '{ od = "2-7/8 in", wall = "0.217 in" }')
    )
    unknown = named(listed, (), "wall of the beam")
    with by_no_checks_but(pipe_checks):
        found = with_end(listed, (), unknown, 0)
        told = lowest_limit(blocks_of(calipers)).gust
    assert found == pytest.approx(told, rel=1e-3)
    assert not [u for u in unknowns(calipers, ()) if "wall of the beam" in u.name]


def test_only_what_the_rack_has_is_unknown():
    rack = case("boat_shed")
    names = {u.name for u in unknowns(rack, ())}
    assert not any("guys" in n for n in names)
    assert any("guys" in u.name for u in unknowns(rack, ("guys",)))
    calm = replace(rack, site=replace(rack.site, flow=("clear",)))
    assert not any(UNDER in u.name for u in unknowns(calm, ()))
    states = {s for u in unknowns(rack, ("guys",)) for e in u.ends for s in e.state}
    assert states == set(State.__dataclass_fields__)


@pytest.mark.xdist_group("boat_shed")
def test_the_ladder_of_what_goes_is_that_of_the_whole_search():
    rack = case("boat_shed")
    found = searched("boat_shed", ()).values()
    gusts = sorted(g.going.gust for g in found if g.going)
    told = ladder_of(rack, (), {})
    assert [g.gust for g in told] == pytest.approx(gusts, rel=1e-6)
    assert all(g.low <= g.gust <= g.high for g in told)
    assert any(g.shifts for g in told)
