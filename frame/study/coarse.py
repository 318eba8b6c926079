"""Every check of every case at a few gusts: where the search for the lowest gust begins."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from frame.checks.check import Check, Kind
from frame.loads.cases import CaseTable
from frame.study.crossings import (
    BoolArray,
    FloatArray,
    IntArray,
    Key,
    Name,
    Rows,
    brackets,
)
from frame.study.frames import Block, Bracing
from frame.study.governing import Checker, by_case
from frame.study.situation import Situation, blown, whole_table
from frame.study.stack import Whole, stacked, whole
from frame.units import MPH

TOP = 200 * MPH
"""Highest gust searched [m/s]."""
GRID = np.array([0.0, 45, 70, 100, 200]) * MPH
"""Gusts at which every case is looked at first; between them the crossings are solved."""
NEAR = 0.3
"""A gust of the grid no farther than this part of a wanted one from it is left out."""


@dataclass(frozen=True)
class Used:
    """A check of one part over n cases: its uses (n,), and whether each is covered.

    `owner`: the position of the checker that makes it; `kind`: what happens when it is reached;
    `there` (n,): the cases whose rack has that part.
    """

    owner: int
    kind: Kind
    use: FloatArray
    covered: BoolArray
    there: BoolArray

    def only(self, rows: IntArray | BoolArray) -> "Used":
        """Return some of the cases."""
        return Used(self.owner, self.kind, self.use[rows], self.covered[rows], self.there[rows])


@dataclass(frozen=True)
class Search:
    """Everything a search works on; `owners`: which checker makes which check, where known.

    The blocks are of bracings that differ in guys only, and of one model: uses are of the code's
    allowables, or of the strengths expected.
    """

    blocks: Sequence[Block]
    tables: Sequence[CaseTable]
    checkers: Sequence[Checker]
    owners: Mapping[Key, int] = field(default_factory=dict)

    @classmethod
    def of(cls, blocks: Sequence[Block], checkers: Iterable[Checker]) -> "Search":
        """Look for gusts in the whole wind of the blocks' model."""
        return cls(blocks, [whole_table(b) for b in blocks], tuple(checkers))

    @property
    def bracings(self) -> tuple[Bracing, ...]:
        """Return the bracings of the blocks."""
        return tuple(dict.fromkeys(b.bracing for b in self.blocks))

    def by_block(self, bracing: Bracing, used: "Uses") -> dict[Key, list[tuple[FloatArray, bool]]]:
        """Return the uses of the allowable over every block of a bracing, and what is covered."""
        mine = [t for b, t in zip(self.blocks, self.tables, strict=True) if b.bracing == bracing]
        ends = np.cumsum([len(t.labels) for t in mine])[:-1]
        return {
            key: [
                (use, bool(covered.all()))
                for use, covered in zip(
                    np.split(one.use, ends), np.split(one.covered, ends), strict=True
                )
            ]
            for key, one in used.items()
        }

    def uses(
        self,
        block: IntArray,
        case: IntArray,
        gust: FloatArray,
        asked: Mapping[Key, IntArray],
        variant: IntArray | None = None,
    ) -> dict[Key, FloatArray]:
        """Return the uses of each check for the rows `asked` of it; see `crossings.Work`.

        In the median model each row may be in its own `variant` of the uncertain inputs.
        """
        rows: dict[int, list[IntArray]] = defaultdict(list)
        for key, at in asked.items():
            rows[self.owners[key]].append(at)
        some = {i: _union(each, len(block)) for i, each in rows.items()}
        found = self.used(whole(self.blocks, self.tables, block, case, gust, variant), some)
        return {key: found[key].use[at] for key, at in asked.items()}

    def used(self, cases: Whole, rows: Mapping[int, IntArray] | None = None) -> dict[Key, Used]:
        """Work out checks: all for all cases, or those of some checkers for `rows` of the cases.

        Arrays have all the cases; those left out count as nil.
        """
        count = len(cases.position)
        found: dict[Key, Used] = {}
        for i, checker in enumerate(self.checkers):
            if rows is not None and i not in rows:
                continue
            mine = np.arange(count) if rows is None else rows[i]
            for at, which, now in cases.groups(checker, mine):
                for part, check in checker(now):
                    key = part, check.name
                    if key not in found:
                        found[key] = _unused(i, check.kind, count)
                    found[key].use[at] = use_of(check, now)[which]
                    found[key].covered[at] = covered_cases(check, len(now.case))[which]
                    found[key].there[at] = True
        return found


def _unused(owner: int, kind: Kind, count: int) -> Used:
    return Used(
        owner, kind, np.zeros(count), np.ones(count, dtype=bool), np.zeros(count, dtype=bool)
    )


def _union(rows: Sequence[IntArray], count: int) -> IntArray:
    """Return the rows, of `count`, that are in any of `rows`."""
    there = np.zeros(count, dtype=bool)
    for each in rows:
        there[each] = True
    return np.flatnonzero(there)


def use_of(check: Check, now: Situation) -> FloatArray:
    """Use of a check in each case: of the strength in the median model, else of the allowable."""
    use = check.let_go if now.median else check.utilisation
    return by_case(np.atleast_1d(use), len(now.case))


def covered_cases(check: Check, count: int) -> BoolArray:
    """Whether a check is covered wherever it is made, in each of `count` cases."""
    if np.all(check.covered):
        return np.ones(count, dtype=bool)
    use = np.atleast_1d(check.utilisation)
    return np.broadcast_to(~np.isnan(use.reshape(len(use), -1)).any(axis=1), (count,))


Uses = dict[Key, Used]


@dataclass(frozen=True)
class Coarse:
    """What a look at the grid gives: where uses cross 1, and the uses at one gust of the grid.

    `at`: of every bracing, check and block (block, cases); `owners` as in `Search`; `kinds`:
    what happens when a check is reached.
    """

    crossing: dict[Name, Rows]
    at: dict[Bracing, dict[Key, list[tuple[FloatArray, bool]]]]
    owners: dict[Key, int]
    kinds: dict[Key, Kind]


@dataclass(frozen=True)
class Grid:
    """Every case of some blocks, (n,): its `block`, its `case` in the table, its bracing `of`."""

    work: Search
    block: IntArray
    case: IntArray
    of: IntArray

    @classmethod
    def over(cls, work: Search) -> "Grid":
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
            return self.split(self.work.used(at))
        some = {
            i: np.flatnonzero(np.isin(self.of, [k for k, mine in enumerate(owners) if i in mine]))
            for i in set().union(*owners)
        }
        return self.split(self.work.used(at, some))

    def still(self) -> list[Uses]:
        """Return uses in still air, where cases that differ by their wind are the same."""
        first, same = _still(self.work.tables)
        nil = np.zeros(len(first))
        at = whole(self.work.blocks, self.work.tables, self.block[first], self.case[first], nil)
        return self.split({key: one.only(same) for key, one in self.work.used(at).items()})

    def split(self, used: Uses) -> list[Uses]:
        """Return the uses of each bracing, of the parts that it has."""
        found = []
        for k in range(len(self.work.bracings)):
            mine = self.of == k
            own = {key: one.only(mine) for key, one in used.items()}
            found.append({key: one for key, one in own.items() if one.there.any()})
        return found


def coarse(work: Search, wanted: float | None = None, *, every: bool = True) -> Coarse:
    """Look at every case of every block at the gusts of the grid and at a `wanted` one [m/s].

    The first gust and the wanted one are looked at for every check, the others only for those
    that have not reached 1 in any case by then; not at all if not `every` check's gusts are asked
    for, once some check has reached 1.
    """
    grid = Grid.over(work)
    nil = grid.still()
    found = [[(0.0, used)] for used in nil]
    everywhere = {float(GRID[1])} | ({wanted} if wanted else set())
    others = {float(g) for g in GRID[1:] if not wanted or abs(g - wanted) > NEAR * wanted}
    for gust in sorted(others | everywhere):
        if not every and all(_some_over(seen[-1][1]) for seen in found):
            break
        left = None
        if gust not in everywhere:
            left = [_open(used for _, used in seen) for seen in found]
        for seen, used in zip(found, grid.look(gust, left), strict=True):
            seen.append((gust, used))
    crossing: dict[Name, Rows] = {}
    for k, (bracing, seen) in enumerate(zip(work.bracings, found, strict=True)):
        mine = grid.of == k
        crossing |= _brackets(grid.block[mine], grid.case[mine], bracing, seen)
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
    return Coarse(crossing, at, owners, kinds)


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
    """Checkers of which some check has not reached 1 in any case so far."""
    reached: dict[tuple[Key, int], bool] = {}
    for used in seen:
        for key, one in used.items():
            name = key, one.owner
            reached[name] = reached.get(name, False) or bool((one.use >= 1.0).any())
    return {owner for (_, owner), over in reached.items() if not over}


def _some_over(seen: Uses) -> bool:
    """Whether some check reaches 1."""
    return any((one.use >= 1.0).any() for one in seen.values())


def _brackets(
    block: IntArray, case: IntArray, bracing: Bracing, found: Sequence[tuple[float, Uses]]
) -> dict[Name, Rows]:
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
