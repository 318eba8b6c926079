"""The sheet's data alone rebuild the rack, and every connection closes within 1/16 in."""

import json

import pytest

from frame.report.shop.data import document
from frame.shop.job import make_job
from tests.builders import CASES, INCH, case, changed
from tests.often import often
from tests.random_racks import random_rack
from tests.unit.shop.rebuilt import Rebuilt

RANDOM = often(15, 60)


def rebuilt(rack) -> Rebuilt:
    job = make_job(rack, rack.bracing_names)
    return Rebuilt(json.loads(json.dumps(document(job))))


def assert_closes(found: Rebuilt) -> None:
    worst = max(found.gaps, key=lambda name: found.gaps[name])
    assert found.gaps[worst] <= INCH / 32, worst
    expected = {j["name"] for j in found.document["joints"] if "under the beam" not in j["name"]}
    assert {n for n in expected if not n.startswith("knee")} <= set(found.gaps)


@pytest.mark.parametrize("name", [*CASES, "hay_barn"])
def test_a_case_file_closes(name: str) -> None:
    found = rebuilt(case(name))
    assert_closes(found)
    grade = [found.there(place) for place in _grades(found)]
    rise = found.beam.hook[2] - grade[0][2]
    assert all(g[2] == pytest.approx(grade[0][2]) for g in grade)
    assert rise == pytest.approx(case(name).posts.height, abs=INCH / 16)


@pytest.mark.parametrize("od", ["4 in", "5.7 in", "6 in", "6.5 in"])
def test_a_sleeve_closes_on_thin_and_on_thick_beams(od: str) -> None:
    """Bore 5-11/16 in, 6.1 in over all: held between cheeks, by its outside only, or saddled."""
    pipe = f'pipe = {{ od = "{od}", wall = "0.25 in" }}'
    rack = changed("boat_shed", ('pipe = "3-1/2 in nominal"', pipe))
    assert_closes(rebuilt(rack))
    (one,) = [t for t in make_job(rack, ()).templates if t.name == "sleeve"]
    assert (one.cut >= -1e-12).all()
    assert one.depth <= rack.beam.pipe.od / 2 + 1e-12


def _grades(found: Rebuilt) -> list[dict]:
    post = found.named["post"]
    return [
        {"letter": post["letter"], "number": n + 1, "where": "grade"} for n in range(post["count"])
    ]


def test_random_racks_close() -> None:
    kinds = set()
    for seed in range(RANDOM):
        found = rebuilt(random_rack(seed))
        assert_closes(found)
        kinds |= {j["kind"] for j in found.document["joints"]}
    assert kinds >= {"seat", "cope", "pin", "U-bolt", "bolt"}
