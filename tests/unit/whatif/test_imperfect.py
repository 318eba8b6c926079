"""Small errors of building: each equals the rack drawn so, and the answer's flip is told."""

from dataclasses import replace
from itertools import islice
from math import inf
from pathlib import Path

import pytest

from frame.casefile.read import read_rack
from frame.named.part import PANEL
from frame.rack.rack import Rack
from frame.report.gusts import flip_words
from frame.search.survey import search
from frame.search.weakest import Limit, weakest
from frame.solved.blocks import solved_models
from frame.units import DEG, INCH
from frame.whatif import imperfect
from frame.whatif.imperfect import LEAN, building_errors, flaws

CASES = Path(__file__).parents[3] / "cases"


@pytest.fixture(scope="module")
def rack() -> Rack:
    """Boat shed at its steeper tilt alone: an error of building is the same at either."""
    found = read_rack(CASES / "boat_shed.toml")
    return replace(found, tilts=found.tilts[-1:])


def let_go(rack: Rack, bracing: tuple[str, ...]) -> float:
    found = search(solved_models(rack, bracing))
    return min(g.going.gust for g in found.values() if g.going)


def test_every_error_is_small_and_named_once(rack: Rack) -> None:
    made = dict(building_errors(rack, ("knees", "guys")))
    assert len(made) >= 10
    steeper = made["tilt 1 deg steeper"]
    assert [b - a for a, b in zip(rack.tilts, steeper.tilts, strict=True)] == pytest.approx(
        [DEG] * len(rack.tilts)
    )
    short = made["knees 1/4 in. short of their marks on the beam"]
    assert rack.knees.reach - short.knees.reach == pytest.approx(0.25 * INCH)
    assert pytest.approx(1 / 288) == LEAN  # 1/4 in. in 72 in.
    loose = made["one U-bolt's nut loose to half its torque, on the rail pressed hardest"]
    assert rack.rails.u_bolts.count == 2  # one of the rail's two is half as tight
    kept = loose.rails.u_bolts.torque / rack.rails.u_bolts.torque
    assert kept == pytest.approx((1 + 0.5) / 2)


FEW = 3
"""Errors that are enough to see what is told of each."""


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        imperfect, "building_errors", lambda *of: islice(building_errors(*of), FEW)
    )


@pytest.mark.usefixtures("few")
def test_a_slip_equals_the_rack_drawn_that_way(rack: Rack) -> None:
    told = flaws(rack, ("guys",))
    assert len(told) == FEW
    found = {s.words: s for s in told}
    words = "tilt 1 deg steeper"
    steeper = replace(rack, tilts=tuple(t + DEG for t in rack.tilts))
    assert found[words].let_go_gust == pytest.approx(let_go(steeper, ("guys",)), rel=1e-6)
    gusts = [s.let_go_gust for s in told]
    assert gusts == sorted(gusts)


@pytest.mark.usefixtures("few")
def test_a_flip_is_told_where_the_margin_is_lost_or_another_part_breaks(rack: Rack) -> None:
    modest = replace(rack, site=replace(rack.site, map_gust=1.0, service_gust=0.6))
    drawn = weakest(solved_models(modest, ()))
    holds = replace(drawn, limit=Limit(inf))
    part = drawn.act_by.part
    same = [
        s
        for s in flaws(modest, (), holds)
        if s.after.act_by.part == part and s.after.let_go.kind == drawn.let_go.kind
    ]
    assert same
    assert not any(s.flips for s in same)
    going = tuple(replace(g, part=PANEL) if g.grave else g for g in drawn.going)
    others = flaws(modest, (), replace(holds, going=going))
    assert all(s.flips for s in others)
    assert {flip_words(s, 1.0) for s in others} == {"ANOTHER PART GOES FIRST, or in another way"}
    windy = replace(rack, site=replace(rack.site, map_gust=80.0))
    short = flaws(windy, (), holds)
    assert all(s.flips for s in short)
    assert {flip_words(s, 80.0) for s in short} == {"NO LONGER HAS THE MARGIN of its site"}
