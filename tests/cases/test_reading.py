"""The case files read as their remarks say; values worked out by hand from the files."""

import math
from pathlib import Path

import pytest

from frame.casefile.read import parse_rack, read_rack
from frame.errors import InputError
from frame.rack.sleeve import Pin, SetBolts

CASES = Path(__file__).parents[2] / "cases"
INCH, POUND = 0.0254, 4.4482216152605  # NIST SP 811, appendix B


@pytest.mark.parametrize("path", sorted(CASES.glob("*.toml")), ids=lambda p: p.stem)
def test_every_case_reads_without_warning(path: Path) -> None:
    rack = read_rack(path)
    assert not rack.warnings
    assert len(rack.bracings()) <= 32
    for assumption in rack.assumptions:
        assert assumption.value
        assert assumption.errs
        assert assumption.find_out


def test_boat_shed() -> None:
    rack = read_rack(CASES / "boat_shed.toml")
    assert rack.name == "boat shed"
    assert rack.units == "us"
    assert rack.posts.pipe.od == pytest.approx(5.563 * INCH)  # ASME B36.10M, nominal 5
    assert rack.beam.pipe.od == pytest.approx(4.0 * INCH)  # ASME B36.10M, nominal 3-1/2
    assert rack.beam.length == pytest.approx(170.5 * INCH)
    assert rack.panels.total_weight == pytest.approx(8 * 49 * POUND)
    assert (rack.panels.across, rack.panels.up) == (4, 2)
    assert rack.panels.spread == pytest.approx((4 * 41 + 3 * 0.5) * INCH)
    assert rack.rails.length == pytest.approx((2 * 69 + 0.5) * INCH)
    assert rack.site.map_gust == pytest.approx(110 * 0.44704)
    assert rack.site.service_gust == pytest.approx(0.6481 * rack.site.map_gust, rel=1e-4)
    assert rack.bracing_names == ("knees", "guys")
    assert isinstance(rack.sleeve.lock, SetBolts)


def test_boat_shed_rails_lie_under_the_quarter_points() -> None:
    rack = read_rack(CASES / "boat_shed.toml")
    pitch = 41.5
    lefts = [-82.75 + i * pitch for i in range(4)]
    by_hand = [(left + part) * INCH for left in lefts for part in (10.25, 30.75)]
    assert rack.rails.positions == pytest.approx(by_hand)


def test_wash_house() -> None:
    rack = read_rack(CASES / "wash_house.toml")
    assert rack.units == "metric"
    assert rack.posts.positions == pytest.approx((-1.6, 1.6))
    assert rack.panels.weight == pytest.approx(42 * 9.80665)
    assert isinstance(rack.sleeve.lock, Pin)
    assert rack.site.flow == ("obstructed",)
    assert rack.limits.sag_per_arm == 1 / 240
    assert rack.arms == pytest.approx((1.1, 1.1))
    assert any(a.value.endswith("m/s") for a in rack.assumptions)
    assert not any(a.value.endswith((" in", " ft", " lb")) for a in rack.assumptions)


def test_salvage_yard_pipe_is_known_by_its_weight() -> None:
    """Wall by the trade's rule w = 10.69 (D - t) t [lb/ft, in], for steel of 490 lb/ft3."""
    rack = read_rack(CASES / "salvage_yard.toml")
    for pipe, od, weight in ((rack.posts.pipe, 4.5, 10.2), (rack.beam.pipe, 2.875, 6.2)):
        wall = pipe.wall / INCH
        assert pipe.basis == "weighed"
        assert 10.69 * (od - wall) * wall == pytest.approx(weight, rel=2e-3)
        assert pipe.weight == pytest.approx(weight * POUND / 0.3048)
        assert not pipe.steel.identified
    assert rack.posts.pipe.rust == pytest.approx(INCH / 64)
    assert rack.bracing_names == ("post-top guys", "beam-end guys", "corner guys")


def test_fifteen_lines_are_enough() -> None:
    path = CASES / "fifteen_lines.toml"
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 15
    rack = read_rack(path)
    assert rack.name == "fifteen lines"
    assert rack.bracing_names == ()
    assumed = {a.key for a in rack.assumptions}
    assert {"site.soil", "post.steel", "sleeve.set_bolt_torque", "rails.length"} <= assumed


def test_depth_is_asked_for_and_never_assumed() -> None:
    text = (CASES / "fifteen_lines.toml").read_text(encoding="utf-8")
    with pytest.raises(InputError) as caught:
        parse_rack(text.replace('depth = "5 ft"\n', ""), "short.toml")
    (problem,) = caught.value.problems
    assert problem.where == "post.depth"
    assert problem.what == "is missing"
    assert "push a rod down beside it" in problem.right


def test_a_low_map_gust_warns_and_says_what_the_map_gust_is() -> None:
    text = (CASES / "fifteen_lines.toml").read_text(encoding="utf-8")
    (warning,) = parse_rack(text.replace("115 mph", "70 mph"), "calm.toml").warnings
    assert "70 mph" in warning
    assert "not the worst wind remembered" in warning


@pytest.mark.parametrize(("tilt", "word"), [("50 deg", "not covered"), ("3 deg", "flutter")])
def test_tilts_the_tables_do_not_cover_warn(tilt: str, word: str) -> None:
    text = (CASES / "fifteen_lines.toml").read_text(encoding="utf-8")
    rack = parse_rack(text.replace("30 deg", tilt), "tilt.toml")
    assert word in " ".join(rack.warnings)
    assert rack.tilts == pytest.approx((math.radians(float(tilt.split(maxsplit=1)[0])),))
