"""Fitted values in the file: marked, all else kept, and never to the code's credit."""

import tomllib
from functools import cache
from pathlib import Path

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.offered import all_series
from frame.changes.stock import supply
from frame.diagnosis.diagnosis import Diagnosis, diagnose
from frame.diagnosis.effect import first_break_gust
from frame.idealize.posts import sleeve_stiffness
from frame.idealize.soil import lateral_stiffness
from frame.rack.rack import Rack
from tests.unit.diagnosis.twin import INCH

HAY_BARN = (Path(__file__).parents[3] / "cases/hay_barn.toml").read_text("utf-8")
READ = """
[measured]            # on a still morning
droop_left = "1-1/8 in"
droop_right = "1 in"  # by the same line
unloaded_left = "7/8 in"
unloaded_right = "3/4 in"
pull = "100 lb"
top_moved = "{top}"
shakes = {shakes}
lift_left = "0.3 in"
lift_right = "0.3 in"
beam_wall = "{wall}"
"""


@cache
def found(top: str = "1 in", shakes: float = 10, wall: str = "0.15 in") -> Diagnosis:
    text = HAY_BARN + READ.format(top=top, shakes=shakes, wall=wall)
    return diagnose(text, "hay_barn.toml", plans=False)


def before() -> Rack:
    return parse_rack(HAY_BARN, "hay_barn.toml")


def test_everything_else_in_the_file_stays_comments_too() -> None:
    one = found()
    assert one.text is not None
    was = (HAY_BARN + READ.format(top="1 in", shakes=10, wall="0.15 in")).splitlines()
    now = one.text.splitlines()
    gone = [line for line in was if line not in now]
    keys = {line.split("=")[0].strip() for line in gone}
    assert keys <= {"pipe", ""}
    assert all("# fitted: " in line for line in now if line not in was and line.strip())
    assert "tamped back in layers" in one.text
    assert "# by the same line" in one.text


def test_a_fitted_value_is_marked_with_its_band_and_read_back() -> None:
    one = found()
    rack = parse_rack(one.text, "hay_barn.toml")
    told = {f.key: f for f in one.fitted}
    assert set(told) >= {"ground", "play", "beam_wall", "bow"}
    for f in told.values():
        assert f.low <= f.value <= f.high
        assert f"# fitted: {f.shown_band('us')}" in one.text
    soil = rack.site.soil
    assert soil.stiffness_middle == pytest.approx(
        told["ground"].value * before().site.soil.stiffness_soft * 2, rel=0.01
    )
    assert rack.sleeve.clearance == pytest.approx(told["play"].value, abs=0.001 * INCH)
    assert rack.beam.bow == pytest.approx(told["bow"].value, abs=0.01 * INCH)


def test_what_nothing_was_read_of_is_not_written() -> None:
    one = found()
    raw = tomllib.loads(one.text)
    assert "stiffness" not in raw["sleeve"]
    assert raw["post"]["pipe"] == tomllib.loads(HAY_BARN)["post"]["pipe"]


def test_writing_twice_keeps_one_mark() -> None:
    one = found()
    two = diagnose(one.text, "hay_barn.toml", plans=False)
    lines = [line for line in two.text.splitlines() if line.startswith("ground_stiffness")]
    assert len(lines) == 1
    assert lines[0].count("fitted:") == 1


def test_firmer_ground_is_expected_but_never_the_code_s_soft_end() -> None:
    rack = parse_rack(found(top="0.4 in", shakes=15).text, "hay_barn.toml")
    was, now = before().site.soil, rack.site.soil
    assert lateral_stiffness(now, 1.0, "middle") > 1.2 * lateral_stiffness(was, 1.0, "middle")
    assert lateral_stiffness(now, 1.0, "soft") == lateral_stiffness(was, 1.0, "soft")


def test_softer_ground_than_its_kind_counts_for_the_code_too() -> None:
    rack = parse_rack(found(top="2 in", shakes=7).text, "hay_barn.toml")
    was, now = before().site.soil, rack.site.soil
    assert lateral_stiffness(now, 1.0, "soft") < lateral_stiffness(was, 1.0, "soft")
    assert lateral_stiffness(now, 1.0, "stiff") == lateral_stiffness(was, 1.0, "stiff")


def test_a_thinner_wall_counts_for_the_code_a_thicker_one_does_not() -> None:
    thin = parse_rack(found().text, "hay_barn.toml").beam.pipe
    thick = parse_rack(found(wall="0.24 in").text, "hay_barn.toml").beam.pipe
    was = before().beam.pipe
    assert thin.design.wall < was.design.wall
    assert thin.design.wall == pytest.approx(0.15 * INCH, rel=0.05)
    assert thick.design.wall == was.design.wall
    assert thick.fitted > was.design.wall


def test_a_stiffer_sleeve_is_expected_but_not_the_code_s() -> None:
    text = HAY_BARN.replace('length = "8 in"', 'length = "8 in"\nstiffness = 2.0', 1)
    stiff, was = parse_rack(text, "h.toml"), before()
    assert sleeve_stiffness(stiff) == 2 * sleeve_stiffness(was)
    assert sleeve_stiffness(stiff, "soft") == sleeve_stiffness(was, "soft")
    soft = parse_rack(text.replace("stiffness = 2.0", "stiffness = 0.5"), "h.toml")
    assert sleeve_stiffness(soft, "soft") == sleeve_stiffness(was, "soft") / 2


def test_a_file_that_cannot_be_edited_is_diagnosed_all_the_same() -> None:
    beam = '[beam]\npipe = "3-1/2 in nominal"\nlength = "13 ft 9 in"\n'
    assert beam in HAY_BARN
    inline = 'beam = { pipe = "3-1/2 in nominal", length = "13 ft 9 in" }\n'
    text = inline + HAY_BARN.replace(beam, "") + READ.format(top="1 in", shakes=10, wall="0.15 in")
    one = diagnose(text, "hay_barn.toml", plans=False)
    assert one.text is None
    assert {f.key for f in one.fitted} >= {"ground", "bow"}


def test_what_is_expected_hears_of_it() -> None:
    """A thinner beam breaks no later; a pipe of another size is straight, a shim tight."""
    one = found()
    assert one.text is not None
    rack = parse_rack(one.text, "hay_barn.toml")
    assert first_break_gust(rack, ()) <= first_break_gust(before(), ()) * (1 + 1e-9)
    by_name = {
        one_series.name: one_series for one_series in all_series(rack, (), supply(rack, one.text))
    }
    beam = by_name["beam pipe"]
    others = [r.edits for i, r in enumerate(beam.rungs) if i != beam.start]
    assert others
    for edits in others:
        changed = parse_rack(edited(one.text, edits), "hay_barn.toml")
        assert changed.beam.bow == 0.0
        assert changed.beam.pipe.fitted == 0.0
