"""Cases of many blocks, one below the other, so that a check is worked out once for all of them.

Blocks of one stiff bracing differ in numbers only: members and springs are the same at every
tilt and corner of the bands, with some of the guys fitted or others. What a checker reads of the
block itself (its tilt, its ground, its guys) must be the same for the cases it is given together;
`Alike` says which of those it reads.
"""

from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from frame.checks.check import Numbers
from frame.fem.pile import Picked, StackedAnswers
from frame.loads.cases import CaseTable
from frame.parts.checker import Alike, Checker
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray, stiff_part
from frame.solved.situation import Situation, at_gusts
from frame.tables.expected import Inputs

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, kw_only=True)
class Stack(Situation):
    """Some cases out of several blocks; `block` and `table` are those of the first case.

    `whole` are all the cases solved, `rows` (n,) the positions of these among them.
    """

    whole: "Whole"
    rows: IntArray

    @cached_property
    def answer(self) -> Picked:
        """Forces of every case."""
        return Picked(self.whole.pile, self.rows)

    @cached_property
    def relieved(self) -> "Stack":
        """The same cases on blocks relieved of what corner guys pull in still air."""
        return replace(self, whole=self.whole.relieved)

    @property
    def lowest(self) -> FloatArray:
        """Lowest factor on the forces of every case at which the rack buckles, (n,)."""
        return self.whole.lowest[self.rows]

    @property
    def topples(self) -> npt.NDArray[np.bool_]:
        """Whether the rack sways over in a case, (n,)."""
        return np.concatenate([p.topples for p in self.whole.parts])[self.rows]

    def each(self, value: Callable[[Block], Numbers]) -> FloatArray:
        """Return a value (...) of the block that each case belongs to, (n, ...)."""
        return self.whole.each(value, self.rows)

    def only(self, rows: np.ndarray) -> "Stack":
        """Return some of the cases, by position."""
        return replace(
            self,
            case=self.case[rows],
            gust=self.gust[rows],
            pressure=self.pressure[rows],
            variant=self.variant[rows],
            rows=self.rows[rows],
        )


@dataclass(frozen=True)
class Whole:
    """Cases solved block by block: `parts` are the situations of the blocks, none empty.

    `position` (n,) says where each case asked for stands in the parts put one below the other.
    """

    parts: tuple[Situation, ...]
    position: IntArray

    @cached_property
    def pile(self) -> StackedAnswers:
        """Answers of the cases, part by part."""
        return StackedAnswers(tuple(p.grown for p in self.parts))

    @cached_property
    def relieved(self) -> "Whole":
        """The same cases on blocks relieved of what corner guys pull in still air."""
        parts = tuple(part.relieved for part in self.parts)
        alike = all(a is b for a, b in zip(parts, self.parts, strict=True))
        return self if alike else replace(self, parts=parts)

    @cached_property
    def lowest(self) -> FloatArray:
        """Lowest buckling factors of the cases, part by part."""
        return np.concatenate([p.lowest for p in self.parts])

    @cached_property
    def _part(self) -> IntArray:
        """Which part each case belongs to, part by part."""
        return np.repeat(np.arange(len(self.parts)), [len(p.case) for p in self.parts])

    def each(self, value: Callable[[Block], Numbers], rows: IntArray) -> FloatArray:
        """Return a value (...) of the block of each of the cases, by place in the parts."""
        return np.array([value(p.block) for p in self.parts], dtype=float)[self._part[rows]]

    def groups(
        self, checker: Checker, rows: IntArray
    ) -> Iterator[tuple[IntArray, IntArray, Situation]]:
        """Yield those of the cases `rows` that `checker` may be given together.

        First the rows, then which case of the situation each of them is, then that.
        """
        kinds = [self._kind(i, checker) for i in range(len(self.parts))]
        first = [kinds.index(kind) for kind in kinds]
        of = np.array(first)[self._part[self.position[rows]]]
        for i in dict.fromkeys(first):
            at = rows[of == i]
            if not len(at):
                continue
            place, which = self.position[at], np.arange(len(at))
            if isinstance(checker, Alike) and checker.local:
                place, which = self._unlike(place)
            yield at, which, self._stack(place, self.parts[i])

    def _kind(self, part: int, checker: Checker) -> tuple[Hashable, ...]:
        """Return what must be the same for parts whose cases a checker is given together."""
        if not isinstance(checker, Alike):
            return (part,)
        block = self.parts[part].block
        return (self._layouts[part], *(trait(block) for trait in checker.same))

    @cached_property
    def _layouts(self) -> list[tuple[Hashable, ...]]:
        """Return model and stiff bracing of each part, and of how many things it is made."""
        found: list[tuple[Hashable, ...]] = []
        for part in self.parts:
            model = part.block.frame.ideal.model
            counts = len(model.members), len(model.connections), len(model.nodes)
            found.append((part.median, stiff_part(part.block.bracing), *counts))
        return found

    def _unlike(self, place: IntArray) -> tuple[IntArray, IntArray]:
        """One of the cases at `place` for each wind, and which of those each case is like."""
        case, gust, _, variant = self._cases
        wind = case[place] + (case.max() + 1) * variant[place]
        pairs = np.stack([wind, gust[place]])
        _, first, which = np.unique(pairs, axis=1, return_index=True, return_inverse=True)
        return place[first], which.ravel()

    @cached_property
    def _cases(self) -> tuple[IntArray, FloatArray, FloatArray, IntArray]:
        """Case, gust, pressure and variant of the cases, part by part."""
        return (
            np.concatenate([p.case for p in self.parts]),
            np.concatenate([p.gust for p in self.parts]),
            np.concatenate([p.pressure for p in self.parts]),
            np.concatenate([p.variant for p in self.parts]),
        )

    def _stack(self, rows: IntArray, first: Situation) -> Situation:
        case, gust, pressure, variant = self._cases
        return Stack(
            block=first.block,
            table=first.table,
            case=case[rows],
            gust=gust[rows],
            pressure=pressure[rows],
            variant=variant[rows],
            inputs=first.inputs,
            whole=self,
            rows=rows,
        )


def whole(
    blocks: Sequence[Block],
    tables: Sequence[CaseTable],
    block: IntArray,
    case: IntArray,
    gust: FloatArray,
    variant: IntArray | None = None,
    inputs: Inputs | None = None,
) -> Whole:
    """Cases (n,) given by the position of their block, their case in its table, their gust.

    In the median model each may be in its own `variant` (n,) of the uncertain `inputs`.
    """
    variant = np.zeros(len(case), dtype=np.int64) if variant is None else variant
    order = np.argsort(block, kind="stable")
    position = np.empty_like(order)
    position[order] = np.arange(len(order))
    parts = []
    for i in map(int, np.unique(block)):
        mine = order[block[order] == i]
        parts.append(at_gusts(blocks[i], tables[i], case[mine], gust[mine], variant[mine], inputs))
    return Whole(tuple(parts), position)


def stacked(nows: Sequence[Situation]) -> Whole:
    """All cases of situations on blocks alike, one below the other."""
    return Whole(tuple(nows), np.arange(sum(len(now.case) for now in nows)))
