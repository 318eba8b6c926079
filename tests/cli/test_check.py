"""`rack check`: one bracing in depth, as the page tells it."""

import math
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from frame.casefile.named import bracing_of
from frame.cli.main import rack as rack_command
from frame.rack.rack import Rack
from frame.records.results import Row
from frame.report import check_page, going_words
from frame.report.wind import CHAIN
from frame.units import show_no_more, show_number
from frame.verdict import compare as comparison
from frame.verdict.inspect import Inspection
from frame.verdict.wind_forces import wind_forces

pytestmark = pytest.mark.xdist_group("the small yard")


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
    run_check: Any, names: str, wrong: str
) -> None:
    code, out, err = run_check("--bracing", names, real=True)
    assert (code, out) == (2, "")
    assert err.startswith(wrong)
    assert 'write "bare", or one or more of knees, guys, joined by commas' in err


def test_the_page_shows_how_the_gust_becomes_force(run_check: Any, found: Inspection) -> None:
    """Each factor of ASCE/SEI 7-22 Eq. 26.10-1 and p = q Kd G CN, and the force of every wind."""
    code, out, _ = run_check("--bracing", "knees,guys")
    assert code == 0
    chain = out.partition(CHAIN)[2].partition("Solved twice")[0]
    for factor in ("V, the map gust", "Kz, exposure", "Kzt", "Ke", "q = 0.613", "Kd", "G,", "A,"):
        assert factor in chain
    for at in wind_forces(found.rack):
        for one in at.forces:
            assert show_number(one.square, "force", found.rack.units) in chain


def test_every_check_is_listed_worst_first(run_check: Any, found: Inspection) -> None:
    code, out, _ = run_check("--bracing", "knees,guys")
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
    run_check: Any, found: Inspection
) -> None:
    windy = tuple(
        r
        for r in found.result.rows
        if all(gust is None or gust > 0.5 for gust in (r.act_by_gust, r.limit_gust))
    )
    found = replace(found, result=replace(found.result, rows=windy))
    _, out, _ = run_check("--bracing", "knees,guys", instead=found)
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


def test_what_goes_in_still_air_is_said_so(run_check: Any, found: Inspection) -> None:
    """A part that its own weight brings down, made up."""
    row = next(r for r in found.result.rows if r.going)
    assert row.going
    still = replace(row, limit_gust=0.0, going=replace(row.going, gust=0.0, low=0.0, high=0.0))
    broken = replace(found, result=replace(found.result, rows=(*found.result.rows, still)))
    flat = " ".join(run_check("--bracing", "knees,guys", instead=broken)[1].split())
    assert "it lacks the code's margin even in still air" in flat
    assert "is expected to go in still air" in flat
    assert f"{row.kind} still air" in flat


def test_a_bracing_not_asked_for_is_said_to_be_the_one_compare_picks(
    run_check: Any, found: Inspection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(comparison, "chosen", lambda _, **__: found.result.bracing)
    assert "which `rack compare FILE --all` picks of those described" in " ".join(
        run_check()[1].split()
    )


def test_every_check_shows_its_margin(run_check: Any, found: Inspection) -> None:
    _, out, _ = run_check("--bracing", "knees,guys")
    made = out[out.index("Every check") : out.index("Rules")]
    for row in found.result.rows:
        gust = "none" if row.limit_gust is None else going_words.forecast(row.limit_gust, "us")
        assert gust in made


def test_asked_and_allowed_have_units(found: Inspection) -> None:
    """A share of 1.2 of 1 reads 120 % of 100 %; everything else has its unit."""
    for row in found.result.rows:
        if row.covered:
            unit = "(?:lb/in|ft-lb|in-lb|lb|in)"
            told = check_page.demand_and_allowable(row, "us")
            gone = told.startswith(("topples: ", "nothing left: ")) and len(told) > 20
            share = row.unit in ("", "1") and not told
            assert gone or share or re.fullmatch(rf"[\d,.]+ {unit} of [\d,.]+ {unit}", told)


def told(row: Row, **changed: Any) -> tuple[str, str]:
    """What the page says of a row that is asked for and allowed other than it is."""
    made = replace(row, covered=True, **changed)
    return str(check_page.used_cell(made)), check_page.demand_and_allowable(made, "us")


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


def test_the_page_has_no_number_over_ten_times_nor_inf(run_check: Any) -> None:
    for words in ((), ("--by-hand", "set bolt")):
        out = run_check("--bracing", "knees,guys", *words)[1]
        assert not re.search(r"(?<![\d.])(?:\d,)?\d{4,} %|\binf\b|\bnan\b", out)


def test_every_row_says_in_which_way_it_goes(run_check: Any, found: Inspection) -> None:
    out = run_check("--bracing", "knees,guys")[1]
    made = out[out.index("Every check") : out.index("Rules")]
    for row in found.result.rows:
        if row.going:
            assert f"{row.kind} {going_words.ranged(row.going, 'us')}" in made


def test_units_may_be_metric(run_check: Any, found: Inspection) -> None:
    metric = replace(found, rack=replace(found.rack, units="metric"))
    _, out, _ = run_check("--bracing", "knees,guys", "--units", "metric", instead=metric)
    assert " kN" in out
    tables = out[: out.index("Assumed")]
    assert not re.search(r"\d (?:lb|in|ft-lb|mph|F|ksi)\b", tables)


def test_a_flat_rack_that_a_worker_is_too_much_for_is_told_as_that(tmp_path: Path) -> None:
    """Its margin for wind is over the mapped gust; near flat no gust to act before is told."""
    on_rock = Path(__file__).parents[1] / "racks" / "on_rock.toml"
    flat = tmp_path / "flat.toml"
    flat.write_text(on_rock.read_text("utf-8").replace("25 deg", "2 deg"), "utf-8")
    done = CliRunner().invoke(rack_command, ["check", str(flat), "--bracing", "bare"])
    said = " ".join(done.output.split())
    assert "It does not hold at the mapped gust of 95 mph: it does not carry a worker" in said
    assert "No gust to act before can be told of panels laid under 8 deg" in said
    assert "Before a forecast gust" not in said
