"""Knees meet the post under its sleeve: against rays along the pipes, met with tubes in space."""

import re

import numpy as np
import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.offered import all_series
from frame.changes.series import Thing
from frame.changes.stock import supply
from frame.errors import InputError
from frame.rack.rack import KNEES, Rack
from frame.shop.job import make_job
from frame.units import parse
from frame.whatif.knee_card import knee_card
from tests.random_racks import rack_text

RACK = """tilts = ["30 deg"]
[site]
map_gust = "45 m/s"
[panels]
across = 3
up = 2
size = "1000 mm x 1600 mm"
weight = "21 kg"
[post]
pipe = {{ od = "168 mm", wall = "7 mm" }}
height = "2200 mm"
depth = "1500 mm"
[sleeve]
length = "{sleeve} mm"
clearance = "3 mm"
wall = "{wall} mm"
[welds]
leg = "5 mm"
lug_length = "80 mm"
[beam]
pipe = {{ od = "102 mm", wall = "5.7 mm" }}
length = "3300 mm"
[knees]
pipe = {{ od = "48 mm", wall = "3.7 mm" }}
drop = '''{drop}'''
reach = "{reach} mm"
ends = "{ends}"
"""
POST, KNEE, BEAM, PLAY, LEG, LUG = 84.0, 24.0, 51.0, 3.0, 5.0, 80.0
"""Radii of the pipes, play, leg of the welds and length of the lugs of that rack [mm]."""


def text_of(drop: str, **said: object) -> str:
    """Return the file with knees of a drop as written."""
    sizes = {"sleeve": 600, "wall": 7, "reach": 700, "ends": "welded"}
    return RACK.format(drop=drop, **(sizes | said))


def right_of(drop: str, units: str = "metric", **said: object) -> str:
    """Return what is said to be right of a drop that is refused, "" of one that is taken."""
    text = text_of(drop, **said)
    try:
        parse_rack(text, "rack.toml", units)
    except InputError as error:
        return next(p.right for p in error.problems if p.where == "knees.drop")
    return ""


def wrong_in(text: str) -> set[str]:
    """Return the keys of a file that are refused."""
    try:
        parse_rack(text, "rack.toml")
    except InputError as error:
        return {p.where for p in error.problems}
    return set()


def named_in(right: str) -> str:
    """Return the drop that a message names."""
    found = re.search(r"at least (.*): ", right)
    assert found, right
    return found[1]


def rays(drop: float, reach: float) -> tuple[np.ndarray, np.ndarray]:
    """Return starts of lines along the wall of a knee, and their way: z up from the beam [mm]."""
    way = np.array([reach, 0.0, drop]) / np.hypot(reach, drop)
    up, side = np.array([-way[2], 0.0, way[0]]), np.array([0.0, 1.0, 0.0])
    turn = np.linspace(0, 2 * np.pi, 721)[:, None]
    return np.array([0.0, 0.0, -drop]) + KNEE * (np.cos(turn) * up + np.sin(turn) * side), way


def highest(drop: float, reach: float, radius: float, beside: float = 0.0) -> float:
    """Height [mm] at which a knee leaves a tube of a radius whose axis is `beside` the post's."""
    start, way = rays(drop, reach)
    # |(start + t way) - axis| = radius, in plan: the larger root is where the line comes out.
    x, y = start[:, 0] - beside, start[:, 1]
    a, b, c = way[0] ** 2, way[0] * x, x**2 + y**2 - radius**2
    t = (-b + np.sqrt(b**2 - a * c)) / a
    return float((start[:, 2] + t * way[2]).max())


def clear_of_sleeve(drop: float, reach: float, sleeve: float, wall: float) -> bool:
    """Whether a welded knee clears a sleeve that hangs towards it, and its seat so by a leg."""
    foot = -BEAM - sleeve
    outside = highest(drop, reach, POST + PLAY / 2 + wall, PLAY / 2)
    return highest(drop, reach, POST) <= foot - LEG + 1e-3 and outside <= foot + 1e-3


def test_a_knee_whose_seat_is_on_the_sleeve_is_refused() -> None:
    """Axis onto the post 84 mm up from 700 mm, edge 24 x 1.414 = 34 mm further: at 582 mm."""
    assert highest(700, 700, POST) == pytest.approx(-582.06, abs=0.01)
    assert right_of("700 mm")
    assert not right_of("700 mm", sleeve=515)
    assert right_of("700 mm", sleeve=529)


@pytest.mark.parametrize("reach", [300, 500, 700, 1100])
@pytest.mark.parametrize("wall", [1.5, 7])
@pytest.mark.parametrize("sleeve", [250, 600])
def test_the_drop_that_is_named_is_the_least_that_clears(
    reach: int, wall: float, sleeve: int
) -> None:
    """A thin sleeve clears by the leg of the weld, a thick one by its own corner."""
    said = {"reach": reach, "wall": wall, "sleeve": sleeve}
    drop = named_in(right_of("200 mm", **said))
    assert not right_of(drop, **said)
    least = parse(drop, "length") * 1e3
    assert clear_of_sleeve(least, reach, sleeve, wall)
    assert not clear_of_sleeve(least - 1.01, reach, sleeve, wall)
    assert right_of(f"{least - 1.01:.2f} mm", **said)


@pytest.mark.parametrize("reach", [300, 700])
def test_the_lug_of_a_pinned_knee_ends_a_leg_under_the_sleeve(reach: int) -> None:
    """The knee's axis goes through the hole: half a lug's length off the post, in its middle."""
    drop = named_in(right_of("200 mm", ends="pinned", reach=reach))
    assert not right_of(drop, ends="pinned", reach=reach)
    least = parse(drop, "length") * 1e3
    hole = np.interp(POST + LUG / 2, [0, reach], [-least, 0])
    assert 0 <= -BEAM - 600 - LEG - (hole + LUG / 2) < 1.01
    assert right_of(f"{least - 1.01:.2f} mm", ends="pinned", reach=reach)


@pytest.mark.parametrize("ends", ["welded", "pinned"])
@pytest.mark.parametrize("sleeve", [200, 333, 600])
def test_feet_and_inches_named_are_taken_and_an_inch_less_is_not(ends: str, sleeve: int) -> None:
    said = {"ends": ends, "sleeve": sleeve}
    drop = named_in(right_of("8 in", "us", **said))
    assert "mm" not in drop
    assert not right_of(drop, "us", **said)
    least = parse(drop, "length") / 0.0254
    for short in (1, 1.01 / 16):
        assert right_of(f"{least - short:.4f} in", "us", **said)


def test_where_no_drop_clears_more_reach_is_asked_for() -> None:
    """At 110 mm, 2 mm past post and knee, the seat hardly goes down with the drop."""
    assert highest(2200, 110, POST) > -651
    assert "more reach" in right_of("700 mm", reach=110)


def test_a_drop_is_named_where_the_post_has_no_height_yet() -> None:
    text = text_of("200 mm").replace('height = "2200 mm"\n', "")
    with pytest.raises(InputError) as found:
        parse_rack(text, "rack.toml")
    (right,) = (p.right for p in found.value.problems if p.where == "knees.drop")
    assert named_in(right) == named_in(right_of("200 mm"))


def read(text: str) -> Rack:
    return parse_rack(text, "rack.toml")


@pytest.mark.parametrize("ends", ["welded", "pinned"])
def test_marks_for_the_shop_lie_apart_as_the_file_was_judged(ends: str) -> None:
    drop = named_in(right_of("200 mm", ends=ends))
    post = next(
        p for p in make_job(read(text_of(drop, ends=ends)), (KNEES,)).pieces if p.of == "post"
    )
    knee = next(m for m in post.marks if "knee, left" in m.name)
    steep = np.hypot(700, parse(drop, "length") * 1e3) / 700
    half = KNEE * steep if ends == "welded" else LUG / 2
    room = (post.mark("foot of the sleeve").at - knee.at) * 1e3 - half
    assert LEG - 1 <= room < LEG + 8


@pytest.mark.parametrize("ends", ["welded", "pinned"])
def test_every_sleeve_and_place_of_knees_on_offer_can_be_built(ends: str) -> None:
    text = text_of("900 mm", ends=ends, sleeve=150)
    rack = read(text)
    found = {s.thing: s for s in all_series(rack, (KNEES,), supply(rack, text))}
    for thing in (Thing.SLEEVE_LENGTH, Thing.KNEES_PLACE):
        assert len(found[thing].rungs) > 2
        for rung in found[thing].rungs:
            read(edited(text, rung.edits))
    longest = max(
        rung.edits.get(("sleeve", "length"), "") for rung in found[Thing.SLEEVE_LENGTH].rungs
    )
    assert longest == "600 mm"


def test_the_card_of_reaches_says_which_land_on_the_sleeve() -> None:
    """At the drop named for 700 mm, more reach clears and less does not."""
    drop = named_in(right_of("200 mm", reach=700))
    rack = read(text_of(drop, reach=700))
    card = knee_card(rack, 1e-3, rack.tilts)
    assert {c.reach < 0.699: bool(c.note) for c in card} == {True: True, False: False}
    assert all(bool(c.note) == (c.reach < 0.699) for c in card)


def test_random_racks_have_no_knees_on_their_sleeves() -> None:
    for seed in range(200):
        assert "knees.drop" not in wrong_in(rack_text(np.random.default_rng(seed)))
