"""Where uses cross 1 between the gusts of a grid, solved for many checks together."""

import itertools
from collections import defaultdict
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import NamedTuple, Protocol

import numpy as np
import numpy.typing as npt

from frame.named.aim import Key
from frame.solved.frames import Bracing

FloatArray = npt.NDArray[np.float64]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
CLOSE_ENOUGH = 1e-8
"""Width of a closed bracket over its gust."""
SMOOTH, SAME_USE = 1e-5, 2e-7
"""Width at which a bracket is closed already where the use changes by less than this over it."""
BESIDE = (1e-1, 1e-2, 1e-3, 1e-4, 1e-6)
"""How far on both sides of the guess to look, over the width of the bracket."""
SMOOTH_ROUNDS = 5
MOST_ROUNDS = 40
PIECES, MOST_POINTS = 20, 60
"""Pieces a bracket is cut into: no fewer than the one, as many points in all as the other."""
TOO_STEEP = 1e3
"""Uses above this count as this when a chord is drawn."""
DIGITS = 9
"""Decimals of a guess or use by which cases are ranked: mirrored ones differ in later ones."""
NO_SOONER = 1e-7
"""A use over 1 by less than this at the best gust found is the same crossing, mirrored."""


class Name(NamedTuple):
    """A check of a part (`key`) of one bracing."""

    key: Key
    bracing: Bracing


class Lowest(NamedTuple):
    """Lowest `gust` [m/s], the check that reaches 1 there and its row among that check's rows."""

    gust: float
    name: Name
    row: int


class Work(Protocol):
    """What works the checks out; see `frame.search.searched.Search`."""

    def uses(
        self, block: IntArray, case: IntArray, gust: FloatArray, asked: Mapping[Key, IntArray]
    ) -> dict[Key, FloatArray]:
        """Return the uses of each check for the rows `asked` of it.

        Rows are (block, case, gust), (n,) each.
        """
        ...


@dataclass(frozen=True, slots=True)
class Rows:
    """Cases whose use reaches 1 between two gusts, as arrays (n,).

    `block`, `case`: positions; `low`, `high` [m/s] with the uses `under` and `over` there.
    """

    block: IntArray
    case: IntArray
    low: FloatArray
    high: FloatArray
    under: FloatArray
    over: FloatArray

    @property
    def guess(self) -> FloatArray:
        """Where a use straight in the velocity pressure reaches 1 [m/s]."""
        return _chord(self.low, self.high, self.under, self.over)

    def only(self, at: IntArray | slice) -> "Rows":
        """Return some of the rows."""
        return Rows(*(getattr(self, f.name)[at] for f in fields(Rows)))


def brackets(
    block: IntArray, case: IntArray, use: FloatArray, grid: FloatArray
) -> tuple[Rows, ...]:
    """First interval of the grid in which each of the rows (n,) reaches 1, for k checks.

    `use` (gusts, k, n); `grid` (gusts, n), ascending for each row.
    """
    count, rows = use.shape[1:]
    use = use.reshape(len(grid), -1)
    over = use >= 1.0
    at = np.flatnonzero(over.any(axis=0))
    last = over.argmax(axis=0)[at]
    first = np.maximum(last - 1, 0)
    row = at % rows
    low, high, under, above = grid[first, row], grid[last, row], use[first, at], use[last, at]
    found = Rows(block[row], case[row], low, high, under, above)
    ends = np.searchsorted(at, rows * np.arange(count + 1))
    return tuple(found.only(slice(*pair)) for pair in itertools.pairwise(ends))


def together(rows: Sequence[Rows]) -> Rows:
    """Put rows one after the other."""
    return Rows(*(np.concatenate([getattr(r, f.name) for r in rows]) for f in fields(Rows)))


def lowest_gusts(
    work: Work, found: dict[Name, Rows], rival: Callable[[Name], Hashable] = lambda name: name
) -> dict[Hashable, Lowest]:
    """Lowest gust of each check; of all the checks that are rivals where `rival` names them alike.

    The most pressing case of each is solved, then any that comes before it, until none does. A
    case whose use is still below 1 at the best gust found cannot come before it and drops out.
    """
    best: dict[Hashable, Lowest] = {}
    alive = {name: np.ones(len(rows.case), bool) for name, rows in found.items()}
    first: dict[Hashable, tuple[float, float, Name, int]] = {}
    for name, rows in found.items():
        if len(rows.case):
            guess, over = (np.round(a, DIGITS) for a in (rows.guess, rows.over))
            i = int(np.lexsort((-over, guess))[0])
            mine = (float(guess[i]), -float(over[i]), name, i)
            first[rival(name)] = min(first.get(rival(name), mine), mine)
    todo = [(name, i) for _, _, name, i in first.values()]
    while todo:
        for (name, i), gust in zip(todo, _solve(work, found, todo), strict=True):
            alive[name][i] = False
            if rival(name) not in best or gust < best[rival(name)].gust:
                best[rival(name)] = Lowest(gust, name, i)
        held = {name: best[rival(name)] for name in found if rival(name) in best}
        todo = _challengers(work, found, alive, held, rival)
    return best


def _challengers(
    work: Work,
    found: dict[Name, Rows],
    alive: dict[Name, BoolArray],
    best: dict[Name, Lowest],
    rival: Callable[[Name], Hashable],
) -> list[tuple[Name, int]]:
    """Drop the cases not yet over 1 at the best gust; return the worst left of each check."""
    here: dict[Name, IntArray] = {}
    for name, held in best.items():
        alive[name] &= found[name].low < held.gust
        here[name] = np.flatnonzero(alive[name])
    here = {name: at for name, at in here.items() if len(at)}
    if not here:
        return []
    rows = together([found[name].only(at) for name, at in here.items()])
    gusts = np.concatenate([np.full(len(at), best[name].gust) for name, at in here.items()])
    worst: dict[Hashable, tuple[float, Name, int]] = {}
    uses = _each(work, [(name, len(at)) for name, at in here.items()], rows, gusts)
    for (name, at), use in zip(here.items(), uses, strict=True):
        alive[name][at] = use > 1 + NO_SOONER
        top = int(np.round(use, DIGITS).argmax())
        if use[top] > max(1 + NO_SOONER, worst.get(rival(name), (0.0,))[0]):
            worst[rival(name)] = (float(use[top]), name, int(at[top]))
    return [(name, i) for _, name, i in worst.values()]


def _each(
    work: Work, names: Sequence[tuple[Name, int]], rows: Rows, gust: FloatArray
) -> list[FloatArray]:
    """Return the uses of checks, (name, count of rows) each, for its own rows in their order."""
    asked: dict[Key, list[IntArray]] = defaultdict(list)
    start = 0
    for name, count in names:
        asked[name.key].append(np.arange(start, start + count))
        start += count
    at = {key: np.concatenate(some) for key, some in asked.items()}
    uses = work.uses(rows.block, rows.case, gust, at)
    found, taken = [], dict.fromkeys(asked, 0)
    for (key, _), count in names:
        found.append(uses[key][taken[key] : taken[key] + count])
        taken[key] += count
    return found


def _solve(work: Work, found: dict[Name, Rows], todo: Sequence[tuple[Name, int]]) -> list[float]:
    """Gust [m/s] at which each bracketed case first reaches 1.

    Brackets are closed from both sides of a guess, all together. Each round looks at the middle,
    near the guess and very near it, so that a smooth crossing closes in about three rounds; what
    is still open after `SMOOTH_ROUNDS` is cut into equal pieces. Looks cost more than points.
    """
    rows = together([found[name].only(np.array([i])) for name, i in todo])
    at, use = np.stack([rows.low, rows.high]), np.stack([rows.under, rows.over])
    for turn in range(MOST_ROUNDS):
        wide = np.flatnonzero(_open(at, use))
        if not len(wide):
            break
        points = _points(at[:, wide], use[:, wide], turn)
        some = rows.only(np.repeat(wide, points.shape[1]))
        names = [(todo[i][0], points.shape[1]) for i in map(int, wide)]
        seen = np.stack(_each(work, names, some, points.ravel()))
        at[:, wide], use[:, wide] = _closed(at[:, wide], use[:, wide], points, seen)
    return [float(gust) for gust in at[1]]


def _open(at: FloatArray, use: FloatArray) -> BoolArray:
    """Which brackets (2, n) are neither narrow nor, where the use is smooth, close to 1."""
    wide = (at[1] - at[0]) / np.maximum(at[1], 1.0)
    steep = use[1] > use[0] + SAME_USE
    return np.asarray((wide > CLOSE_ENOUGH) & ((wide > SMOOTH) | steep))


def _closed(at: FloatArray, use: FloatArray, new: FloatArray, seen: FloatArray) -> FloatArray:
    """Narrow brackets (low, high) by the uses `seen` at ascending `new` gusts (n, points).

    `at`, `use` (2, n); gusts and uses (2, 2, n).
    """
    gusts = np.hstack([at[0][:, None], new, at[1][:, None]])
    uses = np.hstack([use[0][:, None], seen, use[1][:, None]])
    rows, k = np.arange(len(new)), 1 + (uses[:, 1:] >= 1.0).argmax(axis=1)
    return np.stack([np.stack([a[rows, k - 1], a[rows, k]]) for a in (gusts, uses)])


def _chord(low: FloatArray, high: FloatArray, under: FloatArray, over: FloatArray) -> FloatArray:
    """Gust at which a use straight in the velocity pressure reaches 1 [m/s]."""
    rise = np.maximum(np.minimum(over, TOO_STEEP) - under, 1e-12)
    part = np.clip((1 - under) / rise, 0.0, 1.0)
    return np.asarray(np.sqrt(low**2 + part * (high**2 - low**2)))


def _points(at: FloatArray, use: FloatArray, turn: int) -> FloatArray:
    """Gusts to look at in each bracket, (brackets, points) ascending; `turn`: rounds done."""
    low, high = at[0], at[1]
    if turn >= SMOOTH_ROUNDS:
        pieces = max(PIECES, MOST_POINTS // len(low))
        return np.linspace(low, high, pieces + 1, axis=1)[:, 1:-1]
    guess = _chord(at[0], at[1], use[0], use[1])
    beside = np.maximum(np.outer(high - low, BESIDE), 0.2 * CLOSE_ENOUGH * high[:, None])
    middle, guess = ((low + high) / 2)[:, None], guess[:, None]
    points = np.hstack([middle, guess - beside, guess + beside])
    return np.sort(np.clip(points, low[:, None], high[:, None]), axis=1)
