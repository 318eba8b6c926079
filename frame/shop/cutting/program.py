"""The mixed-integer program of a pile: parts of needs into sound stretches of sticks."""

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from frame.shop.cutting.pile import NEARLY, Pile

WHOLE = 0.5
GAP = 1e-7
"""Part of the cost within which a plan counts as the best."""


@dataclass
class Program:
    """A program being written: columns with bounds and cost, rows with bounds."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    row_low: list[float] = field(default_factory=list)
    row_high: list[float] = field(default_factory=list)

    def column(self, low: float, high: float, *, whole: bool = False) -> int:
        """Add a variable."""
        self.low.append(low)
        self.high.append(high)
        self.whole.append(int(whole))
        return len(self.low) - 1

    def add_row(self, terms: Sequence[tuple[int, float]], low: float, high: float) -> None:
        """Add low <= sum of terms <= high."""
        row = len(self.row_low)
        self.entries += [(row, column, times) for column, times in terms]
        self.row_low.append(low)
        self.row_high.append(high)


@dataclass(frozen=True, kw_only=True)
class PartColumns:
    """Columns of one part of a need: whether it `is`, its length, and by bin `put` and `takes`.

    `length` and `takes` are None where the need is never spliced.
    """

    is_made: int
    length: int | None
    put: dict[int, int]
    takes: dict[int, int] | None


@dataclass(frozen=True, kw_only=True)
class Written:
    """A pile as a program: the parts of every need, whether each stick is opened.

    `used`: terms that tell how much of every stretch is taken, kerf in.
    """

    program: Program
    parts: tuple[tuple[PartColumns, ...], ...]
    opened: tuple[int, ...]
    used: tuple[tuple[tuple[int, float], ...], ...]


def write_program(pile: Pile, *, spliced: bool) -> Written:
    """Write the program of a pile, with splices or without."""
    program = Program()
    bins = pile.bins()
    opened = tuple(program.column(0, 1, whole=True) for _ in pile.sticks)
    parts = tuple(_need(pile, program, i, spliced=spliced) for i in range(len(pile.needs)))
    used: list[list[tuple[int, float]]] = [[] for _ in bins]
    for need, some in zip(pile.needs, parts, strict=True):
        for part in some:
            for b, column in part.put.items():
                if part.takes is None:
                    used[b].append((column, need.length + pile.kerf))
                else:
                    used[b] += [(column, pile.kerf), (part.takes[b], 1.0)]
    for b, (stick, (start, stop)) in enumerate(bins):
        room = stop - start + pile.kerf
        program.add_row([*used[b], (opened[stick], -room)], -np.inf, 0.0)
    for a, b in pairwise(range(len(pile.sticks))):
        if replace(pile.sticks[a], name="") == replace(pile.sticks[b], name="") and all(
            (a in need.fits) == (b in need.fits) for need in pile.needs
        ):
            program.add_row([(opened[a], 1.0), (opened[b], -1.0)], 0.0, np.inf)
    return Written(program=program, parts=parts, opened=opened, used=tuple(tuple(u) for u in used))


def _need(pile: Pile, program: Program, index: int, *, spliced: bool) -> tuple[PartColumns, ...]:
    need, bins = pile.needs[index], pile.bins()
    count = pile.most + 1 if spliced and need.zones else 1
    lengths = [stop - start for _, (start, stop) in bins]
    if count == 1:
        put = {
            b: program.column(0, 1, whole=True)
            for b, (stick, _) in enumerate(bins)
            if stick in need.fits and lengths[b] >= need.length - NEARLY
        }
        program.add_row([(c, 1.0) for c in put.values()], 1, 1)
        return (PartColumns(is_made=-1, length=None, put=put, takes=None),)
    made: list[PartColumns] = []
    for j in range(count):
        is_made = program.column(1 if j == 0 else 0, 1, whole=True)
        length = program.column(0, need.length)
        put, takes = {}, {}
        joins = need.fits if need.joins is None else need.joins
        for b, (stick, _) in enumerate(bins):
            if stick in (joins if j else need.fits) and lengths[b] >= pile.least:
                most = min(need.length, lengths[b])
                put[b] = program.column(0, 1, whole=True)
                takes[b] = program.column(0, most)
                program.add_row([(takes[b], 1.0), (put[b], -most)], -np.inf, 0.0)
        program.add_row([*((c, 1.0) for c in put.values()), (is_made, -1.0)], 0, 0)
        program.add_row([*((c, 1.0) for c in takes.values()), (length, -1.0)], 0, 0)
        program.add_row([(length, 1.0), (is_made, -need.length)], -np.inf, 0.0)
        program.add_row([(length, 1.0), (is_made, -min(pile.least, need.length))], 0.0, np.inf)
        if made:
            program.add_row([(is_made, 1.0), (made[-1].is_made, -1.0)], -np.inf, 0.0)
        made.append(PartColumns(is_made=is_made, length=length, put=put, takes=takes))
        if j == 1:
            whole = [c for b, c in made[0].put.items() if bins[b][0] not in joins]
            for column in whole:
                program.add_row([(column, 1.0), (is_made, 1.0)], 0, 1)
    program.add_row(
        [(p.length, 1.0) for p in made if p.length is not None], need.length, need.length
    )
    _splices(program, need.zones, need.length, made)
    return tuple(made)


def _splices(
    program: Program,
    zones: tuple[tuple[float, float], ...],
    length: float,
    made: list[PartColumns],
) -> None:
    """Hold the end of every part but the last to a zone."""
    for j in range(len(made) - 1):
        then = made[j + 1].is_made
        there = [program.column(0, 1, whole=True) for _ in zones]
        reached = [(p.length, 1.0) for p in made[: j + 1] if p.length is not None]
        program.add_row([*((c, 1.0) for c in there), (then, -1.0)], 0, 0)
        lows = [(c, -low) for c, (low, _) in zip(there, zones, strict=True)]
        highs = [(c, -high) for c, (_, high) in zip(there, zones, strict=True)]
        program.add_row([*reached, *lows], 0.0, np.inf)
        program.add_row([*reached, *highs, (then, length)], -np.inf, length)


def longest_rest(pile: Pile, one: Written, *, untouched: bool = False) -> int:
    """Add the longest rest of a stretch of any stick that is opened; return its column.

    With `untouched` sticks of the pile that are not opened count as well, by their whole length.
    """
    bins, program = pile.bins(), one.program
    most = max((stop - start for _, (start, stop) in bins), default=0.0)
    longest = program.column(0, most)
    chosen = []
    for b, (stick, (start, stop)) in enumerate(bins):
        this = program.column(0, 1, whole=True)
        chosen.append((this, 1.0))
        if not (untouched and pile.sticks[stick].at_hand):
            program.add_row([(this, 1.0), (one.opened[stick], -1.0)], -np.inf, 0.0)
        room = stop - start
        program.add_row([(longest, 1.0), *one.used[b], (this, most)], -np.inf, most + room)
    program.add_row(chosen, 0, 1)
    program.add_row([(longest, 1.0), *((c, -most) for c, _ in chosen)], -np.inf, 0.0)
    return longest


@dataclass(frozen=True, kw_only=True)
class Solved:
    """Values of the columns, None where none was found in time; `bound` on the cost."""

    values: np.ndarray | None
    bound: float
    proved: bool


def solve_program(program: Program, cost: dict[int, float], seconds: float) -> Solved:
    """Solve for the least cost, given by column, within a time."""
    costs = np.zeros(len(program.low))
    costs[list(cost)] = list(cost.values())
    rows, columns, times = (np.array(v) for v in zip(*program.entries, strict=True))
    shape = (len(program.row_low), len(program.low))
    matrix = csr_array((times.astype(float), (rows, columns)), shape=shape)
    with _quiet():
        found = _milp(program, costs, matrix, seconds)
    bound = getattr(found, "mip_dual_bound", None)
    return Solved(
        values=found.x,
        bound=-np.inf if bound is None else float(bound),
        proved=found.status == 0,
    )


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep what the solver prints by itself out of the answer."""
    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


def _milp(program: Program, costs: np.ndarray, matrix: csr_array, seconds: float) -> Any:
    return milp(
        costs,
        integrality=np.array(program.whole),
        bounds=Bounds(np.array(program.low), np.array(program.high)),
        constraints=LinearConstraint(
            matrix, np.array(program.row_low), np.array(program.row_high)
        ),
        options={"time_limit": max(seconds, 0.1), "mip_rel_gap": GAP},
    )


def parts_of(pile: Pile, one: Written, values: np.ndarray) -> list[tuple[int, float, float, int]]:
    """Read the parts (need, start, stop, bin) off the values of a program."""
    found = []
    for i, (need, some) in enumerate(zip(pile.needs, one.parts, strict=True)):
        start = 0.0
        for part in some:
            if part.is_made >= 0 and values[part.is_made] < WHOLE:
                continue
            b = max(part.put, key=lambda b: values[part.put[b]])
            long = need.length if part.length is None else float(values[part.length])
            stop = start + long
            found.append((i, start, need.length if need.length - stop < NEARLY else stop, b))
            start = stop
    return found
