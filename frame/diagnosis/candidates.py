"""The one further reading that would tell most: every reading not yet taken is tried."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.diagnosis.expected_readings import tellable
from frame.diagnosis.fit import MODEL, STEP, Fit, values_at
from frame.diagnosis.movements import MovementFound, cause_contrast
from frame.diagnosis.predict import PREDICTED, Yard
from frame.tables.readings import reading_kinds, tools

FloatArray = npt.NDArray[np.float64]
SIGNED = (
    "droop_left", "droop_right", "unloaded_left", "unloaded_right", "level", "level_pressed",
    "lean_along", "lean_across",
)  # fmt: skip
"""Readings that may be negative."""
MATTERS = 0.01
"""Spread of ln(first break) from which on it is worth narrowing (judgement)."""
SOME = 0.1
"""Share of a variance that a reading must take away to be worth taking (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A reading not yet taken: what share of a variance it would take away [1].

    `narrows`: of ln(first break) of the plan; `splits`: of what the chief movement owes more to
    its likeliest cause than to the next. `expected`: what it would read, soft and stiff end [SI].
    """

    key: str
    narrows: float
    splits: float
    expected: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """The reading to take next, what of all that were tried; `for_break`: it narrows the break."""

    best: Candidate
    tried: tuple[Candidate, ...]
    for_break: bool


def propose(
    found: Fit, slopes: FloatArray, chief: MovementFound, refused: Sequence[str] = ()
) -> Proposal | None:
    """Try every reading that was neither taken nor `refused`; None where none tells anything.

    `slopes` (k,) of ln(first break) by the standardised unknowns. The variance g' C g falls by
    (g' C a)2 / (a' C a + 1) with a reading of gradient a, in its own error (Gaussian updating).
    What narrows the first break most is proposed; where nothing moves that, what tells most of the
    cause.
    """
    h = cause_contrast(found, chief)
    tried = []
    for key in readings_left(found, refused):
        a, expected = _gradient(found, key)
        tried.append(
            Candidate(
                key=key,
                narrows=_taken(found.covariance, slopes, a),
                splits=_taken(found.covariance, h, a),
                expected=expected,
            )
        )
    if not tried:
        return None
    spread = float(np.sqrt(slopes @ found.covariance @ slopes))
    by_break = max(tried, key=lambda c: c.narrows)
    by_cause = max(tried, key=lambda c: c.splits)
    for_break = spread > MATTERS and by_break.narrows > SOME
    best = by_break if for_break else by_cause
    if not for_break and best.splits < SOME:
        return None
    return Proposal(best=best, tried=tuple(tried), for_break=for_break)


def readings_left(found: Fit, refused: Sequence[str]) -> tuple[str, ...]:
    """Return the readings that can still be taken off this rack, by their keys."""
    told = {r.key for r in found.readings} | set(refused)
    forward = found.forward
    return tuple(k for k in tellable(forward.rack, forward.measured) if k not in told)


def _gradient(found: Fit, key: str) -> tuple[FloatArray, tuple[float, float]]:
    """Gradient (k,) of a reading over its error, and where it would lie in 19 of 20."""
    here = PREDICTED[key](found.yard)
    ends = (
        PREDICTED[key](Yard(found.forward, values_at(found.unknowns, found.place + step)))
        for step in STEP * np.eye(len(found.place))
    )
    raw = (np.array(list(ends)) - here) / STEP
    kind = reading_kinds()[key]
    error = float(np.hypot(tools()[kind.tool].within, MODEL * here))
    half = 2.0 * float(np.sqrt(raw @ found.covariance @ raw + error**2))
    low = here - half if key in SIGNED else max(here - half, 0.0)
    return raw / error, (low, here + half)


def _taken(covariance: FloatArray, g: FloatArray, a: FloatArray) -> float:
    """Share of the variance of g that a reading of gradient a takes away [1]."""
    whole = float(g @ covariance @ g)
    if whole <= 0:
        return 0.0
    return float((g @ covariance @ a) ** 2 / (a @ covariance @ a + 1.0) / whole)
