"""Every check of every case at a few gusts: where the search for the lowest gust begins."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check
from frame.loads.cases import WHOLE_WIND, CaseTable
from frame.study.crossings import FloatArray, IntArray, Key, Name, Rows, brackets
from frame.study.frames import Block
from frame.study.governing import Checker, by_case
from frame.study.stack import Whole, whole
from frame.units import MPH

TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 45, 70, 100, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved."""
NEAR = 0.3
"""A gust of the grid no farther than this part of a wanted one from it is left out."""
ACT_BY, LET_GO = "act by", "let go"


@dataclass(frozen=True)
class Used:
    """A check of one part over n cases: its uses (n,) by kind, and whether each is covered.

    `ACT_BY` against the allowable, `LET_GO` against the strength; `owner`: the position of the
    checker that makes it.
    """

    owner: int
    kinds: dict[str, FloatArray]
    covered: npt.NDArray[np.bool_]


@dataclass(frozen=True)
class Search:
    """Everything a search works on; `owners`: which checker makes which check, where known."""

    blocks: Sequence[Block]
    tables: Sequence[CaseTable]
    checkers: Sequence[Checker]
    owners: Mapping[Key, int] = field(default_factory=dict)

    @classmethod
    def of(cls, blocks: Sequence[Block], checkers: Iterable[Checker]) -> "Search":
        """Look for gusts in the whole wind."""
        return cls(blocks, [b.frame.cases(WHOLE_WIND) for b in blocks], tuple(checkers))

    def uses(
        self, block: IntArray, case: IntArray, gust: FloatArray, asked: Mapping[Key, IntArray]
    ) -> dict[Key, dict[str, FloatArray]]:
        """Return uses by kind of each check for the rows `asked` of it; see `crossings.Work`."""
        rows: dict[int, list[IntArray]] = defaultdict(list)
        for key, at in asked.items():
            rows[self.owners[key]].append(at)
        some = {i: _union(each, len(block)) for i, each in rows.items()}
        found = self.used(whole(self.blocks, self.tables, block, case, gust), some)
        return {
            key: {kind: use[at] for kind, use in found[key].kinds.items()}
            for key, at in asked.items()
        }

    def used(self, cases: Whole, rows: Mapping[int, IntArray] | None = None) -> dict[Key, Used]:
        """Work out checks: all for all cases, or those of some checkers for `rows` of the cases.

        Arrays have all the cases; those left out count as nil.
        """
        count = len(cases.position)
        found: dict[Key, Used] = {}
        for i, checker in enumerate(self.checkers):
            if rows is not None and i not in rows:
                continue
            for at, now in cases.groups(checker, np.arange(count) if rows is None else rows[i]):
                for part, check in checker(now):
                    key = part, check.name
                    if key not in found:
                        found[key] = _unused(i, count)
                    for kind, use in both_uses(check, len(at)).items():
                        found[key].kinds[kind][at] = use
                    found[key].covered[at] = bool(np.all(check.covered))
        return found


def _unused(owner: int, count: int) -> Used:
    kinds = {kind: np.zeros(count) for kind in (ACT_BY, LET_GO)}
    return Used(owner, kinds, np.ones(count, dtype=bool))


def _union(rows: Sequence[IntArray], count: int) -> IntArray:
    """Return the rows, of `count`, that are in any of `rows`."""
    there = np.zeros(count, dtype=bool)
    for each in rows:
        there[each] = True
    return np.flatnonzero(there)


def both_uses(check: Check, count: int) -> dict[str, FloatArray]:
    """Return the uses of a check over `count` cases, of its allowable and of its strength."""
    return {
        ACT_BY: by_case(np.atleast_1d(check.utilisation), count),
        LET_GO: by_case(np.atleast_1d(check.let_go), count),
    }


@dataclass(frozen=True)
class Coarse:
    """What a look at the grid gives: where uses cross 1, and the uses at one gust of the grid.

    `at`: of every block (block, cases); `owners` as in `Search`.
    """

    crossing: dict[Name, Rows]
    at: dict[Key, list[tuple[FloatArray, bool]]]
    owners: dict[Key, int]


def coarse(work: Search, wanted: float | None = None, *, every: bool = True) -> Coarse:
    """Look at every case of every block at the gusts of the grid and at a `wanted` one [m/s].

    The first gust and the wanted one are looked at for every check, the others only for those
    that have not reached 1 in any case by then; not at all if not `every` check's gusts are asked
    for, once some check has reached 1. In still air cases that differ by their wind only are the
    same.
    """
    counts = [len(t.labels) for t in work.tables]
    block = np.repeat(np.arange(len(counts)), counts)
    case = np.concatenate([np.arange(n) for n in counts])

    def look(gust: float, rows: IntArray, owners: Iterable[int] | None = None) -> dict[Key, Used]:
        at = whole(work.blocks, work.tables, block[rows], case[rows], np.full(len(rows), gust))
        some = None if owners is None else {i: np.arange(len(rows)) for i in owners}
        return work.used(at, some)

    still, same = _still(work.tables)
    nil = {
        key: Used(u.owner, {kind: use[same] for kind, use in u.kinds.items()}, u.covered[same])
        for key, u in look(0.0, still).items()
    }
    found = [(0.0, nil)]
    everywhere = {float(GRID[1])} | ({wanted} if wanted else set())
    others = {float(g) for g in GRID[1:] if not wanted or abs(g - wanted) > NEAR * wanted}
    for gust in sorted(others | everywhere):
        if not every and _some_over(found[-1][1]):
            break
        owners = None if gust in everywhere else _open(used for _, used in found)
        found.append((gust, look(gust, np.arange(len(case)), owners)))
    return Coarse(
        crossing=_brackets(block, case, found),
        at=_by_block(dict(found)[wanted], counts) if wanted else {},
        owners={key: one.owner for key, one in nil.items()},
    )


def _still(tables: Sequence[CaseTable]) -> tuple[IntArray, IntArray]:
    """One case of each kind in still air, and which of those each case is like, (n,) each."""
    known: dict[tuple[int, bytes], int] = {}
    first: list[int] = []
    same, start = [], 0
    for i, table in enumerate(tables):
        for j, row in enumerate(table.steady):
            kind = i, row.tobytes()
            if kind not in known:
                known[kind] = len(first)
                first.append(start + j)
            same.append(known[kind])
        start += len(table.steady)
    return np.array(first), np.array(same)


def _open(seen: Iterable[dict[Key, Used]]) -> set[int]:
    """Checkers of which some check has not reached 1 in any case so far."""
    reached: dict[tuple[Key, str, int], bool] = {}
    for used in seen:
        for key, one in used.items():
            for kind, use in one.kinds.items():
                name = key, kind, one.owner
                reached[name] = reached.get(name, False) or bool((use >= 1.0).any())
    return {owner for (_, _, owner), over in reached.items() if not over}


def _some_over(seen: dict[Key, Used]) -> bool:
    """Whether some check reaches 1 by its allowable and some by its strength."""
    return all(
        any((one.kinds[kind] >= 1.0).any() for one in seen.values()) for kind in (ACT_BY, LET_GO)
    )


def _brackets(
    block: IntArray, case: IntArray, found: Sequence[tuple[float, dict[Key, Used]]]
) -> dict[Name, Rows]:
    """Where each use first reaches 1 on the gusts that it was looked at."""
    rows = {}
    for key in found[0][1]:
        grid = np.array([gust for gust, used in found if key in used])
        for kind in (ACT_BY, LET_GO):
            use = np.stack([used[key].kinds[kind] for _, used in found if key in used])
            rows[key, kind] = brackets(block, case, use, grid)
    return rows


def _by_block(
    used: dict[Key, Used], counts: Sequence[int]
) -> dict[Key, list[tuple[FloatArray, bool]]]:
    ends = np.cumsum(counts)[:-1]
    return {
        key: [
            (use, bool(covered.all()))
            for use, covered in zip(
                np.split(one.kinds[ACT_BY], ends), np.split(one.covered, ends), strict=True
            )
        ]
        for key, one in used.items()
    }
