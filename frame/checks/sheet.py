"""Steps of a check worked out as they are written, so that number and by-hand cannot differ.

Each formula stands once, as text in the grammar of `Step`, and is worked out on the arrays of the
steps before it. A check so written has no second formula in numpy to keep in step with.
"""

import ast
from functools import cache, reduce
from types import CodeType, MappingProxyType
from typing import Any

import numpy as np

from frame.checks.check import Numbers, Step, demand_over


def _least(*values: Numbers) -> Numbers:
    return reduce(np.minimum, values)


def _most(*values: Numbers) -> Numbers:
    return reduce(np.maximum, values)


FUNCTIONS = MappingProxyType(
    {
        "sqrt": np.sqrt,
        "exp": np.exp,
        "sin": np.sin,
        "cos": np.cos,
        "tan": np.tan,
        "abs": np.abs,
        "min": _least,
        "max": _most,
        "pi": np.pi,
        "_where": np.where,
    }
)


class Sheet:
    """Steps of one check, in order; values broadcast. It may go on from `steps` written before."""

    def __init__(self, *steps: Step) -> None:
        self.steps: list[Step] = list(steps)
        self._known: dict[str, Any] = {**FUNCTIONS, **{s.symbol: s.value for s in steps}}

    def __getitem__(self, symbol: str) -> Numbers:
        """Return the value of a symbol."""
        value: Numbers = self._known[symbol]
        return value

    def given(
        self, symbol: str, meaning: str, value: Numbers, unit: str, source: str = ""
    ) -> Numbers:
        """Write an input down."""
        return self._down(Step(symbol, meaning, "", value, unit, source))

    def work(
        self, symbol: str, meaning: str, formula: str, unit: str, source: str = ""
    ) -> Numbers:
        """Work a formula out of the symbols above and write it down."""
        return self._down(Step(symbol, meaning, formula, self.value(formula), unit, source))

    def value(self, formula: str) -> Numbers:
        """Work a formula out of the symbols above without writing it down."""
        code, chooses = _compiled(formula)
        if not chooses:
            plain: Numbers = eval(code, {"__builtins__": {}}, self._known)
            return plain
        with np.errstate(divide="ignore", invalid="ignore"):  # every way is worked out everywhere
            chosen: Numbers = eval(code, {"__builtins__": {}}, self._known)
        return chosen

    def use(
        self, symbol: str, meaning: str, demand: str, strength: str, unit: str = ""
    ) -> Numbers:
        """Write down the use [1]: one symbol over another, see `checks.check.demand_over`."""
        value = demand_over(self._known[demand], self._known[strength])
        return self._down(Step(symbol, meaning, f"{demand}/{strength}", value, unit))

    def _down(self, step: Step) -> Numbers:
        self.steps.append(step)
        self._known[step.symbol] = step.value
        return step.value


class _OnArrays(ast.NodeTransformer):
    def visit_IfExp(self, node: ast.IfExp) -> ast.expr:
        """Choose case by case: `a if x > y else b`."""
        self.generic_visit(node)
        choose = ast.Name("_where", ast.Load())
        return ast.Call(choose, [node.test, node.body, node.orelse], [])


@cache
def _compiled(formula: str) -> tuple[CodeType, bool]:
    """Return a formula's code, and whether it chooses between ways."""
    tree = ast.parse(formula.replace("^", "**"), mode="eval")
    chooses = any(isinstance(node, ast.IfExp) for node in ast.walk(tree))
    tree = ast.fix_missing_locations(_OnArrays().visit(tree))
    return compile(tree, formula, "eval"), chooses
