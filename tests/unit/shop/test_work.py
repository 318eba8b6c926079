"""What to buy, welds, raising and the season card, against geometry, statics and the ladder."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from frame.shop.job import Wanted, make_job
from frame.shop.raising import jack_force, low_edge_force
from frame.shop.season import after_storm, before_winter, sign_of
from frame.shop.steel.straps import strap_of
from frame.shop.steel.templates import wrap
from frame.shop.steel.welds import edge_length
from frame.tables.limit_states import by_limit_state
from frame.verdict.inspect import inspect
from tests.builders import CASES, INCH, POUND, case, changed
from tests.decided import inspected
from tests.unit.shop.test_templates import made

FOOT = 12 * INCH


def items(job) -> dict[str, float]:
    return {item.name: item.amount for item in job.shopping.items}


def test_concrete_is_the_hole_less_the_pipe() -> None:
    """18 in hole 6 ft deep round 5.563 in pipe: pi/4 (1.5^2 - 0.4636^2) 6 = 9.590 cu ft."""
    found = items(make_job(case("boat_shed"), ("knees",)))
    assert found["concrete"] / FOOT**3 == pytest.approx(9.590, abs=2e-3)


def test_counts_of_a_rack_with_everything() -> None:
    """Hay barn: 8 rails, one U-bolt each, 4 guys of 2 clips an end, 16 tie bolts, 8 panels."""
    found = items(make_job(case("hay_barn"), ("knees", "ties", "guys")))
    counts = {name.split(",")[0].split(" x ")[0]: n for name, n in found.items()}
    assert counts["U-bolt"] == 8
    assert counts["clip 1/4 in"] == 16
    assert counts["thimble 1/4 in"] == 8
    assert counts["panel clamp with 1/4 in bolt and channel nut"] == 32
    assert found["bolt 1/2 in x 4-1/4 in, tie to rail"] == 16
    assert found["plate 3 in x 3 in x 1/4 in, hole for a 1/2 in bolt"] == 4


def test_a_panel_is_clamped_to_every_rail_it_lies_on() -> None:
    """Four columns, two rows; two rails a column make 4 clamps a panel, four rails make 8.

    As many as the marks on the rails show, which are where the rails are loaded.
    """
    places = ", ".join(f'"{x} in"' for x in (-72, -60, -48, -36, -28, -20, -12, -6,
                                             6, 12, 20, 28, 36, 48, 60, 72))  # fmt: skip
    job = make_job(changed("boat_shed", ("[rails]\n", f"[rails]\npositions = [{places}]\n")), ())
    (clamps,) = [n for name, n in items(job).items() if name.startswith("panel clamp")]
    marked = sum(
        piece.count for piece in job.pieces for m in piece.marks if m.name.startswith("clamp")
    )
    assert clamps == marked == 4 * 2 * 2 * 4


def test_pipe_to_buy_is_what_is_cut_less_what_is_at_hand() -> None:
    more = '\n[[stock]]\npipe = "5 in nominal"\nlength = "10 ft"\ncount = 2\n'
    job = make_job(changed("boat_shed", more=more), (), Wanted(racks=2))
    (post,) = [i for i in job.shopping.items if i.name.startswith("5 in nominal")]
    assert post.amount / FOOT == pytest.approx(6 + 6.5 - 2 / 12, abs=1e-6)
    assert post.to_buy(2) / FOOT == pytest.approx(2 * (12.5 - 2 / 12) - 20, abs=1e-6)


def test_prices_of_the_file_are_used_and_others_left_blank() -> None:
    more = '\n[prices]\ncurrency = "dollars"\nwire = "0.50 / ft"\nwork = "0 / h"\n'
    job = make_job(changed("boat_shed", more=more), ("guys",))
    priced = {i.name: i.price for i in job.shopping.items}
    assert priced["1/4 in EHS strand"] == pytest.approx(0.5 / FOOT)
    assert [n for n, price in priced.items() if price] == ["1/4 in EHS strand"]
    assert job.shopping.cost is not None


@pytest.mark.parametrize("seed", range(0, 20, 3))
def test_the_weld_of_a_cope_is_as_long_as_the_line_of_both_pipes(seed: int) -> None:
    """Length of the curve from the template against the curve in space, walked by its points."""
    one = made(seed)
    turn = np.linspace(0, 2 * np.pi, 20001)
    r, R, a, e = one.od / 2, one.end.header / 2, one.end.angle, one.end.offset
    depth = np.sqrt(np.maximum(R**2 - (r * np.sin(turn) + e) ** 2, 0))
    s = (depth - r * np.cos(turn) * math.cos(a)) / math.sin(a)
    x = s * math.cos(a) - r * np.cos(turn) * math.sin(a)
    z = s * math.sin(a) + r * np.cos(turn) * math.cos(a)
    y = r * np.sin(turn)
    length = np.sqrt(np.diff(x) ** 2 + np.diff(y) ** 2 + np.diff(z) ** 2).sum()
    assert edge_length(one) == pytest.approx(length, rel=2e-4)
    assert edge_length(one) >= math.pi * one.od * (1 - 1e-6)


def test_a_thin_branch_square_on_a_pipe_is_welded_nearly_its_girth() -> None:
    """AWS D1.1 (from memory): Ka of the length at 90 deg and width ratio 0.53 is 1.021."""
    one = made(1)
    end = type(one.end)(kind="cope", onto="A", header=0.1, bore=0.05)
    from tests.unit.shop.test_templates import piece

    thin = wrap(piece(0.053, end), "hook end")
    assert edge_length(thin) / (math.pi * 0.053) == pytest.approx(1.021, abs=0.004)


@pytest.mark.parametrize("part", [0.3, 0.6, 1.0])
def test_the_jack_brings_the_beam_back_to_level(part: float) -> None:
    """Against deflections integrated numerically; 3/8 w L at the tip (any table of beams)."""
    load, arm = 300.0, 2.1
    at = part * arm
    x = np.linspace(0, arm, 20001)
    push = jack_force(load, arm, at)
    moment = -load * (arm - x) ** 2 / 2 + push * np.maximum(at - x, 0)
    step = x[1] - x[0]
    slope = np.concatenate([[0], np.cumsum((moment[1:] + moment[:-1]) / 2 * step)])
    deflection = np.concatenate([[0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
    lone = load * arm**4 / 8
    assert abs(np.interp(at, x, deflection)) < 1e-4 * lone
    if part == 1.0:
        assert push == pytest.approx(3 / 8 * load * arm)


def test_the_low_edge_balances_panels_and_rails_about_the_beam() -> None:
    """Moments of weights at their own places about the beam's axis, panel by panel."""
    rack = case("boat_shed")
    job = make_job(rack, ())
    tilt = max(rack.tilts)
    out = np.array([-math.sin(tilt), math.cos(tilt)])
    up = np.array([math.cos(tilt), math.sin(tilt)])
    depth = 3.25 * INCH
    rail_at = (4 * INCH + depth) / 2
    face = rail_at + depth / 2 + rack.panels.thickness / 2
    moment = 0.0
    (rail,) = [p for p in job.pieces if p.name == "rail"]
    moment += rail.count * rail.weight * (rail_at * out)[0]
    for low, high in rack.panels.row_edges():
        for _ in range(rack.panels.across):
            moment += 49 * POUND * ((low + high) / 2 * up + face * out)[0]
    held = abs(moment) / (rack.rails.length / 2)
    assert low_edge_force(rack, job.pieces) == pytest.approx(held, rel=1e-6)


def test_lifts_are_told_for_every_rack() -> None:
    for name in CASES:
        rack = case(name)
        found = make_job(rack, rack.bracing_names).raising
        assert found.calm <= 20 * 0.44704 + 1e-9
        assert any(stage.lift for stage in found.stages)
        said = " ".join(stage.do for stage in found.stages)
        jacked = rack.knees is not None and rack.knees.fitted == "jacked"
        assert ("Jack the beam" in said) == jacked == bool(found.jack)


def test_every_check_has_its_sign() -> None:
    told = by_limit_state("check_words")
    for state in told:
        assert sign_of(state).then.startswith(("stop", "go"))
    assert set(by_limit_state("storm_signs")) == set(told)


@pytest.mark.xdist_group("orchard_wall")
def test_the_card_looks_first_at_what_goes_first() -> None:
    rack = case("orchard_wall")
    result = inspected(rack, ("knees",)).result
    signs = after_storm(result)
    assert signs[0] == sign_of(result.ladder[0].check)
    assert len(signs) == len(set(signs)) > 5
    assert any(said.startswith("draw the pin") for said in before_winter(rack, ()))
    assert any("set bolts to" in said for said in before_winter(case("boat_shed"), ()))


def test_several_u_bolts_on_a_rail_are_told_where_they_go() -> None:
    rack = case("boat_shed")
    single = replace(rack.rails.u_bolts, count=1)
    once = replace(rack, rails=replace(rack.rails, u_bolts=single))
    jobs = [make_job(each, ()) for each in (once, rack)]
    one, two = (job.bolted[0] for job in jobs)
    assert two.count == 2 * one.count
    assert "straps E across the outer face" in two.words
    assert "strap" not in one.words
    assert strap_of(once) is None
    rail, other = (next(p for p in job.pieces if p.name == "rail") for job in jobs)
    assert rail.mark("U-bolt, lower leg").hole
    assert not other.mark("U-bolt, lower leg").hole


def test_the_strap_of_two_half_inch_u_bolts_by_hand() -> None:
    """Rail 1-5/8 in wide: 13/16 + 9/32 in, up to 1-1/8 in out; flat 1-1/2 in wide.

    A leg counts for 58 ksi x 0.1419 sq in / 2 = 4,115 lb, 5/16 in from the rail's edge: 1,286
    lb-in. 30 ksi / 1.67 of 1-1/2 t^2 / 4 (AISC 360-22 F11, from memory): t = 0.437, so 1/2 in.
    """
    strap = strap_of(case("boat_shed"))
    assert strap is not None
    assert not strap.through
    assert strap.out == pytest.approx((-1.125 * INCH, 1.125 * INCH))
    assert strap.length / INCH == pytest.approx(2 * (1.125 + 0.75), abs=1 / 8 + 1e-9)
    assert strap.width / INCH == pytest.approx(1.5)
    assert strap.thickness / INCH == pytest.approx(0.5)


@pytest.mark.parametrize("count", [2, 3, 4])
def test_every_leg_has_its_hole_in_the_strap(count: int) -> None:
    """Symmetric, three rods apart (AISC 360-22 J3.3), and no leg in the rail's side."""
    rack = case("wash_house")
    bolts = replace(rack.rails.u_bolts, count=count)
    rack = replace(rack, rails=replace(rack.rails, u_bolts=bolts))
    pieces = make_job(rack, ()).pieces
    strap = next(p for p in pieces if p.name == "strap")
    rail = next(p for p in pieces if p.name == "rail")
    holes = [m.at - strap.length / 2 for m in strap.marks if m.hole]
    assert len(holes) == count
    assert holes == pytest.approx([-x for x in reversed(holes)])
    assert min(b - a for a, b in pairwise(holes)) >= min(3 * 0.016, 2 * holes[-1]) - 1e-9
    side, rod = rack.rails.channel.width / 2, 0.016
    assert all(abs(x) < 1e-9 or abs(x) >= side + rod / 2 for x in holes)
    assert bool(rail.mark("U-bolt, upper leg").hole) == (count % 2 == 1)
    assert strap.count == 2 * rail.count


def test_marks_of_the_tilt_stops_fit_their_plates() -> None:
    """Two of eight rails: the outer ones; bolts as far apart as the plate's pair, plate beside."""
    rack = changed("boat_shed", ("u_bolts = 2  ", "tilt_stops = 2\nu_bolts = 2  "))
    job = make_job(rack, ())
    rail = next(p for p in job.pieces if p.name == "rail")
    low, high = (rail.mark(f"bolt of the tilt stop, {w}") for w in ("lower", "upper"))
    assert low.on == high.on == (1, 8)
    assert job.stop is not None
    pair = job.stop.holes[min(rack.tilts)]
    assert high.at - low.at == pytest.approx(math.dist(*pair))
    beam = next(p for p in job.pieces if p.name == "beam")
    left, right = (beam.mark(f"tilt stop beside rail {n}") for n in (1, 8))
    plate = 1.625 / 2 + 0.25 / 2
    assert (left.at - beam.mark("rail 1").at) / INCH == pytest.approx(plate, abs=1e-6)
    assert (right.at - beam.mark("rail 8").at) / INCH == pytest.approx(-plate, abs=1e-6)
    strap = strap_of(rack)
    assert strap is not None
    assert strap.out[-1] - 0.25 * INCH >= (1.625 / 2 + 0.25) * INCH


def test_pipe_is_bought_by_the_cut_plan_where_there_is_one() -> None:
    more = '\n[[sticks]]\npipe = "3-1/2 in nominal"\nsteel = "A53 B"\nlength = "15 ft"\n'
    rack = changed("orchard_wall", more=more)
    job = make_job(rack, ("knees",), Wanted(racks=2), inspect(rack, ("knees",)).result)
    beam = next(i for i in job.shopping.items if i.name.startswith("3-1/2"))
    assert beam.to_buy(2) / FOOT == pytest.approx(21)
    assert "1 new by the cut plan" in beam.note
    sleeve = next(i for i in job.shopping.items if i.name.startswith("sleeve pipe"))
    assert sleeve.to_buy(2) / FOOT == pytest.approx(3)


def test_every_bolt_that_a_line_hangs_on_is_bought_and_listed() -> None:
    """Salvage yard: 4 lugs at the post's top, 4 at beam ends, 4 rails' ends; 2 set bolts."""
    rack = case("salvage_yard")
    job = make_job(rack, rack.bracing_names)
    found = {i.name: i.amount for i in job.shopping.items}
    assert found["bolt 1/2 in for a lug"] == 8
    assert next(n for name, n in found.items() if "through a rail's end" in name) == 4
    listed = {b.name: b for b in job.bolted}
    assert listed["lugs and rail ends, to guys and braces"].count == 12
    assert listed["panel clamps"].torque is None
    nuts = next(w for w in job.welds if w.name.startswith("nuts"))
    assert nuts.count == 2
    assert nuts.length / INCH == pytest.approx(6 * 0.75 * math.tan(math.pi / 6))
