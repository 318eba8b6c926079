"""The lowest gusts of a whole bracing, without those of every row: quick, to try many racks."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from frame.idealize.state import State
from frame.study.coarse import ACT_BY, LET_GO, TOP, Coarse, Search, coarse
from frame.study.crossings import Lowest, lowest
from frame.study.frames import Block
from frame.study.governing import Checker
from frame.study.gusts import crossing
from frame.study.situation import CODE_SHARE


@dataclass(frozen=True, slots=True, kw_only=True)
class First:
    """The first part over its strength at `gust` [m/s]: `check`, the wind in `words`, where."""

    gust: float
    part: str
    check: str
    words: str
    tilt: float
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Weakest:
    """First part over its allowable and first to let go in the whole wind; None up to `TOP`."""

    act_by: First | None
    let_go: First | None

    @property
    def act_by_gust(self) -> float:
        """Gust from which something is used beyond its allowable [m/s], infinite if none."""
        return self.act_by.gust if self.act_by else math.inf

    @property
    def let_go_gust(self) -> float:
        """Gust at which the first part is expected to go [m/s], infinite if none."""
        return self.let_go.gust if self.let_go else math.inf

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite if beyond `TOP`."""
        gust = self.act_by_gust / math.sqrt(CODE_SHARE)
        return gust if gust <= TOP else math.inf


def weakest(blocks: Sequence[Block], checkers: Iterable[Checker]) -> Weakest:
    """Find the lowest act-by and let-go gust over all blocks, checks and winds."""
    work = Search.of(blocks, checkers)
    seen = coarse(work, every=False)
    work = replace(work, owners=seen.owners)
    best = lowest(work, seen.crossing, lambda name: name.kind)
    return Weakest(
        act_by=_first(work, seen, best.get(ACT_BY)), let_go=_first(work, seen, best.get(LET_GO))
    )


def _first(work: Search, seen: Coarse, best: Lowest | None) -> First | None:
    """Name the part, the wind and the place."""
    if best is None:
        return None
    rows = seen.crossing[best.name]
    at = crossing(work, rows, best)
    part, check = best.name.key
    return First(
        gust=at.gust,
        part=part,
        check=check,
        words=at.words,
        tilt=at.block.frame.ideal.tilt,
        state=at.block.state,
    )
