"""Work the steps of a check out again, as a reader with a pocket calculator would.

`assert_steps(check, index)` takes every formula as text, puts the values of the earlier symbols in
and compares with the value printed beside it. The last step must be the check's own answer: its
utilisation, let-go ratio, allowable or nominal strength.
"""

import ast
import math
import operator
from collections.abc import Callable, Iterable, Mapping

import numpy as np
import pytest

from frame.checks.check import Check, Numbers, Step

FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "abs": abs,
    "min": min,
    "max": max,
}


def _over(value: float, by: float) -> float:
    """Division; over nil, nil is nil and all else has no end, as a use is told."""
    return value / by if by else math.copysign(math.inf, value) if value else 0.0


BINARY: Mapping[type, Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: _over,
    ast.Pow: operator.pow,
}
COMPARE: Mapping[type, Callable[[float, float], bool]] = {
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
}


def work_out(formula: str, known: Mapping[str, float]) -> float:
    """Value of a step's formula with the symbols in `known`; the grammar is that of `Step`."""
    return _value(ast.parse(formula.replace("^", "**"), mode="eval").body, known)


def _value(node: ast.expr, known: Mapping[str, float]) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return number
        case ast.Name(id=symbol):
            if symbol not in known:
                raise AssertionError(f"symbol {symbol!r} has no earlier step")
            return known[symbol]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_value(inner, known)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in BINARY:
            return BINARY[type(op)](_value(left, known), _value(right, known))
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in FUNCTIONS:
            return FUNCTIONS[name](*(_value(arg, known) for arg in args))
        case ast.IfExp(test=ast.Compare(left=left, ops=[op], comparators=[right])):
            holds = COMPARE[type(op)](_value(left, known), _value(right, known))
            return _value(node.body if holds else node.orelse, known)
    raise AssertionError(f"not in the grammar of a step: {ast.unparse(node)}")


def printed(steps: Iterable[Step], symbol: str) -> Numbers:
    """Value of a symbol among some steps."""
    return next(step.value for step in steps if step.symbol == symbol)


def assert_steps(check: Check, index: int | tuple[int, ...] = (), rel: float = 1e-9) -> None:
    """Check every step of `check` at `index` of the broadcast arrays; `()` if all are scalars."""
    shape = np.broadcast_shapes(
        *(np.shape(x) for x in (check.demand, check.allowable, check.nominal, check.covered)),
        *(np.shape(step.value) for step in check.steps),
    )

    def at(value: Numbers) -> float:
        return float(np.broadcast_to(value, shape)[index])

    assert check.steps, f"{check.name}: no steps"
    known: dict[str, float] = {"pi": math.pi}
    for step in check.steps:
        assert step.symbol not in known, f"{check.name}: {step.symbol} stands twice"
        value = at(step.value)
        if step.formula:
            again = work_out(step.formula, known)
            assert again == pytest.approx(value, rel=rel, abs=1e-12, nan_ok=True), (
                f"{check.name}: {step.symbol} = {step.formula} gives {again}, step says {value}"
            )
        known[step.symbol] = value
    answers = [at(x) for x in (check.utilisation, check.let_go, check.allowable, check.nominal)]
    last = at(check.steps[-1].value)
    assert any(last == pytest.approx(answer, rel=rel) for answer in answers) or not at(
        check.covered
    ), f"{check.name}: the last step, {last}, is none of the check's answers {answers}"
