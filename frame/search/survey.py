"""The gusts of each check of each part, over every block and wind, by both models.

Code: forces depend on the wind only through (wind factor) x (velocity pressure). A code
combination with 0.6W at a gust V is therefore the same state as the whole wind at V sqrt(0.6),
guys and all: the limit gust is exactly the gust at which the whole wind meets the allowable, over
sqrt(0.6). What lets go is found in the median model, with its range, by `expected_going.py`.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from frame.named.aim import Key
from frame.records.going import Going
from frame.records.results import Row
from frame.search.crossings import lowest_gusts
from frame.search.expected_going import expect
from frame.search.governing import Seen, governing
from frame.search.grid import TOP, coarse
from frame.search.searched import Search
from frame.search.stack import stacked
from frame.search.survived import NOTHING_LEARNED, Learned
from frame.solved.blocks import Block, split
from frame.solved.frames import Bracing
from frame.solved.situation import CODE_SHARE, gustless, whole_wind, windy


@dataclass(frozen=True, slots=True)
class CheckGusts:
    """Gusts of one check of one part; None where none searched reaches it.

    `whole` [m/s]: the whole wind meets the code's allowable; `going`: what is expected of it.
    """

    whole: float | None
    going: Going | None

    @property
    def limit(self) -> float | None:
        """Lowest gust at which a code combination reaches the allowable [m/s]."""
        return None if self.whole is None else coded_gust(self.whole)


def search(blocks: Sequence[Block]) -> dict[Key, CheckGusts]:
    """Find the gusts of every check of every part of one bracing, worst of all its blocks."""
    code, median = split(blocks)
    whole: dict[Key, float] = {}
    keys: dict[Key, None] = {}
    if code:
        work = Search.of(code)
        found = coarse(work)
        keys.update(dict.fromkeys(found.owners))
        best = lowest_gusts(replace(work, owners=found.owners), found.crossing)
        whole = {x.name.key: x.gust for x in best.values()}
    going = expect(median)[median[0].bracing] if median else {}
    keys.update(dict.fromkeys(going))
    return {key: CheckGusts(whole.get(key), going.get(key)) for key in keys}


def survey(blocks: Sequence[Block], learned: Learned = NOTHING_LEARNED) -> tuple[Row, ...]:
    """Every check of every part of a bracing at the map gust, with its gusts, the worst first.

    `learned` of what the rack has stood, for what is expected to go.
    """
    return surveys(blocks, learned)[blocks[0].bracing]


def surveys(
    blocks: Sequence[Block], learned: Learned = NOTHING_LEARNED
) -> dict[Bracing, tuple[Row, ...]]:
    """`survey` of bracings that differ in guys only; blocks of both models.

    The code's windy combinations at the map gust are a gust of the search's grid; cases that no
    gust changes are looked at once.
    """
    code, median = split(blocks)
    gust = blocks[0].frame.rack.site.map_gust
    work = Search.of(code)
    found = coarse(work, whole_wind(gust))
    work = replace(work, owners=found.owners)
    seen, limits = _steady(work), lowest_gusts(work, found.crossing).values()
    going = expect(median, learned)
    rows = {}
    for bracing, at in found.at.items():
        mine = [b for b in code if b.bracing == bracing]
        for i, block in enumerate(mine):
            now = windy(block, gust)
            for key, uses in at.items():
                seen[bracing][key].append(Seen(now, *uses[i]))
        governed = governing(seen[bracing], work.makers)
        margins = {x.name.key: coded_gust(x.gust) for x in limits if x.name.bracing == bracing}
        rows[bracing] = with_gusts(governed, margins, going[bracing])
    return rows


def coded_gust(whole: float) -> float | None:
    """Limit gust [m/s] where the whole wind of a gust `whole` [m/s] meets the allowable."""
    gust = whole / math.sqrt(CODE_SHARE)
    return gust if gust <= TOP else None


def _steady(work: Search) -> dict[Bracing, dict[Key, list[Seen]]]:
    """Look at every case that no gust changes, and at wind with snow or ice."""
    seen: dict[Bracing, dict[Key, list[Seen]]] = {b: defaultdict(list) for b in work.bracings}
    for nows in zip(*map(gustless, work.blocks), strict=True):
        for key, used in work.used(stacked(nows)).items():
            start = 0
            for now in nows:
                mine = slice(start, start := start + len(now.case))
                if used.there[mine].any():
                    covered = bool(used.covered[mine].all())
                    seen[now.block.bracing][key].append(Seen(now, used.use[mine], covered))
    return seen


def with_gusts(
    rows: Iterable[Row], limits: Mapping[Key, float | None], going: Mapping[Key, Going]
) -> tuple[Row, ...]:
    """Write the gusts found into the rows of the same checks."""
    keys = [(row, row.key) for row in rows]
    return tuple(
        replace(row, limit_gust=limits.get(key), going=going.get(key)) for row, key in keys
    )
