"""The public functions: each example in their docstrings runs, and answers print as one line."""

import doctest
import json
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest

import frame
from frame import api

ROOT = Path(__file__).parents[2]
pytestmark = [pytest.mark.xdist_group("orchard_wall"), pytest.mark.usefixtures("decided_once")]


def test_every_example_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    found = doctest.testmod(api)
    assert found.attempted >= 8
    assert not found.failed


def test_at_most_ten_names_are_public() -> None:
    assert len(frame.__all__) <= 10
    assert all(getattr(frame, name) is getattr(api, name) for name in frame.__all__)
    with pytest.raises(AttributeError, match="no attribute 'weld'"):
        _ = frame.weld


@pytest.mark.parametrize(
    ("work", "file"),
    [
        (frame.compare, "orchard_wall"),
        (frame.check, "fifteen_lines"),
        (partial(frame.gusts, bracing="bare"), "fifteen_lines"),
    ],
)
def test_an_answer_is_one_line_plain_data_and_rows(work, file: str) -> None:
    found = work(ROOT / "cases" / f"{file}.toml")
    assert len(repr(found)) < 200
    assert "\n" not in repr(found)
    assert json.loads(json.dumps(frame.plain(found), allow_nan=False))["rack"]
    assert all(isinstance(row, dict) for row in frame.table(found))


def test_a_diagnosis_is_one_line_plain_data_and_rows(tmp_path: Path) -> None:
    read = '\n[measured]\ndroop_left = "3/4 in"\npull = "100 lb"\ntop_moved = "1/4 in"\n'
    file = tmp_path / "read.toml"
    file.write_text((ROOT / "cases" / "fifteen_lines.toml").read_text("utf-8") + read, "utf-8")
    found = frame.diagnose(file, plans=False)
    assert repr(found).startswith("Diagnosis('")
    assert len(repr(found)) < 200
    assert json.loads(json.dumps(frame.plain(found), allow_nan=False))["readings"]
    assert {row["kind"] for row in frame.table(found)} >= {"droop", "sway"}


def test_a_wrong_file_is_refused_in_one_error() -> None:
    with pytest.raises(frame.FrameError, match="there is no such file"):
        frame.read_rack(ROOT / "cases" / "none.toml")


def test_it_runs_as_a_module() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "frame", "--help"],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    assert "compare" in done.stdout


def test_the_package_alone_loads_nothing_heavy() -> None:
    code = "import sys, frame; print({'numpy', 'scipy', 'frame.api'} & set(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert done.stdout.strip() == "set()"
