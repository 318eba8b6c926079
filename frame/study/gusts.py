"""The lowest gust at which each check of each part is reached, over every block and wind.

Forces depend on the wind only through (wind factor) x (velocity pressure). A code combination with
0.6W at a gust V is therefore the same state as the whole wind at V sqrt(0.6), guys and all: the
limit gust is the act-by gust over sqrt(0.6), exactly.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
import numpy.typing as npt

from frame.loads.cases import WHOLE_WIND, CaseTable
from frame.study.frames import Block, FloatArray
from frame.study.governing import Checker, by_case
from frame.study.results import Row
from frame.study.situation import Situation
from frame.units import MPH

Key = tuple[str, str]
Name = tuple[Key, str]
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]
CODE_SHARE = 0.6
"""Share of the wind in the code's combinations, ASCE/SEI 7-22 2.4.1."""
TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 25, 50, 75, 110, 150, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved."""
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
ACT_BY, LET_GO = "act by", "let go"


@dataclass(frozen=True, slots=True)
class Crossing:
    """Lowest `gust` [m/s] at which a use reaches 1, and the case that does it."""

    gust: float
    block: Block
    label: str
    words: str


@dataclass(frozen=True, slots=True)
class Gusts:
    """Gusts of one check of one part; None where none up to `TOP` reaches it."""

    act_by: Crossing | None
    let_go: Crossing | None

    @property
    def limit(self) -> float | None:
        """Lowest gust at which a code combination reaches the allowable [m/s]."""
        if self.act_by is None:
            return None
        gust = self.act_by.gust / math.sqrt(CODE_SHARE)
        return gust if gust <= TOP else None


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


@dataclass(frozen=True)
class Search:
    """Everything a search works on."""

    blocks: Sequence[Block]
    tables: Sequence[CaseTable]
    checkers: Sequence[Checker]

    def uses(
        self, block: int, case: np.ndarray, gust: FloatArray
    ) -> dict[Key, dict[str, FloatArray]]:
        """Work out every check for rows of (case, gust): use of allowable and nominal, (n,)."""
        frame = self.blocks[block].frame
        unit = frame.pressure(1.0)
        now = Situation(
            block=self.blocks[block],
            table=self.tables[block],
            case=case,
            gust=gust,
            pressure=unit * gust**2,
        )
        found = {}
        for checker in self.checkers:
            for part, check in checker(now):
                found[part, check.name] = {
                    ACT_BY: by_case(np.atleast_1d(check.utilisation), len(case)),
                    LET_GO: by_case(np.atleast_1d(check.let_go), len(case)),
                }
        return found


def search(blocks: Sequence[Block], checkers: Iterable[Checker]) -> dict[Key, Gusts]:
    """Find the act-by and let-go gust of every check of every part, worst of all blocks."""
    tables = [b.frame.cases(WHOLE_WIND) for b in blocks]
    work = Search(blocks, tables, tuple(checkers))
    keys: dict[Key, None] = {}
    brackets: dict[Name, list[Rows]] = defaultdict(list)
    for i, table in enumerate(tables):
        count = len(table.labels)
        case, gust = np.tile(np.arange(count), len(GRID)), np.repeat(GRID, count)
        for key, kinds in work.uses(i, case, gust).items():
            keys[key] = None
            for kind, use in kinds.items():
                brackets[key, kind].append(_brackets(i, use.reshape(len(GRID), count)))
    found = _lowest(work, {name: _together(rows) for name, rows in brackets.items()})
    return {
        key: Gusts(act_by=found.get((key, ACT_BY)), let_go=found.get((key, LET_GO)))
        for key in keys
    }


def with_gusts(rows: Iterable[Row], gusts: dict[Key, Gusts]) -> tuple[Row, ...]:
    """Write the gusts found into the rows of the same checks."""
    found = []
    for row in rows:
        at = gusts.get((row.part, row.check))
        if at is None:
            found.append(row)
            continue
        let_go = at.let_go
        found.append(
            replace(
                row,
                limit_gust=at.limit,
                act_by_gust=at.act_by.gust if at.act_by else None,
                let_go_gust=let_go.gust if let_go else None,
                let_go_words=let_go.words if let_go else "",
                let_go_tilt=let_go.block.frame.ideal.tilt if let_go else None,
            )
        )
    return tuple(found)


def _brackets(block: int, use: FloatArray) -> Rows:
    """First interval of the grid in which each case reaches 1; `use` (gusts, cases)."""
    over = use >= 1.0
    case = np.flatnonzero(over.any(axis=0))
    last = over.argmax(axis=0)[case]
    first = np.maximum(last - 1, 0)
    low, high, under, above = GRID[first], GRID[last], use[first, case], use[last, case]
    where = np.full(len(case), block)
    return Rows(where, case, low, high, under, above, _chord(low, high, under, above))


def _together(rows: Sequence[Rows]) -> Rows:
    return Rows(*(np.concatenate([getattr(r, f.name) for r in rows]) for f in fields(Rows)))


def _lowest(work: Search, brackets: dict[Name, Rows]) -> dict[Name, Crossing]:
    """Solve the most pressing case of each check, then any that comes before it, until none does.

    A case whose use is still below 1 at the best gust found cannot come before it and drops out.
    """
    best: dict[Name, tuple[float, int]] = {}
    alive = {name: np.ones(len(rows.case), bool) for name, rows in brackets.items()}
    todo = [(name, int(rows.guess.argmin())) for name, rows in brackets.items() if len(rows.case)]
    while todo:
        for (name, i), gust in zip(todo, _solve(work, brackets, todo), strict=True):
            alive[name][i] = False
            if name not in best or gust < best[name][0]:
                best[name] = (gust, i)
        todo = _challengers(work, brackets, alive, best)
    return {name: _crossing(work, brackets[name], *found) for name, found in best.items()}


def _crossing(work: Search, rows: Rows, gust: float, row: int) -> Crossing:
    block, case = int(rows.block[row]), int(rows.case[row])
    table = work.tables[block]
    wind = table.winds[case]
    words = wind.words if gust and wind else "still air"
    return Crossing(gust, work.blocks[block], table.labels[case], words)


def _challengers(
    work: Search,
    brackets: dict[Name, Rows],
    alive: dict[Name, BoolArray],
    best: dict[Name, tuple[float, int]],
) -> list[tuple[Name, int]]:
    """Drop the cases not yet over 1 at the best gust; return the worst left of each check."""
    at_block: dict[int, list[tuple[Name, IntArray]]] = defaultdict(list)
    for name, (gust, _) in best.items():
        rows = brackets[name]
        alive[name] &= rows.guess < MARGIN * gust
        for block in np.unique(rows.block[alive[name]]):
            here = np.flatnonzero(alive[name] & (rows.block == block))
            at_block[int(block)].append((name, here))
    worst: dict[Name, tuple[float, int]] = {}
    for block, groups in at_block.items():
        case = np.concatenate([brackets[name].case[at] for name, at in groups])
        gusts = np.concatenate([np.full(len(at), best[name][0]) for name, at in groups])
        uses = work.uses(block, case, gusts)
        ends = np.cumsum([len(at) for _, at in groups])
        for (name, at), end in zip(groups, ends, strict=True):
            use = uses[name[0]][name[1]][end - len(at) : end]
            alive[name][at] = use > 1 + NO_SOONER
            top = int(use.argmax())
            if use[top] > max(1 + NO_SOONER, worst.get(name, (0.0, 0))[0]):
                worst[name] = (float(use[top]), int(at[top]))
    return [(name, i) for name, (_, i) in worst.items()]


def _solve(
    work: Search, brackets: dict[Name, Rows], todo: Sequence[tuple[Name, int]]
) -> list[float]:
    """Gust [m/s] at which each bracketed case first reaches 1, block by block."""
    found = [0.0] * len(todo)
    by_block: dict[int, list[int]] = defaultdict(list)
    for i, (name, row) in enumerate(todo):
        by_block[int(brackets[name].block[row])].append(i)
    for block, which in by_block.items():
        names = [todo[i][0] for i in which]
        rows = _together([_row(brackets[todo[i][0]], todo[i][1]) for i in which])
        for i, gust in zip(which, _solve_block(work, block, names, rows), strict=True):
            found[i] = float(gust)
    return found


def _row(rows: Rows, i: int) -> Rows:
    return Rows(*(getattr(rows, f.name)[i : i + 1] for f in fields(Rows)))


def _solve_block(work: Search, block: int, names: Sequence[Name], rows: Rows) -> FloatArray:
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
        uses = work.uses(block, np.repeat(rows.case[wide], points.shape[1]), points.ravel())
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
