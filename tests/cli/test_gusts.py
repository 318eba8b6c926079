"""`rack gusts`: the page, the document, the picture, and refusals."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.cli.gusts import command as gusts
from frame.errors import InputError
from frame.units import show_no_more

CASES = Path(__file__).parents[2] / "cases"
FILE = CASES / "fifteen_lines.toml"
pytestmark = [pytest.mark.xdist_group("orchard_wall"), pytest.mark.usefixtures("solved_once")]


@pytest.fixture(scope="module")
def found(solved_once: None) -> dict:
    result = CliRunner().invoke(gusts, [str(FILE), "--bracing", "bare", "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def page(solved_once: None) -> str:
    return CliRunner().invoke(gusts, [str(FILE), "--bracing", "bare"]).output


def test_the_document_has_a_curve_and_a_card(found: dict) -> None:
    assert found["schema"] == 1
    (curve,) = found["curves"]
    assert curve["fitted"] == []
    covered = [p for p in curve["tilts"] if p["covered"]]
    assert len(covered) >= 7
    for point in covered:
        grave = [point["first_break"]]
        if point["first_slip"] and point["first_slip"]["kind"] == "tilts":
            grave.append(point["first_slip"])
        assert point["act_by_gust"] <= min(g["gust"] for g in grave if g)
        both = [g["gust"] for g in (point["first_slip"], point["first_break"]) if g]
        assert point["let_go_gust"] == min(both)
    for point in curve["tilts"]:
        assert point["covered"] == (8 <= point["tilt_deg"] <= 45)
        assert point["covered"] or point["act_by_gust"] is None
    stages = found["lay_down"]["stages"]
    assert stages[-1]["tilt_deg"] is None
    own = [p["act_by_gust"] for p in covered if p["in_file"]]
    assert stages[0]["below"] == min(own)
    assert stages[0]["going"]["low"] == stages[0]["below"]
    assert found["losses"]
    known = found["bands"]
    least = min(p["limit_gust"] for p in covered if p["in_file"])
    assert known["worst"]["limit_gust"] == pytest.approx(least, rel=1e-6)
    limits = [u["limit_gust"] for u in known["unknowns"]]
    assert limits == sorted(limits, reverse=True)
    assert limits[-1] >= least
    assert all(u["find_out"] for u in known["unknowns"])
    assert found["built_wrong"]
    assert found["decides"]
    for one in found["decides"]:
        assert one["gust_if_well"] > one["gust"]
        assert one["find_out"]


def test_what_only_turns_or_leans_is_warned_of_apart(found: dict) -> None:
    for warned in found["lay_down"]["warned_apart"]:
        assert warned["kind"] in ("turns", "leans")
        assert warned["cure"]
    assert all(s["going"]["kind"] in ("tilts", "breaks") for s in found["lay_down"]["stages"])


def test_the_card_comes_first_and_every_part_once(page: str, found: dict) -> None:
    lines = page.splitlines()
    first = " ".join(lines[:10])
    below = [s["below"] for s in found["lay_down"]["stages"] if s["tilt_deg"] is not None]
    for gust in below:
        assert show_no_more(gust, "speed") in first
    assert "panels off" in first
    assert "Why" in first
    for title in (
        "Gusts against tilt", "One part gone", "Built a little wrong", "What decides when it goes",
        "What would lift the code's margin", "How to lower",
    ):  # fmt: skip
        assert page.count(title) == 1
    assert max(map(len, lines)) <= 100
    assert "inf" not in page.replace("information", "")
    assert "nan" not in page.lower()


def test_the_page_says_what_matters(page: str) -> None:
    said = " ".join(page.split())
    for words in (
        "not covered", "1.3 to 1.6 times", "never the grip of a U-bolt", "Nobody stands under",
        "gallop", "seldom strike all at once", "licensed engineer", "Before a forecast gust of",
        "One part gone", "how to find out", "as --bracing asks", "never under 8 deg",
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
