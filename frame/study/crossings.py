"""Where uses cross 1 between the gusts of a grid, solved for many checks together."""

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, fields
from typing import Protocol

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
Key = tuple[str, str]
Name = tuple[Key, str]
CLOSE_ENOUGH = 1e-8
"""Width of a closed bracket over its gust."""
MARGIN = 1.01
"""How far above the best gust a case's chord may cross and still be looked at.

A use is convex in the velocity pressure, so that its chord crosses first, but for branches of a
formula and changes of the taut guys.
"""
BESIDE = 0.003
"""How far beside the chord's guess to look, over the width of the bracket."""
MOST_ROUNDS = 40
SMOOTH_ROUNDS = 5
PIECES = 20
TOO_STEEP = 1e3
"""Uses above this count as this when a chord is drawn."""
NO_SOONER = 1e-7
"""A use over 1 by less than this at the best gust found is the same crossing, mirrored."""


class Work(Protocol):
    """What works the checks out; see `frame.study.gusts.Search`."""

    def uses(
        self, block: int, case: IntArray, gust: FloatArray, wanted: Collection[Key] = ()
    ) -> dict[Key, dict[str, FloatArray]]:
        """Return the uses of rows of (case, gust) on a block by check and kind."""
        ...


@dataclass(frozen=True, slots=True)
class Rows:
    """Cases whose use reaches 1 between two gusts, as arrays (n,).

    `block`, `case`: positions; `low`, `high` [m/s] with the uses `under` and `over` there; `guess`
    [m/s] where the chord in the velocity pressure reaches 1.
    """

    block: IntArray
    case: IntArray
    low: FloatArray
    high: FloatArray
    under: FloatArray
    over: FloatArray
    guess: FloatArray


def brackets(block: int, use: FloatArray, grid: FloatArray) -> Rows:
    """First interval of the grid in which each case reaches 1; `use` (gusts, cases)."""
    over = use >= 1.0
    case = np.flatnonzero(over.any(axis=0))
    last = over.argmax(axis=0)[case]
    first = np.maximum(last - 1, 0)
    low, high, under, above = grid[first], grid[last], use[first, case], use[last, case]
    where = np.full(len(case), block)
    return Rows(where, case, low, high, under, above, _chord(low, high, under, above))


def together(rows: Sequence[Rows]) -> Rows:
    """Put rows of several blocks one after the other."""
    return Rows(*(np.concatenate([getattr(r, f.name) for r in rows]) for f in fields(Rows)))


def lowest(work: Work, found: dict[Name, Rows]) -> dict[Name, tuple[float, int]]:
    """Lowest gust [m/s] of each check and the row that has it.

    The most pressing case of each is solved, then any that comes before it, until none does. A
    case whose use is still below 1 at the best gust found cannot come before it and drops out.
    """
    best: dict[Name, tuple[float, int]] = {}
    alive = {name: np.ones(len(rows.case), bool) for name, rows in found.items()}
    todo = [(name, int(rows.guess.argmin())) for name, rows in found.items() if len(rows.case)]
    while todo:
        for (name, i), gust in zip(todo, _solve(work, found, todo), strict=True):
            alive[name][i] = False
            if name not in best or gust < best[name][0]:
                best[name] = (gust, i)
        todo = _challengers(work, found, alive, best)
    return best


def _challengers(
    work: Work,
    found: dict[Name, Rows],
    alive: dict[Name, BoolArray],
    best: dict[Name, tuple[float, int]],
) -> list[tuple[Name, int]]:
    """Drop the cases not yet over 1 at the best gust; return the worst left of each check."""
    at_block: dict[int, list[tuple[Name, IntArray]]] = defaultdict(list)
    for name, (gust, _) in best.items():
        rows = found[name]
        alive[name] &= rows.guess < MARGIN * gust
        for block in np.unique(rows.block[alive[name]]):
            here = np.flatnonzero(alive[name] & (rows.block == block))
            at_block[int(block)].append((name, here))
    worst: dict[Name, tuple[float, int]] = {}
    for block, groups in at_block.items():
        case = np.concatenate([found[name].case[at] for name, at in groups])
        gusts = np.concatenate([np.full(len(at), best[name][0]) for name, at in groups])
        uses = work.uses(block, case, gusts, {name[0] for name, _ in groups})
        ends = np.cumsum([len(at) for _, at in groups])
        for (name, at), end in zip(groups, ends, strict=True):
            use = uses[name[0]][name[1]][end - len(at) : end]
            alive[name][at] = use > 1 + NO_SOONER
            top = int(use.argmax())
            if use[top] > max(1 + NO_SOONER, worst.get(name, (0.0, 0))[0]):
                worst[name] = (float(use[top]), int(at[top]))
    return [(name, i) for name, (_, i) in worst.items()]


def _solve(work: Work, found: dict[Name, Rows], todo: Sequence[tuple[Name, int]]) -> list[float]:
    """Gust [m/s] at which each bracketed case first reaches 1, block by block."""
    gusts = [0.0] * len(todo)
    by_block: dict[int, list[int]] = defaultdict(list)
    for i, (name, row) in enumerate(todo):
        by_block[int(found[name].block[row])].append(i)
    for block, which in by_block.items():
        names = [todo[i][0] for i in which]
        rows = together([_row(found[todo[i][0]], todo[i][1]) for i in which])
        for i, gust in zip(which, _solve_block(work, block, names, rows), strict=True):
            gusts[i] = float(gust)
    return gusts


def _row(rows: Rows, i: int) -> Rows:
    return Rows(*(getattr(rows, f.name)[i : i + 1] for f in fields(Rows)))


def _solve_block(work: Work, block: int, names: Sequence[Name], rows: Rows) -> FloatArray:
    """Close every bracket of a block from both sides of its chord, all brackets together.

    Each round looks at the middle and just beside the chord's guess, so that a smooth crossing
    closes in a few rounds; what is still open after `SMOOTH_ROUNDS` is cut into equal pieces.
    """
    low, high, under, over = (a.copy() for a in (rows.low, rows.high, rows.under, rows.over))
    for turn in range(MOST_ROUNDS):
        wide = np.flatnonzero(high - low > CLOSE_ENOUGH * np.maximum(high, 1.0))
        if not len(wide):
            break
        guess = None if turn >= SMOOTH_ROUNDS else _chord(low, high, under, over)[wide]
        points = _points(low[wide], high[wide], guess)
        cases = np.repeat(rows.case[wide], points.shape[1])
        uses = work.uses(block, cases, points.ravel(), {names[int(i)][0] for i in wide})
        for j, i in enumerate(map(int, wide)):
            key, kind = names[i]
            use = uses[key][kind].reshape(points.shape)[j]
            k = int((use >= 1.0).argmax()) if (use >= 1.0).any() else len(use)
            if k:
                low[i], under[i] = points[j, k - 1], use[k - 1]
            if k < len(use):
                high[i], over[i] = points[j, k], use[k]
    return high


def _chord(low: FloatArray, high: FloatArray, under: FloatArray, over: FloatArray) -> FloatArray:
    """Gust at which a use straight in the velocity pressure reaches 1 [m/s]."""
    rise = np.maximum(np.minimum(over, TOO_STEEP) - under, 1e-12)
    part = np.clip((1 - under) / rise, 0.0, 1.0)
    return np.asarray(np.sqrt(low**2 + part * (high**2 - low**2)))


def _points(low: FloatArray, high: FloatArray, guess: FloatArray | None) -> FloatArray:
    """Gusts to look at in each bracket, ascending: about the guess, or equal pieces."""
    if guess is None:
        return low[:, None] + (high - low)[:, None] * np.arange(1, PIECES) / PIECES
    beside = np.maximum(BESIDE * (high - low), 0.2 * CLOSE_ENOUGH * high)
    points = np.stack([(low + high) / 2, guess - beside, guess + beside], axis=1)
    return np.sort(np.clip(points, low[:, None], high[:, None]), axis=1)
