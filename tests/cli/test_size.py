"""`rack size`: page, document, the new file, refusals and exit codes."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.casefile.read import read_rack
from frame.cli.check import command as check
from frame.cli.size import command
from frame.errors import InputError

pytestmark = [pytest.mark.xdist_group("sized lines"), pytest.mark.usefixtures("decided_once")]
MPH = 0.44704  # m/s, exact
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
    told = CliRunner().invoke(command, [str(modest), "--bracing", "bare"])
    said = " ".join(told.output.split())
    assert told.exit_code == 0
    for words in ("it has the code's margin", "racks solved", "a lighter rack may exist",
                  "licensed engineer", "Pipe:"):  # fmt: skip
        assert words in said


def test_where_nothing_holds_the_best_is_written_and_its_top_says_so(tmp_path: Path) -> None:
    wild = tmp_path / "wild.toml"
    wild.write_text(FILE.read_text(encoding="utf-8").replace("115 mph", "195 mph"))
    out = tmp_path / "sized.toml"
    result = CliRunner().invoke(command, [str(wild), "--bracing", "bare", "--out", str(out)])
    assert result.exit_code == 1
    assert "No size offered holds" in result.output
    assert "What stops it" in result.output
    written = out.read_text(encoding="utf-8")
    top = [line for line in written.splitlines() if line.startswith("# rack size: ")]
    assert written.splitlines()[: len(top)] == top
    said = " ".join(line.removeprefix("# rack size: ") for line in top)
    assert re.search(r"FALLS SHORT: .* up to \d+ mph without bracing, .* mapped at 195 mph", said)
    assert "What stops it at 195 mph: " in said
    assert "the most offered" in said or "nothing offered helps it" in said
    assert max(map(len, top)) <= 99
    reached = int(re.findall(r"up to (\d+) mph", said)[0])
    limit = json.loads(CliRunner().invoke(check, [str(out), "--json"]).stdout)["limit_gust"]
    assert reached <= limit / MPH < reached + 1
    assert read_rack(out).site.map_gust == pytest.approx(195 * MPH)


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
