"""Uses shortly before a case topples: what second order makes of a force does not show after.

Up to where a rack topples its forces grow without bound, one way: a brace is pressed more and
more. Past it they mean nothing, and at the next gust of the grid that brace may be pulled, or its
use be nil, with no trace of where it reached 1.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.named.aim import Key
from frame.named.limit_state import LimitState
from frame.named.part import RACK
from frame.search.crossings import FloatArray, IntArray
from frame.search.searched import Search, Uses
from frame.search.stack import whole

TOPPLING: Key = RACK, LimitState.TOPPLES
SHORT = 0.9
"""Use of toppling that a case is looked at [1]: near its end, and off what makes it unbounded."""

Looks = list[tuple[FloatArray, Uses]]
"""Gusts [m/s] of the cases of a bracing (n,), and their uses there; one gust after the other."""


@dataclass(frozen=True)
class _Gap:
    """Cases `at` that topple between a look and the next, `gust` (n,) shortly before they do."""

    bracing: int
    look: int
    at: IntArray
    gust: FloatArray


def with_toppling(
    work: Search, cases: Sequence[tuple[IntArray, IntArray]], seen: Sequence[Looks]
) -> list[Looks]:
    """Put a look between two of a bracing where cases topple, at a gust shortly before each does.

    Other cases keep the gust and the uses of the look before. `cases`: block and case of each
    bracing's cases.
    """
    gaps = [gap for k, looks in enumerate(seen) for gap in _gaps(k, looks)]
    if not gaps:
        return list(seen)
    block, case = (np.concatenate([cases[g.bracing][i][g.at] for g in gaps]) for i in (0, 1))
    gust = np.concatenate([g.gust[g.at] for g in gaps])
    owners = {one.owner for g in gaps for one in seen[g.bracing][g.look + 1][1].values()}
    some = dict.fromkeys(owners, np.arange(len(gust)))
    used = work.used(whole(work.blocks, work.tables, block, case, gust), some)
    found = [list(looks) for looks in seen]
    ends = np.cumsum([len(g.at) for g in gaps])
    for gap, end in reversed(list(zip(gaps, ends, strict=True))):
        low, high = (seen[gap.bracing][gap.look + i][1] for i in (0, 1))
        rows = slice(end - len(gap.at), end)
        uses = {
            key: _seen(low[key].use, gap.at, used[key].use[rows]) if key in used else low[key].use
            for key in low.keys() & high.keys()
        }
        look = {key: replace(low[key], use=use) for key, use in uses.items()}
        found[gap.bracing].insert(gap.look + 1, (gap.gust, look))
    return found


def _gaps(bracing: int, looks: Looks) -> list[_Gap]:
    """Return what topples between two looks, and when: straight in the velocity pressure.

    So it is, or a little later, as long as the same guys are taut.
    """
    gaps = []
    for i in range(len(looks) - 1):
        (low, under), (high, over) = looks[i : i + 2]
        if TOPPLING not in over:
            continue
        before, after = under[TOPPLING].use, over[TOPPLING].use
        at = np.flatnonzero((before < SHORT) & (after >= 1.0))
        if len(at):
            part = (SHORT - before[at]) / (after[at] - before[at])
            gust = low.copy()
            gust[at] = np.sqrt(low[at] ** 2 + part * (high[at] ** 2 - low[at] ** 2))
            gaps.append(_Gap(bracing, i, at, gust))
    return gaps


def _seen(use: FloatArray, at: IntArray, now: FloatArray) -> FloatArray:
    found = use.copy()
    found[at] = now
    return found
