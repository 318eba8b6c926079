"""`rack check`: one bracing in depth, by hand, and both solvers."""

import json
import math
import re
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from frame.bracing import second_opinion
from frame.casefile.named import bracing_of
from frame.casefile.read import read_rack
from frame.cli.main import main
from frame.errors import InputError
from frame.rack.rack import Rack
from frame.records.results import Row
from frame.report import check_page, expected
from frame.report.elevations import compared
from frame.units import show, show_no_more
from frame.verdict import compare as comparison
from frame.verdict import inspect as inspection
from frame.verdict.inspect import Inspection, inspect
from tests.cli.test_compare import RACK


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("yard") / "test_yard.toml"
    file.write_text(RACK, encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def rack(path: Path) -> Rack:
    return read_rack(path)


@pytest.fixture(scope="module")
def found(rack: Rack) -> Inspection:
    return inspect(rack, ("knees", "guys"))


@pytest.fixture
def answer(
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


@pytest.mark.parametrize(
    ("names", "fitted"),
    [
        ("bare", ()),
        ("knees", ("knees",)),
        ("guys,knees", ("knees", "guys")),
        ("Knees + Guys", ("knees", "guys")),
    ],
)
def test_names_of_bracing_may_be_joined_either_way_in_any_order(
    rack: Rack, names: str, fitted: tuple[str, ...]
) -> None:
    assert bracing_of(names, rack) == fitted


@pytest.mark.parametrize(
    ("names", "wrong"),
    [
        ("kness", '--bracing: "kness" is not described in the file'),
        ("knees,,guys", '--bracing: "" is not described in the file'),
        ("bare,knees", '--bracing: "bare" stands alone'),
    ],
)
def test_a_wrong_name_is_one_message_with_the_right_ones(
    answer: Any, names: str, wrong: str
) -> None:
    code, out, err = answer("--bracing", names, real=True)
    assert (code, out) == (2, "")
    assert err.startswith(wrong)
    assert 'write "bare", or one or more of knees, guys, joined by commas' in err


def test_every_check_is_listed_worst_first(answer: Any, found: Inspection) -> None:
    code, out, _ = answer("--bracing", "knees,guys")
    assert code == 0
    uses = [row.utilisation for row in found.result.rows]
    assert uses == sorted(uses, reverse=True)
    flat = " ".join(out.split())
    assert (
        "Every check, sorted by what it uses at the map gust of 95 mph, the highest first" in flat
    )
    assert "Front elevation" in flat
    assert "Side elevation" in flat
    assert "weight only, no wind" in flat
    assert "licensed engineer" in flat
    for row in found.result.rows:
        assert row.part.split()[0] in flat
        assert " ".join(row.source.split()) in flat
    assert max(map(len, out.splitlines())) <= 100


def test_the_first_lines_say_what_is_shown_and_what_goes_first(
    answer: Any, found: Inspection
) -> None:
    windy = tuple(
        r
        for r in found.result.rows
        if all(gust is None or gust > 0.5 for gust in (r.act_by_gust, r.limit_gust))
    )
    found = replace(found, result=replace(found.result, rows=windy))
    _, out, _ = answer("--bracing", "knees,guys", instead=found)
    flat = " ".join(out.split())
    assert flat.startswith("Shown: knees + guys, as --bracing asks; `rack compare` says which one")
    first, result = found.result.ladder[0], found.result
    gusts = [
        show_no_more(g, "speed")
        for g in (first.let_go_gust, result.limit_gust, result.act_by_gust)
    ]
    about = (
        rf"In a real gust of about {gusts[0]} \([\d,]+ to [\d,]+\) the {first.part} is expected"
    )
    assert re.search(about, flat)
    assert first.going
    assert first.going.words in flat[: flat.index("Every check")]
    assert f"for a site mapped at up to {gusts[1]}" in flat
    assert f"Before a forecast gust of {gusts[2]}" in flat


def test_what_goes_in_still_air_is_said_so(answer: Any, found: Inspection) -> None:
    """A part that its own weight brings down, made up."""
    row = next(r for r in found.result.rows if r.going)
    assert row.going
    still = replace(row, limit_gust=0.0, going=replace(row.going, gust=0.0, low=0.0, high=0.0))
    broken = replace(found, result=replace(found.result, rows=(*found.result.rows, still)))
    flat = " ".join(answer("--bracing", "knees,guys", instead=broken)[1].split())
    assert "it lacks the code's margin even in still air" in flat
    assert "is expected to go in still air" in flat
    assert f"{row.kind} still air" in flat


def test_a_bracing_not_asked_for_is_said_to_be_the_one_compare_picks(
    answer: Any, found: Inspection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(comparison, "chosen", lambda _, **__: found.result.bracing)
    assert "which `rack compare FILE --all` picks of those described" in " ".join(
        answer()[1].split()
    )


def test_every_check_shows_its_margin(answer: Any, found: Inspection) -> None:
    _, out, _ = answer("--bracing", "knees,guys")
    made = out[out.index("Every check") : out.index("Rules")]
    for row in found.result.rows:
        gust = "none" if row.limit_gust is None else expected.forecast(row.limit_gust, "us")
        assert gust in made


def test_asked_and_allowed_have_units(found: Inspection) -> None:
    """A share of 1.2 of 1 reads 120 % of 100 %; everything else has its unit."""
    for row in found.result.rows:
        if row.covered:
            unit = "(?:lb/in|ft-lb|in-lb|lb|in)"
            told = check_page.compared(row, "us")
            gone = told.startswith(("topples: ", "nothing left: ")) and len(told) > 20
            share = row.unit in ("", "1") and not told
            assert gone or share or re.fullmatch(rf"[\d,.]+ {unit} of [\d,.]+ {unit}", told)


def told(row: Row, **changed: Any) -> tuple[str, str]:
    """What the page says of a row that is asked for and allowed other than it is."""
    made = replace(row, covered=True, **changed)
    return str(check_page.used(made)), check_page.compared(made, "us")


def test_no_number_is_told_that_says_nothing(found: Inspection) -> None:
    """Eleven times, a rack that sways over, a strength of which nothing is left."""
    row = found.result.rows[0]
    share: dict[str, Any] = {"unit": "1", "allowable": 1.0, "nominal": 1.7}
    assert told(row, utilisation=1.2, demand=1.2, **share) == ("120 % OVER", "")
    assert told(row, utilisation=92.92, demand=92.92, **share) == ("over 10 times", "")
    used, why = told(row, utilisation=3e6, demand=3e6, **share)
    assert used == "topples"
    assert why.startswith("topples: ")
    weak: dict[str, Any] = {"unit": "N", "allowable": 4.4482216, "nominal": 9.0}
    why = told(row, utilisation=150.0, demand=150 * 4.4482216, **weak)[1]
    assert why == "over 100 times the 1 lb it is allowed"
    none: dict[str, Any] = {"unit": "N", "allowable": 0.0, "nominal": 9.0, "check": "chord wall"}
    used, why = told(row, utilisation=math.inf, demand=4.0, **none)
    assert used == "nothing left"
    assert "leaves its wall nothing" in why
    assert told(row, utilisation=math.inf, demand=math.inf, **none)[0] == "topples"


def test_the_page_has_no_number_over_ten_times_nor_inf(answer: Any) -> None:
    for words in ((), ("--by-hand", "set bolt")):
        out = answer("--bracing", "knees,guys", *words)[1]
        assert not re.search(r"(?<![\d.])(?:\d,)?\d{4,} %|\binf\b|\bnan\b", out)


def test_by_hand_shows_the_steps_of_both_models(answer: Any, found: Inspection) -> None:
    """The code's use at the map gust, then medians at the gust at which it is expected to go."""
    row = next(r for r in found.result.rows if r.going and r.going.gust > 1)
    out = answer("--bracing", "knees,guys", "--by-hand", row.part)[1]
    first, _, second = out.partition("expected, by medians: it ")
    assert second.startswith(f"{row.kind} at about ")
    assert " = " in first
    assert " = " in second
    data = json.loads(answer("--bracing", "knees,guys", "--by-hand", row.part, "--json")[1])
    check = next(c for c in data["checks"] if c["check"] == row.check)
    assert check["steps"]
    uses = check["expected_demand"] / check["expected_strength"]
    assert uses == pytest.approx(1.0, rel=0.02)
    last = check["expected_steps"][-1]
    assert last["unit"] != "" or last["value"] == pytest.approx(1.0, rel=0.02)


def test_every_row_says_in_which_way_it_goes(answer: Any, found: Inspection) -> None:
    out = answer("--bracing", "knees,guys")[1]
    made = out[out.index("Every check") : out.index("Rules")]
    for row in found.result.rows:
        if row.going:
            assert f"{row.kind} {expected.ranged(row.going, 'us')}" in made


def test_what_no_rule_covers_shows_no_use(answer: Any, found: Inspection) -> None:
    rows = tuple(
        replace(r, covered=False, utilisation=0.12) if r.part == "beam" else r
        for r in found.result.rows
    )
    changed = replace(found, result=replace(found.result, rows=rows))
    made = " ".join(answer("--bracing", "knees,guys", instead=changed)[1].split())
    told = made[: made.index("Rules")]
    assert "12 %" not in told
    assert "not covered by any rule" in told
    assert "No rule covers, so no check speaks for: beam (" in told
    by_hand = answer("--bracing", "knees,guys", "--by-hand", "beam", instead=changed)[1]
    assert by_hand.count("not covered: outside the limits of the rule") == 2
    assert "use = " not in by_hand


def test_json_warns_of_all_that_the_page_warns_of(answer: Any) -> None:
    out = " ".join(answer("--bracing", "knees,guys")[1].split())
    data = json.loads(answer("--bracing", "knees,guys", "--json")[1])
    page = out[out.index("Warnings - ") + len("Warnings - ") : out.index(" Welding (advice")]
    assert page.split(" - ") == data["warnings"]
    assert any("no table for one small rack" in w for w in data["warnings"])


def test_units_may_be_metric(answer: Any, found: Inspection) -> None:
    metric = replace(found, rack=replace(found.rack, units="metric"))
    _, out, _ = answer("--bracing", "knees,guys", "--units", "metric", instead=metric)
    assert " kN" in out
    tables = out[: out.index("Assumed")]
    assert not re.search(r"\d (?:lb|in|ft-lb|mph|F|ksi)\b", tables)


def test_the_elevations_show_the_plane_solvers_own_numbers(answer: Any, found: Inspection) -> None:
    _, out, _ = answer("--bracing", "knees,guys")
    assert [o.view for o in found.opinions] == ["front", "side", "front", "side"]
    assert found.worst < 1e-4
    for seen in found.opinions:
        lines = compared(seen)
        assert any(c.kind == "movement" for c in lines)
        for c in lines:
            assert show(c.plane, c.kind, "us", 4) in out
            assert c.difference < 1e-4
    front = {c.where for c in compared(found.opinions[0])}
    assert {"post", "beam", "knee, left", "knee, right"} <= front


def test_brace_forces_of_the_front_elevation_balance_the_joint(found: Inspection) -> None:
    """Under dead load the rack is its own mirror image, so both knees are pushed alike."""
    still = {(c.where, c.what): c.plane for c in compared(found.opinions[2])}
    left, right = still["knee, left", "axial force N"], still["knee, right", "axial force N"]
    assert left == pytest.approx(right, rel=1e-3)
    assert left < 0


def test_json_has_every_check_with_its_steps(answer: Any, found: Inspection) -> None:
    code, out, _ = answer("--bracing", "knees,guys", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["schema"] == 1
    assert data["fitted"] == ["knees", "guys"]
    assert len(data["checks"]) == len(found.result.rows)
    assert len(data["elevations"]) == 4
    assert data["first_to_go"] == found.result.ladder[0].part
    assert data["act_by_gust"] == found.result.act_by_gust
    beam = next(c for c in data["checks"] if c["part"] == "beam")
    assert beam["steps"][0]["symbol"] == "D"
    assert beam["steps"][0]["value"] == pytest.approx(3.5 * 0.0254)
    assert beam["steps"][-1]["value"] == pytest.approx(beam["utilisation"])


def test_one_part_by_hand(answer: Any, found: Inspection) -> None:
    code, out, _ = answer("--bracing", "knees,guys", "--by-hand", "Beam")
    assert code == 0
    assert out.startswith("knees + guys, at the map gust of 95 mph\n\nbeam: ")
    assert max(map(len, out.splitlines())) <= 100
    assert "D = 0.0889 m  (3.5 in)" in out
    assert re.search(r"Pn = Fn\*Ae = [0-9.e]+\*[0-9.e]+ = [0-9.e]+ N  \([0-9,.]+ lb\)", out)
    assert "of what it can take" in out or "over 10 times" in out
    data = json.loads(answer("--bracing", "knees,guys", "--by-hand", "beam", "--json")[1])
    assert {c["part"] for c in data["checks"]} == {"beam"}


def test_a_part_without_checks_is_told_with_the_right_names(found: Inspection) -> None:
    with pytest.raises(InputError, match=r"--by-hand: \"roof\" has no check; write one of .*beam"):
        check_page.rows_of(found, "roof")


def test_disagreement_gives_exit_code_3(monkeypatch: pytest.MonkeyPatch, answer: Any) -> None:
    monkeypatch.setattr(second_opinion, "WORST", 1e-12)
    code, out, err = answer("--bracing", "knees", real=True)
    assert (code, out) == (3, "")
    assert "differ by" in err
