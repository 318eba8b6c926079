"""Every check of every case at a few gusts: where the search for the lowest gust begins."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from frame.checks.check import Kind
from frame.loads.cases import CaseTable
from frame.named.aim import Key
from frame.search.crossings import FloatArray, IntArray, Name, Rows, brackets
from frame.search.searched import Search, Uses, without_rule
from frame.search.stack import stacked, whole
from frame.search.toppling import TOPPLING, Looks, with_toppling
from frame.solved.frames import Bracing
from frame.solved.situation import blown, situation
from frame.units import MPH

TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 45, 70, 100, 140, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved.

From one to the next the velocity pressure is about doubled: a use that rises over 1 and falls
again in between, as guys go slack, is not seen.
"""
LEAST, MOST, SLOPE = 1e-9, 1e9, (1.0, 12.0)
"""Least use, and least and most power of the gust, that a guess counts on."""
NEAR = 0.3
"""A gust of the grid no farther than this part of a wanted one from it is left out."""


@dataclass(frozen=True)
class Grid:
    """Every case of some blocks, (n,): its `block`, its `case` in the table, its bracing `of`."""

    work: Search
    block: IntArray
    case: IntArray
    of: IntArray

    @classmethod
    def of_all(cls, work: Search) -> "Grid":
        """Every case of every table, block by block."""
        counts = [len(t.labels) for t in work.tables]
        bracing = [work.bracings.index(b.bracing) for b in work.blocks]
        case = np.concatenate([np.arange(n) for n in counts])
        return cls(
            work, np.repeat(np.arange(len(counts)), counts), case, np.repeat(bracing, counts)
        )

    def look(self, gust: float, owners: Sequence[set[int]] | None = None) -> list[Uses]:
        """Return uses bracing by bracing at a gust [m/s], all or those of its `owners` only."""
        at = stacked([blown(b, gust) for b in self.work.blocks])
        if owners is None:
            return self.by_bracing(self.work.used(at))
        some = {
            i: np.flatnonzero(np.isin(self.of, [k for k, mine in enumerate(owners) if i in mine]))
            for i in set().union(*owners)
        }
        return self.by_bracing(self.work.used(at, some))

    def looks(self, gusts: Sequence[float]) -> list[list[Uses]]:
        """Return uses of every check bracing by bracing at some gusts [m/s], all in one.

        What a look costs hardly depends on how many cases it has, where they are few.
        """
        work = self.work
        nows = [situation(b, t, gusts) for b, t in zip(work.blocks, work.tables, strict=True)]
        used, counts = work.used(stacked(nows)), [len(t.labels) for t in work.tables]
        starts = len(gusts) * np.cumsum([0, *counts[:-1]])
        found = []
        for i in range(len(gusts)):
            at = [s + i * n + np.arange(n) for s, n in zip(starts, counts, strict=True)]
            found.append(
                self.by_bracing({key: one.only(np.concatenate(at)) for key, one in used.items()})
            )
        return found

    def still_and_at(self, gust: float) -> tuple[list[Uses], list[Uses]]:
        """Return uses in still air and at a gust [m/s], both in one.

        In still air cases that differ by their wind are the same.
        """
        first, same = _still(self.work.tables)
        block, case = (
            np.concatenate([all_of[first], all_of]) for all_of in (self.block, self.case)
        )
        gusts = np.repeat([0.0, gust], [len(first), len(self.case)])
        used = self.work.used(whole(self.work.blocks, self.work.tables, block, case, gusts))
        still, blown_at = (
            self.by_bracing({key: one.only(rows) for key, one in used.items()})
            for rows in (same, len(first) + np.arange(len(self.case)))
        )
        return still, blown_at

    def by_bracing(self, used: Uses) -> list[Uses]:
        """Return the uses of each bracing, of the parts that it has."""
        found = []
        for k in range(len(self.work.bracings)):
            mine = self.of == k
            own = {key: one.only(mine) for key, one in used.items()}
            found.append({key: one for key, one in own.items() if one.there.any()})
        return found


@dataclass(frozen=True)
class Coarse:
    """What a look at the grid gives: where uses cross 1, and the uses at one gust of the grid.

    `at`: of every bracing, check and block (block, cases); `owners` as in `Search`; `kinds`:
    what happens when a check is reached; `grid` and what was `seen` on it, gust by gust.
    """

    crossing: dict[Name, Rows]
    at: dict[Bracing, dict[Key, list[tuple[FloatArray, bool]]]]
    owners: dict[Key, int]
    kinds: dict[Key, Kind]
    grid: Grid
    seen: dict[Bracing, list[tuple[float, Uses]]]

    def inputs_read(self, name: Name) -> set[str]:
        """Keys of the uncertain inputs that a check's use was seen to depend on."""
        looks = (used for _, used in self.seen[name.bracing] if name.key in used)
        return set().union(*(used[name.key].read for used in looks))

    @property
    def uncovered(self) -> frozenset[Key]:
        """Checks that no rule covers in some case looked at."""
        looks = (used for seen in self.seen.values() for _, used in seen)
        return frozenset(key for used in looks for key in without_rule(used))

    def guess(self, name: Name) -> tuple[IntArray, IntArray, FloatArray]:
        """Block and case of every case of a bracing, and about when a check reaches 1 [m/s].

        Where it is not seen to, on from the last two gusts looked at, as a power of the gust.
        """
        mine = self.grid.of == self.grid.work.bracings.index(name.bracing)
        block, case = self.grid.block[mine], self.grid.case[mine]
        looks = [(g, u[name.key].use) for g, u in self.seen[name.bracing] if name.key in u and g]
        gust, use = looks[-1][0], np.clip(looks[-1][1], LEAST, MOST)
        slope = np.full(len(use), 2.0)
        if len(looks) > 1:
            before, less = looks[-2][0], np.clip(looks[-2][1], LEAST, MOST)
            slope = np.clip(np.log(use / less) / math.log(gust / before), *SLOPE)
        guess = np.asarray(gust * use ** (-1 / slope))
        rows = self.crossing[name]
        first = np.searchsorted(block, rows.block)
        guess[first + rows.case] = rows.guess
        return block, case, guess


def coarse(
    work: Search, wanted: float | None = None, *, first: bool = False, near: float = 0.0
) -> Coarse:
    """Look at every case of every block at the gusts of the grid and at a `wanted` one [m/s].

    In the median model, of few cases, all in one. In the code's, the first gust and the wanted one
    are looked at for every check, the others only for those that have not reached 1 in any case by
    then. If only what comes `first` of all checks is asked for, only as far as some check has
    reached 1, from a gust on that it is thought to be `near` [m/s]: uses are convex in the
    velocity pressure where nothing buckles, and reach 1 but once.
    """
    grid = Grid.of_all(work)
    if work.blocks[0].median:
        gusts = sorted({*map(float, GRID), *((wanted,) if wanted else ())})
        by_gust = grid.looks(gusts)
        found = [
            [(gust, used[k]) for gust, used in zip(gusts, by_gust, strict=True)]
            for k in range(len(work.bracings))
        ]
    else:
        found = _gust_by_gust(grid, wanted, first=first, near=near)
    nil = [seen[0][1] for seen in found]
    crossing: dict[Name, Rows] = {}
    of = [np.flatnonzero(grid.of == k) for k in range(len(work.bracings))]
    cases = [(grid.block[mine], grid.case[mine]) for mine in of]
    looks = [
        [(np.full(len(mine), gust), used) for gust, used in seen]
        for mine, seen in zip(of, found, strict=True)
    ]
    closer = with_toppling(work, cases, looks)
    for bracing, (block, case), seen in zip(work.bracings, cases, closer, strict=True):
        crossing |= _brackets(block, case, bracing, seen)
    at = (
        {
            b: work.by_block(b, dict(seen)[wanted])
            for b, seen in zip(work.bracings, found, strict=True)
        }
        if wanted
        else {}
    )
    owners = {key: one.owner for used in nil for key, one in used.items()}
    kinds = {key: one.kind for used in nil for key, one in used.items()}
    seen_by = dict(zip(work.bracings, found, strict=True))
    return Coarse(crossing, at, owners, kinds, grid, seen_by)


def _gust_by_gust(
    grid: Grid, wanted: float | None, *, first: bool, near: float
) -> list[list[tuple[float, Uses]]]:
    """Look at one gust after the other, as far as it takes; see `coarse`."""
    start = min(max(near, float(GRID[1])), TOP)
    everywhere = {start} | ({wanted} if wanted else set())
    lowest = min(everywhere)
    found = [
        [(0.0, nil), (lowest, used)] for nil, used in zip(*grid.still_and_at(lowest), strict=True)
    ]
    others = {g for g in map(float, GRID) if g > start}
    if wanted:
        others = {g for g in others if abs(g - wanted) > NEAR * wanted}
    for gust in sorted((others | everywhere) - {lowest}):
        if first and all(_some_over(seen[-1][1]) for seen in found):
            break
        left = None
        if gust not in everywhere:
            left = [_open(used for _, used in seen) for seen in found]
        for seen, used in zip(found, grid.look(gust, left), strict=True):
            seen.append((gust, used))
    return found


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


def _open(seen: Iterable[Uses]) -> set[int]:
    """Checkers of which some check has not reached 1 in any case so far, and that of toppling."""
    reached: dict[tuple[Key, int], bool] = {}
    for used in seen:
        for key, one in used.items():
            name = key, one.owner
            reached[name] = reached.get(name, False) or bool((one.use >= 1.0).any())
    return {owner for (key, owner), over in reached.items() if not over or key == TOPPLING}


def _some_over(seen: Uses) -> bool:
    """Whether some check reaches 1."""
    return any((one.use >= 1.0).any() for one in seen.values())


def _brackets(block: IntArray, case: IntArray, bracing: Bracing, found: Looks) -> dict[Name, Rows]:
    """Where each use first reaches 1 on the gusts that it was looked at."""
    alike: dict[tuple[int, ...], list[Key]] = defaultdict(list)
    for key in found[0][1]:
        alike[tuple(i for i, (_, used) in enumerate(found) if key in used)].append(key)
    rows: dict[Key, Rows] = {}
    for looks, some in alike.items():
        seen = [found[i][1] for i in looks]
        use = np.array([[used[key].use for key in some] for used in seen])
        grid = np.array([found[i][0] for i in looks])
        rows.update(zip(some, brackets(block, case, use, grid), strict=True))
    return {Name(key, bracing): rows[key] for key in found[0][1]}
