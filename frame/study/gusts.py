"""The lowest gust at which each check of each part is reached, over every block and wind.

Forces depend on the wind only through (wind factor) x (velocity pressure). A code combination with
0.6W at a gust V is therefore the same state as the whole wind at V sqrt(0.6), guys and all: the
limit gust is the act-by gust over sqrt(0.6), exactly.
"""

import math
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from frame.checks.check import Check
from frame.loads.cases import WHOLE_WIND, CaseTable
from frame.study.crossings import (
    FloatArray,
    IntArray,
    Key,
    Name,
    Rows,
    brackets,
    lowest,
    together,
)
from frame.study.frames import Block
from frame.study.governing import Checker, Seen, by_case, governing, look
from frame.study.results import Row
from frame.study.situation import at_gusts, fixed, windy, wintry
from frame.units import MPH

CODE_SHARE = 0.6
"""Share of the wind in the code's combinations, ASCE/SEI 7-22 2.4.1."""
TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 45, 100, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved."""
ACT_BY, LET_GO, COVERED, OWNER = "act by", "let go", "covered", "owner"


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


@dataclass(frozen=True)
class Search:
    """Everything a search works on; `owners`: which checker makes which check, where known."""

    blocks: Sequence[Block]
    tables: Sequence[CaseTable]
    checkers: Sequence[Checker]
    owners: Mapping[Key, int] = field(default_factory=dict)

    def uses(
        self, block: int, case: IntArray, gust: FloatArray, wanted: Collection[Key] = ()
    ) -> dict[Key, dict[str, FloatArray]]:
        """Work out every check for rows of (case, gust): uses by kind, (n,) each.

        `ACT_BY` against the allowable, `LET_GO` against the strength; `COVERED` is 1 or 0,
        `OWNER` the position of the checker.
        Only the checkers that own the `wanted` checks are run, all where none is named.
        """
        now = at_gusts(self.blocks[block], self.tables[block], case, gust)
        found = {}
        some = {self.owners[key] for key in wanted if self.owners}
        for i, checker in enumerate(self.checkers):
            if some and i not in some:
                continue
            for part, check in checker(now):
                found[part, check.name] = {
                    **both_uses(check, len(case)),
                    COVERED: np.full(len(case), float(np.all(check.covered))),
                    OWNER: np.full(len(case), float(i)),
                }
        return found


def both_uses(check: Check, count: int) -> dict[str, FloatArray]:
    """Return the uses of a check over `count` cases, of its allowable and of its strength."""
    return {
        ACT_BY: by_case(np.atleast_1d(check.utilisation), count),
        LET_GO: by_case(np.atleast_1d(check.let_go), count),
    }


@dataclass(frozen=True)
class Coarse:
    """What a look at the grid gives: where uses cross 1, and the uses at one gust of the grid."""

    crossing: dict[Name, Rows]
    at: dict[Key, list[tuple[int, FloatArray, bool]]]
    owners: dict[Key, int]


def search(blocks: Sequence[Block], checkers: Iterable[Checker]) -> dict[Key, Gusts]:
    """Find the act-by and let-go gust of every check of every part, worst of all blocks."""
    work = Search(blocks, [b.frame.cases(WHOLE_WIND) for b in blocks], tuple(checkers))
    return _gusts(work, _coarse(work, GRID, 0))


def survey(blocks: Sequence[Block], checkers: Iterable[Checker]) -> tuple[Row, ...]:
    """Every check of every part at the map gust, with its gusts, the worst first.

    The code's windy combinations at the map gust are a gust of the search's grid; cases that no
    gust changes are looked at once.
    """
    gust = blocks[0].frame.rack.site.map_gust
    same = gust * math.sqrt(CODE_SHARE)
    grid = np.unique([*GRID, same])
    work = Search(blocks, [b.frame.cases(WHOLE_WIND) for b in blocks], tuple(checkers))
    coarse = _coarse(work, grid, int(np.searchsorted(grid, same)))
    at_map = [windy(b, gust) for b in blocks]
    steady = [now for b in blocks for now in (fixed(b), *wintry(b))]
    seen = look(steady, work.checkers)
    for key, found in coarse.at.items():
        seen[key] += [Seen(at_map[block], use, covered) for block, use, covered in found]
    return with_gusts(governing(seen, work.checkers), _gusts(work, coarse))


def _coarse(work: Search, grid: FloatArray, at: int) -> Coarse:
    """Look at every case of every block at every gust of the grid [m/s]; `at`: position in it."""
    rows: dict[Name, list[Rows]] = defaultdict(list)
    kept: dict[Key, list[tuple[int, FloatArray, bool]]] = defaultdict(list)
    owners: dict[Key, int] = {}
    for i, table in enumerate(work.tables):
        count = len(table.labels)
        case, gust = np.tile(np.arange(count), len(grid)), np.repeat(grid, count)
        for key, kinds in work.uses(i, case, gust).items():
            owners[key] = int(kinds[OWNER][0])
            use = {k: kinds[k].reshape(len(grid), count) for k in (ACT_BY, LET_GO)}
            kept[key].append((i, use[ACT_BY][at], bool(kinds[COVERED].all())))
            for kind, values in use.items():
                rows[key, kind].append(brackets(i, values, grid))
    return Coarse({name: together(found) for name, found in rows.items()}, kept, owners)


def _gusts(work: Search, coarse: Coarse) -> dict[Key, Gusts]:
    work = replace(work, owners=coarse.owners)
    found = {
        name: _crossing(work, coarse.crossing[name], *at)
        for name, at in lowest(work, coarse.crossing).items()
    }
    return {
        key: Gusts(act_by=found.get((key, ACT_BY)), let_go=found.get((key, LET_GO)))
        for key in coarse.at
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


def _crossing(work: Search, rows: Rows, gust: float, row: int) -> Crossing:
    block, case = int(rows.block[row]), int(rows.case[row])
    table = work.tables[block]
    wind = table.winds[case]
    words = wind.words if gust and wind else "still air"
    return Crossing(gust, work.blocks[block], table.labels[case], words)
