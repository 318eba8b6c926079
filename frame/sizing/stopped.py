"""What stops a rack that falls short: the check, and the most offered that helps it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from frame.changes.series import Series
from frame.named.aim import Short, helped, shortfall_words
from frame.named.limit_state import Movement
from frame.sizing.bench import Bench, ChosenRungs, Failing


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """A check that fails with the strongest offered: its `name` "part: check" and its `use`.

    nan: no rule covers it any more. `most`: everything taken that helps it, in words; none where
    nothing offered does.
    """

    name: str
    use: float
    most: tuple[str, ...]


def stopped(bench: Bench, choice: ChosenRungs, stuck: Failing) -> tuple[Stopped, ...]:
    """Tell of every check that is stuck, those of equal posts together, worst first."""
    worst: dict[Short, float] = {}
    for found, use in stuck:
        short = found if isinstance(found, Movement) else (found[0].unnumbered, found[1])
        worst[short] = max(worst.get(short, 0.0), use) if not math.isnan(use) else math.nan
    return tuple(
        Stopped(
            name=shortfall_words(short), use=use, most=tuple(_most(bench.series, choice, short))
        )
        for short, use in worst.items()
    )


def _most(series: Sequence[Series], choice: ChosenRungs, short: Short) -> list[str]:
    return [
        one.rungs[rung].words
        for one, rung in zip(series, choice, strict=True)
        if helped(one.helps, short)
    ]
