"""Answers of many models alike put one below the other, and some cases picked out of them."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.forces import Sections, sections


@dataclass(frozen=True)
class StackedAnswers:
    """Answers of models alike in all but numbers, the cases of one below those of the other.

    In forces the n cases come last, so that one force of all of them lies together in memory.
    """

    parts: tuple[Answer, ...]

    @cached_property
    def tensions(self) -> Array:
        """(n, G) pull of the guys [N]."""
        return np.concatenate([p.tensions for p in self.parts])

    @cached_property
    def first_tensions(self) -> Array:
        """(n, G) pull of the guys at first order [N]."""
        return np.concatenate([p.first_tensions for p in self.parts])

    @cached_property
    def member_forces(self) -> Array:
        """(M, 12, n) [N, N m] on the set-back ends, local axes, first end then second."""
        total = self._total([p.terms("member_forces") for p in self.parts])
        end = 0
        for part in self.parts:
            start, end = end, end + len(part.factors)
            part.bow(total[:, :, start:end])
        return total

    @cached_property
    def connection_forces(self) -> Array:
        """(C, 6, n) [N, N m] on the second nodes, in the connections' axes."""
        return self._total([p.terms("connection_forces") for p in self.parts])

    def as_it_stood(self, member: int) -> Array:
        """(n, 3) [N] forces on the first end of a member as it stood."""
        return np.concatenate([p.as_it_stood(member) for p in self.parts])

    @cached_property
    def line_loads(self) -> Array:
        """(M, 3, n) uniform loads, local axes [N/m]."""
        return self._total([((p.response.line_loads, p.factors),) for p in self.parts])

    @cached_property
    def length(self) -> Array:
        """(M, n) flexible lengths [m]."""
        lengths = np.stack([p.response.length for p in self.parts], axis=1)
        return np.repeat(lengths, [len(p.factors) for p in self.parts], axis=1)

    def _total(self, parts: Sequence[Iterable[tuple[Array, Array]]]) -> Array:
        """Add up what each part is made of, (m, ...) so many times (cases, m)."""
        shape = self.parts[0].response.member_forces.shape[1:]
        total = np.empty((0, 0))
        end = 0
        count = sum(len(p.factors) for p in self.parts)
        for part, terms in zip(self.parts, parts, strict=True):
            start, end = end, end + len(part.factors)
            for i, (each, times) in enumerate(terms):
                if not total.size:
                    shape, total = each.shape[1:], np.empty((math.prod(each.shape[1:]), count))
                here, flat = total[:, start:end], each.reshape(len(each), -1).T
                if i:
                    here += flat @ times.T
                else:
                    np.matmul(flat, times.T, out=here)
        return total.reshape(*shape, -1)


@dataclass(frozen=True)
class Picked:
    """`Totals` of some cases of a pile, at positions `rows` (n,)."""

    pile: StackedAnswers
    rows: npt.NDArray[np.int64]

    @property
    def tensions(self) -> Array:
        """(n, G) pull of the guys [N]."""
        return self.pile.tensions[self.rows]

    @property
    def first_tensions(self) -> Array:
        """(n, G) pull of the guys at first order [N]."""
        return self.pile.first_tensions[self.rows]

    def on_members(self, members: Sequence[int]) -> Array:
        """(n, members, 12) [N, N m] on the set-back ends, local axes, first end then second."""
        return self._of(self.pile.member_forces, members)

    def as_it_stood(self, member: int) -> Array:
        """(n, 3) [N] forces on the first end of a member as it stood."""
        return self.pile.as_it_stood(member)[self.rows]

    def on_connections(self, connections: Sequence[int]) -> Array:
        """(n, connections, 6) [N, N m] on the second nodes, in the connections' axes."""
        return self._of(self.pile.connection_forces, connections)

    def cut(self, members: Sequence[int], shares: Array) -> Sections:
        """Section forces (n, members, k) at `shares` (k,) of the length, 0 at the first end."""
        pile = self.pile
        forces, w = self._of(pile.member_forces, members), self._of(pile.line_loads, members)
        return sections(forces, w, self._of(pile.length, members), shares)

    def along(self, members: Sequence[int], stations: int = 5) -> Sections:
        """Section forces (n, members, stations) at evenly spaced stations, ends included."""
        return self.cut(members, np.linspace(0.0, 1.0, stations))

    @cached_property
    def _every(self) -> bool:
        """Whether these are all the cases, in order."""
        count = len(self.pile.tensions)
        return len(self.rows) == count and bool((self.rows == np.arange(count)).all())

    def _of(self, values: Array, parts: Sequence[int]) -> Array:
        """Pick some `parts` of values (P, ..., cases), the cases then first."""
        some = values[list(parts)]
        return np.moveaxis(some if self._every else np.take(some, self.rows, axis=-1), -1, 0)
