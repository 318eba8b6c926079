"""Rails that make way for what is welded under the beam: marks against widths added by hand."""

import math

import pytest

from frame.draw.shop.book import sheet_pages
from frame.report.shop.data import csv_tables, document
from frame.shop.job import Job, make_job
from frame.shop.job_words import crowded_words, marked_elsewhere
from frame.shop.steel.straps import strap_of
from frame.verdict.inspect import inspect
from tests.builders import INCH, case, changed
from tests.decided import inspected

SLEEVE = (114.3 + 3) / 2 + 5.022
"""Half of a sleeve 5.022 mm thick over a post of 114.3 mm with 3 mm to spare [mm]."""
U_BOLTS = 48 + 16 / 2
"""Three U-bolts of 16 mm, three rods apart: middle of the rail to the outer rod's face [mm]."""
WIDTH = 1.625 * 25.4
COLUMN = (-2.5 * 1050 - 2 * 20 + 1070, -2.5 * 1050 - 2 * 20 + 1070 + 1050)
"""Edges of the second of five panels 1050 mm wide, 20 mm apart [mm]."""


def rack(third: int, stops: int = 0):
    """Wash house, its posts 3 m apart, its third rail where told [mm from the middle]."""
    places = [-2402, -1877, third, -807, -262, 263, 807, 1333, 1877, 2402]
    told = ", ".join(f'"{x} mm"' for x in places)
    rails = f"[rails]\npositions = [{told}]\ntilt_stops = {stops}"
    return changed("wash_house", ("[rails]", rails), ('spacing = "3.2 m"', 'spacing = "3.0 m"'))


def marked(job: Job, name: str) -> float:
    """Where a mark of the beam is [mm from its middle], from the table for the shop."""
    (at,) = (
        line.split(",")[2]
        for line in csv_tables(job)["marks.csv"].splitlines()
        if f",{name}," in line
    )
    return 1e3 * float(at) - 2700


def test_a_rail_beside_a_sleeve_is_marked_where_its_u_bolts_clear_it() -> None:
    """From -1400 towards the middle: the rods 1/8 in off the toe of the sleeve's weld."""
    found = rack(-1400, stops=10)
    job = make_job(found, ())
    leg = found.welds.leg * 1e3
    clear = -1500 + SLEEVE + leg + 25.4 / 8 + U_BOLTS
    assert clear - 1 < -1400 + 100
    assert clear <= marked(job, "rail 3") < clear + 1
    assert COLUMN[0] + WIDTH <= marked(job, "rail 3") <= COLUMN[1] - WIDTH
    plate = WIDTH / 2 + found.welds.lug_plate * 1e3 / 2
    beside = marked(job, "tilt stop beside rail 3")
    assert beside == pytest.approx(marked(job, "rail 3") + plate, abs=1.01)
    assert [c.rail for c in job.moved] == [3]
    assert not job.crowded
    assert marked_elsewhere(job)[0].startswith("Rail 3 is marked")
    assert job.rack.rails.positions[2] * 1e3 == pytest.approx(marked(job, "rail 3"), abs=0.01)
    tie = next(p for p in make_job(found, ("ties",)).pieces if p.name == "tie rail")
    apart = 1e3 * (tie.mark("rail 3").at - tie.mark("rail 1").at)
    assert apart == pytest.approx(marked(job, "rail 3") + 2402, abs=0.01)


def test_a_rail_at_its_panels_edge_stays_and_is_warned_of() -> None:
    """At -1520: left of the sleeve is the gap at -1605, right of it nearer the next rail's share.

    Its place beyond the sleeve is told: -1500 and half of sleeve, weld, room, U-bolts.
    """
    found = rack(-1520)
    job = make_job(found, ())
    assert marked(job, "rail 3") == pytest.approx(-1520, abs=1e-6)
    left = -1500 - SLEEVE - found.welds.leg * 1e3 - 25.4 / 8 - U_BOLTS
    assert left < COLUMN[0] + WIDTH
    (one,) = job.crowded
    assert (one.rail, one.shift) == (3, pytest.approx((left + 1520) / 1e3, abs=1e-5))
    free = -1500 + SLEEVE + found.welds.leg * 1e3 + 25.4 / 8 + U_BOLTS
    assert one.place is not None
    assert free <= 1e3 * one.place < free + 1
    (said,) = crowded_words(job)
    assert said.startswith("WARNING: the sleeve of post 1 stands in the way")
    assert f"{-1e3 * one.place:.0f} mm left of the beam's middle" in said
    texts = " ".join(t.get_text() for page in sheet_pages(job, "a4") for t in page.texts)
    assert "stands in the way of the U-bolts of rail 3" in texts


def test_a_rail_in_the_gap_holds_two_panels_and_stays() -> None:
    job = make_job(rack(-1605), ())
    assert marked(job, "rail 3") == pytest.approx(-1605, abs=1e-6)
    assert [c.rail for c in job.crowded] == [3]
    assert job.crowded[0].place is None
    assert "no place under that panel" in crowded_words(job)[0]


def test_u_bolts_that_come_onto_a_knee_make_way() -> None:
    """Orchard wall: rail 3 over the left knee just clears the toe of its weld, by 1/8 in."""
    job = make_job(case("orchard_wall"), ("knees",))
    by_name = {p.name: p for p in job.pieces}
    beam, knee, strap = by_name["beam"], by_name["knee"], strap_of(job.rack)
    assert strap is not None
    toe = knee.od / 2 / math.sin(knee.ends[1].angle) + job.rack.welds.leg
    rod = beam.mark("rail 3").at + strap.out[-1] + 0.25 * INCH
    room = beam.mark("knee, left").at - toe - rod
    assert INCH / 8 <= room + 1e-9 < INCH / 8 + INCH / 16
    assert not job.crowded
    assert {c.rail for c in job.moved} == {3, 6}
    assert [c["rail"] for c in document(job)["moved_rails"]] == [3, 6]


@pytest.mark.xdist_group("orchard_wall")
def test_the_rack_is_solved_with_its_rails_as_marked() -> None:
    found = case("orchard_wall")
    job = make_job(found, ("knees",), result=inspected(found, ("knees",)).result)
    alone = inspect(job.rack, ("knees",)).result
    assert job.result is not None
    assert job.result.limit_gust == alone.limit_gust
    assert marked_elsewhere(job)[-1].startswith("Solved with the rails as they are marked: ")
