"""The first screen of `rack compare`, on every case file, at length on random racks too."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from frame.named.limit_state import LimitState
from frame.named.part import PANEL, Part, post
from frame.plan.decision import Decision
from frame.rack.prices import Prices
from frame.rack.stood import Stood
from frame.report.data.plan_data import plan_data
from frame.report.screen.doubts import stood, unknown, warned
from frame.report.screen.first import CAUTIONS, MOST, first_screen
from frame.report.screen.lines import lay_down_paragraph, left_out
from frame.report.screen.phrases import WIDTH, in_one_unit
from frame.report.screen.reached import reached
from frame.report.screen.steps import LATER, step_words, steps, why_gone
from frame.units import DEG, parse
from tests.decided import decided
from tests.often import often

CASES = sorted(path.stem for path in (Path(__file__).parents[2] / "cases").glob("*.toml"))
RANDOM = [f"random {seed}" for seed in range(often(0, 4))]
JARGON = re.compile(
    r"chord wall|growth|\bcorners?\b|utili[sz]ation|\binf\b|\bnan\b|\bNone\b", re.IGNORECASE
)
DEAR = Prices(
    currency="dollars", pipe=1.0, rail=1.0, wire=1.0, fitting=1.0, anchor=1.0, concrete=1.0,
    rod=1.0, work=1.0,
)  # fmt: skip
each = pytest.mark.parametrize("name", [*CASES, *RANDOM])


@cache
def lines(name: str) -> list[str]:
    return first_screen(decided(name), "my_rack.toml")


def paragraph(name: str, head: str) -> str:
    """The one paragraph that begins with a head, in one line."""
    (first,) = (i for i, line in enumerate(lines(name)) if re.match(rf"{head}\b", line))
    rest = lines(name)[first + 1 :]
    more = next(i for i, line in enumerate(rest) if not line.startswith("  "))
    return " ".join(" ".join(lines(name)[first : first + 1 + more]).split())


@each
def test_it_fits_a_terminal(name: str) -> None:
    assert len(lines(name)) <= MOST == 40
    assert max(map(len, lines(name))) <= WIDTH == 80


@pytest.mark.xdist_group("orchard_wall")
@pytest.mark.parametrize(("rise", "little"), [(1.01, True), (1.2, False)])
def test_an_unknown_that_hardly_moves_anything_is_called_so(rise: float, little: bool) -> None:
    found = decided("orchard_wall")
    one = replace(found.decides[0], gust_if_well=rise * found.decides[0].going.gust)
    said = " ".join(unknown(replace(found, decides=(one,)), 0))
    assert ("nothing much by itself; most, " in said) is little


@pytest.mark.xdist_group("orchard_wall")
def test_the_readme_shows_the_figures_of_the_screen() -> None:
    """Its words are held by `tests/test_documents.py`; a last digit may turn on the machine."""
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    file = "cases/orchard_wall.toml"
    _, _, rest = readme.partition(f"$ rack compare {file}\n")
    shown, _, _ = rest.partition("\n```")
    told, given = (
        [float(figure.replace(",", "")) for figure in re.findall(r"\d[\d,]*\.?\d*", text)]
        for text in (shown, "\n".join(first_screen(decided("orchard_wall"), file)))
    )
    assert told == pytest.approx(given, rel=0.01)


@each
def test_no_sentence_is_cut_off(name: str) -> None:
    """Every paragraph before a blank line or the cautions ends as a sentence or a table does."""
    shown = lines(name)
    last = shown.index(CAUTIONS[0]) - 1
    assert not shown[last] or shown[last][-1] in ".?:"


@each
def test_there_is_one_recommendation_its_steps_in_order(name: str) -> None:
    text, plan = "\n".join(lines(name)), decided(name).plan
    assert text.count("Do, in this order") == 1
    numbers = re.findall(r"^ ?(\d+) \S", text, re.MULTILINE)
    assert [int(n) for n in numbers] == list(range(1, len(plan.steps) + 1))
    after = rf"After {len(plan.steps)}" if plan.steps else "As it is"
    told = paragraph(name, after)
    assert bool(re.search("only, not to the|lacks the code's margin", told)) != plan.reached
    assert ("it has the code's margin" in told) == plan.reached


@each
def test_there_is_one_gust_to_act_by(name: str) -> None:
    """Before the first step and, in the same line, after the last: the low ends of what is grave.

    Whole numbers, rounded down to the unit; none is told where no gust does it.
    """
    found, told = decided(name), paragraph(name, "Storm")
    assert sum(" before a forecast gust of" in line for line in lines(name)) <= 1
    listed = re.search(r"before a forecast gust of: (.*?)\.", told)
    assert listed
    gusts = re.findall(r"(?:over )?(\d+) (mph|m/s)|(none looked at)", listed[1])
    exact = [found.start.act_by_gust, found.end.act_by_gust][: 1 + bool(found.plan.steps)]
    assert len(gusts) == len(exact)
    for (number, unit, none), gust in zip(gusts, exact, strict=True):
        assert bool(none) == (gust is None)
        if gust is not None and gust < 89:
            assert 0 <= gust - parse(f"{number} {unit}", "speed") < parse(f"1 {unit}", "speed")


@each
def test_it_says_what_the_answer_hangs_on_and_how_to_know(name: str) -> None:
    told = paragraph(name, "What this hangs on")
    assert decided(name).decides
    assert decided(name).decides[0].unknown in told
    assert "To know: " in told or "Nothing tells beforehand" in told


@each
def test_no_number_is_beyond_belief(name: str) -> None:
    text = "\n".join(lines(name))
    shares = [float(n.replace(",", "")) for n in re.findall(r"([\d,.]+) ?%", text)]
    assert all(share <= 999 for share in shares)
    found = decided(name)
    length = found.rack.posts.height
    units = "in" if found.rack.units == "us" else "mm"
    rows = [line for line in lines(name) if re.match(r" ?\d+ \S|   (?:bare|as it is) ", line)]
    assert len(rows) == 1 + len(found.plan.steps)
    for row in rows:
        for number in row[38:].replace("!", "").split()[:2]:
            assert (
                number in ("topples", "broken")
                or abs(parse(f"{number} {units}", "length")) <= length
            )
    moves = re.findall(r"moves ([\d.,]+ (?:in|mm))", text)
    assert all(parse(move, "length") <= length for move in moves)


@each
def test_it_speaks_a_builders_words(name: str) -> None:
    """Bracing keeps the name that the file gives it, as "rail-corner guys"."""
    text = "\n".join(lines(name))
    for bracing in decided(name).rack.bracing_names:
        text = text.replace(bracing, "")
    assert not JARGON.search(text)


@each
def test_it_warns_and_says_what_to_type_next(name: str) -> None:
    text = "\n".join(lines(name))
    assert "licensed engineer" in text
    assert "local codes decide" in text
    assert "rack compare my_rack.toml --all" in text
    assert "Never flat (under 8 deg)." in " ".join(text.split())


@each
def test_the_next_command_looks_into_the_bracing_that_the_plan_ends_with(name: str) -> None:
    """Bracing of our own is not in the file, so it cannot be asked for."""
    found, text = decided(name), " ".join(" ".join(lines(name)).split())
    if found.ours or "rack check my_rack.toml" not in text:
        return
    names = ",".join(found.plan.end.bracing) or "bare"
    assert re.search(rf'rack check my_rack.toml --bracing "?{re.escape(names)}"?', text)


@pytest.mark.xdist_group("orchard_wall")
def test_a_steep_tilt_is_warned_of_once() -> None:
    found = decided("orchard_wall")
    steep = replace(found.rack, tilts=(50 * DEG,), warnings=(
        "Tilt 50 deg is over 45 deg: not covered by the wind tables.",))  # fmt: skip
    told = warned(replace(found, rack=steep))
    assert len([line for line in told if "45" in line]) == 1


@pytest.mark.xdist_group("hay_barn")
def test_guys_left_out_of_a_rack_that_sways_are_told_with_what_they_do() -> None:
    """What the top moves with them, and what gives sooner then."""
    found = decided("hay_barn")
    told = " ".join(" ".join(left_out(found)).split())
    if found.guyed is None:
        assert "the top then moves" not in told
    else:
        assert re.search(r"guys: the top then moves [\d.]+ in, (but|and) ", told)


@pytest.mark.xdist_group("hay_barn")
@pytest.mark.parametrize("priced", [False, True])
def test_what_has_no_price_in_the_file_is_not_told_as_free(priced: bool) -> None:
    """Stops, lugs and shims cost a builder something, though no price of the file is for them."""
    found = decided("hay_barn")
    step = replace(found.plan.steps[0], added_steel=0.0, added_cost=0.0)
    rack = replace(found.rack, prices=DEAR if priced else None)
    told = steps(replace(found, rack=rack, plan=replace(found.plan, steps=(step,))))
    assert told[3].endswith(" -")


@pytest.mark.xdist_group("hay_barn")
def test_no_gust_is_told_of_a_rack_that_lies_flat() -> None:
    """Near flat, panels flutter: the screen may not say before which gust to act."""
    found = decided("hay_barn")
    flat = replace(found, rack=replace(found.rack, tilts=(2 * DEG,)))
    said = " ".join(" ".join(lay_down_paragraph(flat)).split())
    assert said.startswith("Storm no gust can be told of panels laid under 8 deg")
    assert "mph" not in said


def test_quantities_to_be_compared_have_one_unit() -> None:
    """77 in-lb is less than 52 ft-lb: 6.4 ft-lb."""
    told = in_one_unit("torque", "us", 77 * 0.1129848, 52.2 * 1.355818)
    assert told == ["6.4 ft-lb", "52.2 ft-lb"]
    assert in_one_unit("torque", "us", 1.0, 2.0) == ["9 in-lb", "18 in-lb"]


@each
def test_a_step_that_buys_nothing_by_itself_is_said_to_pay_later(name: str) -> None:
    """By the plan's own numbers in JSON: no gust rises by 3 % and nothing moves less."""
    found = plan_data(decided(name))
    before, said = found["start"], step_words(decided(name).plan)
    most = decided(name).rack.site.map_gust

    def gusts(at: dict) -> list[float]:
        # No slip counts that comes after the break, nor a gust that hardly ever comes.
        slip, broke = ((g["gust"] if g else 999.0) for g in (at["first_slip"], at["first_break"]))
        limit = at["limit_gust"] or 999.0
        return [min(limit, most), min(slip, broke, 1.1 * most), min(broke, 1.5 * most)]

    for step, words in zip(found["plan"], said, strict=True):
        raised = any(
            b > 1.03 * max(a, 1.0) for a, b in zip(gusts(before), gusts(step), strict=True)
        )
        calmer = step["sway"] < 0.8 * before["sway"] or step["droop"] < 0.8 * before["droop"]
        stiller = "play" in step["do"]
        if LATER in words:
            assert not raised, words
        else:
            assert raised or calmer or stiller, words
        before = step


@each
def test_where_no_movement_is_told_the_limit_is_called_one(name: str) -> None:
    told = paragraph(name, "Moves")
    if why_gone(decided(name).plan.start, decided(name).rack):
        assert re.search(r"(topples|has broken already); limit [\d.]+ (in|mm)", told)
        assert "the top may" not in told


@pytest.mark.xdist_group("orchard_wall")
@pytest.mark.parametrize("tilt", [20, 40])
def test_what_it_stood_at_another_tilt_is_not_set_against_what_it_would_stand_there(
    tilt: float,
) -> None:
    """It stood 62 mph at 20 deg and is expected to go at 55, but at 40 deg: no contradiction."""
    found = decided("orchard_wall")
    first = next(r for r in found.start.ladder if r.going)
    assert first.going
    gust = parse("55 mph", "speed")
    later = replace(first.going, gust=gust, guessed=parse("46.5 mph", "speed"), tilt=tilt * DEG)
    rack = replace(
        found.rack,
        units="us",
        stood=Stood(
            gust=parse("62 mph", "speed"),
            tilt=20 * DEG,
            fitted=(),
            panels_on=True,
            moved="nothing",
        ),
    )
    start = replace(found.start, rows=(replace(first, going=later),))
    told = " ".join(" ".join(stood(replace(found, rack=rack, start=start))).split())
    assert "it stood 62 mph at 20 deg, nothing moved" in told
    where = " at 40 deg" if tilt == 40 else ""
    assert f"later than guessed, at about 55{where}, not 46" in told


@pytest.mark.xdist_group("boat_shed")
def test_what_nothing_offered_mends_is_told_where_a_plan_falls_short() -> None:
    """A rating on paper is lifted by no weld; 45 m/s is 100.66 mph by NIST's 0.44704 m/s."""
    found = decided("boat_shed")
    assert not found.plan.reached
    assert found.unmended is None

    def with_row(part: Part, check: LimitState, before: float, after: float) -> Decision:
        one = replace(found.end.rows[0], part=part, check=check)
        return replace(
            found,
            start=replace(found.start, rows=(replace(one, limit_gust=before),)),
            end=replace(found.end, rows=(replace(one, limit_gust=after),)),
        )

    rating = LimitState.PANEL_RATING
    rated = with_row(PANEL, rating, 45.0, 45.0)
    said = " ".join(" ".join(reached(rated)).split())
    assert (
        "Nothing here mends this: by the code the panels' own rating is passed at 100 mph" in said
    )
    assert plan_data(rated)["unmended"] == {"part": PANEL, "check": rating, "limit_gust": 45.0}
    # Above the site's 110 mph, 49.2 m/s; lifted by the plan; helped by a deeper post.
    assert with_row(PANEL, rating, 50.0, 50.0).unmended is None
    assert with_row(PANEL, rating, 40.0, 45.0).unmended is None
    assert with_row(post(1), LimitState.POST_LEANING, 45.0, 45.0).unmended is None
    assert plan_data(found)["unmended"] is None


@pytest.mark.xdist_group("fifteen_lines")
def test_what_the_plan_itself_brings_is_warned_of_before_it_is_built() -> None:
    """The file as it is has a sleeve as long as its post is thick, the end of the plan not."""
    found = decided("fifteen_lines")
    steps, rocks = found.plan.steps, "The sleeve is less than the post is thick: it will rock."

    def ended(*warnings: str) -> str:
        last = steps[-1]
        end = replace(last.after, rack=replace(last.after.rack, warnings=warnings))
        plan = replace(found.plan, steps=(*steps[:-1], replace(last, after=end)))
        return " ".join(" ".join(warned(replace(found, plan=plan))).split())

    assert f"Mind After step {len(steps)}: {rocks}" in ended(rocks)
    assert "After step" not in ended(*found.plan.start.rack.warnings)
