"""A check worked step by step with the numbers put in, for a pocket calculator."""

import math
import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from frame.checks.check import Step
from frame.records.going import Going
from frame.records.results import Row
from frame.report import going_words, words
from frame.report.screen.phrases import number
from frame.solved.alpha import ASD_ALPHA, CODE_ALPHA, STIFFNESS_LEFT
from frame.tables.expected import spreads
from frame.units import show

PUT_IN, SHOWN = 8, 5
"""Figures of the numbers put into a formula, and of its answer: the answer is right as printed."""
WIDTH = 100
WORDS_OF_FORMULA = {
    *("sqrt", "exp", "sin", "cos", "tan", "abs", "min", "max", "pi", "if", "else"),
}
SYMBOL = re.compile(r"(?<![0-9.])[A-Za-z_]\w*")
KINDS = {
    "m": "thickness",
    "m2": "area",
    "m3": "section modulus",
    "m4": "second moment",
    "N": "force",
    "N m": "moment",
    "Pa": "stress",
    "rad": "angle",
    "m/s": "speed",
    "N/m": "force per length",
}
"""How a value in an SI unit is shown in the builder's."""
NOT_COVERED = "not covered: outside the limits of the rule, so not checked"
MOST_SHIFTS = 3
"""Uncertain inputs told beside what is expected."""
TOLD_FROM = 0.05
"""Share of growth by second order from which on it is told [1]."""
PURE = ("", "1")
"""Units of a pure number."""
NOISE = 1e-12
"""Below this a number in SI units is what rounding leaves of nil."""
SOIL = 1e6
"""Stress under which it is told as a pressure on soil or panels is [Pa]."""
TAPE = 0.6
"""Length from which a tape is used, not calipers [m]."""


def by_hand(rows: Sequence[Row], system: str) -> str:
    """Return every check of a part, one step after the other; plain text, SI and `system`."""
    lines = []
    for row in rows:
        told = (
            words.when(row.words, row.tilt, row.decided_by),
            f"{row.case}; {row.source}",
            *_grown(row),
            *([] if row.covered else [_uncovered(row)]),
        )
        lines += [
            f"{row.part}: {row.check}",
            *(line for text in told for line in _wrapped(text, "  ")),
            "",
            *step_lines(_steps(row), system),
            "",
            f"  {_uses(row) if row.covered else _uncovered(row)}",
            "",
            *_by_medians(row, system),
        ]
    return "\n".join(lines)


def _grown(row: Row) -> Iterator[str]:
    """Say how much of the demand comes from leaning and twisting under the loads themselves."""
    if CODE_ALPHA / row.buckles < TOLD_FROM:
        return
    how = f"counted {ASD_ALPHA:g} times on {STIFFNESS_LEFT:g} of the stiffness, AISC 360-22 C2"
    if row.buckles <= CODE_ALPHA:
        yield f"second order: the rack topples under these loads, {how}"
        return
    grows = 1.0 / (1.0 - CODE_ALPHA / row.buckles)
    yield (
        f"second order: {row.buckles:.2g} times these loads would buckle the rack; what leans and "
        f"twists that way grows to about {grows:.2g} times first order, {how}"
    )


def _uses(row: Row) -> str:
    """Say what a row uses, in words where no number says anything any more."""
    return going_words.beyond_numbers(row) or words.use_words(row.utilisation)


def _by_medians(row: Row, system: str) -> Iterator[str]:
    """Lines of what is expected, by medians: the gust, its wind, and the steps at that gust."""
    going = row.going
    if going is None:
        yield from _wrapped("expected, by medians: no gust looked at brings it to that", "  ")
        yield ""
        return
    where = words.when(going.words, going.tilt)
    how = f"it {going_words.how(going)} {going_words.about(going, system)}; {where}"
    at = "that gust"
    if going.guessed is not None:
        guess = words.gust_rounded_down(going.guessed, system)
        how += f"; before what it has stood was counted, at about {guess}"
        at = f"the {guess} guessed before"
    yield from _wrapped(f"expected, by medians: {how}", "  ")
    yield from _wrapped(f"{going.case}; middle strengths, no safety factor, at {at}", "  ")
    if going.shifts and going.gust >= words.STILL:
        yield from _wrapped(f"each alone, from end to end: {_alone(going, system)}", "  ")
    yield ""
    yield from step_lines(going.hand.steps, system)
    yield ""


def _alone(going: Going, system: str) -> str:
    """Say between which gusts each of what is least known alone would move it, most first."""
    most = sorted(going.shifts, key=lambda s: s.down - s.up)[:MOST_SHIFTS]
    guess = going.gust if going.guessed is None else going.guessed
    told = []
    for shift in (s for s in most if s.up > s.down):
        ends = (guess * math.exp(by) for by in (shift.down, shift.up))
        low, high = (number(gust, system) for gust in ends)
        told.append(f"{spreads()[shift.key].words}, {low} to {high}")
    return "; ".join(told)


def _uncovered(row: Row) -> str:
    """Say that no rule covers a row; what it uses where one does, if that is too much."""
    if row.passes:
        return NOT_COVERED
    return f"{NOT_COVERED} everywhere; where it is, it {words.use_words(row.utilisation)}"


def _steps(row: Row) -> Sequence[Step]:
    """Return the steps of a row, without the use where it would say less than it seems."""
    steps = row.hand.steps
    hidden = not row.covered and row.passes and steps and steps[-1].unit in PURE
    return steps[:-1] if hidden else steps


def step_lines(steps: Sequence[Step], system: str) -> Iterator[str]:
    """Lines of a check: symbol = formula = numbers put in = value, SI, in the builder's unit."""
    known: dict[str, float] = {}
    for step in steps:
        value = float(step.value)
        known[step.symbol] = value
        told = ", ".join(t for t in (step.meaning, step.source) if t)
        answer = f"= {figures(value, SHOWN if step.formula else PUT_IN)}"
        answer += "" if step.unit in PURE else f" {step.unit}"
        answer += builders(value, step.unit, system)
        parts = [f"  {step.symbol}"]
        if step.formula:
            parts.append(f"= {step.formula}")
            numbers = put_in(step.formula, known)
            if numbers != step.formula:
                parts.append(f"= {numbers}")
        parts.append(answer)
        yield from _wrapped(told, "  ")
        yield from _fitted(parts)


def put_in(formula: str, known: Mapping[str, float]) -> str:
    """Return a formula with the numbers put in for its symbols; negative ones in brackets."""

    def number(match: re.Match[str]) -> str:
        symbol = match[0]
        if symbol in WORDS_OF_FORMULA and symbol not in known:
            return symbol
        text = figures(known[symbol], PUT_IN)
        return f"({text})" if text.startswith("-") else text

    return SYMBOL.sub(number, formula)


def figures(value: float, count: int) -> str:
    """Return a number to `count` figures, as a calculator takes it."""
    if abs(value) < NOISE:
        return "0"
    return f"{value:.{count}g}".replace("e+0", "e").replace("e+", "e").replace("e-0", "e-")


def builders(value: float, unit: str, system: str) -> str:
    """Return a value in the builder's unit, in brackets; nothing where he has none."""
    kind = KINDS.get(unit)
    if kind is None:
        return ""
    if kind == "thickness" and abs(value) >= TAPE:
        kind = "length"
    if kind == "stress" and abs(value) < SOIL:
        kind = "pressure"
    text = show(value, kind, system, 4)
    return "" if text == f"{figures(value, SHOWN)} {unit}" else f"  ({text})"


def steps_data(steps: Sequence[Step]) -> list[dict[str, Any]]:
    """Return the steps for JSON."""
    return [
        {
            "symbol": s.symbol,
            "meaning": s.meaning,
            "formula": s.formula or None,
            "value": float(s.value),
            "unit": s.unit,
            "source": s.source or None,
        }
        for s in steps
    ]


def _fitted(parts: list[str]) -> Iterator[str]:
    """Put the parts of a step on one line, or each on its own if that is too long."""
    line = " ".join(parts)
    if len(line) <= WIDTH:
        yield line
        return
    indent = " " * (len(parts[0]) + 1)
    yield from _wrapped(f"{parts[0].strip()} {parts[1]}", "  ", indent + "  ")
    for part in parts[2:]:
        yield from _wrapped(part, indent, indent + "  ")


def _wrapped(text: str, first: str, rest: str = "") -> list[str]:
    """Break text at its blanks to the width of the page, `first` and `rest` before the lines."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=rest or first,
        break_long_words=False,
        break_on_hyphens=False,
    )
