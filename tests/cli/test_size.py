"""`rack size`: page, document, the new file, refusals and exit codes."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.casefile.read import read_rack
from frame.cli.size import command
from frame.errors import InputError

FILE = Path(__file__).parents[2] / "cases" / "fifteen_lines.toml"


@pytest.fixture
def modest(tmp_path: Path) -> Path:
    """A file of a site so calm that much of what it describes can be lighter."""
    path = tmp_path / "modest.toml"
    path.write_text(FILE.read_text(encoding="utf-8").replace("115 mph", "50 mph"))
    return path


def test_the_sized_rack_is_written_and_told(modest: Path, tmp_path: Path) -> None:
    out = tmp_path / "sized.toml"
    result = CliRunner().invoke(
        command, [str(modest), "--bracing", "bare", "--out", str(out), "--json"]
    )
    assert result.exit_code == 0, result.output
    found = json.loads(result.stdout)
    assert found["holds"] is True
    assert found["limit_gust"] >= read_rack(modest).site.map_gust
    assert out.read_text(encoding="utf-8") == found["file"]
    assert read_rack(out).site == read_rack(modest).site
    assert found["steps"]
    assert found["method"] == "ASD"
    again = CliRunner().invoke(command, [str(out), "--bracing", "bare"])
    said = " ".join(again.output.split())
    assert again.exit_code == 0
    for words in ("it has the code's margin", "racks solved", "a lighter rack may exist",
                  "licensed engineer", "Pipe:"):  # fmt: skip
        assert words in said


def test_where_nothing_holds_the_exit_code_is_1_and_no_file_is_written(tmp_path: Path) -> None:
    wild = tmp_path / "wild.toml"
    wild.write_text(FILE.read_text(encoding="utf-8").replace("115 mph", "250 mph"))
    out = tmp_path / "sized.toml"
    result = CliRunner().invoke(command, [str(wild), "--bracing", "bare", "--out", str(out)])
    assert result.exit_code == 1
    assert not out.exists()
    assert "No size offered holds" in result.output
    assert "What stops it" in result.output


def test_no_file_is_written_over_unasked(modest: Path, tmp_path: Path) -> None:
    out = tmp_path / "sized.toml"
    out.write_text("mine")
    for arguments in (["--out", str(out)], ["--out", str(modest), "--force"]):
        with pytest.raises(InputError, match="exists already"):
            CliRunner().invoke(command, [str(modest), *arguments], catch_exceptions=False)
    assert out.read_text() == "mine"


def test_a_bracing_that_is_not_described_is_refused(modest: Path) -> None:
    with pytest.raises(InputError, match="not described"):
        CliRunner().invoke(command, [str(modest), "--bracing", "sails"], catch_exceptions=False)
