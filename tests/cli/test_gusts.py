"""`rack gusts`: the page, the document, the picture, and refusals."""

import json
import math
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.cli.gusts import command as gusts
from frame.errors import InputError

CASES = Path(__file__).parents[2] / "cases"
FILE = CASES / "fifteen_lines.toml"


@pytest.fixture(scope="module")
def found() -> dict:
    result = CliRunner().invoke(gusts, [str(FILE), "--bracing", "bare", "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_the_document_has_a_curve_and_a_card(found: dict) -> None:
    assert found["schema"] == 1
    (curve,) = found["curves"]
    assert curve["fitted"] == []
    covered = [p for p in curve["tilts"] if p["covered"]]
    assert len(covered) >= 7
    for point in covered:
        limit, act = point["limit_gust"], point["act_by_gust"]
        assert limit == pytest.approx(act / math.sqrt(0.6), rel=1e-9)
        assert point["act_by_gust"] <= point["let_go_gust"]
    for point in curve["tilts"]:
        assert point["covered"] == (8 <= point["tilt_deg"] <= 45)
        assert point["covered"] or point["act_by_gust"] is None
    stages = found["lay_down"]["stages"]
    assert stages[-1]["tilt_deg"] is None
    assert found["losses"]
    known = found["bands"]
    least = min(p["limit_gust"] for p in covered if p["in_file"])
    assert known["worst"]["limit_gust"] == pytest.approx(least, rel=1e-6)
    limits = [u["limit_gust"] for u in known["unknowns"]]
    assert limits == sorted(limits, reverse=True)
    assert limits[0] > least
    assert limits[-1] >= least
    assert all(u["find_out"] for u in known["unknowns"])
    assert found["built_wrong"]


def test_the_page_says_what_matters() -> None:
    result = CliRunner().invoke(gusts, [str(FILE), "--bracing", "bare"])
    said = " ".join(result.output.split())
    for words in (
        "not covered", "1.3 to 1.6 times", "never the grip of a U-bolt", "Nobody stands under",
        "gallop", "seldom strike all at once", "licensed engineer", "Forecast gust",
        "One part gone", "Find this out first", "how to find out", "lifts neither gust",
    ):  # fmt: skip
        assert words in said


def test_a_picture_is_drawn_and_wrong_kinds_are_refused(tmp_path: Path) -> None:
    target = tmp_path / "gusts.svg"
    result = CliRunner().invoke(gusts, [str(FILE), "--bracing", "bare", "-o", str(target)])
    assert result.exit_code == 0, result.output
    assert b"<svg" in target.read_bytes()[:500]
    with pytest.raises(InputError, match="end it in"):
        CliRunner().invoke(
            gusts, [str(FILE), "-o", str(tmp_path / "a.gif")], catch_exceptions=False
        )
    with pytest.raises(InputError, match="not described"):
        CliRunner().invoke(gusts, [str(FILE), "--bracing", "sails"], catch_exceptions=False)
