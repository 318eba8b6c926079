"""What no rule covers has no margin: nothing with it is said to hold, and no step opens it."""

import math
from dataclasses import replace

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.named.limit_state import LimitState
from frame.named.part import Part, PartKind, sleeve, wall
from frame.plan.glance import Glance
from frame.plan.standing import Asked, holds, stand
from frame.plan.worth import as_good, better, pays, value
from frame.report.screen.first import first_screen
from frame.report.screen.reached import reached
from frame.sizing.bench import passed, worst_uses
from frame.solved.blocks import solved_blocks, split
from frame.units import MPH
from frame.verdict.inspect import inspect
from tests.builders import case
from tests.decided import file_of, once

pytestmark = pytest.mark.xdist_group("orchard_wall")
PICKETS = (Part(PartKind.ANCHOR), LimitState.ANCHOR_PICKETS)


def picketed() -> tuple[str, str]:
    """The orchard wall with pickets in place of deadmen: its guys pull up too steeply for them."""
    text, name = file_of("orchard_wall")
    return edited(text, {("guys", "anchor"): {"kind": "pickets"}}), name


def test_a_rack_on_anchors_no_rule_covers_is_not_said_to_hold() -> None:
    """With deadmen it holds at 100 mph; the pull on a picket is over what its own rule takes."""
    text, name = picketed()
    asked, rack = Asked(name=name, ranged=False), parse_rack(text, name)
    fitted = rack.bracing_names
    at = stand(text, fitted, asked)
    assert {check for _, check in at.uncovered} == {LimitState.ANCHOR_PICKETS}
    assert at.passes
    assert not at.holds
    assert not holds(rack, fitted)
    sure = stand(file_of("orchard_wall")[0], fitted, asked)
    assert sure.holds
    assert not sure.uncovered
    uses = worst_uses(split(at.blocks)[0])
    assert {key for key, use in uses.items() if math.isnan(use)} == at.uncovered
    assert not passed(uses)
    full = inspect(rack, fitted).result
    assert {row.key for row in full.rows_uncovered} == at.uncovered
    assert full.passes
    assert not full.holds


def test_the_plan_leaves_out_what_no_rule_covers_and_says_so() -> None:
    found = once(*picketed(), None)
    assert "guys" in found.plan.left_out
    assert not found.plan.end.uncovered
    said = " ".join(" ".join(first_screen(found, "rack.toml")).split())
    assert "no rule here tells when" in said
    assert not found.some_holds


def test_an_end_that_is_not_covered_is_not_reached() -> None:
    found = once(*file_of("orchard_wall"), None)
    end = found.plan.end
    limit = replace(end.weakest.limit, uncovered=frozenset({PICKETS}))
    open_end = replace(end, weakest=replace(end.weakest, limit=limit))
    last = replace(found.plan.steps[-1], after=open_end)
    plan = replace(found.plan, steps=(*found.plan.steps[:-1], last), reached=open_end.holds)
    said = " ".join(" ".join(reached(replace(found, plan=plan))).split())
    assert said.startswith(f"After {len(plan.steps)} all that is checked has the code's margin")
    assert "No rule here tells when" in said
    assert "engineer" in said
    screen = "\n".join(first_screen(replace(found, plan=plan), "rack.toml"))
    assert f" {round(end.limit_gust / MPH - 0.5)}? " in screen
    assert "?: not all is checked" in screen


@pytest.mark.parametrize("steel", ["J-55", "N-80", "L-80"])
def test_walls_of_well_casing_are_covered(steel: str) -> None:
    """They are stronger than AISC 360-22 K3 and K4 go: counted on is what the limit lets them."""
    text, name = file_of("orchard_wall")
    rack = parse_rack(edited(text, {("beam", "steel"): steel, ("post", "steel"): steel}), name)
    uses = worst_uses(solved_blocks(rack, rack.bracing_names))
    assert not any(map(math.isnan, uses.values()))
    weaker = worst_uses(solved_blocks(case("orchard_wall"), rack.bracing_names))
    at_sleeve = wall(PartKind.BEAM, sleeve()), LimitState.CHORD_WALL
    # In part as the load, in part as its square; the sleeve's own 52 ksi at most counts.
    assert weaker[at_sleeve] * (35 / 52) ** 2 < uses[at_sleeve] < weaker[at_sleeve] * 35 / 49


@pytest.mark.parametrize("gust", [30.0, 60.0])
def test_no_step_opens_what_was_covered_and_to_cover_it_is_one(gust: float) -> None:
    rack = case("orchard_wall")
    was = Glance(first_break=40.0, slip=35.0, limit=30.0, over=0.0)
    opened = replace(was, first_break=gust, slip=gust, uncovered=frozenset({PICKETS}))
    assert not better(rack, was, opened)
    closed = replace(was, uncovered=frozenset())
    before = replace(was, uncovered=frozenset({PICKETS}))
    assert better(rack, before, closed)
    assert not better(rack, closed, closed)
    assert value(rack, closed) > value(rack, before)
    assert not as_good(rack, was, before, closed)


def test_a_step_that_covers_pays_by_itself() -> None:
    text, name = picketed()
    asked = Asked(name=name, ranged=False)
    at = stand(text, parse_rack(text, name).bracing_names, asked)
    limit = replace(at.weakest.limit, uncovered=frozenset())
    sure = replace(at, weakest=replace(at.weakest, limit=limit))
    assert pays(at, sure)
    assert not pays(sure, sure)
