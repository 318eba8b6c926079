"""Of a rack that stands only what is new is cut and bought."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from frame.changes.thrown_away import concrete_to_pour
from frame.page import page
from frame.rack.rack import KNEES
from frame.shop.buying.there import StandingRack
from frame.shop.job import Job, Wanted, make_job
from tests.builders import FOOT, INCH, POUND, case


def test_knees_on_a_standing_rack_are_all_that_is_cut() -> None:
    """The post is 2 ft longer too: that is a new one; everything else hangs already."""
    rack = case("boat_shed")
    standing = StandingRack(rack=rack, bracing=())
    footing = replace(rack.posts.footing, depth=rack.posts.footing.depth + 2 * FOOT)
    deeper = replace(rack, posts=replace(rack.posts, footing=footing))
    job = make_job(deeper, (KNEES,), Wanted(standing=standing))
    there = {p.name: job.there.count_of(p) for p in job.pieces}
    assert there["post"] == there["knee"] == 0
    assert there["sleeve"] == there["beam"] == 1
    assert there["rail"] == len(rack.rails.positions)
    named = {t.name for t in job.templates}
    assert "sleeve" not in named
    bought = {i.name for i in job.shopping.items}
    assert rack.posts.pipe.label in bought
    assert rack.beam.pipe.label not in bought
    alone = make_job(deeper, (KNEES,))
    assert not alone.there.count
    (mine,) = (i for i in job.shopping.items if i.name == "concrete")
    (new,) = (i for i in alone.shopping.items if i.name == "concrete")
    assert mine.amount == pytest.approx(new.amount)


def test_more_rails_are_those_that_are_missing() -> None:
    rack = case("boat_shed")
    places = tuple(1.01 * x for x in rack.rails.positions)
    few = replace(rack, rails=replace(rack.rails, positions=places[1:-1]))
    job = make_job(rack, (), Wanted(standing=StandingRack(rack=few, bracing=())))
    (rail,) = (p for p in job.pieces if p.name == "rail")
    assert rail.count - job.there.count_of(rail) == 2


def to_buy(job: Job) -> dict[str, float]:
    """What one rack still wants of everything."""
    return {i.name: i.to_buy(1) for i in job.shopping.items}


def test_bolts_and_guys_that_are_on_are_not_bought_again() -> None:
    """Counted by hand: two U-bolts on each of 8 rails, four guys, four clamps to a panel."""
    rack = replace(case("boat_shed"), stands=True)
    guyed = Wanted(standing=StandingRack(rack=rack, bracing=("guys",)))
    kneed = to_buy(make_job(rack, (KNEES, "guys"), guyed))
    u_bolt = next(name for name in kneed if name.startswith("U-bolt"))
    wire, clamp = rack.guys[0].wire.name, "panel clamp with 1/4 in bolt and channel nut"
    there = ("set bolt 1/2 in, full thread", wire, clamp, u_bolt)
    assert [kneed[name] for name in there] == [0, pytest.approx(0), 0, 0]
    assert kneed[rack.knees.pipe.label] > 0
    assert kneed["paint"] < to_buy(make_job(rack, (KNEES, "guys")))["paint"]
    bare = Wanted(standing=StandingRack(rack=rack, bracing=()))
    first = to_buy(make_job(rack, ("guys",), bare))
    assert first[wire] > 0
    assert first[u_bolt] == 0
    beam = replace(rack.beam, pipe=replace(rack.beam.pipe, od=4.5 * INCH, label="4 in nominal"))
    thicker = to_buy(make_job(replace(rack, beam=beam), (), bare))
    other = next(name for name in thicker if name.startswith("U-bolt"))
    assert thicker[other] == 16, "they are bent for the old beam"
    assert thicker["set bolt 1/2 in, full thread"] == 2, "the sleeve is cut for the old beam"
    assert thicker[clamp] == 0


def test_the_page_too_lists_what_is_new_of_a_rack_that_stands() -> None:
    rack = replace(case("boat_shed"), stands=True)
    at = SimpleNamespace(rack=rack, bracing=())
    end = SimpleNamespace(bracing=(), rows=())
    plan = SimpleNamespace(start=at, end=at)
    found: Any = SimpleNamespace(rack=rack, plan=plan, end=end)
    tables = [passage for passage in page._shop(found) if passage.columns]
    cut = tables[0]
    count, there = (cut.columns.index(name) for name in ("count", "there"))
    assert all(row[count] == row[there] for row in cut.rows)
    bought = {row[0]: row for row in tables[-1].rows}
    assert bought["set bolt 1/2 in, full thread"][tables[-1].columns.index("to buy")] == "0"
    assert rack.posts.pipe.label not in bought


def concrete_of(job: Job) -> float:
    """Cubic feet to buy."""
    (found,) = (i for i in job.shopping.items if i.name == "concrete")
    return found.amount / FOOT**3


def test_an_old_post_takes_its_pier_along() -> None:
    """Hole of 24 in, 8 ft deep, round a pipe of 6-5/8 in: pi/4 (4 - 0.3048) 8 = 23.22 cu ft."""
    rack = case("boat_shed")
    standing = StandingRack(rack=rack, bracing=())
    footing = replace(rack.posts.footing, hole=2 * FOOT, depth=8 * FOOT)
    pipe = replace(rack.posts.pipe, od=6.625 * INCH, label="6 in nominal")
    other = replace(rack, posts=replace(rack.posts, footing=footing, pipe=pipe))
    job = make_job(other, (), Wanted(standing=standing))
    assert concrete_of(job) == pytest.approx(23.22, abs=0.01)
    stands = replace(rack, stands=True)
    assert concrete_to_pour(stands, other) / FOOT**3 == pytest.approx(23.22, abs=0.01)


def test_round_a_post_that_stays_only_what_is_wider_is_poured() -> None:
    """From 18 in (the file's hole) to 24 in, 6 ft deep: pi/4 (4 - 2.25) 6 = 8.247 cu ft."""
    rack = case("boat_shed")
    assert rack.posts.footing.hole == pytest.approx(1.5 * FOOT)
    assert rack.posts.footing.depth == pytest.approx(6 * FOOT)
    wide = replace(rack.posts, footing=replace(rack.posts.footing, hole=2 * FOOT))
    wider = replace(rack, posts=wide)
    job = make_job(wider, (), Wanted(standing=StandingRack(rack=rack, bracing=())))
    assert concrete_of(job) == pytest.approx(8.247, abs=0.001)
    stands = replace(rack, stands=True)
    assert concrete_to_pour(stands, wider) / FOOT**3 == pytest.approx(8.247, abs=0.001)
    first = job.raising.stages[0].do
    assert "stays" in first
    assert "foot down" not in first


def test_panels_and_beam_come_off_before_an_old_post_is_dug_out() -> None:
    """The pier of 18 in, 6 ft deep, weighs 145 lb a cubic foot: 145 (10.60 - 1.013) = 1390 lb."""
    rack = case("boat_shed")
    deeper = replace(rack.posts.footing, depth=8 * FOOT)
    other = replace(rack, posts=replace(rack.posts, footing=deeper))
    job = make_job(other, (), Wanted(standing=StandingRack(rack=rack, bracing=())))
    said = [stage.do for stage in job.raising.stages]
    panels, beam, dug, sets = (
        next(i for i, do in enumerate(said) if words in do)
        for words in (
            "the panels, from the outside",
            "lift the beam off",
            "dig it out",
            "foot down",
        )
    )
    assert panels < beam < dug < sets
    assert said[0].startswith("Have buried lines marked")
    post = 12.5 * 14.63
    assert job.raising.stages[dug].lift / POUND == pytest.approx(1390 + post, rel=0.01)
    new = make_job(other, ()).raising.stages
    assert not any("old post" in stage.do for stage in new)


def test_pipe_of_the_same_size_with_papers_is_bought() -> None:
    rack = case("boat_shed")
    papers = replace(rack.beam.pipe, steel=replace(rack.beam.pipe.steel, name="A53 B, papers"))
    job = make_job(
        replace(rack, beam=replace(rack.beam, pipe=papers)),
        (),
        Wanted(standing=StandingRack(rack=rack, bracing=())),
    )
    there = {p.name: job.there.count_of(p) for p in job.pieces}
    assert there["beam"] == 0
    assert there["post"] == 1
