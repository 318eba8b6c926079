"""`rack compare --all`: the words and tables of one small rack and of changed studies."""

import re
from dataclasses import replace
from typing import Any

import pytest

from frame.records.results import Study
from frame.report import words
from frame.report.compare_page import AS_DESCRIBED
from frame.report.data.document import document
from frame.report.ladder import gust_with_range

pytestmark = pytest.mark.xdist_group("the small yard")


def test_below_the_first_screen_come_the_nearest_its_reason_the_next_cure_and_the_cautions(
    run_compare: Any, study: Study
) -> None:
    _, text = run_compare()
    flat = " ".join(text.split())
    told = study.verdict
    first = " ".join(
        [
            AS_DESCRIBED,
            told.headline,
            told.act_by_words,
            told.reason,
            told.next_cure,
            *words.CAUTIONS,
        ]
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
def test_every_table_is_there(run_compare: Any, landmark: str) -> None:
    assert landmark in run_compare()[1]


def test_the_tables_stand_in_groups(run_compare: Any) -> None:
    """Movements, then forces, then the ladder, then what is assumed: each table once."""
    told = run_compare()[1]
    order = [
        "MOVEMENTS", "Sag:", "Sway of the post top", "Shaking:", "Knee card", "FORCES",
        "Side by side", "What each part uses", "Forces in the braces", "Pull in the guys",
        "WHAT GOES FIRST", "Which gust?", "What goes first, as the gusts", "WHAT IT COUNTS ON",
        "Counted on", "Assumed", "Solved twice",
    ]  # fmt: skip
    places = [told.index(f"\n{head}") for head in order]
    assert places == sorted(places)
    assert [told.count(f"\n{head}") for head in order] == [1] * len(order)


def test_a_rung_says_how_it_goes_and_at_about_which_gust(run_compare: Any, study: Study) -> None:
    text = run_compare()[1]
    made = text[text.index("What goes first, as the gusts") : text.index("One change at a time")]
    first = next(r for r in study.results if r.bracing == study.verdict.bracing).ladder[0]
    assert first.going is not None
    assert re.search(rf"{re.escape(first.part)}.*: \S.* {first.kind} ", made)
    assert gust_with_range(first.going, "us") in made


def test_about_a_gust_stands_its_range(study: Study) -> None:
    going = replace(study.results[0].first_break, gust=40.0, low=30.0, high=50.0)
    assert gust_with_range(going, "metric") == "40 m/s (30 to 50)"
    assert gust_with_range(replace(going, low=0.0), "metric") == "40 m/s (still air to 50)"
    beyond = gust_with_range(replace(going, high=95.0), "metric")
    assert beyond.endswith("to >89)"), "as every other screen: nothing is looked at beyond"
    assert gust_with_range(replace(going, gust=0.0, low=0.0, high=0.0), "us") == "still air"
    assert gust_with_range(None, "us") == "none reaches it"


@pytest.mark.parametrize("units", [(), ("--units", "metric")])
def test_no_line_is_wider_than_a_hundred_letters_and_nothing_is_cut_off(
    run_compare: Any, units: tuple[str, ...]
) -> None:
    _, text = run_compare(*units)
    assert max(map(len, text.splitlines())) <= 100
    assert "…" not in text
    assert not re.search(r"\bnan\b|\binf\b|None", text)


def test_units_are_those_of_the_file_unless_told(run_compare: Any) -> None:
    us, metric = run_compare()[1], run_compare("--units", "metric")[1]
    assert " lb" in us
    assert "ft-lb" in us
    assert "95 mph" in us
    assert " kN" in metric
    assert "42.5 m/s" in metric
    tables = metric[metric.index("MOVEMENTS") : metric.index("One change at a time")]
    tables = tables.replace("1-1/2 in nominal", "")
    assert not re.search(r"\d (?:lb|in|mph|ft-lb)\b", tables)


def test_what_no_rule_covers_stands_under_the_verdict(run_compare: Any, study: Study) -> None:
    changed = replace(study, verdict=replace(study.verdict, not_checked=("wall", "lug")))
    assert "No rule covers, so no check speaks for: wall, lug." in run_compare(instead=changed)[1]
    assert document(changed)["verdict"]["not_checked"] == ["wall", "lug"]


def test_sag_over_its_limit_is_flagged(run_compare: Any, study: Study) -> None:
    def sagging(of: float) -> str:
        bare = study.results[0]
        sag = replace(bare.sag, dead=0.02, still_air=0.02, limit=0.02 / of)
        results = (replace(bare, sag=sag), *study.results[1:])
        text = run_compare(instead=replace(study, results=results))[1]
        return text[text.index("Sag:") : text.index("Sway of")]

    assert sagging(1.2).count("OVER") == sagging(0.8).count("OVER") + 2


def test_the_brace_force_that_decides_is_flagged(run_compare: Any, study: Study) -> None:
    text = run_compare()[1]
    table = text[text.index("Forces in the braces") : text.index("Pull in the guys")]
    lines = [line for line in table.splitlines() if line.count("DECIDES") and "lb" in line]
    assert len(lines) == sum(bool(r.braces) for r in study.results)


def test_the_knee_card_marks_the_knee_of_the_file(run_compare: Any, study: Study) -> None:
    """Reach 18 in, drop 20 in: 90 - atan(20/18) = 42.0 degrees off the post."""
    text = run_compare()[1]
    card = text[text.index("Knee card") : text.index("Yours:")]
    (mine,) = (line for line in card.splitlines() if "yours" in line)
    for told in (" 18 in ", " 20 in ", "42.0 deg"):
        assert told in mine
    assert len(study.knee_card) == 5


def test_the_depth_needed_is_told_with_its_wind(run_compare: Any) -> None:
    text = " ".join(run_compare()[1].split())
    told = text[text.index("needed sideways with") :]
    assert re.match(r"needed sideways with [\w +]+: \d+'-[^(]+\(wind ", told)


def test_warnings_are_printed(run_compare: Any, study: Study) -> None:
    changed = replace(study, rack=replace(study.rack, warnings=("The hill is steep.",)))
    assert "- The hill is steep." in run_compare(instead=changed)[1]


def test_unknown_steel_is_named_as_outside_the_standard(run_compare: Any) -> None:
    text = " ".join(run_compare()[1].split())
    assert "AISC 360-22 A3.1b allows that only where a failure would not weaken" in text
    assert "E7018" in text


def test_what_must_be_built_stands_in_one_place(run_compare: Any) -> None:
    text = " ".join(run_compare()[1].split())
    told = text[text.index("Counted on") :]
    for word in ("post set", "needed sideways", "fillet welds of 3/16 in leg", "U-bolt of"):
        assert word in told
