"""The pull of every guy against the gust, in the wind that moves the rack most."""

from dataclasses import dataclass

import numpy as np

from frame.bracing.movement import SERVICE
from frame.fem.element import Array
from frame.pictured.beside import Beside, Shown
from frame.solved.alpha import MEDIAN_ALPHA

GUSTS = 41
"""Gusts that are solved, from nil to the highest."""


@dataclass(frozen=True, kw_only=True)
class Pulls:
    """Pull (gusts, guys) [N] of the guys called `names` at `gusts` [m/s], nan where it topples.

    Nil where a guy is slack. Solved one by one: a guy may slacken, and tighten again.
    """

    shown: Shown
    names: tuple[str, ...]
    gusts: Array
    pulls: Array

    def slack(self, guy: int) -> tuple[tuple[float, float], ...]:
        """Ranges of gust [m/s] in which a guy hangs slack, as far as looked at."""
        found: list[tuple[float, float]] = []
        for before, now, slack in zip(
            self.gusts, self.gusts[1:], self.pulls[1:, guy] <= 0.0, strict=False
        ):
            if not slack:
                continue
            joins = found and found[-1][1] == before
            found[-1:] = [(found[-1][0], float(now))] if joins else [*found[-1:], (before, now)]
        return tuple((float(a), float(b)) for a, b in found)


def pulls(beside: Beside) -> Pulls | None:
    """Solve the last rack's guys up to the map gust, or its first break; None without guys."""
    one = beside.racks[-1]
    block = one.wind.block
    fitted = np.flatnonzero(block.fitted)
    if not len(fitted):
        return None
    most = one.rack.site.map_gust
    if one.first_break:
        most = min(most, one.first_break.gust)
    gusts = np.linspace(0.0, most, GUSTS)
    table = block.frame.cases(SERVICE)
    case = next(i for i, w in enumerate(table.winds) if w and w.words == one.sway.words)
    factors = np.vstack([table.at(block.frame.pressure(float(g)))[case] for g in gusts])
    answer = block.grown(block.answer(factors), MEDIAN_ALPHA)
    found = np.where(answer.sways_over[:, None], np.nan, answer.tensions)[:, fitted]
    names = tuple(block.frame.ideal.model.guys[i].name for i in fitted)
    return Pulls(shown=one, names=names, gusts=gusts, pulls=found)
