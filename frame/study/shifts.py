"""How the gust at which a check goes shifts with every uncertain input, at either end.

One input at a time, and only those that the check was seen to read. Where a strength changes the
cases are followed that go first; where gusts strike more or less evenly the first of each kind of
wind, for another kind may go first then.
"""

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields

import numpy as np

from frame.loads.expected import ACROSS, ONE_SIDED, WIND
from frame.loads.wording import EVEN
from frame.study.coarse import Coarse
from frame.study.crossings import FloatArray, IntArray, Key, Lowest, Name
from frame.study.going import Shift
from frame.study.search import Search
from frame.tables.expected import spreads, variants

UNEVEN = (ONE_SIDED, ACROSS)
"""Inputs that change the loads of a case, so that another case may go first."""
FOLLOWED = 2
"""Cases followed where a strength changes."""
NEAR = 2.0
"""Gust over the lowest up to which a case may overtake when gusts strike otherwise."""
STEPS, SECANTS = 14, 5
"""Looks at a crossing after the first at most, and how many of them secants place."""
CLOSE = 2e-3
"""Size of ln(use) that a last secant takes to nil."""
REACH = 1.5
"""Farthest that ln(gust) is taken to shift with one input."""
SLOPE = (0.3, 12.0)
"""Least and most slope of ln(use) over ln(gust) that a step counts on."""
NIL, MUCH = 1e-9, 1e9
Numbers = FloatArray | IntArray


@dataclass(frozen=True, slots=True)
class Followed:
    """Crossings followed, arrays (n,): position `of` the check, block, case, variant, `start`."""

    of: IntArray
    block: IntArray
    case: IntArray
    variant: IntArray
    start: FloatArray

    def only(self, at: IntArray) -> "Followed":
        """Return some of the crossings."""
        return Followed(*(getattr(self, f.name)[at] for f in fields(Followed)))


def shifts_of(
    work: Search, found: Coarse, best: Mapping[Name, Lowest]
) -> dict[Name, tuple[Shift, ...]]:
    """How ln(gust) of each check shifts with every uncertain input at either end."""
    names = tuple(best)
    rows = _followed(work, found, best)
    solved = _solved(work, names, rows) if len(rows.of) else rows.start
    least = np.full((len(names), len(variants())), np.inf)
    np.minimum.at(least, (rows.of, rows.variant), solved)
    shifts = {}
    for i, name in enumerate(names):
        gust = best[name].gust
        both: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])
        for j, (key, high) in enumerate(variants()):
            if key == WIND:
                end = spreads()[WIND].high if high else spreads()[WIND].low
                both[key][high] = -math.log(end / spreads()[WIND].median) / 2
            elif math.isfinite(least[i, j]) and gust > 0:
                both[key][high] = float(least[i, j]) - math.log(gust)
        shifts[name] = tuple(Shift(key, low, high) for key, (low, high) in both.items() if key)
    return shifts


def _followed(work: Search, found: Coarse, best: Mapping[Name, Lowest]) -> Followed:
    parts: list[list[Numbers]] = []
    for i, (name, held) in enumerate(best.items()):
        if held.gust <= 0:
            continue
        read = found.read(name)
        block, case, guess = found.guess(name)
        rows = found.crossing[name]
        own = int(
            np.flatnonzero((block == rows.block[held.row]) & (case == rows.case[held.row]))[0]
        )
        order = np.argsort(guess, kind="stable")
        first = np.array(list(dict.fromkeys((own, *map(int, order[:FOLLOWED])))))
        near = [own, *(k for k in map(int, order) if guess[k] < NEAR * held.gust)]
        kinds = _of_each_kind(work, block[near], case[near])
        for j, (key, _) in enumerate(variants()):
            if key not in (*read, *UNEVEN):
                continue
            at = np.array(near)[kinds] if key in UNEVEN else first
            start = np.maximum(guess[at], held.gust)
            parts.append([np.full(len(at), i), block[at], case[at], np.full(len(at), j), start])
    columns = [np.concatenate(c) for c in zip(*parts, strict=True)] if parts else [np.zeros(0)] * 5
    of, block, case, variant = (c.astype(np.int64) for c in columns[:4])
    return Followed(of, block, case, variant, columns[4])


def _of_each_kind(work: Search, block: IntArray, case: IntArray) -> list[int]:
    """First of the cases of each kind of wind: its way, even or one-sided, case A or B."""
    kept: dict[tuple[object, ...], int] = {}
    for k, (i, j) in enumerate(zip(block, case, strict=True)):
        wind = work.tables[i].winds[j]
        kind = (wind.direction, wind.case, wind.side == EVEN) if wind else ()
        kept.setdefault(kind, k)
    return list(kept.values())


def _solved(work: Search, names: Sequence[Name], rows: Followed) -> FloatArray:
    """Return ln(gust) at which each crossing followed reaches 1, (n,).

    Secants of ln(use), only where it is not close to nil yet; halves where they leave the bracket
    and after `SECANTS`, where a use jumps or bends sharply.
    """
    here = np.log(rows.start)
    slope, use = np.full(len(here), 2.0), _looked(work, names, rows, here)
    below, above = here - REACH, here + REACH
    for turn in range(STEPS):
        open_ = np.flatnonzero((np.abs(use) > CLOSE) & (above - below > CLOSE))
        if not len(open_):
            break
        at, its = here[open_], use[open_]
        below[open_] = np.where(its < 0, at, below[open_])
        above[open_] = np.where(its < 0, above[open_], at)
        there, half = at - its / slope[open_], (below[open_] + above[open_]) / 2
        inside = (there > below[open_]) & (there < above[open_]) & (turn < SECANTS)
        there = np.where(inside, there, half)
        seen = _looked(work, names, rows.only(open_), there)
        slope[open_] = np.clip((seen - its) / (there - at), *SLOPE)
        here[open_], use[open_] = there, seen
    return np.asarray(np.clip(here - use / slope, below, above))


def _looked(work: Search, names: Sequence[Name], rows: Followed, at: FloatArray) -> FloatArray:
    """Return ln(use) of rows (n,) at ln(gust) `at` (n,)."""
    asked: dict[Key, IntArray] = {}
    for key in dict.fromkeys(name.key for name in names):
        mine = [i for i, name in enumerate(names) if name.key == key]
        there = np.flatnonzero(np.isin(rows.of, mine))
        if len(there):
            asked[key] = there
    found = np.ones(len(at))
    uses = work.uses(rows.block, rows.case, np.exp(at), asked, rows.variant)
    for key, place in asked.items():
        found[place] = uses[key]
    return np.asarray(np.log(np.clip(found, NIL, MUCH)))
