"""What is expected to let go, and about when: median gusts with their 10 to 90 range.

The median gust of a check is where median loads meet its median strength. Then every uncertain
input is put at its 10 % and at its 90 % end, one at a time, and the gust is solved again. The ends
of the range are those of all inputs drawn at once, the shifts of ln(gust) of each case added up.
Only the cases that go first are followed: those that could overtake them when gusts strike more
or less evenly are among them.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from frame.checks.check import Check
from frame.named.aim import Key
from frame.records.going import GRAVE, Going, least_low
from frame.search.crossings import Lowest, Name, lowest_gusts
from frame.search.governing import pick
from frame.search.grid import Coarse, coarse
from frame.search.searched import Search
from frame.search.shifts import ranges
from frame.search.stack import whole
from frame.search.survived import NOTHING_LEARNED, Learned, told
from frame.solved.blocks import Block
from frame.solved.frames import Bracing

WIDEST = 1.6
"""How many times the first middle one may be whose low end comes first [1]: low ends of what tilts
or breaks lie at 0.55 to 0.85 of their middles on the case files."""


def expect(
    blocks: Sequence[Block], learned: Learned = NOTHING_LEARNED
) -> dict[Bracing, dict[Key, Going]]:
    """Find the gust at which each check of each part is expected to go, of the median model.

    The blocks are of bracings that differ in guys only. `learned` of what the rack has stood.
    Parts that no gust up to the highest searched brings down are left out.
    """
    work = Search.of(blocks)
    found = coarse(work)
    work = replace(work, owners=found.owners)
    going: dict[Bracing, dict[Key, Going]] = {b: {} for b in work.bracings}
    best = {x.name: x for x in lowest_gusts(work, found.crossing).values()}
    for name, one in _going(work, found, best).items():
        going[name.bracing][name.key] = told(one, learned)
    return going


def first_going(
    blocks: Sequence[Block],
    learned: Learned = NOTHING_LEARNED,
    *,
    ranged: bool = True,
) -> tuple[Going, ...]:
    """Find what is expected to go first of each kind, in order of their gusts.

    None of a kind of which no gust searched brings anything down. Blocks of one bracing. Ranges
    are left as wide as the middle where they are not asked for; where they are, what tilts or
    breaks at the least low end is told too.
    """
    if learned:
        (all_of,) = expect(blocks, learned).values()
        return _firsts(all_of.values())
    work = Search.of(blocks)
    found = coarse(work)
    work = replace(work, owners=found.owners)
    if not ranged:
        best = lowest_gusts(work, found.crossing, lambda name: found.kinds[name.key])
        going = _going(work, found, {x.name: x for x in best.values()}, ranged=False)
        return tuple(sorted(going.values(), key=lambda g: g.gust))
    lowest = sorted(lowest_gusts(work, found.crossing, _unsided).values(), key=lambda x: -x.gust)
    some = {found.kinds[x.name.key]: x for x in lowest}
    grave = [x for x in lowest if found.kinds[x.name.key] in GRAVE]
    near = [x for x in grave if x.gust <= WIDEST * grave[-1].gust]
    going = _going(work, found, {x.name: x for x in (*some.values(), *near)})
    return _firsts(going.values())


def _unsided(name: Name) -> Key:
    """Name a check of either side: what is of the left goes as its mirror image does."""
    part, check = name.key
    return part.unsided, check


def _firsts(found: Iterable[Going]) -> tuple[Going, ...]:
    """Return what goes first of each kind, and what tilts or breaks at the least low end."""
    ladder = sorted(found, key=lambda g: g.gust, reverse=True)
    firsts = {g.key: g for g in {g.kind: g for g in ladder}.values()}
    grave = least_low(ladder)
    some = firsts | ({grave.key: grave} if grave else {})
    return tuple(sorted(some.values(), key=lambda g: g.gust))


def _going(
    work: Search, found: Coarse, best: Mapping[Name, Lowest], *, ranged: bool = True
) -> dict[Name, Going]:
    names = tuple(best)
    told_ranges = ranges(work, found, best) if ranged else {}
    hands = _hands(work, found, best)
    found_going = {}
    for name in names:
        rows, held = found.crossing[name], best[name]
        block, case = work.blocks[rows.block[held.row]], int(rows.case[held.row])
        table = work.tables[rows.block[held.row]]
        wind = table.winds[case]
        shifts, low, high = told_ranges.get(name, ((), held.gust, held.gust))
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
            shifts=shifts,
            hand=hands[name],
        )
    return found_going


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
