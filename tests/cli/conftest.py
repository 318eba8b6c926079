"""One small yard, worked out once for all who look at its compare and its check."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from frame.casefile.read import read_rack
from frame.cli.compare import command
from frame.cli.main import main
from frame.plan import decision
from frame.plan.decision import Decision
from frame.rack.rack import Rack
from frame.records.results import Study
from frame.report.compare_page import AS_DESCRIBED
from frame.verdict import inspect as inspection
from frame.verdict.inspect import Inspection, inspect

RACK = """
name = "test yard"
tilts = ["25 deg"]
[site]
map_gust = "95 mph"
soil = "clay"
[panels]
across = 2
up = 1
size = "40 in x 66 in"
weight = "45 lb"
[post]
pipe = "4 in nominal"
height = "5 ft"
depth = "5 ft"
[beam]
pipe = "3 in nominal"
length = "7 ft"
[knees]
pipe = "1-1/2 in nominal"
drop = "20 in"
reach = "18 in"
[[guys]]
from = "post top"
wire = "1/4 in EHS strand"
out = "5 ft"
along = "5 ft"
anchor = { kind = "screw anchor", torque = "60 ft-lb" }
"""


@pytest.fixture(scope="session")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("yard") / "test_yard.toml"
    file.write_text(RACK, encoding="utf-8")
    return file


@pytest.fixture(scope="session")
def study() -> Study:
    return decision.side_by_side(RACK, "test_yard.toml")


@pytest.fixture(scope="session")
def decided() -> Decision:
    return decision.decide(RACK, "test_yard.toml")


@pytest.fixture
def run_compare(
    monkeypatch: pytest.MonkeyPatch, path: Path, study: Study, decided: Decision
) -> Iterator[Any]:
    """Run the command on the study and the plan at hand, or on others put in their place.

    What is printed with `--all` comes back from below the first screen on.
    """

    def run(*options: str, instead: Study = study, plan: Decision = decided) -> tuple[int, str]:
        monkeypatch.setattr(decision, "decide_and_compare", lambda *_, **__: (plan, instead))
        json_only = "--json" in options
        done = CliRunner().invoke(
            command, [str(path), *options, *([] if json_only else ["--all"])]
        )
        said = done.stdout
        return done.exit_code, said if json_only else said[said.index(AS_DESCRIBED) :]

    return run


@pytest.fixture(scope="session")
def rack(path: Path) -> Rack:
    return read_rack(path)


@pytest.fixture(scope="session")
def found(rack: Rack) -> Inspection:
    return inspect(rack, ("knees", "guys"))


@pytest.fixture
def run_check(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], path: Path,
    found: Inspection,
) -> Any:  # fmt: skip
    """Run the command through main() with the inspection at hand."""

    def run(
        *options: str, real: bool = False, instead: Inspection = found
    ) -> tuple[int, str, str]:
        if not real:
            monkeypatch.setattr(inspection, "inspect", lambda *_: instead)
        monkeypatch.setattr(sys, "argv", ["rack", "check", str(path), *options])
        with pytest.raises(SystemExit) as left:
            main()
        told = capsys.readouterr()
        return int(left.value.code or 0), told.out, told.err

    return run
