"""What is expected to let go, and about when: median gusts with their 10 to 90 range.

The median gust of a check is where median loads meet its median strength. Then every uncertain
input is put at its 10 % and at its 90 % end, one at a time, and the gust is solved again; the
shifts of ln(gust) add up by their squares, apart for the low and the high side. Only the cases
that go first are followed: those that could overtake them when gusts strike more or less evenly
are among them.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check
from frame.loads.expected import ACROSS, ONE_SIDED, WIND
from frame.loads.wording import EVEN
from frame.study.coarse import Coarse, Search, coarse
from frame.study.crossings import FloatArray, IntArray, Key, Lowest, Name, Rows, lowest
from frame.study.frames import Block, Bracing
from frame.study.going import Going, Shift, spread
from frame.study.governing import Checker, pick
from frame.study.stack import Alike, whole
from frame.study.survived import NOTHING_LEARNED, Learned, told
from frame.tables.expected import spreads, variants

UNEVEN = (ONE_SIDED, ACROSS)
"""Inputs that change the loads of a case, so that another case may go first."""
FOLLOWED, EACH = 2, 1
"""Cases followed where a strength changes; of each kind of wind where the gusts do."""
NEAR = 2.0
"""Gust over the lowest up to which a case may overtake when gusts strike otherwise."""
STEPS = 4
"""Looks at each crossing after the first: secants, halves where those leave the bracket."""
REACH = 1.5
"""Farthest that ln(gust) is taken to shift with one input."""
SLOPE = (0.3, 12.0)
"""Least and most slope of ln(use) over ln(gust) that a step counts on."""
NIL, MUCH = 1e-9, 1e9
Numbers = FloatArray | IntArray


def expect(
    blocks: Sequence[Block], checkers: Iterable[Checker], learned: Learned = NOTHING_LEARNED
) -> dict[Bracing, dict[Key, Going]]:
    """Find the gust at which each check of each part is expected to go, of the median model.

    The blocks are of bracings that differ in guys only. `learned` of what the rack has stood.
    Parts that no gust up to the highest searched brings down are left out.
    """
    work = Search.of(blocks, checkers)
    found = coarse(work)
    work = replace(work, owners=found.owners)
    going: dict[Bracing, dict[Key, Going]] = {b: {} for b in work.bracings}
    best = {x.name: x for x in lowest(work, found.crossing).values()}
    for name, one in _going(work, found, best).items():
        going[name.bracing][name.key] = told(one, learned)
    return going


def first_going(
    blocks: Sequence[Block],
    checkers: Iterable[Checker],
    learned: Learned = NOTHING_LEARNED,
    *,
    ranged: bool = True,
) -> tuple[Going, ...]:
    """Find what is expected to go first of each kind, in order of their gusts.

    None of a kind of which no gust searched brings anything down. Blocks of one bracing. Ranges
    are left as wide as the middle where they are not asked for.
    """
    if learned:
        (all_of,) = expect(blocks, checkers, learned).values()
        ladder = sorted(all_of.values(), key=lambda g: g.gust, reverse=True)
        return tuple(sorted({g.kind: g for g in ladder}.values(), key=lambda g: g.gust))
    work = Search.of(blocks, checkers)
    found = coarse(work)
    work = replace(work, owners=found.owners)
    best = lowest(work, found.crossing, lambda name: found.kinds[name.key])
    going = _going(work, found, {x.name: x for x in best.values()}, ranged=ranged).values()
    return tuple(sorted(going, key=lambda g: g.gust))


def _going(
    work: Search, found: Coarse, best: Mapping[Name, Lowest], *, ranged: bool = True
) -> dict[Name, Going]:
    names = tuple(best)
    shifts = _shifts(work, found, best) if ranged else dict.fromkeys(names, ())
    hands = _hands(work, found, best)
    found_going = {}
    for name in names:
        rows, held = found.crossing[name], best[name]
        block, case = work.blocks[rows.block[held.row]], int(rows.case[held.row])
        table = work.tables[rows.block[held.row]]
        wind = table.winds[case]
        low, high = spread(held.gust, shifts[name])
        found_going[name] = Going(
            part=name.key[0],
            check=name.key[1],
            kind=found.kinds[name.key],
            gust=held.gust,
            low=low,
            high=high,
            case=table.labels[case],
            words=wind.words if held.gust and wind else "still air",
            tilt=block.frame.ideal.tilt,
            shifts=shifts[name],
            hand=hands[name],
        )
    return found_going


@dataclass(frozen=True, slots=True)
class Followed:
    """Crossings followed, arrays (n,): position `of` the check, block, case, variant, `start`."""

    of: IntArray
    block: IntArray
    case: IntArray
    variant: IntArray
    start: FloatArray


def _shifts(
    work: Search, found: Coarse, best: Mapping[Name, Lowest]
) -> dict[Name, tuple[Shift, ...]]:
    """How ln(gust) of each check shifts with every uncertain input at either end."""
    names = tuple(best)
    rows = _followed(work, found, best)
    solved = _solved(work, names, rows)
    least = np.full((len(names), len(variants())), np.inf)
    np.minimum.at(least, (rows.of, rows.variant), solved)
    shifts = {}
    for i, name in enumerate(names):
        gust = best[name].gust
        both: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])
        for j, (key, high) in enumerate(variants()):
            if key == WIND:
                end = spreads()[WIND].high if high else spreads()[WIND].low
                both[key][high] = -math.log(end / spreads()[WIND].median) / 2
            elif math.isfinite(least[i, j]) and gust > 0:
                both[key][high] = float(least[i, j]) - math.log(gust)
        shifts[name] = tuple(Shift(key, low, high) for key, (low, high) in both.items() if key)
    return shifts


def _followed(work: Search, found: Coarse, best: Mapping[Name, Lowest]) -> Followed:
    parts: list[list[Numbers]] = []
    for i, (name, held) in enumerate(best.items()):
        if held.gust <= 0:
            continue
        rows = found.crossing[name]
        checker = work.checkers[work.owners[name.key]]
        takes = checker.takes if isinstance(checker, Alike) else None
        first = _nearest(rows, held)
        kinds = _of_each_kind(work, rows, held)
        for j, (key, _) in enumerate(variants()):
            if not key or key == WIND or (takes is not None and key not in (*takes, *UNEVEN)):
                continue
            at = kinds if key in UNEVEN else first
            start = np.maximum(rows.guess[at], held.gust)
            parts.append(
                [np.full(len(at), i), rows.block[at], rows.case[at], np.full(len(at), j), start]
            )
    columns = [np.concatenate(c) for c in zip(*parts, strict=True)] if parts else [np.zeros(0)] * 5
    of, block, case, variant = (c.astype(np.int64) for c in columns[:4])
    return Followed(of, block, case, variant, columns[4])


def _nearest(rows: Rows, held: Lowest) -> IntArray:
    """Rows that go first by their guess, the one solved among them."""
    order = np.argsort(rows.guess, kind="stable")[:FOLLOWED]
    return np.array(list(dict.fromkeys((held.row, *map(int, order)))))


def _of_each_kind(work: Search, rows: Rows, held: Lowest) -> IntArray:
    """Rows that go first of each kind of wind: even or one-sided, case A or B."""
    kept: dict[tuple[bool, str], list[int]] = defaultdict(list)
    for i in map(int, np.argsort(rows.guess, kind="stable")):
        if rows.guess[i] > NEAR * held.gust:
            break
        wind = work.tables[rows.block[i]].winds[rows.case[i]]
        kind = (wind.side == EVEN, wind.case) if wind else (True, "")
        if len(kept[kind]) < EACH:
            kept[kind].append(i)
    return np.array(list(dict.fromkeys((held.row, *(i for some in kept.values() for i in some)))))


def _solved(work: Search, names: Sequence[Name], rows: Followed) -> FloatArray:
    """Return ln(gust) at which each crossing followed reaches 1, (n,); secants of ln(use)."""
    asked: dict[Key, IntArray] = {}
    for key in dict.fromkeys(name.key for name in names):
        mine = [i for i, name in enumerate(names) if name.key == key]
        at = np.flatnonzero(np.isin(rows.of, mine))
        if len(at):
            asked[key] = at

    def look(at: FloatArray) -> FloatArray:
        found = np.ones(len(at))
        uses = work.uses(rows.block, rows.case, np.exp(at), asked, rows.variant)
        for key, place in asked.items():
            found[place] = uses[key]
        return np.asarray(np.log(np.clip(found, NIL, MUCH)))

    if not len(rows.of):
        return np.zeros(0)
    here = np.log(rows.start)
    use, slope = look(here), np.full(len(here), 2.0)
    below, above = here - REACH, here + REACH
    for _ in range(STEPS):
        below, above = np.where(use < 0, here, below), np.where(use < 0, above, here)
        there = here - use / slope
        there = np.where((there > below) & (there < above), there, (below + above) / 2)
        seen = look(there)
        step = there - here
        moved = np.abs(step) > NIL
        slope = np.where(moved, (seen - use) / np.where(moved, step, 1.0), slope)
        slope = np.clip(slope, *SLOPE)
        here, use = there, seen
    return np.asarray(np.clip(here - use / slope, below, above))


def _hands(work: Search, found: Coarse, best: Mapping[Name, Lowest]) -> dict[Name, Check]:
    """Each check reduced to the case that goes first, at its gust."""
    hands: dict[Name, Check] = {}
    owners: dict[int, list[Name]] = defaultdict(list)
    for name in best:
        owners[work.owners[name.key]].append(name)
    for owner, names in owners.items():
        rows = [found.crossing[name] for name in names]
        at = [best[name].row for name in names]
        block = np.array([r.block[i] for r, i in zip(rows, at, strict=True)])
        case = np.array([r.case[i] for r, i in zip(rows, at, strict=True)])
        gust = np.array([best[name].gust for name in names])
        cases = whole(work.blocks, work.tables, block, case, gust)
        for mine, which, now in cases.groups(work.checkers[owner], np.arange(len(names))):
            checks = {(part, check.name): check for part, check in work.checkers[owner](now)}
            for i, place in zip(map(int, mine), map(int, which), strict=True):
                if names[i].key in checks:
                    hands[names[i]] = pick(checks[names[i].key], place, len(now.case))
    return hands
