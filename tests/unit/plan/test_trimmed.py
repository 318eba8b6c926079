"""What a plan's end is as good without is taken back, solved again; what it needs stays."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import frame.plan.trimmed as module
from frame.changes.offered_fastenings import STOPS
from frame.named.limit_state import LimitState
from frame.named.part import Part, PartKind
from frame.plan.glance import Glance
from frame.plan.offers import Offer, offers
from frame.plan.standing import Asked, Standing, stand
from frame.plan.trimmed import _Trim, trimmed
from frame.plan.worth import keeps, least_kept
from frame.plan.written import written
from frame.search.laden import Laden
from tests.decided import file_of


def ended(start: Standing, made: list[Offer], asked: Asked) -> Standing:
    text, _, bracing = written(start, made, asked.name)
    return stand(text, bracing, asked)


def test_what_buys_nothing_goes_and_the_rest_stays() -> None:
    """The orchard wall holds with its guys, its knees and a shim against play of the sleeve: a
    post 8 ft deep and a longer sleeve are put into a plan that needs neither."""
    text, name = file_of("orchard_wall")
    asked = Asked(name=name, ranged=False)
    start = stand(text, (), asked)
    every = [o for sizes in offers(start.rack, (), text, every=True) for o in sizes]
    first = {o.do: o for o in every}
    shim = next(o for o in every if o.do.startswith("a shim"))
    needed = [shim, first["weld the knees"], first["fit the guys"]]
    deep, long = first["the post 8 ft deep"], first["a sleeve 20 in long"]
    groups = [(deep,), (long,), *((o,) for o in needed)]
    made, end = trimmed(start, groups, ended(start, [deep, long, *needed], asked), asked)
    kept = [o for group in made for o in group]
    assert long not in kept
    assert deep not in kept
    assert {o.do for o in needed} <= {o.do for o in kept}
    assert end.holds
    alone = ended(start, kept, asked)
    assert (end.text, end.bracing) == (alone.text, alone.bracing)
    assert end.limit_gust == pytest.approx(alone.limit_gust, rel=1e-3)


def test_more_rails_give_way_to_stronger_ones_and_their_stops_with_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Boat shed's eight rails made sixteen, a stop at each: on 2-7/16 in channel eight will do,
    with eight stops, if that is as good; 3-1/4 in costs more and is not asked for."""
    text, name = file_of("boat_shed")
    asked = Asked(name=name, ranged=False)
    start = stand(text, (), asked)
    every = [o for sizes in offers(start.rack, (), text, every=True) for o in sizes]
    more = next(o for o in every if o.do.startswith("16 rails"))
    stops = replace(next(o for o in every if "tilt stops" in o.do), edits={STOPS: 16})
    trim = _Trim(start=start, end=start, asked=asked)

    def good(_: _Trim, less: tuple[Offer | None, ...], __: object) -> bool:
        return any(o and "2-7/16" in o.do for o in less)

    monkeypatch.setattr(_Trim, "enough", good)
    rails, few = trim.fewer_rails((more, stops))
    assert rails is not None
    assert few is not None
    assert rails.edits["rails", "channel"] == "1-5/8 x 2-7/16 in 12 ga back to back"
    assert (few.edits[STOPS], few.do) == (8, "weld 8 tilt stops")
    monkeypatch.setattr(_Trim, "enough", lambda *_: False)
    assert trim.fewer_rails((more, stops)) == (more, stops)


def test_as_good_is_within_what_a_step_must_gain_and_holds_and_moves_no_further() -> None:
    site: Any = SimpleNamespace(map_gust=50.0)
    end: Any = SimpleNamespace(
        rack=SimpleNamespace(site=site), holds=False, moves_too_far=True, limit_gust=30.0,
        first_break=SimpleNamespace(gust=40.0), first_slip=SimpleNamespace(gust=35.0),
        sag=SimpleNamespace(use_with_play=0.5), sway=SimpleNamespace(use=2.5),
        laden=Laden(1.44), uncovered=frozenset(),
    )  # fmt: skip
    same = Glance(first_break=40.0, slip=35.0, limit=30.0, over=1.5, short=1.2)
    assert keeps(end, same, size=False)
    assert not keeps(end, replace(same, short=1.25), size=False), "weaker under snow"
    assert keeps(end, replace(same, limit=30 / 1.029), size=False)
    assert not keeps(end, replace(same, limit=30 / 1.031), size=False)
    assert not keeps(end, replace(same, first_break=38.8), size=False)
    assert keeps(end, replace(same, over=3.0), size=True), "it moves too far anyway"
    assert not keeps(end, replace(same, over=3.0), size=False), "a change was made for that"
    # 40 and 35 are less than 75 and 55, beyond which nothing counts; what goes at them just does.
    least = least_kept(end)
    assert (least.first_break, least.slip, least.limit) == pytest.approx(
        (40 / 1.03, 35 / 1.03, 30 / 1.03)
    )
    assert keeps(end, replace(least, over=1.5), size=False)
    end.limit_gust, end.moves_too_far, end.sway.use = 50.5, False, 0.9
    assert least_kept(end).limit == 50
    assert not keeps(end, replace(same, limit=49.5, over=0.0), size=True), "the site's gust"
    assert keeps(end, replace(same, limit=51.0, over=0.0), size=True)
    gap = frozenset({(Part(PartKind.ANCHOR), LimitState.ANCHOR_PICKETS)})
    assert not keeps(end, replace(same, limit=51.0, over=0.0, uncovered=gap), size=True)
    assert not keeps(end, replace(same, limit=51.0, over=0.1), size=True)


def test_a_plan_that_carries_its_snow_carries_it_still(monkeypatch: pytest.MonkeyPatch) -> None:
    """The gusts are as high without the change, but a case in still air no longer is."""

    def at(*, holds: bool) -> Any:
        site = SimpleNamespace(map_gust=50.0)
        return SimpleNamespace(
            rack=SimpleNamespace(site=site), holds=holds, moves_too_far=False, limit_gust=52.0,
            first_break=None, first_slip=None, sag=SimpleNamespace(use_with_play=0.5),
            sway=SimpleNamespace(use=0.5), laden=Laden(), uncovered=frozenset(),
        )  # fmt: skip

    monkeypatch.setattr(module, "written", lambda *_: ("", None, ()))
    for end, after, good in ((True, False, False), (True, True, True), (False, False, True)):
        monkeypatch.setattr(module, "stand_like", lambda *_, holds=after: at(holds=holds))
        trim = _Trim(start=at(holds=False), end=at(holds=end), asked=Asked(name=""))
        assert (trim.solved((None,)) is not None) is good
