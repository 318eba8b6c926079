"""`rack compare --out`: the file as the plan leaves it is the rack that the plan ends with."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.casefile.read import parse_rack
from frame.cli.compare import command
from frame.plan import decision
from frame.plan.decision import Decision
from frame.report.planned import TOP, planned_file

pytestmark = pytest.mark.xdist_group("the small yard")


def test_the_planned_file_reads_as_the_rack_at_the_end(decided: Decision) -> None:
    text = planned_file(decided)
    assert parse_rack(text, "planned") == parse_rack(decided.plan.end.text, "planned")
    first = text.split("\n", 1)[0]
    assert first.startswith(TOP)
    assert all(name in first for name in decided.plan.end.bracing)


def test_a_new_file_is_written_and_none_over_another(
    monkeypatch: pytest.MonkeyPatch, path: Path, decided: Decision, tmp_path: Path
) -> None:
    monkeypatch.setattr(decision, "decide", lambda *_, **__: decided)
    out = tmp_path / "planned.toml"
    done = CliRunner().invoke(command, [str(path), "--out", str(out)])
    assert done.exit_code in (0, 1)
    assert out.read_text(encoding="utf-8") == planned_file(decided)
    out.write_text("mine", encoding="utf-8")
    refused = CliRunner().invoke(command, [str(path), "--out", str(out)])
    assert refused.exception is not None
    assert "exists already" in str(refused.exception)
    assert out.read_text(encoding="utf-8") == "mine"
