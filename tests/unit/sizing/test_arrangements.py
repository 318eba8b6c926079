"""Arrangements: all that can be built are looked at, and the best of those grown is sized."""

import math
import tomllib

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.named.limit_state import LimitState
from frame.named.part import BEAM, U_BOLT, post
from frame.sizing.arrangements import arrangements, picked, screened, shortfall
from frame.sizing.size import size
from frame.verdict.inspect import inspect
from tests.builders import CASES, FOOT, INCH, case, path_of
from tests.often import LONG


def every(name: str, bracing=None) -> list:
    return list(arrangements(case(name), path_of(name).read_text(encoding="utf-8"), name, bracing))


@pytest.mark.parametrize("name", CASES)
def test_arrangements_are_files_that_read_as_their_rack(name: str) -> None:
    text = path_of(name).read_text(encoding="utf-8")
    found = every(name)
    assert len({a.words for a in found}) == len(found)
    for one in found:
        assert parse_rack(edited(text, one.edits), path_of(name).name) == one.rack or not one.edits
        assert set(one.bracing) <= set(one.rack.bracing_names)
        assert bool(one.changes) == bool(one.edits)


def test_boat_shed_is_looked_at_with_its_guys_elsewhere_and_on_two_posts() -> None:
    """Four bracings; two have guys, so two more places each; all of it once more on two posts.

    Guys that start at a beam end or a rail corner and do not fit there are left out.
    """
    found = every("boat_shed")
    assert len([a for a in found if not a.edits]) == 4
    for one in found:
        guyed = "guys" in one.bracing
        assert guyed or not any("guys from" in change for change in one.changes)
        many = len(one.rack.posts.positions)
        assert (many == 2) == any("two posts" in change for change in one.changes)
        if many == 2:
            apart = one.rack.posts.positions[1] - one.rack.posts.positions[0]
            assert apart == pytest.approx(0.55 * (14 * FOOT + 2.5 * INCH), abs=INCH / 2)
    assert {g.attach for a in found for g in a.rack.guys} >= {"post top", "beam ends"}


def test_a_bracing_that_is_named_is_the_only_one() -> None:
    assert {a.bracing for a in every("boat_shed", ("knees",))} == {("knees",)}
    assert {len(a.rack.posts.positions) for a in every("wash_house", ())} == {1, 2, 3}


def test_at_most_three_are_grown_and_bare_is_among_them() -> None:
    found = screened(every("boat_shed"))
    some, more = picked(found, open_bracing=True)
    assert len(some) + len(more) == len(found)
    assert [a.short for a in more] == sorted(a.short for a in more)
    assert 1 <= len(some) <= 3
    assert any(not a.edits and not a.bracing for a in some)
    own = min(a.short for a in found if not a.edits)
    assert own in [a.short for a in some]
    named = screened(every("boat_shed", ("knees",)))
    assert all(a.bracing == ("knees",) for a in picked(named, open_bracing=False)[0])


def test_what_is_missing_is_nil_where_all_holds_and_grows_with_the_use() -> None:
    bent, slips = LimitState.INTERACTION, LimitState.U_BOLT_GRIP
    assert shortfall([((post(), bent), 0.9), ((BEAM, bent), 1.0)]) == 0
    once = shortfall([((post(), bent), math.e)])
    assert once == pytest.approx(1.0)
    assert shortfall([((post(1), bent), math.e), ((post(2), bent), 2.0)]) == once
    assert shortfall([((post(), bent), math.nan)]) > shortfall([((post(), bent), 50.0)])
    assert shortfall([((U_BOLT, slips), 9.0)]) == 0  # a joint, mended alike in every bracing


def test_the_lightest_that_holds_is_sized_and_a_changed_arrangement_told_first() -> None:
    """Wash house at 40 deg: the lightest that holds has as many posts as its words say.

    At length: where only work costs, what is chosen costs least of all that was grown and holds.
    """
    described = path_of("wash_house").read_text(encoding="utf-8")
    text = described.replace('tilts = ["20 deg", "40 deg"]', 'tilts = ["40 deg"]')
    assert text != described
    found = size(text, "wash.toml", None)
    first, *others = found.grown
    assert found.holds
    assert first.holds
    assert found.result.title == first.words.partition(", ")[0]
    assert found.steel[1] == pytest.approx(first.pipe)
    assert all(first.burden <= o.burden for o in others if o.trimmed)
    one = first.words.endswith("one post in the middle")
    assert len(found.rack.posts.positions) == (1 if one else 2)
    assert inspect(found.rack, found.result.bracing).result.holds
    if not LONG:
        return
    worked = size(f'{text}\n[prices]\nwork = "1000 per hour"\n', "wash.toml", None)
    if len(worked.rack.posts.positions) == 1:
        assert worked.bought[0].words.startswith("one post in the middle")
        assert not {"spacing", "count"} & set(tomllib.loads(worked.text)["post"])
    held = [o.cost for o in worked.grown if o.holds]
    assert worked.grown[0].cost == min(held)
