"""The lowest gust at which each check of each part is reached, over every block and wind.

Forces depend on the wind only through (wind factor) x (velocity pressure). A code combination with
0.6W at a gust V is therefore the same state as the whole wind at V sqrt(0.6), guys and all: the
limit gust is the act-by gust over sqrt(0.6), exactly.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.loads.cases import WHOLE_WIND, CaseTable
from frame.study.frames import Block, FloatArray
from frame.study.governing import Checker, by_case
from frame.study.results import Row
from frame.study.situation import Situation
from frame.units import MPH

Key = tuple[str, str]
CODE_SHARE = 0.6
"""Share of the wind in the code's combinations, ASCE/SEI 7-22 2.4.1."""
TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 50, 100, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved."""
PIECES = 10
CLOSE_ENOUGH = 1e-9
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
class Bracket:
    """A case of a block whose use reaches 1 between two gusts [m/s]; `guess` from the chord."""

    key: Key
    kind: str
    block: int
    case: int
    low: float
    high: float
    guess: float


Brackets = dict[tuple[Key, str], list[Bracket]]


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
    brackets: Brackets = defaultdict(list)
    for i, table in enumerate(tables):
        count = len(table.labels)
        case, gust = np.tile(np.arange(count), len(GRID)), np.repeat(GRID, count)
        for key, kinds in work.uses(i, case, gust).items():
            keys[key] = None
            for kind, use in kinds.items():
                rows = _brackets(key, kind, i, use.reshape(len(GRID), count))
                brackets[key, kind].extend(rows)
    found = _lowest(work, brackets)
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


def _brackets(key: Key, kind: str, block: int, use: FloatArray) -> list[Bracket]:
    """First interval of the grid in which each case reaches 1; `use` (gusts, cases)."""
    over = use >= 1.0
    first = over.argmax(axis=0)
    found = []
    for case in np.flatnonzero(over.any(axis=0)):
        k = int(first[case])
        low, high = (GRID[k - 1], GRID[k]) if k else (0.0, 0.0)
        guess = high
        if k:
            u0, u1 = use[k - 1, case], min(use[k, case], 1e6)
            guess = math.sqrt(low**2 + (1 - u0) / (u1 - u0) * (high**2 - low**2))
        found.append(Bracket(key, kind, block, int(case), float(low), float(high), float(guess)))
    return found


def _lowest(work: Search, brackets: Brackets) -> dict[tuple[Key, str], Crossing]:
    """Solve the most pressing case of each check, then any that comes before it, until none does.

    A case whose use is still below 1 at the best gust found cannot come before it and drops out.
    """
    best: dict[tuple[Key, str], tuple[float, Bracket]] = {}
    rivals = {name: list(rows) for name, rows in brackets.items() if rows}
    todo = [min(rows, key=lambda b: b.guess) for rows in rivals.values()]
    while todo:
        for bracket, gust in zip(todo, _solve(work, todo), strict=True):
            name = (bracket.key, bracket.kind)
            if name not in best or gust < best[name][0]:
                best[name] = (gust, bracket)
            rivals[name].remove(bracket)
        rivals, todo = _challengers(work, rivals, best)
    return {name: _crossing(work, *found) for name, found in best.items()}


def _crossing(work: Search, gust: float, bracket: Bracket) -> Crossing:
    table = work.tables[bracket.block]
    wind = table.winds[bracket.case]
    words = wind.words if gust and wind else "still air"
    return Crossing(gust, work.blocks[bracket.block], table.labels[bracket.case], words)


def _challengers(
    work: Search, rivals: Brackets, best: dict[tuple[Key, str], tuple[float, Bracket]]
) -> tuple[Brackets, list[Bracket]]:
    """Cases already over 1 at the best gust found, and the worst of them for each check."""
    by_block: dict[int, list[Bracket]] = defaultdict(list)
    for name, rows in rivals.items():
        gust = best[name][0]
        for b in rows:
            if b.low < gust:
                by_block[b.block].append(b)
    left: Brackets = defaultdict(list)
    worst: dict[tuple[Key, str], tuple[float, Bracket]] = {}
    for block, rows in by_block.items():
        gusts = np.array([best[b.key, b.kind][0] for b in rows])
        uses = work.uses(block, np.array([b.case for b in rows]), gusts)
        for i, b in enumerate(rows):
            use = float(uses[b.key][b.kind][i])
            name = (b.key, b.kind)
            if use > 1 + NO_SOONER:
                left[name].append(b)
                if name not in worst or use > worst[name][0]:
                    worst[name] = (use, b)
    return left, [b for _, b in worst.values()]


def _solve(work: Search, todo: Sequence[Bracket]) -> list[float]:
    """Gust [m/s] at which each bracketed case first reaches 1, block by block."""
    found = [0.0] * len(todo)
    by_block: dict[int, list[int]] = defaultdict(list)
    for i, b in enumerate(todo):
        by_block[b.block].append(i)
    for block, which in by_block.items():
        for i, gust in zip(
            which, _solve_block(work, block, [todo[i] for i in which]), strict=True
        ):
            found[i] = gust
    return found


def _solve_block(work: Search, block: int, todo: Sequence[Bracket]) -> FloatArray:
    """Narrow every bracket by pieces and by its chord, all brackets of a block together."""
    low = np.array([b.low for b in todo])
    high = np.array([b.high for b in todo])
    guess = np.array([b.guess for b in todo])
    case = np.array([b.case for b in todo])
    for _ in range(12):
        open_ = high - low > CLOSE_ENOUGH * np.maximum(high, 1.0)
        if not open_.any():
            break
        points = _points(low, high, guess)
        rows = np.repeat(case, points.shape[1])
        uses = work.uses(block, rows, points.ravel())
        for i in map(int, np.flatnonzero(open_)):
            use = uses[todo[i].key][todo[i].kind].reshape(points.shape)[i]
            over = np.flatnonzero(use >= 1.0)
            k = int(over[0]) if len(over) else points.shape[1] - 1
            low[i], high[i] = points[i, max(k - 1, 0)], points[i, k]
            u0, u1 = use[max(k - 1, 0)], min(use[k], 1e6)
            part = (1 - u0) / (u1 - u0) if u1 > u0 else 0.5
            guess[i] = math.sqrt(low[i] ** 2 + part * (high[i] ** 2 - low[i] ** 2))
    return high


def _points(low: FloatArray, high: FloatArray, guess: FloatArray) -> FloatArray:
    """Gusts to look at in each bracket, ascending, ends in: equal pieces and round the guess."""
    even = low[:, None] + (high - low)[:, None] * np.linspace(0, 1, PIECES + 1)
    near = guess[:, None] + (high - low)[:, None] * np.array([-1e-2, -1e-4, 0, 1e-4, 1e-2])
    points = np.hstack([even, np.clip(near, low[:, None], high[:, None])])
    return np.sort(points, axis=1)
