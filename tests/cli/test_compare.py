"""`rack compare --all`: the words, tables and JSON of one small rack and of changed studies."""

import json
import math
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from click.testing import CliRunner

from frame.cli.compare import command
from frame.cli.main import main
from frame.errors import DisagreementError
from frame.plan import decision
from frame.plan.decision import Decision
from frame.records.results import Study
from frame.report import words
from frame.report.compare_page import AS_DESCRIBED
from frame.report.data.document import document
from frame.report.data.plain import finite
from frame.report.ladder import about
from frame.units import show

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
KEYS = {
    "name", "fitted", "sag", "sway", "swing", "limit_gust", "act_by_gust", "let_go_gust", "holds",
    "ladder", "braces", "guys", "anchors", "post", "first_frequency_hz", "buckling_factor",
    "steel", "added_steel", "cost", "added_cost", "agreement",
}  # fmt: skip
RUNG = {
    "part", "check", "let_go_gust", "limit_gust", "act_by_gust", "utilisation", "case", "tilt_deg",
    "decided_by",
}  # fmt: skip


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("yard") / "test_yard.toml"
    file.write_text(RACK, encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def study() -> Study:
    return decision.side_by_side(RACK, "test_yard.toml")


@pytest.fixture(scope="module")
def decided() -> Decision:
    return decision.decide(RACK, "test_yard.toml")


@pytest.fixture
def answer(
    monkeypatch: pytest.MonkeyPatch, path: Path, study: Study, decided: Decision
) -> Iterator[Any]:
    """Run the command on the study and the plan at hand, or on others put in their place.

    What is printed with `--all` comes back from below the first screen on.
    """

    def run(*options: str, instead: Study = study, plan: Decision = decided) -> tuple[int, str]:
        monkeypatch.setattr(decision, "side_by_side", lambda *_, **__: instead)
        monkeypatch.setattr(decision, "decide", lambda *_, **__: plan)
        json_only = "--json" in options
        done = CliRunner().invoke(
            command, [str(path), *options, *([] if json_only else ["--all"])]
        )
        said = done.stdout
        return done.exit_code, said if json_only else said[said.index(AS_DESCRIBED) :]

    return run


def test_below_the_first_screen_come_the_nearest_its_reason_the_next_cure_and_the_cautions(
    answer: Any, study: Study
) -> None:
    _, text = answer()
    flat = " ".join(text.split())
    told = study.verdict
    first = " ".join(
        [AS_DESCRIBED, told.headline, told.act_by, told.reason, told.next_cure, *words.CAUTIONS]
    )
    assert flat.startswith(" ".join(first.split()))
    assert "licensed engineer" in flat
    assert "local codes" in flat


@pytest.mark.parametrize(
    "landmark",
    [
        "Which gust?", "Side by side", "Sag:", "Sway of the post top", "What each part uses",
        "Forces in the braces", "Pull in the guys", "hangs slack", "What goes first, as the gusts",
        "Knee card", "long point", "Assumed", "find it out in", "Solved twice", "tilt 25 deg",
    ],
)  # fmt: skip
def test_every_table_is_there(answer: Any, landmark: str) -> None:
    assert landmark in answer()[1]


def test_the_tables_stand_in_groups(answer: Any) -> None:
    """Movements, then forces, then the ladder, then what is assumed: each table once."""
    told = answer()[1]
    order = [
        "MOVEMENTS", "Sag:", "Sway of the post top", "Shaking:", "Knee card", "FORCES",
        "Side by side", "What each part uses", "Forces in the braces", "Pull in the guys",
        "WHAT GOES FIRST", "Which gust?", "What goes first, as the gusts", "WHAT IT COUNTS ON",
        "Counted on", "Assumed", "Solved twice",
    ]  # fmt: skip
    places = [told.index(f"\n{head}") for head in order]
    assert places == sorted(places)
    assert [told.count(f"\n{head}") for head in order] == [1] * len(order)


def test_a_rung_says_how_it_goes_and_at_about_which_gust(answer: Any, study: Study) -> None:
    text = answer()[1]
    made = text[text.index("What goes first, as the gusts") : text.index("One change at a time")]
    first = next(r for r in study.results if r.bracing == study.verdict.bracing).ladder[0]
    assert first.going is not None
    assert re.search(rf"{re.escape(first.part)}.*: \S.* {first.kind} ", made)
    assert about(first.going, "us") in made


def test_about_a_gust_stands_its_range(study: Study) -> None:
    going = replace(study.results[0].first_break, gust=40.0, low=30.0, high=50.0)
    assert about(going, "metric") == "40 m/s (30 to 50)"
    assert about(replace(going, low=0.0), "metric") == "40 m/s (still air to 50)"
    assert about(replace(going, gust=0.0, low=0.0, high=0.0), "us") == "still air"
    assert about(None, "us") == "none reaches it"


@pytest.mark.parametrize("units", [(), ("--units", "metric")])
def test_no_line_is_wider_than_a_hundred_letters_and_nothing_is_cut_off(
    answer: Any, units: tuple[str, ...]
) -> None:
    _, text = answer(*units)
    assert max(map(len, text.splitlines())) <= 100
    assert "…" not in text
    assert not re.search(r"\bnan\b|\binf\b|None", text)


def test_units_are_those_of_the_file_unless_told(answer: Any) -> None:
    us, metric = answer()[1], answer("--units", "metric")[1]
    assert " lb" in us
    assert "ft-lb" in us
    assert "95 mph" in us
    assert " kN" in metric
    assert "42.5 m/s" in metric
    tables = metric[metric.index("MOVEMENTS") : metric.index("One change at a time")]
    tables = tables.replace("1-1/2 in nominal", "")
    assert not re.search(r"\d (?:lb|in|mph|ft-lb)\b", tables)


def mirrored(parts: list[dict[str, Any]], *keys: str) -> list[float]:
    """Forces of the first of each pair that the page tells together, alike to a thousandth."""
    pairs = words.gather(parts, lambda part: words.rounded(*(part[key] for key in keys)))
    return [alike[0][key] for alike in pairs.values() for key in keys]


def test_every_number_of_the_tables_is_that_of_the_json(answer: Any) -> None:
    data = json.loads(answer("--json")[1])
    text = " ".join(answer()[1].split())
    for bracing in data["bracings"]:
        sag, sway, swing = bracing["sag"], bracing["sway"], bracing["swing"]
        lengths = [sag["dead"], sag["still_air"], sag["limit"], *sag["share"].values()]
        told = [show(v, "movement") for v in (*lengths, sag["slop"], sway["top"], sway["limit"])]
        told += [show(bracing["added_steel"], "weight"), show(swing["torque"], "torque")]
        told += [show(v, "force") for v in mirrored(bracing["braces"], "tension", "compression")]
        told += [show(v, "force") for v in mirrored(bracing["guys"], "tension", "pretension")]
        uses = [r["utilisation"] for r in bracing["ladder"]]
        told.append(words.percent(max(math.inf if use is None else use for use in uses)))
        assert [t for t in told if t not in text] == []
    for choice in data["knee_card"]:
        assert show(choice["cut"], "length") in text
        assert show(choice["force"], "force") in text


def test_the_json_has_the_keys_of_its_schema(answer: Any, study: Study) -> None:
    data = json.loads(answer("--json")[1])
    assert data["schema"] == 1
    assert data["method"] == "ASD"
    assert data["rack"] == "test yard"
    assert data["site"]["map_gust"] == pytest.approx(95 * 0.44704)
    assert [b["name"] for b in data["bracings"]] == ["bare", "knees", "guys", "knees + guys"]
    for bracing in data["bracings"]:
        assert set(bracing) >= KEYS
        assert set(bracing["sag"]["share"]) == {"pipe", "sleeve", "post"}
        assert all(set(rung) >= RUNG for rung in bracing["ladder"])
        gusts = [r["let_go_gust"] for r in bracing["ladder"]]
        known = [g for g in gusts if g is not None]
        assert gusts == sorted(known) + [None] * (len(gusts) - len(known))
        assert bracing["let_go_gust"] == (known[0] if known else None)
    assert {b["name"] for b in data["bracings"][1]["braces"]} == {"knee, left", "knee, right"}
    assert len(data["bracings"][2]["guys"]) == 4
    assert set(data["verdict"]) >= {"bracing", "holds", "first_to_go", "reason", "not_checked"}
    assert [c["described"] for c in data["knee_card"]].count(True) == 1
    assert data["counted_on"]["weld_leg"] == pytest.approx(3 / 16 * 0.0254)
    assert len(data["assumptions"]) == len(study.rack.assumptions)


def test_the_json_is_all_there_is_on_standard_output(answer: Any) -> None:
    def refuse(name: str) -> float:
        raise AssertionError(name)

    text = answer("--json")[1]
    json.loads(text, parse_constant=refuse)
    assert text.startswith("{")
    assert text.endswith("}\n")


def test_what_is_not_finite_is_null() -> None:
    assert finite({"a": [math.inf, math.nan, 1.5], "b": {"c": np.float64(2.0)}}) == {
        "a": [None, None, 1.5],
        "b": {"c": 2.0},
    }


@pytest.mark.parametrize(("holds", "code"), [(True, 0), (False, 1)])
def test_the_exit_code_says_whether_some_bracing_holds(
    answer: Any, decided: Decision, holds: bool, code: int
) -> None:
    changed = replace(decided, some_holds=holds)
    assert answer(plan=changed)[0] == code
    assert answer("--json", plan=changed)[0] == code


def test_what_no_rule_covers_stands_under_the_verdict(answer: Any, study: Study) -> None:
    changed = replace(study, verdict=replace(study.verdict, not_checked=("wall", "lug")))
    assert "No rule covers, so no check speaks for: wall, lug." in answer(instead=changed)[1]
    assert document(changed)["verdict"]["not_checked"] == ["wall", "lug"]


def test_sag_over_its_limit_is_flagged(answer: Any, study: Study) -> None:
    def sagging(of: float) -> str:
        bare = study.results[0]
        sag = replace(bare.sag, dead=0.02, still_air=0.02, limit=0.02 / of)
        results = (replace(bare, sag=sag), *study.results[1:])
        text = answer(instead=replace(study, results=results))[1]
        return text[text.index("Sag:") : text.index("Sway of")]

    assert sagging(1.2).count("OVER") == sagging(0.8).count("OVER") + 2


def test_the_brace_force_that_decides_is_flagged(answer: Any, study: Study) -> None:
    text = answer()[1]
    table = text[text.index("Forces in the braces") : text.index("Pull in the guys")]
    lines = [line for line in table.splitlines() if line.count("DECIDES") and "lb" in line]
    assert len(lines) == sum(bool(r.braces) for r in study.results)


def test_the_knee_card_marks_the_knee_of_the_file(answer: Any, study: Study) -> None:
    """Reach 18 in, drop 20 in: 90 - atan(20/18) = 42.0 degrees off the post."""
    text = answer()[1]
    card = text[text.index("Knee card") : text.index("Yours:")]
    (mine,) = (line for line in card.splitlines() if "yours" in line)
    for told in (" 18 in ", " 20 in ", "42.0 deg"):
        assert told in mine
    assert len(study.knee_card) == 5


def test_the_json_warns_of_all_that_the_page_warns_of(answer: Any) -> None:
    text = " ".join(answer()[1].split())
    page = text[text.index("Warnings - ") + len("Warnings - ") : text.index(" Welding (advice")]
    assert page.split(" - ") == json.loads(answer("--json")[1])["warnings"]


def test_the_depth_needed_is_told_with_its_wind(answer: Any) -> None:
    text = " ".join(answer()[1].split())
    told = text[text.index("needed sideways with") :]
    assert re.match(r"needed sideways with [\w +]+: \d+'-[^(]+\(wind ", told)


def test_warnings_are_printed(answer: Any, study: Study) -> None:
    changed = replace(study, rack=replace(study.rack, warnings=("The hill is steep.",)))
    assert "- The hill is steep." in answer(instead=changed)[1]


def run(monkeypatch: pytest.MonkeyPatch, *argv: str) -> int:
    monkeypatch.setattr(sys, "argv", ["rack", *argv])
    with pytest.raises(SystemExit) as left:
        main()
    return int(left.value.code or 0)


def test_a_file_that_is_not_there_is_one_message_and_exit_code_2(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert run(monkeypatch, "compare", str(tmp_path / "none.toml")) == 2
    told = capsys.readouterr()
    assert not told.out
    assert "none.toml" in told.err
    assert "Traceback" not in told.err


def test_solvers_that_disagree_give_no_verdict_and_exit_code_3(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], path: Path
) -> None:
    def disagree(*_: object, **_more: object) -> Decision:
        raise DisagreementError("the two differ")

    monkeypatch.setattr(decision, "decide", disagree)
    assert run(monkeypatch, "compare", str(path), "--json") == 3
    told = capsys.readouterr()
    assert not told.out
    assert told.err == "the two differ\n"


def test_unknown_steel_is_named_as_outside_the_standard(answer: Any) -> None:
    text = " ".join(answer()[1].split())
    assert "AISC 360-22 A3.1b allows that only where a failure would not weaken" in text
    assert "E7018" in text


def test_what_must_be_built_stands_in_one_place(answer: Any) -> None:
    text = " ".join(answer()[1].split())
    told = text[text.index("Counted on") :]
    for word in ("post set", "needed sideways", "fillet welds of 3/16 in leg", "U-bolt(s)"):
        assert word in told
