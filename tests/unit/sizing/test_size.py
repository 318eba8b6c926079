"""The sized rack holds by the comparison's own look, and can be no size weaker."""

import math
import tomllib
from contextlib import suppress
from dataclasses import astuple
from itertools import pairwise
from pathlib import Path

import pytest

from frame.bracing.movement import worst_sag, worst_sway
from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.offered import all_series
from frame.changes.series import written_length
from frame.changes.stock import supply
from frame.checks.check import Kind
from frame.errors import FrameError
from frame.rack.rack import Rack
from frame.search.survey import survey
from frame.sizing.bench import Bench, ChosenRungs
from frame.sizing.size import Sized
from frame.solved.blocks import solved_models, split
from frame.units import INCH, MPH, parse
from tests.decided import sized as sized_once
from tests.decided import sized_and_trimmed

pytestmark = pytest.mark.xdist_group("sized lines")
CASES = Path(__file__).parents[3] / "cases"
NAME = "sized.toml"


def file_at(gust: str) -> str:
    text = (CASES / "fifteen_lines.toml").read_text(encoding="utf-8")
    return text.replace('"115 mph"', f'"{gust}"')


def sound(rack: Rack) -> tuple[bool, tuple[float, float], set[tuple[str, str]]]:
    """Whether every row of the survey is in order; sag and sway, of limits; what is uncovered."""
    found = solved_models(rack, ())
    code, _ = split(found)
    rows = survey(found)
    sag, sway = worst_sag(code), worst_sway(code)
    moved = (max(abs(sag.dead), abs(sag.still_air)) / sag.limit, sway.top / sway.limit)
    uncovered = {(r.part, r.check) for r in rows if not r.covered}
    return all(r.passes for r in rows), moved, uncovered


@pytest.fixture(scope="module")
def sized() -> Sized:
    return sized_once(file_at("50 mph"), ())


def test_the_sized_file_reads_back_as_the_rack_that_holds(sized: Sized) -> None:
    assert sized.holds
    rack = parse_rack(sized.text, NAME)
    assert rack == sized.rack
    in_order, moved, uncovered = sound(rack)
    assert in_order
    assert [m > 1 for m in moved] == [sized.result.sags, sized.result.sways]
    assert {f"{p} ({c})" for p, c in uncovered} == set(sized.uncovered)
    assert sized.result.limit_gust >= rack.site.map_gust


def test_what_no_ladder_offers_stays_as_described(sized: Sized) -> None:
    before, after = (tomllib.loads(t) for t in (file_at("50 mph"), sized.text))
    assert after["site"] == before["site"]
    assert after["panels"] == before["panels"]
    assert after["tilts"] == before["tilts"]
    assert after["beam"]["length"] == before["beam"]["length"]


def test_steps_follow_one_another_and_end_at_the_sized_rack(sized: Sized) -> None:
    """The full answer's gusts, found apart, are those after the last step."""
    steps, full = sized.bought, sized.result
    assert len(steps) >= 2
    for one, two in pairwise(steps):
        assert one.after == two.before
    last, kinds = steps[-1].after, {r.kind: r for r in reversed(full.ladder)}
    assert last.margin == pytest.approx(full.limit_gust, rel=1e-5)
    assert last.let_go == pytest.approx(full.let_go_gust, rel=1e-5)
    broke = kinds[Kind.BREAKS].let_go_gust if Kind.BREAKS in kinds else math.inf
    assert last.first_break == pytest.approx(broke, rel=1e-5)
    assert sum(s.added_steel for s in steps) == pytest.approx(sized.steel[1] - sized.steel[0])


def test_every_step_but_the_last_two_buys_a_hundredth_of_some_gust(sized: Sized) -> None:
    """The last but one has what was left over with it, the last is what can be lighter."""
    for step in sized.bought[:-2]:
        before, after = step.before, step.after
        pairs = zip(astuple(before), astuple(after), strict=True)
        assert any(now > 1.01 * was for was, now in pairs)


def test_nothing_in_it_can_be_one_size_weaker(sized: Sized) -> None:
    _, trims = sized_and_trimmed(file_at("50 mph"), ())
    bench, final = next((b, choice) for b, choice in trims if b.rack(choice) == sized.rack)
    _, moved, uncovered = sound(bench.rack(final))
    assert all(m <= a for m, a in zip(moved, bench.allowed, strict=True))
    for i, rung in enumerate(final):
        if rung:
            assert not _stands(bench, (*final[:i], rung - 1, *final[i + 1 :]), uncovered)


def _stands(bench: Bench, choice: ChosenRungs, uncovered: set[tuple[str, str]]) -> bool:
    try:
        in_order, moved, gaps = sound(bench.rack(choice))
    except FrameError:
        return False
    little = all(m <= a for m, a in zip(moved, bench.allowed, strict=True))
    return in_order and little and gaps <= uncovered


@pytest.fixture(scope="module")
def short() -> Sized:
    return sized_once(file_at("195 mph"), ())


def test_where_nothing_holds_it_says_what_stops_it_and_what_was_taken(short: Sized) -> None:
    found = short
    assert not found.holds
    assert found.stopped
    for one in found.stopped:
        assert math.isnan(one.use) or one.use > 1
    assert any(one.most for one in found.stopped)
    assert not sound(found.rack)[0]
    assert "no proof" in found.method


def test_what_falls_short_holds_the_gust_that_it_is_said_to_reach(short: Sized) -> None:
    reached = short.result.limit_gust
    assert 40 * MPH < reached < 195 * MPH
    calm = edited(short.text, {("site", "map_gust"): f"{0.999 * reached / MPH:.1f} mph"})
    assert sound(parse_rack(calm, NAME))[0]


@pytest.mark.parametrize("case", sorted(CASES.glob("*.toml")), ids=lambda p: p.stem)
def test_most_rungs_are_files_that_read_and_the_rest_are_refused(case: Path) -> None:
    text = case.read_text(encoding="utf-8")
    rack = parse_rack(text, case.name)
    read = 0
    for series in all_series(rack, rack.bracing_names, supply(rack, text)):
        assert not series.rungs[series.start].edits
        for rung in series.rungs:
            with suppress(FrameError):
                parse_rack(edited(text, rung.edits), case.name)
                read += 1
    assert read > 60


@pytest.mark.parametrize("sixteenths", [*range(1, 200, 7), *range(560, 600, 3), 1536])
def test_lengths_are_written_to_the_sixteenth(sixteenths: int) -> None:
    for sign in (1, -1):
        value = sign * sixteenths * INCH / 16
        assert parse(written_length(value, "us"), "length") == pytest.approx(value, rel=1e-12)
    assert written_length(8 * 12 * INCH, "us") == "8 ft"
    metric = parse(written_length(sixteenths / 100, "metric"), "length")
    assert metric == pytest.approx(sixteenths / 100, abs=1e-9)
