"""The first screen of `rack compare`, on every case file, at length on random racks too."""

import re
from functools import cache
from math import inf
from pathlib import Path

import pytest

from frame.report.data.plan_data import plan_data
from frame.report.screen.first import CAUTIONS, MOST, first_screen
from frame.report.screen.phrases import WIDTH
from frame.report.screen.steps import LATER, step_words, why_gone
from frame.units import parse
from tests.decided import DECIDED, decided
from tests.often import often

RANDOM = [f"random {seed}" for seed in range(often(0, 4))]
JARGON = re.compile(
    r"chord wall|growth|\bcorners?\b|utili[sz]ation|\binf\b|\bnan\b|\bNone\b", re.IGNORECASE
)
each = pytest.mark.parametrize("name", [*DECIDED, *RANDOM])


@cache
def lines(name: str) -> list[str]:
    return first_screen(decided(name), "my_rack.toml")


def paragraph(name: str, head: str, shown: list[str] | None = None) -> str:
    """The one paragraph that begins with a head, in one line."""
    every = shown or lines(name)
    (first,) = (i for i, line in enumerate(every) if re.match(rf"{head}\b", line))
    rest = every[first + 1 :]
    more = next(i for i, line in enumerate(rest) if not line.startswith("  "))
    return " ".join(" ".join(every[first : first + 1 + more]).split())


@each
def test_it_fits_a_terminal(name: str) -> None:
    assert len(lines(name)) <= MOST == 40
    assert max(map(len, lines(name))) <= WIDTH == 80


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
def test_what_it_leaves_out_it_names_and_all_has_it(name: str) -> None:
    """Nothing is left out but whole paragraphs, which a longer screen shows."""
    every = first_screen(decided(name), "my_rack.toml", inf)
    heads = {line[:10].strip() for line in every if re.match(r"[A-Z][a-z]+ [ a-z]", line)}
    shown = {line[:10].strip() for line in lines(name)}
    (told, *_) = [*(line for line in lines(name) if line.startswith("See --all for: ")), ""]
    missing = heads - shown
    assert missing == set(
        filter(None, told.removeprefix("See --all for: ").strip(".").split(", "))
    )
    for head in missing:
        assert paragraph(name, head, every)


@each
def test_it_says_why_it_droops_and_moves_however_long_the_plan(name: str) -> None:
    """What a plan takes of the room, a screen that is full says in a line each."""
    for head in ("Droops", "Moves"):
        assert paragraph(name, head).endswith((".", "?"))


@each
def test_a_rack_that_is_not_up_is_not_asked_what_it_stood(name: str) -> None:
    asked = "write it under [stood]" in " ".join(lines(name))
    assert decided(name).rack.stands or not asked


@each
def test_what_panels_laid_low_are_good_to_is_told_of_each_rack_by_itself(name: str) -> None:
    found, told = decided(name), paragraph(name, "Storm")
    for result in (found.start, found.end)[: 1 + bool(found.plan.steps)]:
        low, act = result.lowered, result.act_by_gust
        if low and act and low.act_by_gust and low.act_by_gust > 1.05 * act:
            most = low.act_by_gust / (0.44704 if found.rack.units == "us" else 1.0)
            shown = [float(n) for n in re.findall(r"laid to \d+ deg: (?:over )?(\d+)\)", told)]
            assert any(n <= most < n + 1 or n >= 200 for n in shown)


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
    at_its_tilts = re.sub(r" \(laid to .*?\)", "", listed[1])
    gusts = re.findall(r"(?:over )?(\d+) (mph|m/s)|(none looked at)", at_its_tilts)
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
    assert re.search(r"rack compare (my_rack.toml|FILE) --all", text)
    assert "Never lay under 8 deg." in " ".join(text.split())


@each
def test_the_next_command_looks_into_the_bracing_that_the_plan_ends_with(name: str) -> None:
    """Bracing of our own is not in the file, so it cannot be asked for."""
    found, text = decided(name), " ".join(" ".join(lines(name)).split())
    if found.ours or "rack check my_rack.toml" not in text:
        return
    names = ",".join(found.plan.end.bracing) or "bare"
    assert re.search(rf'rack check my_rack.toml --bracing "?{re.escape(names)}"?', text)


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
    told = paragraph(name, "Moves", first_screen(decided(name), "my_rack.toml", inf))
    if why_gone(decided(name).plan.start, decided(name).rack):
        assert re.search(r"(topples|has broken already); limit [\d.]+ (in|mm)", told)
        assert "the top may" not in told
