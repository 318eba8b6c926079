"""`rack measure` and `rack diagnose` as they are typed."""

import json
import re
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from frame.cli.main import main, rack
from frame.plan import greedy

pytestmark = pytest.mark.usefixtures("solved_once")
ROOT = Path(__file__).parents[2]
CASES = sorted((ROOT / "cases").glob("*.toml"))
HAY_BARN = (ROOT / "cases/hay_barn.toml").read_text("utf-8")
READ = """
[stood]
gust = "45 mph"
tilt = "30 deg"
[measured]
droop_left = "3/4 in"
droop_right = "1/4 in"
pull = "100 lb"
top_moved = "3/4 in"
"""
CAUTIONS = ("licensed engineer", "ocal codes")


def run(*arguments: str, answers: str | None = None) -> Result:
    return CliRunner().invoke(rack, list(arguments), input=answers, catch_exceptions=False)


@pytest.fixture
def barn(tmp_path: Path) -> Path:
    path = tmp_path / "barn.toml"
    path.write_text(HAY_BARN + READ, "utf-8")
    return path


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.stem)
def test_the_card_of_every_case_is_one_page_and_safe(case: Path) -> None:
    lines = run("measure", str(case)).output.splitlines()
    assert len(lines) <= 66
    assert max(map(len, lines)) <= 80
    text = " ".join(lines)
    for word in ("still air", "Nobody under", "nobody climbs", "________", "expect", *CAUTIONS):
        assert word in text, word


def test_the_screen_fits_and_says_what_a_builder_asks(barn: Path) -> None:
    done = run("diagnose", str(barn), "--quick")
    lines = done.output.splitlines()
    assert done.exit_code == 0
    assert len(lines) <= 40
    assert max(map(len, lines)) <= 80
    text = " ".join(done.output.split())
    for word in ("Droops", "Moves", "Turns", "Normal", "Yield", "Fitted", "Can't tell", *CAUTIONS):
        assert word in text, word
    assert "of it in the 45 mph it stood" in text
    assert "Read next" in text


def test_the_plan_is_told_before_and_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(greedy, "MOST_STEPS", 1)  # enough to see that both are told
    path = tmp_path / "wall.toml"
    wall = (ROOT / "cases/orchard_wall.toml").read_text("utf-8")
    path.write_text(wall + READ.partition("[measured]")[2].join(["\n[measured]", ""]), "utf-8")
    done = run("diagnose", str(path))
    lines = done.output.splitlines()
    assert len(lines) <= 40
    assert max(map(len, lines)) <= 80
    text = " ".join(done.output.split())
    assert "Plan before the readings, the first break is at" in text
    assert "with them" in text


def test_every_number_is_in_the_document(barn: Path) -> None:
    found = json.loads(run("diagnose", str(barn), "--quick", "--json").output)
    assert found["schema"] == 1
    assert {r["key"] for r in found["readings"]} == {"droop_left", "droop_right", "top_moved"}
    assert [m["kind"] for m in found["movements"]] == ["droop", "sway", "swing"]
    for movement in found["movements"]:
        assert sum(s["size"] for s in movement["shares"]) == pytest.approx(movement["size"])
    assert all(u["low"] <= u["value"] <= u["high"] for u in found["unknowns"])
    assert found["plan"] is None


def test_metric_units_are_told_in_metric(barn: Path) -> None:
    text = run("diagnose", str(barn), "--quick", "--units", "metric").output
    assert " mm" in text
    assert not re.search(r"\d in\b", text)


def test_write_puts_what_was_fitted_into_the_file(barn: Path) -> None:
    before = barn.read_text("utf-8")
    done = run("diagnose", str(barn), "--quick", "--write")
    after = barn.read_text("utf-8")
    assert "Wrote " in done.output
    assert "# fitted: " in after
    assert "ground_stiffness" in after
    assert after != before
    assert run("diagnose", str(barn), "--quick").exit_code == 0


def test_fill_asks_and_keeps_everything_else(tmp_path: Path) -> None:
    path = tmp_path / "barn.toml"
    path.write_text(HAY_BARN, "utf-8")
    answers = "knees\n3/4 in within 1/16 in\n1 inn\n1 in\n\n\n1/2 in\n100 lb\n\n\n?\ndone\n"
    done = run("measure", str(path), "--fill", answers=answers)
    text = path.read_text("utf-8")
    assert done.exit_code == 0
    assert text.startswith(HAY_BARN)
    section = text.removeprefix(HAY_BARN)
    assert 'fitted = ["knees"]' in section
    assert 'droop_left = { read = "3/4 in", within = "1/16 in" }' in section
    assert 'droop_right = "1 in"' in section
    assert 'pull = "100 lb"' in section
    assert 'top_moved = "1/2 in"' in section
    assert '"can\'t tell"' in section
    assert "is in no known unit of length" in done.output
    assert "Wrote 3 readings and 1 that cannot be told and what is on the rack" in done.output


def test_the_end_of_the_input_ends_the_questions_and_keeps_the_answers(tmp_path: Path) -> None:
    path = tmp_path / "barn.toml"
    path.write_text(HAY_BARN, "utf-8")
    done = run("measure", str(path), "--fill", answers="knees\n3/4 in\n")
    assert done.exit_code == 0
    assert "Wrote 1 reading and what is on the rack into" in done.output
    assert 'droop_left = "3/4 in"' in path.read_text("utf-8")


def test_fill_without_answers_leaves_the_file(tmp_path: Path) -> None:
    path = tmp_path / "barn.toml"
    path.write_text(HAY_BARN, "utf-8")
    done = run("measure", str(path), "--fill", answers="done\n")
    assert "stays as it was" in done.output
    assert path.read_text("utf-8") == HAY_BARN


@pytest.mark.parametrize(
    ("section", "says"),
    [
        ("", "no reading is told; `rack measure FILE`"),
        ("[measured]\n", "no reading is told"),
        ('[measured]\nlift_left = "can\'t tell"\n', "no reading is told"),
        ('[measured]\ntop_moved = "1 in"\n', "stands without its force; add pull"),
        ('[measured]\ndroop_left = "1 lb"\n', "is a weight, not a length"),
    ],
)
def test_bad_input_is_one_clear_message(
    tmp_path: Path, section: str, says: str,
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    path = tmp_path / "barn.toml"
    path.write_text(f"{HAY_BARN}\n{section}", "utf-8")
    monkeypatch.setattr(sys, "argv", ["rack", "diagnose", str(path)])
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert says in told.err
    assert "Traceback" not in told.err
