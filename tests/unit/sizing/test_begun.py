"""A search begun from the plan's end is never worse than that; a rack grown is offered more."""

from dataclasses import replace
from functools import cache

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.cost import burden
from frame.changes.offered import all_series
from frame.changes.series import Thing
from frame.changes.stock import supply
from frame.changes.tried import Tried
from frame.plan.decision import begun_from
from frame.plan.greedy import Plan, make_plan
from frame.plan.standing import Asked, stand
from frame.sizing.begun import taken_up, widened
from frame.sizing.bench import Bench
from frame.sizing.size import size
from tests.builders import path_of
from tests.often import LONG

NAME = "small.toml"
SMALL = """tilts = ["35 deg"]
[site]
map_gust = "{}"
[panels]
across = 2
up = 1
size = "40 in x 66 in"
weight = "46 lb"
[post]
pipe = "3 in nominal"
height = "5 ft"
depth = "4 ft"
[beam]
pipe = "2-1/2 in nominal"
length = "7 ft"
[[stock]]
pipe = "3 in nominal"
length = "21 ft"
[[stock]]
pipe = "2-1/2 in nominal"
length = "21 ft"
"""
KNEES_AND_GUYS = """[knees]
pipe = "1-1/2 in nominal"
drop = "1 ft 9 in"
reach = "1 ft 9 in"
[[guys]]
from = "post top"
wire = "1/4 in EHS strand"
out = "5 ft"
along = "5 ft"
"""
GUSTS = ("70 mph", "120 mph")


@cache
def planned(gust: str) -> Plan:
    text = SMALL.format(gust)
    asked = Asked(name=NAME, read=parse_rack(text, NAME), ranged=False)
    return make_plan(stand(text, (), asked), asked)[0]


def bench(text: str) -> Bench:
    rack = parse_rack(text, NAME)
    series = all_series(rack, (), supply(rack, text))
    return Bench(
        text=text,
        name=NAME,
        bracing=(),
        series=series,
        limited=False,
        tell=lambda _: None,
        solved=Tried(bracing=()),
    )


def test_the_plan_of_a_bracing_that_is_named_fits_no_other() -> None:
    """Knees alone, in wind for which the plan that is free to choose fits none or more."""
    text = SMALL.format("110 mph") + KNEES_AND_GUYS
    asked = Asked(name=NAME, read=parse_rack(text, NAME), ranged=False, fitted=False)
    plan, end = make_plan(stand(text, ("knees",), asked), asked)
    assert plan.steps
    assert end.bracing == begun_from(plan).bracing == ("knees",)
    assert not [one for step in plan.steps for one in step.made if one.fits]


@pytest.mark.parametrize("gust", GUSTS)
def test_the_plans_end_is_taken_up_as_it_is(gust: str) -> None:
    """Its file, read anew, is the rack that the plan solved; nothing is left beside."""
    text, plan = SMALL.format(gust), planned(gust)
    rack = parse_rack(text, NAME)
    on, choice, beside = taken_up(bench(text), begun_from(plan), supply(rack, text))
    assert on.rack(choice) == plan.end.rack != rack
    assert not beside


@pytest.mark.parametrize("gust", GUSTS if LONG else GUSTS[1:])
def test_sizing_is_never_worse_than_the_plan(gust: str) -> None:
    """No size offered holds 120 mph: the margin ends no earlier. At 70 mph it is no heavier."""
    plan = planned(gust)
    found = size(SMALL.format(gust), NAME, (), begun=begun_from(plan))
    assert found.holds == plan.reached == (gust == GUSTS[0])
    assert "bare, from the plan of rack compare" in {one.words for one in found.grown}
    if found.holds:
        assert burden(found.rack, ()) <= burden(plan.end.rack, ()) * (1 + 1e-9)
    else:
        assert found.result.limit_gust >= plan.end.limit_gust * (1 - 1e-4)
        assert found.stopped


def test_a_thing_without_sizes_is_changed_in_the_file() -> None:
    text, plan = SMALL.format(GUSTS[0]), planned(GUSTS[0])
    rack = parse_rack(text, NAME)
    whole = bench(text)
    deep = [s for s in whole.series if s.thing is not Thing.POST_DEPTH]
    on, choice, beside = taken_up(
        replace(whole, series=tuple(deep)), begun_from(plan), supply(rack, text)
    )
    assert on.rack(choice) == plan.end.rack
    assert [rung.words for rung in beside] == [w for w in _words(plan) if w.endswith(" deep")]


def _words(plan: Plan) -> list[str]:
    return [one.do for step in plan.steps for one in step.made]


def test_more_rails_take_more_stops_and_a_wider_post_a_wider_pin() -> None:
    """Half the rails and every rail are offered stops; a pin is a third of its post at most."""
    text = path_of("fifteen_lines").read_text(encoding="utf-8")
    text = edited(text, {("post", "pipe"): "2-1/2 in nominal"})
    rack = parse_rack(text, NAME)
    before = bench(text)
    choice = list(before.start)
    for i, one in enumerate(before.series):
        if one.thing in {Thing.RAIL_COUNT, Thing.POST_PIPE}:
            choice[i] = len(one.rungs) - 1
    after, same = widened(before, tuple(choice), supply(rack, text))
    grown = after.rack(same)
    assert grown == before.rack(tuple(choice))
    tops = {one.thing: one.rungs[-1].edits for one in after.series}
    assert tops[Thing.TILT_STOP]["rails", "tilt_stops"] == len(grown.rails.positions)
    assert len(grown.rails.positions) > len(rack.rails.positions)
    old = {one.thing: one.rungs[-1].edits for one in before.series}
    assert old[Thing.LOCK]["sleeve", "pin"] == "7/8 in"  # a third of 2.875 in is 0.96 in
    assert tops[Thing.LOCK]["sleeve", "pin"] == "1-1/4 in"  # of 8.625 in, 2.9 in: the widest made
