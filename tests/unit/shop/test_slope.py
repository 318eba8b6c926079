"""Several posts on ground that falls along the beam: each closes on its own grade."""

import json
import math

import numpy as np
import pytest

from frame.errors import InputError
from frame.report.shop.data import document
from frame.shop.ground import Ground, as_tall_as_the_tallest
from frame.shop.job import Wanted, make_job
from frame.shop.job_words import slope_words, stepped_words
from frame.verdict.inspect import inspect
from tests.builders import INCH, case, changed
from tests.decided import inspected
from tests.random_racks import random_rack
from tests.unit.shop.rebuilt import Rebuilt

SIX = math.radians(6)
BEAM_ENDS = """
[[guys]]
from = "beam ends"
wire = "3/16 in 7x19 rope"
out = "1500 mm"
along = "500 mm"
pretension = "400 N"
anchor = { kind = "screw anchor", torque = "500 N m" }

[[guys]]
name = "top guys"
from = "post top"
wire = "3/16 in 7x19 rope"
out = "1500 mm"
along = "900 mm"
pretension = "400 N"
anchor = { kind = "screw anchor", torque = "500 N m" }
"""


def racks() -> list:
    several = (random_rack(n) for n in range(30))
    found = [r for r in several if len(r.posts.positions) > 1][:4]
    return [case("wash_house"), changed("wash_house", more=BEAM_ENDS), *found]


@pytest.mark.parametrize("falls", ["left", "right"])
def test_every_grade_mark_lies_on_the_slope_and_every_joint_closes(falls: str) -> None:
    """The plane of the ground is written here: z rises by tan(slope) a metre against the fall."""
    rise = math.tan(SIX) * (1 if falls == "left" else -1)
    seen = set()
    for rack in racks():
        try:
            job = make_job(rack, rack.bracing_names, Wanted(ground=Ground(SIX, falls)))
        except InputError:
            seen.add("refused")
            continue
        found = document(job)
        built = Rebuilt(json.loads(json.dumps(found)))
        assert max(built.gaps.values()) <= INCH / 16
        middle = (built.beam.point("hook end") + built.beam.point("far end")) / 2
        grades = {}
        for (letter, _), placed in built.placed.items():
            if built.by_letter[letter]["name"].startswith("post"):
                grades[built.by_letter[letter]["name"]] = placed.point("grade") - middle
        assert len(grades) == len(rack.posts.positions)
        for point in grades.values():
            on_ground = rise * point[0] - rack.posts.height
            assert point[2] == pytest.approx(on_ground, abs=INCH / 16)
        stakes = {s["name"]: np.array(s["xyz"]) for s in found["stakes"]}
        for name, point in grades.items():
            here = point + np.array([0, 0, rack.posts.height])
            assert here == pytest.approx(stakes[name], abs=INCH / 16)
        origin = middle - [0, 0, rack.posts.height]
        for guy in found["guys"]:
            if guy["eye_on"] == "rail":
                continue
            carrier, number = next(
                (p, m["on"][0] if m["on"] else 1)
                for p in found["pieces"]
                for m in p["marks"]
                if m["name"] == guy["eye_mark"]
            )
            eye = built.placed[carrier["letter"], number].point(guy["eye_mark"]) - origin
            apart = float(np.linalg.norm(eye - guy["anchor"]))
            assert apart == pytest.approx(guy["pins"], abs=INCH / 16)
            anchor = np.array(guy["anchor"])
            assert anchor[2] >= rise * anchor[0] - 1e-9
            seen.add(guy["eye_on"])
    assert seen >= {"post", "beam"}


@pytest.mark.xdist_group("wash_house")
def test_the_rack_is_solved_with_its_tallest_post() -> None:
    """3.2 m apart on 6 deg: the post downhill stands 1.6 tan 6 deg over the file's height."""
    rack = case("wash_house")
    ground = Ground(SIX, "right")
    level = inspected(rack, ("knees", "ties")).result
    job = make_job(rack, ("knees", "ties"), Wanted(ground=ground), level)
    tall = as_tall_as_the_tallest(rack, ground)
    assert tall.posts.height == pytest.approx(1.7 + 1.6 * math.tan(SIX))
    alone = inspect(tall, ("knees", "ties")).result
    assert job.result is not None
    assert job.result.limit_gust == pytest.approx(alone.limit_gust)
    assert "as tall as the tallest, 1868 mm" in stepped_words(job)
    weights = {p.name: p.weight for p in job.pieces}
    assert weights["post 2"] / weights["post 1"] == pytest.approx(
        (2.2 + 1.7 - 0.0889 / 2 + 1.6 * math.tan(SIX))
        / (2.2 + 1.7 - 0.0889 / 2 - 1.6 * math.tan(SIX))
    )


def test_ground_that_leaves_no_room_under_the_knees_is_refused() -> None:
    wide = changed("wash_house", ('spacing = "3.2 m"', 'spacing = "4 m"'))
    with pytest.raises(InputError, match="no room"):
        make_job(wide, ("knees",), Wanted(ground=Ground(math.radians(28), "left")))


RISEN = BEAM_ENDS.replace('along = "900 mm"', 'along = "900 mm"\nrise = "0.5 m"')


def test_a_slope_beside_a_rise_in_the_file_is_refused() -> None:
    """Each says where the anchors stand; added together they would stand at a third place."""
    risen = changed("wash_house", more=RISEN)
    with pytest.raises(InputError, match="two grounds"):
        make_job(risen, (), Wanted(ground=Ground(SIX, "front")))
    make_job(changed("wash_house", more=BEAM_ENDS), (), Wanted(ground=Ground(SIX, "front")))


def test_anchors_stand_where_the_file_s_rise_puts_them() -> None:
    """0.5 m over the post's grade: tapes from post to stake by Pythagoras, and the words true."""
    risen = changed("wash_house", more=RISEN)
    job = make_job(risen, ("top guys",))
    assert "stand 500 mm above the post's grade" in slope_words(job)
    assert "level ground" not in slope_words(job)
    level = make_job(changed("wash_house", more=BEAM_ENDS), ("top guys",))
    assert slope_words(level) == "The ground is taken as level."
    (up,) = (m for m in job.measures if m.second.endswith("back left") and m.first == "post 1")
    assert up.level == pytest.approx(math.hypot(1.5, 0.9))
    assert up.tape == pytest.approx(math.hypot(1.5, 0.9, 0.5))
    for line in job.lines:
        assert line.pins == pytest.approx(
            math.hypot(line.eye.point[2] - 0.5, *(line.anchor - line.eye.point)[:2])
        )
