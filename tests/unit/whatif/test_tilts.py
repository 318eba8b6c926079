"""Gusts against tilt and the lay-down card."""

import math
from dataclasses import replace
from pathlib import Path

import pytest

from frame.casefile.read import read_rack
from frame.checks.check import Check, Kind
from frame.parts.ground.posts import ground_checks
from frame.parts.steel.pipes import pipe_checks
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.search.survey import search
from frame.search.survived import CutOff
from frame.search.weakest import Limit
from frame.solved.blocks import both_models
from frame.solved.frames import solve_frames
from frame.units import DEG
from frame.whatif.tilts import (
    AtTilt,
    TiltCurve,
    clears_ground,
    holds_one_tilt,
    lay_down,
    sweep,
    tilt_curves,
)
from tests.builders import by_no_checks_but

HAND = Check(name="bending", demand=1.0, allowable=1.0, nominal=1.0, unit="1", source="", steps=())
CASES = Path(__file__).parents[3] / "cases"


@pytest.fixture(scope="module")
def rack() -> Rack:
    return read_rack(CASES / "boat_shed.toml")


def going(gust: float, low: float = 0.0, kind: Kind = Kind.BREAKS, part: str = "post") -> Going:
    """Something that is expected to go at a gust."""
    return Going(
        part=part, check="bending", kind=kind, gust=gust, low=low, high=1.5 * gust, case="",
        words="", tilt=35 * DEG, shifts=(), hand=HAND,
    )  # fmt: skip


def curve(*points: tuple[float, float], own: tuple[float, ...] = (35.0,)) -> TiltCurve:
    """A made-up curve: (tilt in degrees, act-by gust)."""
    return TiltCurve(
        bracing=(),
        title="bare",
        points=tuple(
            AtTilt(
                tilt=t * DEG,
                limit=Limit(v / math.sqrt(0.6), "post", "bending"),
                going=(going(1.5 * v, low=v),),
                covered=t >= 8,
                own=t in own,
            )
            for t, v in points
        ),
    )


def test_a_flatter_tilt_that_stands_less_is_not_called_good() -> None:
    """15 deg stands 40 m/s, 10 deg only 36, 20 deg 35: up to 40 it is 15 deg and no other."""
    to_35, to_40, beyond = lay_down(curve((10, 36), (15, 40), (20, 35), own=(20.0,)))
    assert (to_35.tilt, to_35.flattest) == (20 * DEG, None)
    assert (to_40.tilt, to_40.flattest) == (15 * DEG, 15 * DEG)
    assert beyond.tilt is None
    _, part, _ = lay_down(curve((10, 38), (15, 42), (20, 40), (25, 35), own=(25.0,)))[:3]
    assert (part.tilt, part.flattest) == (20 * DEG, 15 * DEG)


def test_each_tilt_equals_the_search_of_every_row(rack: Rack) -> None:
    tilt = 20 * DEG
    (found,) = tilt_curves(rack, [("guys",)], [tilt])
    frames = solve_frames(rack, [("guys",)], [tilt])
    rows = search(both_models(frames, ("guys",), [tilt])).values()
    going = sorted((r.going for r in rows if r.going), key=lambda g: g.gust)
    first = next(g for g in going if g.grave)
    assert found.points[0].act_by_gust == pytest.approx(first.low, rel=1e-2)
    assert found.points[0].let_go_gust == pytest.approx(going[0].gust, rel=1e-6)
    assert found.points[0].limit_gust == pytest.approx(
        min(r.limit for r in rows if r.limit is not None), rel=1e-6
    )


def test_lowering_the_tilt_raises_the_posts_limit_gust(rack: Rack) -> None:
    for bracing in ((), ("guys",)):
        with by_no_checks_but(pipe_checks, ground_checks):
            (found,) = tilt_curves(rack, [bracing], [10 * DEG, 35 * DEG])
        low, steep = found.points
        assert low.limit_gust > steep.limit_gust


def test_the_sweep_holds_the_files_tilts_and_keeps_off_the_ground(rack: Rack) -> None:
    tilts = sweep(rack)
    assert set(rack.tilts) <= set(tilts)
    assert len(tilts) >= 8
    assert list(tilts) == sorted(tilts)
    low = replace(rack, posts=replace(rack.posts, height=1.0), tilts=(5 * DEG,))
    assert not clears_ground(low, 45 * DEG)
    assert all(clears_ground(low, t) for t in sweep(low))


def test_the_card_lowers_the_tilt_as_the_gust_rises() -> None:
    stages = lay_down(curve((0, 90), (5, 80), (10, 60), (15, 50), (25, 40), (35, 30)))
    assert [round(s.tilt / DEG) if s.tilt else None for s in stages] == [35, 25, 15, 10, None]
    assert [s.below for s in stages] == [30, 40, 50, 60, math.inf]
    assert [s.above for s in stages] == [0, 30, 40, 50, 60]


def test_the_card_never_sends_panels_to_a_tilt_that_is_not_covered() -> None:
    for stages in (
        lay_down(curve((0, 300), (5, 300), (10, 20), (35, 30))),
        lay_down(curve((5, 300), (35, 0))),
    ):
        assert all(s.tilt is None or s.tilt >= 8 * DEG for s in stages)
        assert stages[-1].tilt is None


def test_the_card_is_steeper_than_no_tilt_of_the_file() -> None:
    stages = lay_down(curve((10, 20), (15, 30), (45, 60), own=(15,)))
    assert max(s.tilt for s in stages if s.tilt) == pytest.approx(15 * DEG)


def test_guys_on_beam_or_rails_hold_one_tilt() -> None:
    rack = read_rack(CASES / "salvage_yard.toml")
    assert not holds_one_tilt(rack, ("post-top guys",))
    assert holds_one_tilt(rack, ("corner guys",))
    assert holds_one_tilt(rack, ("post-top guys", "beam-end guys"))


def test_what_turns_or_leans_is_no_reason_to_lay_down() -> None:
    """The card goes by the least low end of what tilts or breaks: 19, not 8 m/s.

    That is of the break, though the U-bolt is expected to tilt before it: its low end is 20.
    """
    mild, leans = going(10, 8, Kind.TURNS, "set bolt"), going(15, 9, Kind.LEANS)
    tilts, breaks = going(26, 20, Kind.TILTS, "U-bolt"), going(30, 19)
    point = AtTilt(
        tilt=30 * DEG, limit=Limit(5.0), going=(mild, leans, tilts, breaks), covered=True, own=True
    )
    stage, off = lay_down(TiltCurve(bracing=(), title="bare", points=(point,)))
    assert (stage.below, stage.part, stage.going) == (19, breaks.part, breaks)
    assert (off.tilt, off.above) == (None, 19)
    assert point.first == "set bolt"
    assert (point.first_slip, point.first_break) == (mild, breaks)


def test_nobody_lowers_panels_for_a_few_percent_nor_five_times() -> None:
    """20, 21, 22.5 m/s: 21 is 5 % more, 22.5 is 12 %. Of seven tilts 10 % apart four are kept."""
    few = lay_down(curve((20, 22.5), (25, 21), (35, 20)))
    assert [round(s.tilt / DEG) for s in few if s.tilt] == [35, 20]
    many = lay_down(curve(*((45 - 5 * i, 20 * 1.11**i) for i in range(8)), own=(45.0,)))
    assert 2 <= sum(s.tilt is not None for s in many) <= 4
    assert many[0].tilt == pytest.approx(45 * DEG)


def test_the_first_gust_is_that_of_the_tilt_of_the_file_that_goes_first() -> None:
    """Stood at 30 deg the rack stands less than at 45: who runs it at 30 acts before 52."""
    found = curve((15, 62), (30, 52), (45, 53), own=(30.0, 45.0))
    stages = lay_down(found)
    assert [s.below for s in stages] == [52, 62, math.inf]
    assert stages[0].below == found.act_by_gust


def test_a_file_with_no_tilt_that_is_covered_gets_a_card_that_says_so() -> None:
    (only,) = lay_down(curve((5, 40), own=(5.0,)))
    assert (only.tilt, only.above) == (None, 0)


def test_what_it_has_stood_raises_the_card(rack: Rack) -> None:
    """Truncated from below, every median and low end rises."""
    tilt = 20 * DEG
    (guess,) = tilt_curves(rack, [()], [tilt], {})
    first = guess.points[0].act_by
    assert first is not None
    learned = {(first.part, first.check): CutOff(bottom=0.4)}
    (after,) = tilt_curves(rack, [()], [tilt], learned)
    assert after.points[0].act_by_gust > guess.points[0].act_by_gust


def test_a_stage_that_a_flatter_tilt_of_the_file_ends_still_names_that_tilt() -> None:
    """By hand: 35 deg stands 40 m/s, 20 deg of the file 36, 25 deg between 35.5, 1.4 % less.

    The stage ends at 35.5, for who runs the panels at 20 deg; until then every tilt from 35 deg
    down is as good, so 20 deg is no tilt to keep off.
    """
    found = curve((10, 41), (20, 36), (25, 35.5), (30, 39.9), (35, 40), (40, 33), own=(20.0, 40.0))
    _, stage, off = lay_down(found)
    assert (stage.tilt, stage.below, stage.flattest) == (35 * DEG, 35.5, None)
    assert (stage.alone, stage.ends_at, stage.listed) == (40, 25 * DEG, 20 * DEG)
    assert off.above == 35.5


def test_a_tilt_of_the_file_below_a_hole_is_named_beside_the_stage() -> None:
    """25 deg stands far less (30 m/s) than 20 and 35 deg: the tilts that stand it are two."""
    found = curve((10, 34), (20, 36), (25, 30), (30, 39), (35, 40), (40, 28), own=(20.0, 40.0))
    _, stage, _ = lay_down(found)
    assert (stage.below, stage.flattest, stage.also) == (36, 30 * DEG, (20 * DEG,))
    assert (stage.ends_at, stage.listed) == (20 * DEG, 20 * DEG)


def test_the_card_and_what_lowering_gains_agree_on_the_flattest_tilt_of_the_file() -> None:
    """The tilt that the first screen lays panels to is one that the card allows, as far."""
    for dip in (35.5, 30.0, 38.0):
        found = curve((10, 34), (20, 36), (25, dip), (35, 40), (40, 28), own=(20.0, 40.0))
        flat = next(p for p in found.points if p.own)
        stages = [s for s in lay_down(found) if s.tilt and s.tilt >= flat.tilt]
        last = stages[-1]
        allowed = last.flattest is None or last.flattest <= flat.tilt or flat.tilt in last.also
        assert allowed
        assert last.below == pytest.approx(flat.act_by_gust, rel=0.02)
