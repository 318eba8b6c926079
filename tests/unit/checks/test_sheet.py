"""Formulas worked out on arrays, against the pocket calculator of `tests.step_check`."""

import numpy as np
import pytest

from frame.checks.sheet import Sheet
from tests.step_check import work_out

A, B = np.array([1.5, -2.0, 0.25]), np.array([0.5, 4.0, 0.25])


@pytest.mark.parametrize(
    "formula",
    [
        "a + b/2 - a*b",
        "2*(a - b)^2",
        "max(a, b, 0)",
        "min(a, b)/pi",
        "a if a > b else 3*b",
        "sqrt(abs(a)) + exp(-b) + sin(a)*cos(b) - tan(a)",
    ],
)
def test_a_formula_comes_to_what_a_reader_works_out(formula: str) -> None:
    sheet = Sheet()
    sheet.given("a", "one", A, "m")
    sheet.given("b", "other", B, "m")
    found = sheet.work("c", "both", formula, "m")
    by_hand = [work_out(formula, {"a": a, "b": b, "pi": np.pi}) for a, b in zip(A, B, strict=True)]
    assert found == pytest.approx(by_hand, rel=1e-14)
    assert [s.symbol for s in sheet.steps] == ["a", "b", "c"]
    assert sheet.steps[-1].formula == formula


def test_a_symbol_without_a_step_is_refused() -> None:
    with pytest.raises(NameError, match="'x'"):
        Sheet().work("y", "nothing", "2*x", "1")
