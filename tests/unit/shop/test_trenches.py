"""Where logs of guys lie, how long their rods are: similar triangles, and points in space."""

import csv
import io
import math
from dataclasses import replace

import numpy as np
import pytest

from frame.draw.shop.book import sheet_pages
from frame.report.shop.data import csv_tables, document
from frame.shop.ground import Ground
from frame.shop.job import Wanted, make_job
from frame.shop.yard.trenches import trench_words, trenches
from tests.builders import FOOT, changed
from tests.unit.shop.test_slope import BEAM_ENDS

LOGS = """
[[guys]]
name = "{name}"
from = "{attach}"
wire = "3/16 in 7x19 rope"
out = "{out}"
along = "{along}"
pretension = "400 N"
anchor = {{ kind = "deadman", depth = "4 ft", height = "10 in", length = "4 ft" }}
"""
DEEP = 4 * FOOT


def rack(attach: str = "post top", out: str = "2500 mm", along: str = "900 mm"):
    return changed(
        "wash_house", more=LOGS.format(name="logs", attach=attach, out=out, along=along)
    )


def test_on_level_ground_trench_and_rod_are_by_similar_triangles() -> None:
    """The guy falls its height over its run; the rod goes on so for the depth of the log."""
    found = document(make_job(rack(), ("logs",)))
    assert len(found["trenches"]) == len(found["guys"]) == 4
    for guy, log in zip(found["guys"], found["trenches"], strict=True):
        eye, anchor = np.array(guy["eye"]), np.array(guy["anchor"])
        run = math.hypot(*(anchor - eye)[:2])
        out = DEEP * run / eye[2]
        assert log["out"] == log["level"] == pytest.approx(out, abs=0.5e-3)
        assert log["rod"] == pytest.approx(math.hypot(out, DEEP), abs=0.5e-3)
        over = anchor + (anchor - eye) * DEEP / eye[2]
        assert log["xyz"] == pytest.approx([over[0], over[1], 0.0])


def test_a_guy_at_24_deg_with_its_log_1800_mm_deep() -> None:
    """1.8 / tan 24 deg = 4.043 m out, 1.8 / sin 24 deg = 4.425 m of rod, by tables."""
    plain = rack()
    (group,) = plain.guys
    deep = replace(group, hold=replace(group.hold, depth=1.8))
    job = make_job(plain, ("logs",))
    line = job.lines[0]
    down = math.tan(math.radians(24)) * 3.0
    eye = line.eye.point
    turned = replace(line, anchor=eye + np.array([0.0, -3.0, -down]))
    level = Ground()
    (one, *_) = trenches(replace(plain, guys=(deep,)), level, (turned,), job.stakes)
    assert one.out == pytest.approx(1.8 / 0.44523, rel=1e-4) == pytest.approx(4.043, abs=1e-3)
    assert one.rod == pytest.approx(1.8 / 0.40674, rel=1e-4) == pytest.approx(4.425, abs=1e-3)


@pytest.mark.parametrize("falls", ["front", "back", "left"])
@pytest.mark.parametrize("attach", ["post top", "beam ends"])
def test_eye_stake_and_log_are_in_one_line_on_a_slope(attach: str, falls: str) -> None:
    """The log 4 ft straight under the plane of the ground, which is written here."""
    ground = Ground(math.radians(8), falls)
    job = make_job(rack(attach), ("logs",), Wanted(ground=ground))
    found = document(job)
    way = {"front": (0, 1), "back": (0, -1), "left": (1, 0)}[falls]
    normal = np.array([*(-math.tan(math.radians(8)) * np.array(way)), 1.0])
    stakes = {s["name"]: np.array(s["xyz"]) for s in found["stakes"]}
    for guy, log in zip(found["guys"], found["trenches"], strict=True):
        over = np.array(log["xyz"])
        assert normal @ over == pytest.approx(0.0, abs=1e-9)
        buried = over - [0, 0, DEEP]
        eye, anchor = np.array(guy["eye"]), np.array(guy["anchor"])
        assert np.cross(buried - anchor, anchor - eye) == pytest.approx([0, 0, 0], abs=1e-9)
        assert (buried - anchor) @ (anchor - eye) > 0
        assert log["rod"] == pytest.approx(np.linalg.norm(buried - anchor), abs=0.51e-3)
        assert log["out"] == pytest.approx(np.linalg.norm(over - anchor), abs=0.51e-3)
        assert stakes[log["stake"]] == pytest.approx(anchor)
        from_post = np.linalg.norm(over - stakes[log["post"]])
        assert log["from_post"] == pytest.approx(from_post, abs=0.51e-3)


def test_sheet_and_table_tell_the_trench() -> None:
    job = make_job(rack(), ("logs",))
    rows = list(csv.DictReader(io.StringIO(csv_tables(job)["stakes.csv"])))
    logs = [r for r in rows if r["to"].startswith("log of")]
    assert len(logs) == 8
    assert all(float(r["deep_m"]) == pytest.approx(DEEP, abs=0.5e-3) for r in logs)
    assert all(not r["rod_m"] for r in rows if r not in logs)
    said = [t.get_text() for page in sheet_pages(job, "a4") for t in page.texts]
    assert logs[0]["rod"] in said
    assert any(text.endswith(logs[0]["tape"]) for text in said)


def test_only_a_flat_guy_is_told_as_far() -> None:
    """Twice as far out as deep is arctan 1/2, 26.6 deg."""
    flat, steep = (
        make_job(rack(out="3300 mm"), ("logs",)),
        make_job(rack(out="1500 mm"), ("logs",)),
    )
    for job, far in ((flat, True), (steep, False)):
        assert all((t.slope < math.radians(26.565)) == t.far == far for t in job.trenches)
        words = trench_words(job.trenches, job.ground, job.rack.units)
        assert len(words) == 1 + far
    assert "room for the trench" in trench_words(flat.trenches, flat.ground, "metric")[1]


def test_anchors_that_are_no_logs_have_no_trench() -> None:
    screws = changed("wash_house", more=BEAM_ENDS)
    assert not make_job(screws, screws.bracing_names).trenches
