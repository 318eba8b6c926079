"""How the gust at which a check goes shifts with every uncertain input, and its range.

One input at a time, and only those that the check was seen to read; of every kind of wind the case
that goes first is followed, for where gusts strike more or less evenly another kind may go first.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cache
from statistics import NormalDist

import numpy as np

from frame.loads.expected_winds import CASE_B, ONE_SIDED, WIND
from frame.loads.wording import EVEN
from frame.named.aim import Key
from frame.records.going import Shift
from frame.search.crossings import FloatArray, IntArray, Lowest, Name
from frame.search.grid import Coarse
from frame.search.searched import Search
from frame.tables.expected import MEDIANS, spreads, variants

UNEVEN = (ONE_SIDED, CASE_B)
"""Inputs that change the loads of a case, so that another case may go first."""
DRAWS = 4096
"""Draws of all inputs at once, for the range of what was solved one at a time."""
NEAR = 1.6
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


def ranges(
    work: Search, found: Coarse, best: Mapping[Name, Lowest]
) -> dict[Name, tuple[tuple[Shift, ...], float, float]]:
    """Return the shifts of ln(gust) of each check, and the low and high end of its gust [m/s].

    Each case followed shifts by its own; the ends are those of the least of them when all inputs
    are drawn at once, each case's shifts added up, straight in the score of every input.
    """
    names = tuple(best)
    rows = _followed(work, found, best)
    solved = _solved(work, names, rows)
    told: dict[Name, tuple[tuple[Shift, ...], float, float]] = {}
    for i, name in enumerate(names):
        mine = rows.of == i
        gust = best[name].gust
        if gust <= 0 or not mine.any():
            told[name] = ((), gust, gust)
            continue
        which = np.stack([rows.case[mine], rows.block[mine]])
        by_case = _by_case(which, rows.variant[mine], solved[mine])
        least = by_case.min(axis=0) - by_case[:, MEDIANS].min()
        ends = list(zip(variants()[1::2], least[1::2], least[2::2], strict=True))
        shifts = tuple(Shift(v.key, float(low), float(high)) for v, low, high in ends)
        low, high = gust * np.exp(drawn_ends(by_case))
        told[name] = (
            tuple(s for s in shifts if s.low or s.high),
            min(float(low), gust),
            max(float(high), gust),
        )
    return told


def _by_case(which: IntArray, variant: IntArray, solved: FloatArray) -> FloatArray:
    """Return ln(gust) of each case in every variant, (cases, variants).

    `which` (2, n): case and block of each gust `solved` (n,), in its `variant` (n,).
    Where a variant was not looked at it is that of the medians; the wind's are known.
    """
    cases, at = np.unique(which, axis=1, return_inverse=True)
    found = np.full((cases.shape[1], len(variants())), np.nan)
    found[at.ravel(), variant] = solved
    middle = found[:, [MEDIANS]]
    found = np.where(np.isnan(found), middle, found)
    for j, (key, high) in enumerate(variants()):
        if key == WIND:
            end = spreads()[WIND].high if high else spreads()[WIND].low
            found[:, j] = middle[:, 0] - math.log(end / spreads()[WIND].median) / 2
    return found


def drawn_ends(by_case: FloatArray) -> FloatArray:
    """Shift of ln(gust) to the 10 and 90 % ends of the least of some cases, (2,).

    `by_case` ln(gust) (cases, variants) with each input at either end of its range; in between and
    beyond it is straight in the score of the input, and shifts of inputs add up.
    """
    shift = by_case[:, 1:] - by_case[:, [MEDIANS]]
    below, above = (np.abs(np.minimum(sign * scores(), 0.0)) for sign in (1, -1))
    drawn = below @ shift[:, 0::2].T + above @ shift[:, 1::2].T + by_case[:, MEDIANS]
    ends = np.quantile(drawn.min(axis=1), (0.1, 0.9))
    return np.asarray(ends - by_case[:, MEDIANS].min())


@cache
def scores() -> FloatArray:
    """Scores of all inputs drawn at once, in 10 to 90 ends, (draws, inputs); always the same.

    Every input takes each of as many equal shares of its chance once (Latin hypercube).
    """
    normal = NormalDist()
    shares = (np.arange(DRAWS) + 0.5) / DRAWS
    column = np.array([normal.inv_cdf(share) for share in shares]) / normal.inv_cdf(0.9)
    mixed = np.random.default_rng(0)
    return np.stack([mixed.permutation(column) for _ in spreads()], axis=1)


def _followed(work: Search, found: Coarse, best: Mapping[Name, Lowest]) -> Followed:
    parts: list[list[Numbers]] = []
    for i, (name, held) in enumerate(best.items()):
        if held.gust <= 0:
            continue
        read = found.inputs_read(name)
        block, case, guess = found.guess(name)
        rows = found.crossing[name]
        own = int(
            np.flatnonzero((block == rows.block[held.row]) & (case == rows.case[held.row]))[0]
        )
        order = np.argsort(guess, kind="stable")
        near = np.array([own, *(k for k in map(int, order) if guess[k] < NEAR * held.gust)])
        at = near[_of_each_kind(work, block[near], case[near])]
        start = np.maximum(guess[at], held.gust)
        for j, (key, _) in enumerate(variants()):
            if j == MEDIANS or key in (*read, *UNEVEN):
                n = np.ones(len(at), dtype=np.int64)
                parts.append([i * n, block[at], case[at], j * n, start])
    columns = [np.concatenate(c) for c in zip(*parts, strict=True)] if parts else [np.zeros(0)] * 5
    of, block, case, variant = (c.astype(np.int64) for c in columns[:4])
    return Followed(of, block, case, variant, np.asarray(columns[4], dtype=np.float64))


def _of_each_kind(work: Search, block: IntArray, case: IntArray) -> list[int]:
    """First of the cases of each kind of wind, its way, even or one-sided, case A or B.

    And the first of each block: at another tilt an input may count for more.
    """
    kept: dict[tuple[object, ...], int] = {}
    for k, (i, j) in enumerate(zip(block, case, strict=True)):
        wind = work.tables[i].winds[j]
        kind = (wind.direction, wind.case, wind.side == EVEN) if wind else ()
        kept.setdefault(kind, k)
        kept.setdefault((i,), k)
    return list(dict.fromkeys(kept.values()))


def _solved(work: Search, names: Sequence[Name], rows: Followed) -> FloatArray:
    """Return ln(gust) at which each crossing followed reaches 1, (n,).

    Secants of ln(use), only where it is not close to nil yet; halves where they leave the bracket
    and after `SECANTS`, where a use jumps or bends sharply.
    """
    here = np.log(rows.start)
    if not len(here):
        return here
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
