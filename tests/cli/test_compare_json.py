"""`rack compare --json` of one small rack, its numbers held to the page, and exit codes."""

import json
import math
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from frame.cli.main import main
from frame.errors import DisagreementError
from frame.plan import decision
from frame.plan.decision import Decision
from frame.records.results import Study
from frame.report import words
from frame.report.data.plain import finite
from frame.units import show

pytestmark = pytest.mark.xdist_group("the small yard")

KEYS = {
    "name", "fitted", "sag", "sway", "swing", "limit_gust", "act_by_gust", "let_go_gust", "holds",
    "ladder", "braces", "guys", "anchors", "post", "first_frequency_hz", "buckling_factor",
    "steel", "added_steel", "cost", "added_cost", "agreement",
}  # fmt: skip
RUNG = {
    "part", "check", "let_go_gust", "limit_gust", "act_by_gust", "utilisation", "case", "tilt_deg",
    "decided_by",
}  # fmt: skip


def mirrored(parts: list[dict[str, Any]], *keys: str) -> list[float]:
    """Forces of the first of each pair that the page tells together, alike to a thousandth."""
    pairs = words.gather_alike(parts, lambda part: words.rounded(*(part[key] for key in keys)))
    return [alike[0][key] for alike in pairs.values() for key in keys]


def test_every_number_of_the_tables_is_that_of_the_json(run_compare: Any) -> None:
    data = json.loads(run_compare("--json")[1])
    text = " ".join(run_compare()[1].split())
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


def test_the_json_has_the_keys_of_its_schema(run_compare: Any, study: Study) -> None:
    data = json.loads(run_compare("--json")[1])
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


def test_the_json_is_all_there_is_on_standard_output(run_compare: Any) -> None:
    def refuse(name: str) -> float:
        raise AssertionError(name)

    text = run_compare("--json")[1]
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
    run_compare: Any, decided: Decision, holds: bool, code: int
) -> None:
    changed = replace(decided, some_holds=holds)
    assert run_compare(plan=changed)[0] == code
    assert run_compare("--json", plan=changed)[0] == code


def test_the_json_warns_of_all_that_the_page_warns_of(run_compare: Any) -> None:
    text = " ".join(run_compare()[1].split())
    page = text[text.index("Warnings - ") + len("Warnings - ") : text.index(" Welding (advice")]
    assert page.split(" - ") == json.loads(run_compare("--json")[1])["warnings"]


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

    monkeypatch.setattr(decision, "decide_and_compare", disagree)
    assert run(monkeypatch, "compare", str(path), "--json") == 3
    told = capsys.readouterr()
    assert not told.out
    assert told.err == "the two differ\n"
