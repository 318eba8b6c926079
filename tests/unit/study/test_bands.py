"""Unknowns one at a time, against files that say what is known, and the law that knowing helps."""

from dataclasses import replace

import numpy as np
import pytest

from frame.idealize.state import State
from frame.loads.cases import WHOLE_WIND
from frame.study.bands import bands, solved
from frame.study.checkers import CHECKERS
from frame.study.frames import solve_frames
from frame.study.gusts import search
from frame.study.parts.pipes import pipe_checks
from frame.study.parts.sleeve import sleeve_checks
from frame.study.parts.u_bolts import u_bolt_checks
from frame.study.situation import situation
from frame.study.unknowns import Unknown, unknowns
from frame.study.weakest import weakest
from tests.builders import blocks_of, case, changed

RACKS = [
    ("boat_shed", ("knees", "guys")),
    ("wash_house", ("ties",)),
    ("salvage_yard", ("post-top guys", "corner guys")),
    ("fifteen_lines", ()),
]
UNDER = "panels, free or blocked"


def with_end(rack, bracing, unknown: Unknown, number: int, checkers):
    frames = solve_frames(rack, [bracing], rack.tilts)
    return solved(rack, bracing, checkers, frames, (unknown.ends[number],))


def named(rack, bracing, words: str) -> Unknown:
    (found,) = (u for u in unknowns(rack, bracing) if words in u.name)
    return found


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_the_worst_is_the_answer_of_the_comparison(name, bracing):
    rack = case(name)
    found = search(blocks_of(rack, bracing), CHECKERS).values()
    worst = bands(rack, bracing, CHECKERS).worst
    assert worst.limit_gust == pytest.approx(
        min(g.limit for g in found if g.limit is not None), rel=1e-6
    )
    assert worst.let_go_gust == pytest.approx(
        min(g.let_go.gust for g in found if g.let_go), rel=1e-6
    )


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_knowing_more_never_lowers_a_gust(name, bracing):
    """No end of any unknown, mixed corners of the guys among them, is worse than the worst."""
    rack = case(name)
    frames = solve_frames(rack, [bracing], rack.tilts)
    worst = solved(rack, bracing, CHECKERS, frames, ())
    for unknown in unknowns(rack, bracing):
        for end in unknown.ends:
            found = solved(rack, bracing, CHECKERS, frames, (end,))
            assert found.act_by_gust >= worst.act_by_gust * (1 - 1e-3), (unknown.name, end.words)
            assert found.let_go_gust >= worst.let_go_gust * (1 - 1e-3), (unknown.name, end.words)


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_ranked_by_what_knowing_lifts_and_within_worst_and_best(name, bracing):
    found = bands(case(name), bracing, CHECKERS)
    ranks = [(k.limit_gust, k.let_go_gust) for k in found.known]
    assert ranks == sorted(ranks, reverse=True)
    for known in found.known:
        assert known.act_by_gust >= found.worst.act_by_gust
        assert known.act_by_gust <= found.best.act_by_gust * (1 + 1e-6)


# Nuts so loose that twice their torque does not bring the rod to its proof load.
LOOSE_NUTS = ("[beam]", '[rails]\nu_bolt_torque = "6 ft-lb"\n[beam]')
FILES = [
    ("salvage_yard", UNDER, 0, (("[site]", '[site]\nflow = "clear"'),)),
    ("salvage_yard", UNDER, 1, (("[site]", '[site]\nflow = "obstructed"'),)),
    ("fifteen_lines", "torque left on the set bolts", 0,
     (("[beam]", '[sleeve]\njam_nuts = "yes"\n[beam]'),)),
    ("fifteen_lines", "the steel of the pipe", 0,
     (("[beam]", '[sleeve]\nsteel = "A53 B"\n[beam]\nsteel = "A53 B"'),
      ("[post]", '[post]\nsteel = "A53 B"'))),
    # Twice the torque is twice the preload: all of it kept instead of half (Shigley Eq. 8-27).
    ("fifteen_lines", "torque left on the U-bolts", 0,
     (("6 ft-lb", "12 ft-lb"),)),
    # One set bolt holds by the textbook's table twice what the cautious chart gives, and what it
    # holds grows with its torque: the high end is the low one at 60 ft-lb instead of 30.
    ("fifteen_lines", "what a set bolt holds", 0,
     (("[beam]", '[sleeve]\nset_bolt_torque = "60 ft-lb"\n[beam]'),)),
]  # fmt: skip


@pytest.mark.parametrize(("name", "words", "number", "swaps"), FILES)
def test_what_is_known_equals_the_file_that_says_so(name, words, number, swaps):
    loose = (LOOSE_NUTS,) if name == "fifteen_lines" else ()
    rack = changed(name, *loose)
    found = with_end(rack, (), named(rack, (), words), number, CHECKERS)
    told = weakest(blocks_of(changed(name, *loose, *swaps)), CHECKERS)
    assert found.act_by_gust == pytest.approx(told.act_by_gust, rel=1e-6)
    assert found.let_go_gust == pytest.approx(told.let_go_gust, rel=1e-6)


def test_each_thing_that_is_known_shows_where_it_alone_decides():
    """Fifteen lines, a checker at a time: what the row is about is what lets go."""
    rack = case("fifteen_lines")
    for words, number, checkers in (
        ("what a set bolt holds", 0, (sleeve_checks,)),
        ("torque left on the U-bolts", 0, (u_bolt_checks,)),
        ("the steel of the pipe", 0, (pipe_checks,)),
    ):
        unknown = named(rack, (), words)
        before = weakest(blocks_of(rack), checkers)
        assert with_end(rack, (), unknown, number, checkers).act_by_gust > before.act_by_gust


def test_rough_steel_holds_twice_what_galvanised_does():
    """Friction 0.3 against 0.15: at the gust found the low grip is used twice over."""
    rack = case("fifteen_lines")
    high = with_end(rack, (), named(rack, (), "friction of rail"), 0, (u_bolt_checks,)).act_by
    block = next(b for b in blocks_of(rack) if b.state.soil == high.state.soil)
    now = situation(block, block.frame.cases(WHOLE_WIND), [high.gust])
    grip = next(c for _, c in u_bolt_checks(now) if c.name == high.check)
    assert np.nanmax(grip.utilisation) == pytest.approx(2.0, rel=1e-5)


def test_a_wall_that_was_measured_counts_as_the_file_with_its_calipers():
    """Tubing 2-7/8 in, 0.217 in of wall: 0.875 of it unmeasured, 0.93 of it measured."""
    listed = changed("fifteen_lines", ('"3 in nominal"', '"2-7/8 in tubing 6.5 lb/ft"'))
    calipers = changed(
        "fifteen_lines", ('"3 in nominal"', '{ od = "2-7/8 in", wall = "0.217 in" }')
    )
    unknown = named(listed, (), "wall of the beam")
    found = with_end(listed, (), unknown, 0, (pipe_checks,))
    told = weakest(blocks_of(calipers), (pipe_checks,))
    assert found.act_by_gust == pytest.approx(told.act_by_gust, rel=1e-3)
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
