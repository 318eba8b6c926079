"""Posts in the ground at what is expected of it: strengths by hand in pounds, feet; laws."""

from dataclasses import replace
from math import pi, radians, tan

import numpy as np
import pytest

from frame.checks.check import Check, Kind
from frame.parts.ground.at_grade import at_grade
from frame.parts.ground.posts import ground_checks
from frame.rack.rack import Rack
from frame.search.governing import pick
from frame.solved.blocks import median_blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import Situation, at_gusts, whole_table
from frame.tables import soils
from frame.tables.expected import Variant, variants
from tests.step_check import assert_steps
from tests.unit.parts.racks import FOOT, INCH, MPH, ONE_POST, POUND, first_order

TILT = radians(15)
NAMES = {
    "leaning": "post in ground, leaning",
    "sideways": "post in ground, sideways",
    "down": "post in ground, pressed down",
    "up": "post in ground, pulled up",
    "turning": "post turning in the ground",
}


def rack(soil: str = "clay", **footing: object) -> Rack:
    """One post of 5.563 in, 54 in deep in a 14 in hole, a foot of the top left out."""
    posts = replace(ONE_POST.posts, footing=replace(ONE_POST.posts.footing, **footing))
    return replace(ONE_POST, posts=posts, site=replace(ONE_POST.site, soil=soils.find(soil)))


def blown(one: Rack, key: str = "", *, high: bool = False, gust: float = 60 * MPH) -> Situation:
    """Every wind at the medians, or with one input at an end of its range."""
    block = median_blocks(solve_frames(one, [()], [TILT]), (), [TILT])[0]
    table = whole_table(block)
    count = len(table.labels)
    variant = variants().index(Variant(key, high=high))
    now = at_gusts(block, table, np.arange(count), np.full(count, gust), np.full(count, variant))
    return first_order(now)


def checks(now: Situation) -> dict[str, Check]:
    return {c.name: c for _, c in ground_checks(now)}


def strength(now: Situation, name: str) -> float:
    """Strength [lb] or [ft-lb], the same in every case."""
    values = np.unique(np.round(np.asarray(checks(now)[NAMES[name]].nominal, dtype=float), 6))
    assert len(values) == 1
    return float(values[0]) / POUND


def test_concrete_in_firm_clay() -> None:
    """cu 1000 psf; 14 in of concrete from 9 in down, 4.5 ft deep.

    Sideways: 0.19 x 4.5 = 0.855 ft of the width counts below 1.5 x 0.855 = 1.2825 ft.
    """
    now = blown(rack())
    b, rubs = 14 / 12, 4.5 - 0.75
    sides = pi * b * rubs
    line = 9 * 1000 * 0.855
    assert strength(now, "sideways") / FOOT == pytest.approx(line * (4.5 - 1.2825) ** 2 / 4)
    assert strength(now, "leaning") == pytest.approx(strength(now, "sideways") / 2)
    disc = pi * b**3 / 12 * 500
    assert strength(now, "turning") / FOOT == pytest.approx(500 * sides * b / 2 + disc)
    assert strength(now, "down") == pytest.approx(9000 * pi / 4 * b**2 + 500 * sides)
    ring = pi / 4 * (b**2 - (5.563 / 12) ** 2) * 4.5 * 145
    assert strength(now, "up") == pytest.approx(ring + 14.62 * 4.5 + 400 * sides, rel=2e-3)


def test_tamped_earth_in_firm_clay() -> None:
    """1.25 of 5.563 in bears below 9 in; 0.8 of the pipe's sides rubs with half of cu."""
    now = blown(rack(backfill="earth"))
    od, rubs = 5.563 / 12, 4.5 - 0.75
    width = 1.25 * od
    line = 9 * 1000 * width
    top = max(0.75, 1.5 * width)
    sides = pi * od * rubs
    assert strength(now, "sideways") / FOOT == pytest.approx(line * (4.5 - top) ** 2 / 4, rel=1e-3)
    turned = 400 * sides * od / 2 + pi * od**3 / 12 * 500
    assert strength(now, "turning") / FOOT == pytest.approx(turned, rel=1e-3)
    assert strength(now, "down") == pytest.approx(9000 * pi / 4 * od**2 + 400 * sides, rel=1e-3)
    assert strength(now, "up") == pytest.approx(14.62 * 4.5 + 400 * sides, rel=2e-3)


def test_concrete_in_sand() -> None:
    """34 deg and 100 pcf, moist: Kp 3.537, Nq 29.44; K tan(delta) 0.6 on the overburden."""
    now = blown(rack("sand"), gust=1.0 * MPH)
    b, L, a = 14 / 12, 4.5, 0.75
    about_foot = 3 * 3.537 * 100 * b * (L - a) ** 2 * (L + 2 * a) / 6
    assert strength(now, "sideways") / FOOT == pytest.approx(about_foot, rel=1e-3)
    sides, friction = pi * b * (L - a), 0.6 * 100 * (L + a) / 2
    assert strength(now, "down") == pytest.approx(
        29.44 * 100 * L * pi / 4 * b**2 + friction * sides, rel=1e-3
    )
    load = at_grade(now, 0)
    ring = pi / 4 * (b**2 - (5.563 / 12) ** 2) * L * 145 + 14.62 * L
    on_foot = ring + 0.5 * load.down / POUND
    turned = friction * sides * b / 2 + on_foot * tan(radians(34)) * b / 3
    got = np.asarray(checks(now)[NAMES["turning"]].nominal) / POUND / FOOT
    assert got == pytest.approx(turned, rel=2e-3)


def test_the_inputs_move_what_they_should() -> None:
    """Clay from 0.45 to 2.2 of the median; sand's angle, its rule and its sides each apart."""
    clay, sand = rack(), rack("sand")
    for name in ("sideways", "turning", "down"):
        middle = strength(blown(clay), name)
        assert strength(blown(clay, "clay"), name) == pytest.approx(0.45 * middle)
        assert strength(blown(clay, "clay", high=True), name) == pytest.approx(2.2 * middle)
    middle = strength(blown(sand), "sideways")
    assert strength(blown(sand, "sand_capacity"), "sideways") == pytest.approx(0.7 * middle)
    low, high = (tan(pi / 4 + radians(34 * f) / 2) ** 2 for f in (0.889, 1.111))
    ratio = strength(blown(sand, "sand_angle", high=True), "sideways") / strength(
        blown(sand, "sand_angle"), "sideways"
    )
    assert ratio == pytest.approx(high / low)
    assert strength(blown(sand, "shaft"), "up") < strength(blown(sand), "up")
    assert strength(blown(sand, "clay"), "up") == pytest.approx(strength(blown(sand), "up"))


RACKS = {
    "concrete in clay": rack(),
    "earth in hardpan": rack("hardpan", backfill="earth", foot=0.25),
    "gravel in clay": rack(backfill="gravel"),
    "concrete in sand": rack("sand"),
    "earth in sandy gravel": rack("sandy gravel", backfill="earth"),
    "gravel in rock": rack("sedimentary rock", backfill="gravel"),
    "slab on clay": rack(slab=True),
}


@pytest.mark.parametrize("name", RACKS)
def test_every_step_can_be_worked_out_again(name: str) -> None:
    now = blown(RACKS[name])
    found = checks(now)
    assert list(found) == list(NAMES.values())
    kinds = [check.kind for check in found.values()]
    assert kinds == [Kind.LEANS, Kind.BREAKS, Kind.LEANS, Kind.LEANS, Kind.TURNS]
    for check in found.values():
        use = np.broadcast_to(check.let_go, now.case.shape)
        assert np.isfinite(use).all()
        assert check.utilisation == pytest.approx(check.let_go)
        assert_steps(pick(check, int(use.argmax()), len(now.case)))


@pytest.mark.parametrize("name", RACKS)
def test_a_deeper_or_wider_hole_or_concrete_never_lets_go_sooner(name: str) -> None:
    """At the gust that stands: what its weight adds to the foot is less than it bears."""
    one = RACKS[name]
    footing = one.posts.footing
    before = checks(blown(one))
    changes = (
        {"depth": footing.depth + 6 * INCH},
        {"hole": footing.hole + 2 * INCH},
        {"backfill": "concrete"},
    )
    for change in changes:
        other = replace(one.posts, footing=replace(footing, **change))
        after = checks(blown(replace(one, posts=other)))
        for key, check in before.items():
            left = after[key].nominal - after[key].demand
            slack = 2e-3 * check.nominal
            assert (left >= check.nominal - check.demand - slack).all(), key


def test_no_weight_of_the_frame_alone_overcomes_the_ground() -> None:
    for one in RACKS.values():
        for check in checks(blown(one, gust=0.1 * MPH)).values():
            assert (check.let_go < 1).all(), check.name
