"""Of a rack that stands only what is new is cut and bought."""

from dataclasses import replace

import pytest

from frame.rack.rack import KNEES
from frame.shop.buying.there import StandingRack
from frame.shop.job import Wanted, make_job
from tests.builders import FOOT, case


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
    whole = rack.posts.footing.depth / footing.depth
    assert mine.amount == pytest.approx((1 - whole) * new.amount, rel=1e-6)


def test_more_rails_are_those_that_are_missing() -> None:
    rack = case("boat_shed")
    places = tuple(1.01 * x for x in rack.rails.positions)
    few = replace(rack, rails=replace(rack.rails, positions=places[1:-1]))
    job = make_job(rack, (), Wanted(standing=StandingRack(rack=few, bracing=())))
    (rail,) = (p for p in job.pieces if p.name == "rail")
    assert rail.count - job.there.count_of(rail) == 2
