"""One rack file being sized: what a choice of sizes makes of it, and whether that holds."""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from frame.bracing.movement import worst_sag, worst_sway
from frame.casefile.read import parse_rack
from frame.casefile.write import Value, Where, edited
from frame.changes.series import Series
from frame.changes.stock import check_stock
from frame.changes.tried import OneTried, Place, Tried, code_places
from frame.errors import FrameError
from frame.named.aim import Key, Short
from frame.rack.rack import Rack
from frame.search.searched import Search, without_rule
from frame.search.stack import stacked
from frame.solved.blocks import Block
from frame.solved.situation import Situation, gustless, windy

ChosenRungs = tuple[int, ...]
"""A rung of every series."""
Tell = Callable[[str], None]
Failing = tuple[tuple[Short, float], ...]
"""What fails and its use, worst first; nan where no rule covers it."""


@dataclass(kw_only=True)
class Tally:
    """What a search keeps count of: racks `tried`, and where a check failed last, to `watch`."""

    tried: int = 0
    watch: Place | None = None

    def count(self) -> None:
        """Count one more rack."""
        self.tried += 1

    def failed(self, place: Place) -> None:
        """Look there first next time."""
        self.watch = place


@dataclass(frozen=True, kw_only=True)
class Bench:
    """The file on the bench, with the `solved` frames and the `tally` of the search on it.

    `allowed`: sag and sway over their limits [1]; `limited`: whether the lengths of the stock
    bound what can be cut. `gust`: sized for no more than that [m/s]; `excused`: what a check may
    use under loads that no gust changes, where nothing mends it [1]. Benches made of one another
    share frames and tally.
    """

    text: str
    name: str
    bracing: tuple[str, ...]
    series: tuple[Series, ...]
    limited: bool
    tell: Tell
    gust: float = math.inf
    excused: Mapping[Key, float] = field(default_factory=dict)
    allowed: tuple[float, float] = (math.inf, math.inf)
    solved: Tried
    tally: Tally = field(default_factory=Tally)

    def written(self, choice: ChosenRungs) -> str:
        """Return the file with the sizes of a choice of rungs."""
        made: dict[Where, Value] = {}
        for series, rung in zip(self.series, choice, strict=True):
            made.update(series.rungs[rung].edits)
        return edited(self.text, made)

    def rack(self, choice: ChosenRungs) -> Rack:
        """Read that file; `FrameError` where such a rack cannot be built, or cut from stock."""
        rack = parse_rack(self.written(choice), self.name)
        if self.limited:
            check_stock(rack, self.bracing)
        return rack

    @property
    def start(self) -> ChosenRungs:
        """The rack as described."""
        return tuple(series.start for series in self.series)

    def on(self, rack: Rack) -> OneTried:
        """Return a rack to be looked at place by place; frames solved before are used again."""
        return self.solved.on(rack)

    def places(self, rack: Rack) -> tuple[Place, ...]:
        """Every tilt and corner of the code's model."""
        return code_places(self.bracing, rack.tilts)

    def blocks(self, rack: Rack) -> tuple[Block, ...]:
        """Every tilt and corner."""
        return self.on(rack).blocks(self.places(rack))

    def uses(self, found: Sequence[Block]) -> dict[Key, float]:
        """Largest use of every check at the gust it is sized for, of what it may use [1]."""
        return worst_uses(found, self.gust, self.excused)


def worst_uses(
    found: Sequence[Block], gust: float = math.inf, excused: Mapping[Key, float] | None = None
) -> dict[Key, float]:
    """Largest use of every check over some blocks; nan where no rule covers some case.

    Where it is over 1 in cases that are covered, that is told. In wind alone at the map gust, or
    at a lower `gust` [m/s]; under other loads over what is `excused` there [1].
    """
    uses: dict[Key, float] = {}
    open_to, allowed = set[Key](), excused or {}
    work = Search.of(found)
    for i, nows in enumerate(zip(*(_cases(block, gust) for block in found), strict=True)):
        used_by = work.used(stacked(nows))
        open_to |= without_rule(used_by)
        for key, used in used_by.items():
            use = float(used.use.max()) / (allowed.get(key, 1.0) if i else 1.0)
            uses[key] = max(uses.get(key, 0.0), use)
    return uses | {key: math.nan for key in open_to if uses[key] <= 1.0}


def _cases(block: Block, gust: float) -> tuple[Situation, ...]:
    """Return every case of the code, those of wind alone first, at no more than a gust [m/s]."""
    return windy(block, min(gust, block.frame.rack.site.map_gust)), *gustless(block)


def passed(uses: Mapping[Key, float], most: float = 1.0) -> bool:
    """Whether every check is covered and uses no more than `most` [1]."""
    return bool(uses) and all(use <= most for use in uses.values())


def with_rung(choice: ChosenRungs, i: int, rung: int) -> ChosenRungs:
    """Return the choice with another rung of series `i`."""
    return (*choice[:i], rung, *choice[i + 1 :])


def still_passes(bench: Bench, choice: ChosenRungs) -> bool:
    """Whether every check is covered and passes, and it sags and sways no further.

    No further than their limits, or than the rack did when it had grown.
    """
    bench.tally.count()
    try:
        rack = bench.rack(choice)
        one = bench.on(rack)
        solved: list[Block] = []
        for places in _in_order(bench, rack):
            some = one.blocks(places)
            if not passed(bench.uses(some)):
                bench.tally.failed(worst_place(bench, places, some))
                return False
            solved += some
    except FrameError:
        return False
    return all(m <= a for m, a in zip(worst_movements(solved), bench.allowed, strict=True))


def worst_place(bench: Bench, places: Sequence[Place], found: Sequence[Block]) -> Place:
    """Place of the largest use among those of some blocks."""
    if len(places) == 1:
        return places[0]
    worst = [max(map(failing, bench.uses([block]).values())) for block in found]
    return places[int(np.argmax(worst))]


def failing(use: float) -> float:
    """Return a use [1] by which failing checks are put in order: endless where not covered."""
    return math.inf if math.isnan(use) else use


def worst_movements(found: Sequence[Block]) -> tuple[float, float]:
    """Worst sag and worst sway over their limits [1]."""
    return worst_sag(found).use, worst_sway(found).use


def _in_order(bench: Bench, rack: Rack) -> Iterator[list[Place]]:
    """Places, the one that failed last time first, then those of its tilt, then tilt by tilt."""
    watch, places = bench.tally.watch, bench.places(rack)
    first = watch.tilt if watch else max(rack.tilts)
    for tilt in sorted(rack.tilts, key=lambda t: abs(t - first)):
        there = [place for place in places if place.tilt == tilt]
        for last in (True, False):
            some = [place for place in there if (place == watch) == last]
            if some:
                yield some
