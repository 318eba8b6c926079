"""The comparison of bracings: order, sums, agreement and verdict."""

import math
from dataclasses import replace

import pytest

from frame.rack.rack import bracing_title
from frame.verdict import compare as comparison
from frame.verdict.compare import compare
from frame.verdict.inspect import inspect
from tests.builders import CASES, POUND, case
from tests.decided import studied

COUNTS = {
    "boat_shed": 4,
    "wash_house": 4,
    "salvage_yard": 8,
    "fifteen_lines": 1,
    "orchard_wall": 4,
}


@pytest.mark.parametrize("name", CASES)
def test_every_combination_is_there_bare_first(name):
    found = studied(name)
    assert len(found.results) == COUNTS[name]
    assert found.results[0].bracing == ()
    assert len({r.bracing for r in found.results}) == COUNTS[name]
    assert not found.dropped


@pytest.mark.parametrize("name", CASES)
def test_the_plane_solver_agrees_on_every_governing_case(name):
    for result in studied(name).results:
        assert result.agreement is None or result.agreement.worst < 1e-3


@pytest.mark.parametrize("name", CASES)
def test_movements_are_compared_at_one_gust(name):
    assert len({r.sway.gust for r in studied(name).results}) == 1
    assert studied(name).results[0].sway.gust == case(name).site.service_gust


@pytest.mark.xdist_group("boat_shed")
def test_added_steel_is_the_weight_of_the_braces():
    """Two knees of 42.4 in. of 2.72 lb/ft pipe (ASME B36.10M); guys weigh nothing here."""
    added = {r.title: r.added_steel / POUND for r in studied("boat_shed").results}
    assert added["bare"] == 0
    assert added["knees"] == pytest.approx(2 * 42.426 / 12 * 2.72, rel=1e-3)
    assert added["guys"] == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("name", CASES)
def test_the_ladder_goes_up(name):
    for result in studied(name).results:
        gusts = [r.let_go_gust for r in result.ladder if r.let_go_gust is not None]
        assert gusts == sorted(gusts)
        # Rows that no gust brings down stand last.
        assert all(r.let_go_gust is None for r in result.ladder[len(gusts) :])


@pytest.mark.parametrize("name", CASES)
def test_the_limit_gust_is_the_least_of_the_rows(name):
    for result in studied(name).results:
        limits = [r.limit_gust for r in result.rows if r.limit_gust is not None]
        assert result.limit_gust == min(limits)
        if result.limit_gust < case(name).site.map_gust * (1 - 1e-6):
            assert not result.holds


@pytest.mark.parametrize("name", CASES)
def test_the_verdict_is_one_of_those_compared(name):
    found = studied(name)
    assert found.verdict.bracing in {r.bracing for r in found.results}
    assert found.verdict.headline
    assert found.verdict.reason
    if found.verdict.holds:
        assert next(r for r in found.results if r.bracing == found.verdict.bracing).holds
    else:
        assert not any(r.holds for r in found.results)


@pytest.mark.parametrize("name", CASES)
def test_what_lowering_gains_is_what_the_rack_stands_built_for_that_tilt_alone(name):
    """Inspected afresh with the flattest tilt as its only one, every gust of every row."""
    found = studied(name)
    chosen = next(r for r in found.results if r.bracing == found.verdict.bracing)
    assert [r.lowered is None for r in found.results if r is not chosen] == [True] * (
        COUNTS[name] - 1
    )
    if len(case(name).tilts) == 1:
        assert chosen.lowered is None
        return
    flat = min(case(name).tilts)
    same = inspect(replace(case(name), tilts=(flat,)), chosen.bracing).result
    assert chosen.lowered.tilt == flat
    assert chosen.lowered.act_by_gust == pytest.approx(same.act_by_gust, rel=1e-3)


@pytest.mark.parametrize("name", CASES)
def test_forces_told_are_those_that_the_checks_demand(name):
    """Of a brace those of its pull and buckling, of a guy that of its wire, in the same wind."""
    for result in studied(name).results:
        for brace in result.braces:
            pull, push = (result.row(brace.name, check) for check in ("pull", "buckling"))
            assert brace.tension == pytest.approx(pull.demand, rel=1e-6, abs=1e-6)
            assert brace.compression == pytest.approx(push.demand, rel=1e-6, abs=1e-6)
            assert brace.compression_words == push.words
        for guy in result.guys:
            row = result.row(guy.name, "guy wire")
            assert guy.tension == pytest.approx(row.demand, rel=1e-6)


@pytest.mark.xdist_group("boat_shed")
def test_the_knee_card_has_the_force_of_the_knees_alone():
    """Boat shed, knees jacked: as if fitted before the panels, as the card takes them."""
    knees = next(r for r in studied("boat_shed").results if r.title == "knees")
    yours = next(k for k in studied("boat_shed").knee_card if k.described)
    push = max(knees.braces, key=lambda b: b.compression)
    assert yours.pushed
    assert yours.force == pytest.approx(push.compression, rel=1e-6)
    assert yours.words in {b.compression_words for b in knees.braces}
    assert yours.tilt == max(case("boat_shed").tilts)


def test_forces_of_a_rack_that_sways_over_have_no_end():
    """Boat shed with panels of 60 times their weight: its post buckles under them."""
    rack = case("boat_shed")
    heavy = replace(rack, panels=replace(rack.panels, weight=60 * rack.panels.weight))
    found = compare(replace(heavy, guys=(), tilts=rack.tilts[:1]))
    knees = next(r for r in found.results if r.bracing)
    assert knees.stability.factor < 2
    assert {math.isinf(b.compression) for b in knees.braces} == {True}
    assert all(k.force == math.inf for k in found.knee_card)


@pytest.mark.xdist_group("boat_shed")
def test_a_knee_card_for_knees_only():
    assert len(studied("boat_shed").knee_card) == 5
    assert [k.described for k in studied("boat_shed").knee_card].count(True) == 1
    assert not studied("fifteen_lines").knee_card
    left = [k.left for k in studied("boat_shed").knee_card]
    assert left == sorted(left, reverse=True)


def test_at_most_thirty_two_are_solved_and_the_rest_named(monkeypatch: pytest.MonkeyPatch):
    """With room for 3: of two groups of guys, 4 combinations, those of fewest kinds kept."""
    assert comparison.MOST_BRACINGS == 32
    monkeypatch.setattr(comparison, "MOST_BRACINGS", 3)
    rack = case("salvage_yard")
    two = tuple(replace(rack.guys[0], name=f"guys {i}", out=1.0 + 0.1 * i) for i in range(2))
    many = replace(rack, guys=two, tilts=rack.tilts[:1])
    found = compare(many)
    assert len(found.results) == 3
    assert len(found.dropped) == 1
    kept = {r.title for r in found.results}
    assert kept | set(found.dropped) == {bracing_title(b) for b in many.bracings()}
    assert max(len(r.bracing) for r in found.results) == 1
