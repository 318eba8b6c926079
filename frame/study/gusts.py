"""The lowest gust at which each check of each part is reached, over every block and wind.

Forces depend on the wind only through (wind factor) x (velocity pressure). A code combination with
0.6W at a gust V is therefore the same state as the whole wind at V sqrt(0.6), guys and all: the
limit gust is the act-by gust over sqrt(0.6), exactly.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from frame.study.coarse import ACT_BY, LET_GO, TOP, Coarse, Search, coarse
from frame.study.crossings import Key, Lowest, Name, Rows, lowest
from frame.study.frames import Block, Bracing
from frame.study.governing import Checker, Seen, governing
from frame.study.results import Row
from frame.study.situation import CODE_SHARE, fixed, whole_wind, windy, wintry
from frame.study.stack import stacked


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


def search(blocks: Sequence[Block], checkers: Iterable[Checker]) -> dict[Key, Gusts]:
    """Find the act-by and let-go gust of every check of every part, worst of all blocks."""
    work = Search.of(blocks, checkers)
    return _gusts(work, coarse(work))[blocks[0].bracing]


def survey(blocks: Sequence[Block], checkers: Iterable[Checker]) -> tuple[Row, ...]:
    """Every check of every part of a bracing at the map gust, with its gusts, the worst first."""
    return surveys(blocks, checkers)[blocks[0].bracing]


def surveys(
    blocks: Sequence[Block], checkers: Iterable[Checker]
) -> dict[Bracing, tuple[Row, ...]]:
    """`survey` of bracings that differ in guys only.

    The code's windy combinations at the map gust are a gust of the search's grid; cases that no
    gust changes are looked at once.
    """
    gust = blocks[0].frame.rack.site.map_gust
    work = Search.of(blocks, checkers)
    found = coarse(work, whole_wind(gust))
    seen, gusts = _steady(work), _gusts(work, found)
    rows = {}
    for bracing, at in found.at.items():
        mine = [b for b in blocks if b.bracing == bracing]
        for i, block in enumerate(mine):
            now = windy(block, gust)
            for key, uses in at.items():
                seen[bracing][key].append(Seen(now, *uses[i]))
        governed = governing(seen[bracing], work.checkers, found.owners)
        rows[bracing] = with_gusts(governed, gusts[bracing])
    return rows


def _steady(work: Search) -> dict[Bracing, dict[Key, list[Seen]]]:
    """Look at every case that no gust changes, and at wind with snow or ice."""
    seen: dict[Bracing, dict[Key, list[Seen]]] = {b: defaultdict(list) for b in work.bracings}
    for nows in zip(*((fixed(b), *wintry(b)) for b in work.blocks), strict=True):
        for key, used in work.used(stacked(nows)).items():
            start = 0
            for now in nows:
                mine = slice(start, start := start + len(now.case))
                if used.there[mine].any():
                    covered = bool(used.covered[mine].all())
                    seen[now.block.bracing][key].append(
                        Seen(now, used.kinds[ACT_BY][mine], covered)
                    )
    return seen


def _gusts(work: Search, found: Coarse) -> dict[Bracing, dict[Key, Gusts]]:
    work = replace(work, owners=found.owners)
    at = {
        name: crossing(work, found.crossing[held.name], held)
        for name, held in lowest(work, found.crossing).items()
    }
    gusts: dict[Bracing, dict[Key, Gusts]] = {b: {} for b in work.bracings}
    for key, _, bracing in found.crossing:
        both = (at.get(Name(key, kind, bracing)) for kind in (ACT_BY, LET_GO))
        gusts[bracing][key] = Gusts(*both)
    return gusts


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
                let_go_case=let_go.label if let_go else "",
                let_go_words=let_go.words if let_go else "",
                let_go_tilt=let_go.block.frame.ideal.tilt if let_go else None,
            )
        )
    return tuple(found)


def crossing(work: Search, rows: Rows, held: Lowest) -> Crossing:
    """Name the block and the case of the lowest gust among the `rows` of a check."""
    block, case = int(rows.block[held.row]), int(rows.case[held.row])
    table = work.tables[block]
    wind = table.winds[case]
    words = wind.words if held.gust and wind else "still air"
    return Crossing(held.gust, work.blocks[block], table.labels[case], words)
