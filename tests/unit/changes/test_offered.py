"""What is offered can be got, and is told as a builder would say it."""

import re

import pytest

from frame.casefile.read import parse_rack
from frame.changes.offered import all_series
from frame.changes.series import Series, told_together
from frame.changes.stock import supply
from frame.named.aim import helped
from frame.named.limit_state import LimitState
from frame.named.part import (
    TILT_STOP,
    Edge,
    PartKind,
    Side,
    lug,
    lugs,
    rail_end,
    rail_ends,
    sleeve,
    stay,
    wall,
    weld,
)
from frame.plan.offers import offers
from frame.rack.rack import STAYS as STAYS_FITTED
from frame.units import FT, INCH, parse
from tests.builders import CASES, STAYS, case, changed, path_of


def offered(name: str, more: str = "") -> dict[str, Series]:
    text = path_of(name).read_text(encoding="utf-8") + more
    rack = changed(name, more=more) if more else case(name)
    return {one.name: one for one in all_series(rack, rack.bracing_names, supply(rack, text))}


@pytest.mark.parametrize("name", CASES)
def test_every_ladder_has_its_trouble_listed_for_the_plan(name: str) -> None:
    rack, text = case(name), path_of(name).read_text(encoding="utf-8")
    assert len(list(offers(rack, rack.bracing_names, text))) > 10


@pytest.mark.parametrize("name", CASES)
def test_piers_and_pins_stay_within_what_is_dug_and_what_the_post_takes(name: str) -> None:
    """8 ft and 30 in., and a third of the post across: judgement."""
    found, post = offered(name), case(name).posts.pipe.od
    limits = {"depth": 8 * FT, "hole": 30 * INCH, "pin": post / 3}
    for series in found.values():
        for rung in series.rungs[series.start + 1 :]:
            for (_, key), value in rung.edits.items():
                if key in limits and isinstance(value, str):
                    assert parse(value, "length") <= limits[key] * 1.001


@pytest.mark.parametrize("name", CASES)
def test_stronger_rungs_say_what_to_build(name: str) -> None:
    for series in offered(name).values():
        for rung in series.rungs[series.start + 1 :]:
            assert rung.edits
            assert "as described" not in rung.words


def test_words_are_a_builders() -> None:
    found = offered("fifteen_lines")
    said = {rung.words for series in found.values() for rung in series.rungs}
    for words in (
        "5/8 in pin through sleeve and post",
        "the post 6 ft deep",
        "concrete round the post, hole 14 in",
        "3 U-bolts of 1/2 in on each rail, nuts at 28 ft-lb",
        "new pipe with papers, A53 B, for post and sleeve",
        "fillets of 3/8 in leg all round",
    ):
        assert words in said


@pytest.mark.parametrize("name", CASES)
def test_no_words_speak_of_all_rails_where_a_step_before_may_set_more(name: str) -> None:
    said = [r.words for r in offered(name)["tilt stop"].rungs if r.edits]
    assert said
    assert not [words for words in said if " all " in words]


def test_a_metric_rack_is_offered_metric_lengths() -> None:
    """Nobody digs 2290 mm or cuts a sleeve of 510: steps of 50 mm are judgement."""
    place = 'from = "post top"\nout = "1200 mm"\nalong = "1200 mm"\n'
    guys = f'[[guys]]\n{place}wire = "1/4 in EHS strand"\n'
    found = offered("wash_house", guys)
    told = [
        (int(length), rung.words)
        for thing in ("post depth", "hole", "sleeve length", "guys, place", "guys, anchors")
        for rung in found[thing].rungs
        for length in re.findall(r"([0-9]+) mm", rung.words)
    ]
    assert len(told) > 20
    assert not [words for length, words in told if length % 50]


def test_changes_of_the_same_guys_say_once_whose_they_are() -> None:
    told = [
        "two posts",
        "guys: 3/8 in strand",
        "guys: turnbuckle, 5/8 in",
        "stays: 2 in",
        "guys: 1",
    ]
    said = "two posts; guys: 3/8 in strand, turnbuckle, 5/8 in; stays: 2 in; guys: 1"
    assert told_together(told) == said
    assert told_together(["a; guys: b", "guys: c"]) == "a; guys: b, c"
    assert told_together([]) == ""


def test_papers_are_offered_for_unmarked_pipe_only() -> None:
    assert {"post steel", "beam steel"} <= set(offered("fifteen_lines"))
    text = path_of("fifteen_lines").read_text(encoding="utf-8")
    marked = text.replace("[beam]\n", '[beam]\nsteel = "A53 B"\n')
    assert marked != text
    rack = parse_rack(marked, "marked")
    names = {one.name for one in all_series(rack, (), supply(rack, marked))}
    assert "beam steel" not in names
    assert "post steel" in names


def test_concrete_goes_into_a_hole_no_smaller_than_the_one_dug() -> None:
    series = offered("fifteen_lines")["backfill"]
    holes = [parse(r.edits["post", "hole"], "length") for r in series.rungs[1:]]
    assert holes == sorted(holes)
    assert holes[0] >= 10 * INCH * 0.999
    assert all(r.edits["post", "backfill"] == "concrete" for r in series.rungs[1:])


@pytest.mark.parametrize("name", CASES)
def test_rails_are_offered_beside_the_sleeves_not_over_them(name: str) -> None:
    """A U-bolt needs the beam bare, no weld of a sleeve under it: geometry."""
    rack = case(name)
    room = rack.posts.pipe.od / 2 + rack.sleeve.wall + rack.rails.u_bolts.diameter / 2
    series = offered(name)["rail count"]
    assert len(series.rungs) > 1
    for rung in series.rungs:
        for x in rung.edits.get(("rails", "positions"), []):
            place = parse(x, "length")
            assert min(abs(place - post) for post in rack.posts.positions) >= room


STAYED = stay(Edge.FRONT, Side.LEFT)
ON_LUGS = {
    ("guys",): (lugs("guys"), weld(lugs("guys")), wall(PartKind.POST, lugs("guys"))),
    (STAYS_FITTED,): (lug(STAYED), weld(STAYED), wall(PartKind.BEAM, STAYED), rail_end(STAYED)),
}


@pytest.mark.parametrize("bracing", ON_LUGS)
def test_lugs_are_offered_to_all_that_hang_on_them(bracing: tuple[str, ...]) -> None:
    """A longer lug spreads the pull, a thicker plate and bolt take more of it (statics)."""
    rack = changed("boat_shed", more=STAYS)
    one = next(x for x in all_series(rack, bracing, supply(rack, "")) if x.name == "lugs")
    for part in ON_LUGS[bracing]:
        assert helped(one.helps, (part, LimitState.CHORD_WALL)), part
    assert not helped(one.helps, (wall(PartKind.BEAM, sleeve()), LimitState.CHORD_WALL))


def test_without_lugs_none_are_offered() -> None:
    rack = case("boat_shed")
    assert "lugs" not in {x.name for x in all_series(rack, ("knees",), supply(rack, ""))}


def test_what_lessens_the_pull_on_a_stop_is_offered_for_stops() -> None:
    """By hand: a stop gets (M - grip D/2) / stops; more grip, a wider beam, more stops relieve it.

    Other rails do not: panels on deeper ones have a longer arm, which strains stops more.
    """
    found = offered("boat_shed")
    for thing in ("U-bolts", "beam pipe", "tilt stop"):
        assert helped(found[thing].helps, (TILT_STOP, LimitState.TILT_STOP)), thing
    for thing in ("rails", "post depth"):
        assert not helped(found[thing].helps, (TILT_STOP, LimitState.TILT_STOP)), thing


def test_rails_are_offered_by_what_the_code_allows_them() -> None:
    """MFMA-4 allows 25 ksi of marked channel, 0.6 of 33 ksi else: from memory of the standard.

    Beyond the two 1-5/8 in deep of boat shed, 0.571 in3: 11.3 kip-in, marked 14.3; 2-7/16 in deep
    22.6 and 28.5; 3-1/4 in deep 37.6 and 47.5.
    """
    rails = offered("boat_shed")["rails"]
    deep = "1-5/8 x {} in 12 ga back to back"
    expected = [
        ("1-5/8", "yes"),
        ("2-7/16", None),
        ("2-7/16", "yes"),
        ("3-1/4", None),
        ("3-1/4", "yes"),
    ]
    found = [
        (r.edits["rails", "channel"], r.edits.get(("rails", "marked")))
        for r in rails.rungs[rails.start + 1 :]
    ]
    assert found == [(deep.format(size), marked) for size, marked in expected]


@pytest.mark.parametrize("name", CASES)
def test_what_is_told_again_is_shorter_and_names_no_part(name: str) -> None:
    """After "a post of 5 in", "the post" in front of every change of it is a word too many."""
    again = [(r.again, r.words) for s in offered(name).values() for r in s.rungs if r.again]
    assert again
    for told, words in again:
        assert len(told) < len(words)
        assert not re.search(r"\b(post|posts|beam)\b", told)


def test_where_rails_are_marked_so_are_those_offered() -> None:
    rails = offered("orchard_wall")["rails"]
    assert case("orchard_wall").rails.marked
    assert not [r for r in rails.rungs if ("rails", "marked") in r.edits]


def test_thicker_rails_help_their_ends() -> None:
    found = offered("salvage_yard")
    assert helped(found["rails"].helps, (rail_ends("corner guys"), LimitState.RAIL_END))
