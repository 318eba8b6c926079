"""What panels and rails strike, against points thrown into both bodies, and the tilt stop."""

import math

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from frame.draw.shop.book import template_pages
from frame.shop.ground import Ground
from frame.shop.job import make_job
from frame.shop.steel.tilt_stop import stop_plate_of
from frame.shop.yard.clearance import Box, clearance, gaps
from tests.builders import CASES, INCH, case, changed
from tests.often import often
from tests.random_racks import random_rack

DEGREE = math.pi / 180


def turned(tilt: float, heading: float) -> np.ndarray:
    """Matrix that turns the rack: first about its beam, then about its post."""
    c, s = math.cos(tilt), math.sin(tilt)
    tilted = np.array([[1, 0, 0], [0, c, -s], [0, s, c]])
    c, s = math.cos(heading), math.sin(heading)
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ tilted


@pytest.mark.parametrize("seed", range(often(6, 12)))
def test_the_gap_is_the_least_of_many_points_of_the_box(seed: int) -> None:
    draw = np.random.default_rng(seed)
    half = draw.uniform(0.1, 1.0, 3)
    box = Box(name="box", middle=np.array([draw.uniform(-1, 1), 0.0, 0.2]), half=half)
    height, tilt, heading = 1.8, draw.uniform(0, 1.2), draw.uniform(0, 6)
    start, end = draw.uniform(-2, 2, (2, 3)) + np.array([0, 0, 1.8])
    line = start + np.linspace(0, 1, 121)[:, None] * (end - start)
    grid = [np.linspace(-h, h, 41) for h in half]
    inside = np.stack(np.meshgrid(*grid), axis=-1).reshape(-1, 3) + box.middle
    world = inside @ turned(tilt, heading).T + [0, 0, height]
    least = min(float(np.linalg.norm(world - p, axis=1).min()) for p in line)
    (found,) = gaps(line, box, height, np.array([tilt]), np.array([heading]))
    if found > 0:
        assert least == pytest.approx(found, abs=0.05)
        assert found <= least + 1e-9
    else:
        assert least < 0.06


def test_a_low_rack_strikes_the_ground_where_its_corner_reaches_it() -> None:
    """Corner of a rail: H + (e - d/2) cos t - (L/2) sin t = 0, solved here by Newton's way."""
    rack = changed("boat_shed", ('height = "6 ft 6 in"', 'height = "5 ft"'))
    job = make_job(rack, ())
    (found,) = [c for c in job.clearance.contacts if c.what == "ground"]
    low, half = rack.stand_off - rack.rails.channel.depth / 2, rack.rails.length / 2
    t = 1.0
    for _ in range(50):
        height = rack.posts.height + low * math.cos(t) - half * math.sin(t)
        t += height / (low * math.sin(t) + half * math.cos(t))
    assert found.above == pytest.approx(t, abs=0.02 * DEGREE)
    assert found.below is None
    slope = rack.posts.height + low * math.cos(35 * DEGREE) - half * math.sin(35 * DEGREE)
    assert found.gap == pytest.approx(slope, abs=1e-9)


def test_ground_that_rises_to_the_front_is_struck_sooner() -> None:
    rack = changed("boat_shed", ('height = "6 ft 6 in"', 'height = "5 ft 6 in"'))
    flat = clearance(rack, (), (), Ground())
    steep = clearance(rack, (), (), Ground(10 * DEGREE, "back"))
    ground = [next(c for c in found.contacts if c.what == "ground") for found in (flat, steep)]
    assert ground[1].gap < ground[0].gap - 0.2


def test_post_top_guys_are_struck_by_a_steep_rack_and_not_before() -> None:
    """At the tilt told, points of guy and rail touch; half a degree less they do not."""
    job = make_job(case("boat_shed"), ("guys",))
    rack = job.rack
    front = next(c for c in job.clearance.contacts if c.what == "guy, front left")
    assert front.above is not None
    line = next(one for one in job.lines if one.name == front.what)
    points = line.eye.point + np.linspace(0, 1, 2001)[:, None] * (line.anchor - line.eye.point)
    half = np.array([1.625 / 2, rack.rails.length / 2 / INCH, 3.25 / 2]) * INCH

    def inside(tilt: float) -> bool:
        back = (points - [0, 0, rack.posts.height]) @ turned(tilt, 0.0)
        near = [
            np.all(np.abs(back - [x, 0, rack.stand_off]) <= half + 0.125 * INCH, axis=1)
            for x in rack.rails.positions
        ]
        return bool(np.any(near))

    assert inside(front.above + 0.2 * DEGREE)
    assert not inside(front.above - 0.5 * DEGREE)
    backward = next(c for c in job.clearance.contacts if c.what == "guy, back left")
    assert backward.above is None


def test_knees_and_corner_guys_hold_the_heading() -> None:
    assert "knees" in make_job(case("boat_shed"), ("knees",)).clearance.held
    assert "posts" in make_job(case("wash_house"), ()).clearance.held
    assert not make_job(case("boat_shed"), ("guys",)).clearance.held
    rack = case("salvage_yard")
    assert "beam-end guys" in make_job(rack, rack.bracing_names).clearance.held


def test_a_rack_turned_over_close_guys_strikes_them() -> None:
    far = make_job(case("boat_shed"), ("guys",)).clearance
    steep = changed("boat_shed", ('tilts = ["15 deg", "35 deg"]', 'tilts = ["54 deg"]'))
    near = make_job(steep, ("guys",)).clearance
    assert not far.turning
    assert {t.what for t in near.turning} >= {"guy, front left", "guy, back right"}


@pytest.mark.parametrize("rack", [*CASES, *range(often(8, 20))], ids=str)
def test_holes_of_the_stop_meet_those_of_the_rail_at_every_tilt(rack: str | int) -> None:
    """Two holes of a rail turned about the beam's axis land on the plate's pair for that tilt."""
    found = case(rack) if isinstance(rack, str) else random_rack(rack)
    stop = stop_plate_of(found)
    assert stop is not None
    spread = found.beam.pipe.od - 3 * found.welds.lug_bolt
    middle = (min(found.tilts) + max(found.tilts)) / 2
    channel = found.rails.channel
    over = channel.depth / 4 if channel.doubled else channel.depth / 2
    for tilt, pair in stop.holes.items():
        for sign, hole in zip((-1, 1), pair, strict=True):
            on_rail = np.array([0.0, sign * spread / 2, found.beam.pipe.od / 2 + over])
            world = turned(tilt, 0.0) @ on_rail
            plate = turned(middle, 0.0).T @ world
            assert hole == pytest.approx(tuple(plate[1:]), abs=1e-12)
            assert abs(hole[0]) + 1.5 * found.welds.lug_bolt <= stop.half + 1e-12
            assert hole[1] + 1.5 * found.welds.lug_bolt <= stop.top + 1e-12


@pytest.mark.parametrize("name", [*CASES, "hay_barn"])
def test_every_template_stays_on_its_page(name: str) -> None:
    rack = case(name)
    size = "a4" if rack.units == "metric" else "letter"
    for page in template_pages(make_job(rack, rack.bracing_names), size):
        for line in page.lines:
            assert min(line.get_ydata()) > 0.03
            assert max(line.get_xdata()) < 1.0
        for ax in page.axes:
            box = ax.get_position()
            assert box.y0 > 0.1
            assert box.x1 < 1.0


def test_stops_of_the_file_are_bought_welded_and_bolted() -> None:
    rack = changed("boat_shed", ("u_bolts = 2  ", "tilt_stops = 4\nu_bolts = 2  "))
    job = make_job(rack, ())
    assert any(i.name.startswith("tilt stop plate") and i.amount == 4 for i in job.shopping.items)
    assert any(w.name.startswith("tilt stops") and w.count == 4 for w in job.welds)
    assert any(b.name.startswith("tilt stops") and b.count == 8 for b in job.bolted)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("pipe", ["1-1/2 in nominal", "3-1/2 in nominal"])
def test_the_table_of_a_stops_holes_lies_on_the_page(pipe: str, paper: str) -> None:
    """A thick knee's template turns the paper upright, where no room is left beside the plate."""
    rack = changed("boat_shed", ('pipe = "1-1/2 in nominal"', f'pipe = "{pipe}"'))
    job = make_job(rack, ("knees",))
    page = template_pages(job, paper)[-1]
    renderer = FigureCanvasAgg(page).get_renderer()
    width, _ = page.get_size_inches() * page.dpi
    boxes = [t.get_window_extent(renderer) for t in page.texts if t.get_text()]
    assert any("upper hole" in t.get_text() for t in page.texts)
    assert all(box.x0 > 0 and box.x1 < width for box in boxes)
