"""The evaluator that the check tests rely on: its grammar, and that it does catch a wrong step."""

import numpy as np
import pytest

from frame.checks.check import Check, Step
from tests.step_check import assert_steps, work_out


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("2^3 * a", 24.0),
        ("-a^2", -9.0),
        ("max(a, 4) - min(a, b, 1)", 3.0),
        ("sqrt(a + 6) + abs(-b) + pi*0", 5.0),
        ("a if a > b else b", 3.0),
        ("a if a <= b else 10*b", 20.0),
    ],
)
def test_grammar(formula, value):
    """Numbers worked in the head."""
    assert work_out(formula, {"a": 3.0, "b": 2.0, "pi": np.pi}) == pytest.approx(value)


@pytest.mark.parametrize("formula", ["c + 1", "a.b", "a[0]", "open(a)", "'a'"])
def test_refuses_what_no_calculator_does(formula):
    with pytest.raises(AssertionError):
        work_out(formula, {"a": 3.0})


def _check(*, half: float, last: float) -> Check:
    steps = (
        Step("P", "load", "", np.array([1.0, 3.0]), "N"),
        Step("h", "half of it", "P/2", half, "N"),
        Step("u", "use", "h/4", last, ""),
    )
    return Check(
        name="x",
        demand=np.array([0.5, 1.5]),
        allowable=4.0,
        nominal=8.0,
        unit="N",
        source="none",
        steps=steps,
    )


def test_right_steps_pass():
    assert_steps(_check(half=1.5, last=0.375), 1)


@pytest.mark.parametrize(("half", "last"), [(1.6, 0.4), (1.5, 0.4)])
def test_wrong_step_is_caught(half, last):
    with pytest.raises(AssertionError):
        assert_steps(_check(half=half, last=last), 1)


def test_last_step_must_be_the_answer():
    steps = (Step("P", "load", "", 1.0, "N"), Step("q", "something else", "P*9", 9.0, "N"))
    check = Check(
        name="x", demand=1.0, allowable=2.0, nominal=3.0, unit="N", source="none", steps=steps
    )
    with pytest.raises(AssertionError, match="last step"):
        assert_steps(check)
