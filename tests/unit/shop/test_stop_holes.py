"""How high the bolts of a tilt stop pass through a rail, from the steel of its section."""

import pytest
from matplotlib.lines import Line2D

from frame.draw.shop.book import sheet_pages, template_pages
from frame.report.shop.data import csv_tables, document
from frame.shop.job import make_job
from frame.shop.steel.tilt_stop import stop_plate_of
from frame.tables.channels import find
from tests.builders import INCH, changed

SINGLE = "1-5/8 x 1-5/8 in 12 ga"
HEIGHTS = {
    SINGLE: 13 / 16,
    "1-5/8 x 1-5/8 in 14 ga": 13 / 16,
    f"{SINGLE} back to back": 13 / 16,
    "1-5/8 x 1-5/8 in 14 ga back to back": 13 / 16,
    "1-5/8 x 2-7/16 in 12 ga back to back": 1 + 7 / 32,
    "1-5/8 x 3-1/4 in 12 ga back to back": 1 + 5 / 8,
}
"""Half the depth of one channel, as its name has it [in]: halfway up its side walls."""
BOLT, BEAM = 1 / 2, 4.0
"""Bolt of a lug that the file leaves out, and 3-1/2 in nominal pipe, ASME B36.10M [in]."""


def rack(channel: str, tilts: str = '["15 deg", "35 deg"]'):
    """Boat shed on rails of a `channel`, two of them stopped."""
    return changed(
        "boat_shed",
        (f'channel = "{SINGLE} back to back"', f'channel = "{channel}"\ntilt_stops = 2'),
        ('tilts = ["15 deg", "35 deg"]', f"tilts = {tilts}"),
    )


def backs(channel: str) -> list[tuple[float, float]]:
    """Where the steel of the backs lies over the beam [in].

    One channel lies on its back, its slot up to the clamps. Of two the lower has its slot down:
    its back is as high as it is deep, and the other's stands on that.
    """
    wall = 0.105 if "12 ga" in channel else 0.075
    if "back to back" not in channel:
        return [(0.0, wall)]
    deep = 2 * HEIGHTS[channel]
    return [(deep - wall, deep), (deep, deep + wall)]


@pytest.mark.parametrize("channel", HEIGHTS)
def test_the_bolts_pass_halfway_up_one_channel_clear_of_the_backs(channel: str) -> None:
    stop = stop_plate_of(rack(channel))
    assert stop is not None
    up = stop.over / INCH
    assert up == pytest.approx(HEIGHTS[channel])
    for low, high in backs(channel):
        clear = max(low - (up + BOLT / 2), (up - BOLT / 2) - high)
        assert clear >= BOLT / 2
    whole = sum(HEIGHTS[channel] for _ in backs(channel)) * 2
    assert find(channel).depth / INCH == pytest.approx(whole)


@pytest.mark.parametrize("channel", HEIGHTS)
def test_the_template_has_its_holes_at_that_height(channel: str) -> None:
    """Read off the page: at one tilt they lie straight over the beam's axis by radius and height.

    The plate ends one and a half bolts over them, AISC 360-22 Table J3.4.
    """
    job = make_job(rack(channel, '["30 deg"]'), ())
    page = template_pages(job, "letter")[-1]
    width, height = page.get_size_inches()
    drawn = [
        (
            line.get_linewidth(),
            [x * width for x in line.get_xdata()],
            [y * height for y in line.get_ydata()],
        )
        for line in page.findobj(Line2D)
    ]
    plate = [(x, y) for weight, x, y in drawn if weight == pytest.approx(1.4)]
    axis_x = (min(min(x) for x, _ in plate) + max(max(x) for x, _ in plate)) / 2
    axis_y, top = min(min(y) for _, y in plate), max(max(y) for _, y in plate)
    level = [
        (sum(x) / 2 - axis_x, y[0] - axis_y)
        for weight, x, y in drawn
        if weight == pytest.approx(0.6) and y[0] == pytest.approx(y[1])
    ]
    up = BEAM / 2 + HEIGHTS[channel]
    apart = BEAM - 3 * BOLT
    assert sorted(level) == [
        pytest.approx((sign * apart / 2, up), abs=1e-6) for sign in (-1.0, 1.0)
    ]
    assert top - axis_y == pytest.approx(up + 1.5 * BOLT, abs=1e-6)


@pytest.mark.parametrize("channel", HEIGHTS)
def test_the_bolts_clear_the_u_bolts_by_a_bolt(channel: str) -> None:
    """Along the rail: rods hug the pipe from outside, bolts are 1-1/2 of their own within it."""
    found = rack(channel)
    rail = next(p for p in make_job(found, ()).pieces if p.name == "rail")
    for end, sign in (("lower", -1), ("upper", 1)):
        rod = rail.mark(f"U-bolt, {end} leg").at
        bolt = rail.mark(f"bolt of the tilt stop, {end}").at
        between = sign * (rod - bolt) / INCH - (found.rails.u_bolts.diameter / INCH + BOLT) / 2
        assert between == pytest.approx(BOLT)


@pytest.mark.parametrize("channel", [c for c in HEIGHTS if "back to back" in c])
def test_its_holes_leave_a_doubled_rail_what_its_slots_are_counted_with(channel: str) -> None:
    """Two holes of 9/16 in off the middle, net section about its own axis (Steiner).

    The trade leaves slotted channel 0.85, of memory; slots of the backs are at the middle here.
    """
    rail = find(channel)
    hole, off = 9 / 16, HEIGHTS[channel]
    wall, area, I1 = rail.wall / INCH, rail.area / INCH**2, rail.I1 / INCH**4
    gone = 2 * wall * hole
    shift = gone * off / (area - gone)
    left = I1 - gone * off**2 - 2 * wall * hole**3 / 12 - (area - gone) * shift**2
    assert left / (2 * off + shift) >= 0.85 * rail.S1 / INCH**3


@pytest.mark.parametrize("channel", [SINGLE, f"{SINGLE} back to back"])
def test_the_sheets_say_how_the_bolts_pass(channel: str) -> None:
    job = make_job(rack(channel), ())
    page = " ".join(t.get_text() for t in template_pages(job, "letter")[-1].texts)
    assert "13/16 in over the beam" in page
    assert ("lower channel" in page) == ("back to back" in channel)
    sheet = " ".join(t.get_text() for p in sheet_pages(job, "letter") for t in p.texts)
    assert "side, 13/16 in over the beam" in sheet
    assert "side, 13/16 in over the beam" in csv_tables(job)["marks.csv"]
    (bolt,) = (i for i in job.shopping.items if "for a tilt stop" in i.name)
    assert bolt.name.startswith("bolt 1/2 in x ")
    told = document(job)
    assert told["clearance"]["tilt_stop"]["over_beam"] == pytest.approx(13 / 16 * INCH)
    rail = next(p for p in told["pieces"] if p["name"] == "rail")
    ups = {m["name"]: m["up"] for m in rail["marks"] if m["up"]}
    assert ups == {
        f"bolt of the tilt stop, {end}": pytest.approx(13 / 16 * INCH)
        for end in ("lower", "upper")
    }


def test_a_shallow_rail_has_no_room_for_the_bolts() -> None:
    """13/16 in deep: 13/32 less half of 9/16 is 1/8 in, within its back and the bend on it."""
    job = make_job(rack("1-5/8 x 13/16 in 12 ga"), ())
    assert job.stop is None
    (told,) = (b.words for b in job.bolted if b.name.startswith("tilt stops"))
    assert told.startswith("WARNING: ")
    rail = next(p for p in job.pieces if p.name == "rail")
    assert not any("tilt stop" in m.name for m in rail.marks)
