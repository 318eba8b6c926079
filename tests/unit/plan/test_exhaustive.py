"""Every combination against the plan: counted by hand, and solved on a small space."""

from functools import cache
from itertools import product
from types import SimpleNamespace
from typing import Any

import pytest

from frame.casefile.read import parse_rack
from frame.plan import exhaustive
from frame.plan.exhaustive import Exhausted, exhaust, exhausted
from frame.plan.glance import Glance
from frame.plan.offers import Offer
from frame.plan.space import Space, make_space
from frame.plan.standing import Asked
from frame.report.exhausted import exhausted_data, exhausted_lines
from tests.decided import decided, file_of
from tests.often import LONG

SMALL = 8
"""Combinations tried here at most."""
RACKS = ("orchard_wall", *(("fifteen_lines",) if LONG else ()))


def change(word: str, price: float = 0.0) -> Offer:
    return Offer(do=word, kind="move", edits={("post", word): 1}, work=price)


def fit(name: str) -> Offer:
    return Offer(do=f"fit {name}", kind="bracing", fits=(name,))


def start_of(name: str) -> Any:
    text, file = file_of(name)
    return SimpleNamespace(rack=parse_rack(text, file), bracing=(), text=text)


def test_every_combination_comes_once() -> None:
    """2 bracings, a thing of two sizes and one of one: 4 * 3 * 2 = 24, all different."""
    space = Space(
        start=start_of("boat_shed"),
        fitting=(fit("knees"), fit("guys")),
        things=((change("a"), change("b")), (change("c"),)),
        done=(change("d"),),
    )
    found = [tuple(o.do for o in made) for made in space.combinations()]
    assert space.most_combinations == 24
    assert len(set(found)) == len(found) == 24
    assert all("d" in made and not {"a", "b"} <= set(made) for made in found)


def test_no_combination_changes_bracing_that_it_does_not_fit() -> None:
    """With guys 2 wires, without them 1: 2 + 1 = 3, not 4."""
    wire = Offer(do="wire", kind="move", edits={("guys", "wire"): "thick"})
    space = Space(start=start_of("boat_shed"), fitting=(fit("guys"),), things=((wire,),))
    found = {tuple(o.do for o in made) for made in space.combinations()}
    assert found == {(), ("fit guys",), ("fit guys", "wire")}


def by_table(table: dict[frozenset[str], Glance], plan: tuple[str, ...], *, holds: bool) -> Any:
    """Try two changes, "a" of price 1 and "b" of price 2, that do what a table says."""
    offers = {"a": change("a", 1.0), "b": change("b", 2.0)}

    def stand(text: Any, *_: Any) -> Any:
        return SimpleNamespace(made=text, blocks=(), holds=holds, bracing=(), rack=None)

    rack = SimpleNamespace(guys=(), site=SimpleNamespace(map_gust=100.0))
    start = SimpleNamespace(rack=rack, bracing=(), text="")
    space = Space(start=start, fitting=(), things=((offers["a"],), (offers["b"],)))  # type: ignore[arg-type]
    steps = tuple(SimpleNamespace(made=(offers[word],)) for word in plan)
    end = stand(frozenset(plan))
    made = SimpleNamespace(steps=steps, end=end, reached=holds)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(exhaustive, "stand", stand)
        patch.setattr(exhaustive, "written", lambda _, made, __: (
            frozenset(o.do for o in made), None, ()))  # fmt: skip
        patch.setattr(exhaustive, "before", lambda after: table[after.made])
        patch.setattr(exhaustive, "price_of", lambda *a: sum(o.work for o in a[3]))
        return exhaust(space, made, Asked(name=""))  # type: ignore[arg-type]


def gusts(first_break: float, limit: float = 50.0) -> Glance:
    return Glance(first_break=first_break, slip=60.0, limit=limit, over=0.0)


TABLE = {
    frozenset(): gusts(40),
    frozenset("a"): gusts(60),
    frozenset("b"): gusts(80),
    frozenset("ab"): gusts(80),
}


def test_a_plan_that_stopped_early_is_behind_by_the_rest() -> None:
    """60 against 80 is a quarter short; the cheapest of the latest is "b" alone."""
    found = by_table(TABLE, ("a",), holds=False)
    assert found.tried == 4
    assert found.behind == pytest.approx(0.25)
    assert found.best.do == ("b",)
    assert found.dearer == pytest.approx(1.0)


def test_a_plan_that_did_too_much_is_dearer() -> None:
    """3 was paid where 2 buys the same."""
    found = by_table(TABLE, ("a", "b"), holds=False)
    assert found.behind == 0
    assert found.cheapest.do == ("b",)
    assert found.dearer == pytest.approx(1.5)


def test_what_a_dearer_rack_would_bear_is_not_asked_of_a_plan_that_reached_its_site() -> None:
    """Everything holds, so the cheapest that does is nothing at all; "b" costs more than "a"."""
    found = by_table(TABLE, ("a",), holds=True)
    assert found.behind == 0
    assert found.cheapest.do == ()


def test_no_first_break_is_counted_beyond_one_and_a_half_times_the_sites_gust() -> None:
    table = {**TABLE, frozenset("a"): gusts(150), frozenset("b"): gusts(190)}
    assert by_table(table, ("a",), holds=False).behind == 0


def test_the_cheapest_as_good_has_every_gust_as_high() -> None:
    table = {**TABLE, frozenset("b"): gusts(80, limit=40)}
    assert by_table(table, ("a", "b"), holds=False).cheapest.do == ("a", "b")


@cache
def tried(name: str) -> Exhausted:
    return exhausted(*file_of(name), None, decided(name).plan, most=SMALL)


@pytest.mark.parametrize("name", RACKS)
def test_on_a_small_space_no_first_break_is_a_twentieth_later_than_the_plans(name: str) -> None:
    found = tried(name)
    assert 1 < found.tried <= found.space.most_combinations <= SMALL
    assert found.behind < 0.05
    assert found.plan.holds == decided(name).plan.reached


@pytest.mark.parametrize("name", RACKS)
def test_it_is_told_in_lines_and_as_data(name: str) -> None:
    found = tried(name)
    lines = exhausted_lines(found)
    assert max(map(len, lines)) <= 80
    assert f"{found.tried} racks solved" in lines[0]
    data = exhausted_data(found)
    assert data["plan"]["do"] == [o.do for step in decided(name).plan.steps for o in step.made]
    assert data["first_break_behind"] == found.behind


@pytest.mark.xdist_group("orchard_wall")
def test_where_there_is_room_for_little_what_the_plan_did_first_is_taken_as_done() -> None:
    asked = Asked(name="orchard_wall.toml", ranged=False)
    found = make_space(tried("orchard_wall").space.start, decided("orchard_wall").plan, asked, 2)
    assert found.done
    assert len(found.things) == 0


@pytest.mark.xdist_group("orchard_wall")
def test_the_plan_is_one_of_the_combinations_where_there_is_room_for_all_of_it() -> None:
    found = tried("orchard_wall")
    assert not found.space.done
    words = {frozenset(o.do for o in made) for made in found.space.combinations()}
    assert frozenset(found.plan.do) in words
    every = [*([None, o] for o in found.space.fitting)]
    every += [[None, *thing] for thing in found.space.things]
    assert len(list(product(*every))) == found.space.most_combinations
