"""Stakes, guys and neighbours: the printed tapes against plain coordinates."""

import math

import numpy as np
import pytest

from frame.draw.shop.book import sheet_pages
from frame.report.shop.data import document
from frame.shop.ground import Ground
from frame.shop.job import Wanted, make_job
from frame.shop.yard.lines import clips_of
from frame.shop.yard.neighbours import gap, neighbours
from tests.builders import INCH, case, changed
from tests.often import often
from tests.random_racks import random_rack
from tests.unit.shop.rebuilt import Rebuilt

TEN = math.radians(10)
SLOPES = [Ground(), Ground(TEN, "front"), Ground(TEN, "left")]


def tapes(job) -> dict[frozenset[str], float]:
    return {frozenset((m.first, m.second)): m.tape for m in job.measures}


@pytest.mark.parametrize("ground", SLOPES, ids=lambda g: f"{g.falls} {g.slope:.2f}")
def test_tapes_alone_find_every_anchor(ground: Ground) -> None:
    """By the theorem of cosines in the plane of the ground, from post and first anchor."""
    job = make_job(case("boat_shed"), ("guys",), Wanted(ground=ground))
    found = tapes(job)
    post, first, second, third, fourth = (s.name for s in job.stakes)

    def between(a: str, b: str) -> float:
        return found[frozenset((a, b))]

    def angle(a: str, b: str) -> float:
        """Angle at the post between two anchors, from three tapes."""
        p, q, r = between(post, a), between(post, b), between(a, b)
        return math.acos((p * p + q * q - r * r) / (2 * p * q))

    round_it = [(first, second), (second, fourth), (fourth, third), (third, first)]
    assert sum(angle(*pair) for pair in round_it) == pytest.approx(2 * math.pi)
    across = between(first, fourth), between(second, third)
    assert across[0] == pytest.approx(between(post, first) + between(post, fourth))
    assert across[1] == pytest.approx(between(post, second) + between(post, third))


def test_a_slope_takes_from_the_uphill_guy_and_gives_to_the_downhill() -> None:
    """Boat shed, 5'-6" out and along, eye 5'-4 7/8" up: lengths by Pythagoras on the slope."""
    job = make_job(case("boat_shed"), ("guys",), Wanted(ground=Ground(TEN, "front")))
    rise = 66 * INCH * math.tan(TEN)
    for line in job.lines:
        down = rise if line.eye.which.startswith("front") else -rise
        eye = line.eye.point
        run = np.hypot(66 * INCH - abs(eye[0]), 66 * INCH - abs(eye[1]))
        assert line.pins == pytest.approx(math.hypot(run, eye[2] + down), abs=1e-6)
    lengths = {line.eye.which: line.pins for line in job.lines}
    assert lengths["front left"] > lengths["back left"] + 0.2


def test_guys_close_on_their_stakes() -> None:
    """From the printed marks of post, beam and rails to the stake, within 1/16 in."""
    seen = set()
    racks = [
        case("salvage_yard"),
        case("boat_shed"),
        *(random_rack(n) for n in range(often(12, 40))),
    ]
    for rack in racks:
        found = document(make_job(rack, rack.bracing_names))
        built = Rebuilt(found)
        middle = built.beam.point("hook end") + built.beam.point("far end")
        post = built.placed[built.named["post"]["letter"], 1]
        grade = post.hook[2] + post.mark("grade")["at"]
        origin = np.array([middle[0] / 2, 0.0, grade])
        for guy in found["guys"]:
            if guy["eye_on"] == "rail" and guy["tilt_deg"] not in (None, found["tilt_deg"]):
                continue
            letter = built.named[guy["eye_on"]]["letter"]
            eye = built.placed[letter, guy["eye_number"]].point(guy["eye_mark"]) - origin
            length = float(np.linalg.norm(eye - guy["anchor"]))
            assert length == pytest.approx(guy["pins"], abs=INCH / 16), guy["name"]
            seen.add(guy["eye_on"])
    assert seen == {"post", "beam", "rail"}


def test_posts_alone_are_set_out_too() -> None:
    """Wash house: two posts 3.2 m apart, no guys."""
    rack = case("wash_house")
    pages = sheet_pages(make_job(rack, ("knees",)), "a4")
    said = [t.get_text() for page in pages for t in page.texts]
    assert "wash house: stakes" in said
    assert "3200 mm" in said


def test_clips_are_those_of_the_table() -> None:
    """1/4 in: 2 clips, 4-3/4 in turned back, 15 ft-lb (public rigging tables, FF-C-450)."""
    (group,) = case("boat_shed").guys
    clips = clips_of(group)
    assert clips is not None
    assert (clips.count, round(clips.turn_back / INCH, 2)) == (2, 4.75)
    assert clips.torque == pytest.approx(15 * 12 * INCH * 4.4482216152605)


def test_the_gap_between_two_straight_pieces_is_the_least_of_all() -> None:
    draw = np.random.default_rng(5)
    part = np.linspace(0, 1, 201)[:, None]
    for _ in range(50):
        a, b, c, d = draw.uniform(-1, 1, (4, 3))
        here, there = a + part * (b - a), c + part * (d - c)
        sampled = np.linalg.norm(here[:, None] - there[None], axis=2).min()
        assert gap(a, b, c, d) == pytest.approx(sampled, abs=0.01)
        assert gap(a, b, c, d) <= sampled + 1e-12


def test_racks_far_enough_apart_are_out_of_each_others_way() -> None:
    """A rack turned right round sweeps the far corner of its panels, by Pythagoras."""
    rack = case("boat_shed")
    job = make_job(rack, ("knees", "guys"), Wanted(racks=2, apart=(3.0, 0.0)))
    assert job.beside is not None
    half = 170.5 / 2
    across = 138.5 / 2 * math.cos(math.radians(15))
    assert job.beside.turning / INCH > math.hypot(half, across)
    assert job.beside.turning / INCH < math.hypot(half, across + 3)
    assert "reach each other" in job.beside.faults[0]
    assert any("cross" in fault for fault in job.beside.faults)
    for far in ((job.beside.beside, 0.0), (0.0, job.beside.behind)):
        assert not neighbours(rack, job.lines, far).faults
        near = tuple(d and d - 2 * INCH for d in far)
        assert neighbours(rack, job.lines, near).faults


def test_racks_that_do_not_turn_keep_their_panels_apart() -> None:
    job = make_job(case("wash_house"), ("knees",), Wanted(racks=2, apart=(3.0, 0.0)))
    assert job.beside is not None
    assert job.beside.turning == 0.0
    assert job.beside.faults == ("the panels of one are in the way of the other's",)


def test_anchors_of_rail_corners_move_with_the_tilt() -> None:
    rack = changed("salvage_yard")
    job = make_job(rack, rack.bracing_names)
    tilts = {line.tilt for line in job.lines if line.group == "corner guys"}
    assert tilts == set(rack.tilts)
    assert all(line.tilt is None for line in job.lines if line.group != "corner guys")


@pytest.mark.parametrize("place", ["post top", "beam ends", "rail corners"])
@pytest.mark.parametrize("ground", SLOPES, ids=lambda g: f"{g.falls} {g.slope:.2f}")
def test_stays_close_between_their_eyes_and_their_feet(place: str, ground: Ground) -> None:
    """Pin to pin is the pipe and both tabs, within 1/16 in of what marks and stakes say."""
    more = f'[stays]\nfrom = "{place}"\npipe = "1-1/2 in nominal"\nout = "5 ft"\nalong = "3 ft"\n'
    rack = changed("boat_shed", more=f"\n{more}")
    found = document(make_job(rack, ("stays",), Wanted(ground=ground)))
    built = Rebuilt(found)
    post = built.placed[built.named["post"]["letter"], 1]
    middle = built.beam.point("hook end") + built.beam.point("far end")
    origin = np.array([middle[0] / 2, 0.0, post.hook[2] + post.mark("grade")["at"]])
    feet = {s["name"]: np.array(s["xyz"]) for s in found["stakes"]}
    stays = [p for p in found["pieces"] if p["name"].startswith("stay")]
    assert sum(p["count"] for p in stays) == 4
    for which in ("front left", "front right", "back left", "back right"):
        name = f"eye of stays, {which}"
        carrier, number = next(
            (p, m["on"][0] if m["on"] else 1)
            for p in found["pieces"]
            for m in p["marks"]
            if m["name"] == name
        )
        eye = built.placed[carrier["letter"], number].point(name) - origin
        apart = float(np.linalg.norm(eye - feet[f"foot of stay, {which}"]))
        words = {"stay", *which.split()}
        (stay,) = [p for p in stays if set(p["name"].replace(",", "").split()) <= words]
        pins = stay["length"] + sum(end["reach"] for end in stay["ends"])
        assert apart == pytest.approx(pins, abs=INCH / 16)
