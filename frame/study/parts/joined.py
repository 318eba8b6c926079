"""Steps of two checks of one part written one after the other, as one sheet."""

import re
from dataclasses import replace
from functools import cache

from frame.checks.check import Check, Step

USES = ("u1", "u2")


def joined(check: Check, first: Check, second: Check) -> Check:
    """Return `check`, the worse of two, with the steps of both in place of its two inputs.

    The uses become u1 and u2. A step that both have stands once; any other symbol that clashes
    is marked "_2" in the second.
    """
    sheet = _renamed(first.steps, {"u": USES[0]})
    known = {s.symbol: s for s in sheet}
    names = {"u": USES[1]}
    fresh = []
    for step in second.steps:
        same = known.get(step.symbol)
        if same is not None and (same.meaning, same.formula) == (step.meaning, step.formula):
            continue
        if same is not None and step.symbol != "u":
            names[step.symbol] = f"{step.symbol}_2"
        fresh.append(step)
    sheet = (*sheet, *_renamed(fresh, names))
    there = {s.symbol for s in sheet}
    ending = [s for s in check.steps if s.symbol not in there]
    return replace(check, steps=(*sheet, *ending))


def _renamed(steps: tuple[Step, ...] | list[Step], names: dict[str, str]) -> tuple[Step, ...]:
    return tuple(_with(step, names) for step in steps)


def _with(step: Step, names: dict[str, str]) -> Step:
    """Return the step with its symbols renamed; itself where it names none of them."""
    pairs = tuple(names.items())
    symbol, formula = _put(step.symbol, pairs), _put(step.formula, pairs)
    if (symbol, formula) == (step.symbol, step.formula):
        return step
    return Step(symbol, step.meaning, formula, step.value, step.unit, step.source)


@cache
def _put(text: str, names: tuple[tuple[str, str], ...]) -> str:
    known = dict(names)
    return re.sub(r"[A-Za-z_]\w*", lambda m: known.get(m[0], m[0]), text)
