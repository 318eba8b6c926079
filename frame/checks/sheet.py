"""Steps of a check worked out as they are written, so that number and by-hand cannot differ.

Each formula stands once, as text in the grammar of `Step`, and is worked out on the arrays of the
steps before it. A check so written has no second formula in numpy to keep in step with.
"""

import ast
from functools import cache, reduce
from types import CodeType, MappingProxyType
from typing import Any

import numpy as np

from frame.checks.check import Numbers, Step


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
    """Steps of one check, in order; values broadcast."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self._known: dict[str, Any] = dict(FUNCTIONS)

    def given(
        self, symbol: str, meaning: str, value: Numbers, unit: str, source: str = ""
    ) -> Numbers:
        """Write an input down."""
        return self._down(Step(symbol, meaning, "", value, unit, source))

    def work(
        self, symbol: str, meaning: str, formula: str, unit: str, source: str = ""
    ) -> Numbers:
        """Work a formula out of the symbols above and write it down."""
        value = eval(_compiled(formula), {"__builtins__": {}}, self._known)
        return self._down(Step(symbol, meaning, formula, value, unit, source))

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
def _compiled(formula: str) -> CodeType:
    tree = _OnArrays().visit(ast.parse(formula.replace("^", "**"), mode="eval"))
    return compile(ast.fix_missing_locations(tree), formula, "eval")
