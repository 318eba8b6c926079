"""Steps by hand: what is printed can be worked out again from what is printed."""

from dataclasses import replace

import pytest

from frame.checks.check import Check, Kind, Step
from frame.checks.steel.pipe import Forces, interaction
from frame.checks.steel.pipe_strength import RoundPipe
from frame.geometry.tube import Tube
from frame.idealize.state import State
from frame.loads.combinations import ASD_WINDY
from frame.records.going import Going, Shift
from frame.records.results import Row
from frame.report.by_hand import builders, by_hand, figures, put_in, step_lines
from frame.units import MPH
from tests.step_check import work_out

HAND = Check(name="grip", demand=1.0, allowable=1.0, nominal=1.0, unit="N", source="none")
GOING = Going(
    part="set bolt", check="grip", kind=Kind.TURNS, gust=50 * MPH, low=30 * MPH, high=80 * MPH,
    case="D + W", words="wind in the face", tilt=0.5, hand=HAND,
    shifts=(Shift("wind", -0.1, 0.1), Shift("set_bolt_friction", -0.4, 0.3)),
)  # fmt: skip
ROW = Row(
    part="set bolt", check="grip", utilisation=0.59, demand=59.0, allowable=100.0, nominal=200.0,
    unit="N", case="D + 0.6W", words="wind in the face",
    combination=ASD_WINDY[0], tilt=0.5, state=State(), decided_by="",
    source="none", covered=True, hand=HAND, limit_gust=40.0, going=GOING,
)  # fmt: skip
PIPE = RoundPipe(tube=Tube(0.0889, 0.0051), Fy=240e6, Fu=415e6, E=200e9)


def joined(steps: tuple[Step, ...]) -> list[str]:
    """One string a step, "symbol = formula = numbers = value", however it was broken."""
    lines = list(step_lines(steps, "metric"))
    told = {", ".join(t for t in (s.meaning, s.source) if t) for s in steps}
    found: list[str] = []
    for line in lines:
        if line.strip() in told:
            found.append("")
        else:
            found[-1] = f"{found[-1]} {line.strip()}".strip()
    return found


@pytest.mark.parametrize("push", [-30e3, 12e3])
def test_every_printed_answer_follows_from_the_printed_numbers(push: float) -> None:
    forces = Forces(N=push, My=2.1e3, Mz=-0.4e3, Vy=900.0, Vz=-3e3, T=640.0)
    check = interaction(PIPE, forces, 2.2, 1.07)
    steps = tuple(Step(s.symbol, s.meaning, s.formula, float(s.value), s.unit, s.source)
                  for s in check.steps)  # fmt: skip
    lines = joined(steps)
    assert len(lines) == len(steps)
    for step, line in zip(steps, lines, strict=True):
        symbol, *parts = line.split(" = ")
        assert symbol == step.symbol
        value = parts[-1].split("  (")[0].removesuffix(f" {step.unit}")
        assert float(value) == pytest.approx(float(step.value), rel=6e-5)
        if len(parts) == 3:
            again = work_out(parts[1], {"pi": 3.141592653589793})
            assert figures(again, 4) == figures(float(value), 4)
            assert again == pytest.approx(float(value), rel=1.1e-4)


@pytest.mark.parametrize(
    ("load", "us", "metric"),
    [
        # 14.59390 N/m are 1 lb/ft, 175.1268 N/m 1 lb/in (NIST SP 811).
        (62.0, "  (4.25 lb/ft)", ""),
        (1459.39, "  (100 lb/ft)", "  (1.5 kN/m)"),
        (0.35 * 14.5939, "  (0.35 lb/ft)", "  (5 N/m)"),
        (-62.0, "  (-4.25 lb/ft)", ""),
        (525380.4, "  (3,000 lb/in)", "  (525.4 kN/m)"),
    ],
)
def test_a_load_along_a_rail_is_no_nil_in_the_builders_unit(
    load: float, us: str, metric: str
) -> None:
    assert builders(load, "N/m", "us") == us
    assert builders(load, "N/m", "metric") == metric


def test_numbers_take_the_place_of_symbols_only() -> None:
    told = put_in("min(a, 1.6e3*b) if a > b else sqrt(a_b)", {"a": -2.0, "b": 0.5, "a_b": 9.0})
    assert told == "min((-2), 1.6e3*0.5) if (-2) > 0.5 else sqrt(9)"


def test_a_long_step_is_broken_before_its_equals_signs() -> None:
    formula = " + ".join(["value"] * 20)
    steps = (Step("value", "input", "", 1.25, "m"), Step("total", "sum", formula, 25.0, "m"))
    lines = list(step_lines(steps, "us"))
    assert lines[1] == "  value = 1.25 m  (4'-1 3/16\")"
    starts = [line.lstrip()[:7] for line in lines[3:] if "=" in line]
    assert starts == ["total =", "= 1.25 ", "= 25 m "]


@pytest.mark.parametrize(
    ("value", "count", "told"),
    [(2.4e8, 8, "2.4e8"), (123456.789, 5, "1.2346e5"), (1e-5, 5, "1e-5"), (-0.25, 5, "-0.25"),
     (1e10, 8, "1e10"), (0.1016, 8, "0.1016")],
)  # fmt: skip
def test_figures_are_as_a_calculator_takes_them(value: float, count: int, told: str) -> None:
    assert figures(value, count) == told
    assert float(told) == pytest.approx(value, rel=1e-4)


def test_what_rounding_leaves_of_nil_is_nil() -> None:
    assert figures(3.6e-17, 5) == "0"
    assert figures(-2e-13, 5) == "0"
    assert figures(8e-11, 5) == "8e-11"


def test_long_steps_are_broken_at_blanks() -> None:
    formula = "min(a, b) if a < b - 2*c else max(a, b) + " + " + ".join(["a*b"] * 12)
    steps = (
        Step("a", "one", "", 12345.678, ""),
        Step("b", "two", "", 2345.6789, ""),
        Step("c", "three", "", 0.12345678, ""),
        Step("use", "four", formula, 1.0, ""),
    )
    lines = list(step_lines(steps, "us"))
    assert max(map(len, lines)) <= 100
    assert " ".join(" ".join(lines).split()).count(formula) == 1


def test_pressures_on_soil_are_told_in_units_of_soil_and_pure_numbers_bare() -> None:
    """91819 Pa is 1918 lb/ft2 (47.880 Pa each, NIST SP 811)."""
    steps = (Step("p", "holding", "", 91818.947, "Pa"), Step("k", "share", "", 0.5, "1"))
    lines = [line.strip() for line in step_lines(steps, "us")]
    assert lines == ["holding", "p = 91818.947 Pa  (1,918 psf)", "share", "k = 0.5"]
    assert "(91.82 kPa)" in "".join(step_lines(steps, "metric"))


def told(row: Row) -> str:
    return " ".join(by_hand([row], "us").split())


def test_the_median_steps_follow_with_the_gust_and_what_moves_it() -> None:
    """exp(-0.4) 50 = 33.5 and exp(0.3) 50 = 67.5 mph, by hand."""
    text = told(ROW)
    assert "it turns at about 50 mph (30 to 80)" in text
    assert "what a set bolt holds on the post, 33 to 67" in text
    assert "at that gust" in text
    assert text.index("uses 59 % of what it can take") < text.index("expected, by medians")


def test_a_gust_told_better_by_what_it_stood_names_the_guess_of_its_steps() -> None:
    better = replace(ROW, going=replace(GOING, guessed=40 * MPH))
    text = told(better)
    assert "before what it has stood was counted, at about 40 mph" in text
    assert "at the 40 mph guessed before" in text
    assert "what a set bolt holds on the post, 26 to 53" in text  # of 40, not of 50


def test_what_no_gust_brings_down_is_said_so() -> None:
    assert "no gust looked at brings it to that" in told(replace(ROW, going=None))
