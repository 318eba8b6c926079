"""`rack check`: steps by hand, JSON, and both solvers."""

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from frame.bracing import second_opinion
from frame.errors import InputError
from frame.report import check_page
from frame.report.elevations import compared
from frame.units import show
from frame.verdict.inspect import Inspection

pytestmark = pytest.mark.xdist_group("the small yard")


def test_by_hand_shows_the_steps_of_both_models(run_check: Any, found: Inspection) -> None:
    """The code's use at the map gust, then medians at the gust at which it is expected to go."""
    row = next(r for r in found.result.rows if r.going and r.going.gust > 1)
    out = run_check("--bracing", "knees,guys", "--by-hand", row.part)[1]
    first, _, second = out.partition("expected, by medians: it ")
    assert second.startswith(f"{row.kind} at about ")
    assert " = " in first
    assert " = " in second
    data = json.loads(run_check("--bracing", "knees,guys", "--by-hand", row.part, "--json")[1])
    check = next(c for c in data["checks"] if c["check"] == row.check)
    assert check["steps"]
    uses = check["expected_demand"] / check["expected_strength"]
    assert uses == pytest.approx(1.0, rel=0.02)
    last = check["expected_steps"][-1]
    assert last["unit"] != "" or last["value"] == pytest.approx(1.0, rel=0.02)


def test_what_no_rule_covers_shows_no_use(run_check: Any, found: Inspection) -> None:
    rows = tuple(
        replace(r, covered=False, utilisation=0.12) if r.part == "beam" else r
        for r in found.result.rows
    )
    changed = replace(found, result=replace(found.result, rows=rows))
    made = " ".join(run_check("--bracing", "knees,guys", instead=changed)[1].split())
    told = made[: made.index("Rules")]
    assert "12 %" not in told
    assert "not covered by any rule" in told
    assert "No rule covers, so no check speaks for: beam (" in told
    by_hand = run_check("--bracing", "knees,guys", "--by-hand", "beam", instead=changed)[1]
    assert by_hand.count("not covered: outside the limits of the rule") == 2
    assert "use = " not in by_hand


def test_json_warns_of_all_that_the_page_warns_of(run_check: Any) -> None:
    out = " ".join(run_check("--bracing", "knees,guys")[1].split())
    data = json.loads(run_check("--bracing", "knees,guys", "--json")[1])
    page = out[out.index("Warnings - ") + len("Warnings - ") : out.index(" Welding (advice")]
    assert page.split(" - ") == data["warnings"]
    assert any("no table for one small rack" in w for w in data["warnings"])


def test_the_elevations_show_the_plane_solvers_numbers(run_check: Any, found: Inspection) -> None:
    _, out, _ = run_check("--bracing", "knees,guys")
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


def test_json_has_every_check_with_its_steps(run_check: Any, found: Inspection) -> None:
    code, out, _ = run_check("--bracing", "knees,guys", "--json")
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


def test_one_part_by_hand(run_check: Any, found: Inspection) -> None:
    code, out, _ = run_check("--bracing", "knees,guys", "--by-hand", "Beam")
    assert code == 0
    assert out.startswith("knees + guys, at the map gust of 95 mph\n\nbeam: ")
    assert max(map(len, out.splitlines())) <= 100
    assert "D = 0.0889 m  (3.5 in)" in out
    assert re.search(r"Pn = Fn\*Ae = [0-9.e]+\*[0-9.e]+ = [0-9.e]+ N  \([0-9,.]+ lb\)", out)
    assert "of what it can take" in out or "over 10 times" in out
    data = json.loads(run_check("--bracing", "knees,guys", "--by-hand", "beam", "--json")[1])
    assert {c["part"] for c in data["checks"]} == {"beam"}


def test_a_part_without_checks_is_told_with_the_right_names(found: Inspection) -> None:
    with pytest.raises(InputError, match=r"--by-hand: \"roof\" has no check; write one of .*beam"):
        check_page.rows_of(found, "roof")


def test_disagreement_gives_exit_code_3(monkeypatch: pytest.MonkeyPatch, run_check: Any) -> None:
    monkeypatch.setattr(second_opinion, "WORST", 1e-12)
    code, out, err = run_check("--bracing", "knees", real=True)
    assert (code, out) == (3, "")
    assert "differ by" in err
