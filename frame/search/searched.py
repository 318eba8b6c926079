"""What a search for gusts works on: blocks, their tables of cases, and checks of any cases."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from frame.checks.check import Check, Kind
from frame.loads.cases import CaseTable
from frame.named.aim import Key
from frame.parts.checker import Checker
from frame.parts.checkers import CHECKERS
from frame.search.crossings import BoolArray, FloatArray, IntArray
from frame.search.governing import by_case
from frame.search.stack import Whole, whole
from frame.solved.blocks import Block
from frame.solved.frames import Bracing
from frame.solved.situation import Situation, whole_table
from frame.tables.expected import Inputs, one_at_a_time


@dataclass(frozen=True)
class Used:
    """A check of one part over n cases: its uses (n,), and whether each is covered.

    `owner`: the position of the checker that makes it; `kind`: what happens when it is reached;
    `there` (n,): the cases whose rack has that part; `read`: keys of the uncertain inputs that
    its checker read.
    """

    owner: int
    kind: Kind
    use: FloatArray
    covered: BoolArray
    there: BoolArray
    read: set[str]

    def only(self, rows: IntArray | BoolArray) -> "Used":
        """Return some of the cases."""
        return replace(
            self, use=self.use[rows], covered=self.covered[rows], there=self.there[rows]
        )


@dataclass(frozen=True)
class Search:
    """Everything a search works on; `owners`: which checker makes which check, where known.

    The blocks are of bracings that differ in guys only, and of one model: uses are of the code's
    allowables, or of the strengths expected. Variants asked for are those of the `inputs`.
    """

    blocks: Sequence[Block]
    tables: Sequence[CaseTable]
    checkers: Sequence[Checker]
    owners: Mapping[Key, int] = field(default_factory=dict)
    inputs: Inputs = field(default_factory=one_at_a_time)

    @classmethod
    def of(cls, blocks: Sequence[Block]) -> "Search":
        """Look for gusts in the whole wind of the blocks' model, by every check there is."""
        return cls(blocks, [whole_table(b) for b in blocks], CHECKERS)

    @property
    def makers(self) -> dict[Key, Checker]:
        """Return the checker that makes each check, where known."""
        return {key: self.checkers[owner] for key, owner in self.owners.items()}

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
        found = self.used(
            whole(self.blocks, self.tables, block, case, gust, variant, self.inputs), some
        )
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
            read: set[str] = set()
            for at, which, now in cases.groups(checker, mine):
                for part, check in checker(now):
                    key = part, check.name
                    if key not in found:
                        found[key] = _unused(i, check.kind, count, read)
                    found[key].use[at] = use_of(check, now)[which]
                    found[key].covered[at] = covered_cases(check, len(now.case))[which]
                    found[key].there[at] = True
                read |= now.read
        return found


def _unused(owner: int, kind: Kind, count: int, read: set[str]) -> Used:
    nil, none = np.zeros(count), np.zeros(count, dtype=bool)
    return Used(owner, kind, use=nil, covered=~none, there=none, read=read)


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


def without_rule(uses: Uses) -> frozenset[Key]:
    """Return the checks that no rule covers in some of the cases."""
    return frozenset(key for key, one in uses.items() if not one.covered.all())
