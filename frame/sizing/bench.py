"""One rack file being sized: what a choice of sizes makes of it, and whether that holds."""

import math
from collections.abc import Callable, Iterator, Sequence
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
from frame.search.searched import Search
from frame.search.stack import stacked
from frame.solved.blocks import Block
from frame.solved.situation import coded

ChosenRungs = tuple[int, ...]
"""A rung of every series."""
Tell = Callable[[str], None]
Failing = tuple[tuple[Short, float], ...]
"""What fails and its use, worst first; nan where it is not covered any more."""


@dataclass(kw_only=True)
class Bench:
    """The file on the bench, and what the search keeps in mind as it goes on.

    `tried`: racks solved; `watch`: where a check failed last, looked at first next time; `gaps`:
    checks that are not covered as described, None as long as nobody asked; `allowed`: sag and
    sway over their limits [1]; `limited`: whether the lengths of the stock bound what can be cut.
    """

    text: str
    name: str
    bracing: tuple[str, ...]
    series: tuple[Series, ...]
    limited: bool
    tell: Tell
    tried: int = 0
    watch: Place | None = None
    gaps: frozenset[Key] | None = None
    allowed: tuple[float, float] = (math.inf, math.inf)
    solved: Tried = field(init=False)

    def __post_init__(self) -> None:
        """Start without a frame solved."""
        self.solved = Tried(bracing=self.bracing)

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

    def opened(self, gaps: frozenset[Key]) -> frozenset[Key]:
        """Return those of some checks not covered that are covered as described."""
        if gaps and self.gaps is None:
            try:
                _, self.gaps = all_uses(self, self.blocks(self.rack(self.start)))
            except FrameError:
                self.gaps = frozenset()
        return gaps - (self.gaps or frozenset())

    def on(self, rack: Rack) -> OneTried:
        """Return a rack to be looked at place by place; frames solved before are used again."""
        return self.solved.on(rack)

    def places(self, rack: Rack) -> tuple[Place, ...]:
        """Every tilt and corner of the code's model."""
        return code_places(self.bracing, rack.tilts)

    def blocks(self, rack: Rack) -> tuple[Block, ...]:
        """Every tilt and corner."""
        return self.on(rack).blocks(self.places(rack))


def all_uses(bench: Bench, found: Sequence[Block]) -> tuple[dict[Key, float], frozenset[Key]]:
    """Largest use of every check, and which are not covered."""
    return worst_uses(found)


def worst_uses(found: Sequence[Block]) -> tuple[dict[Key, float], frozenset[Key]]:
    """Largest use of every check over some blocks, and which are not covered."""
    uses: dict[Key, float] = {}
    gaps = set()
    work = Search.of(found)
    for nows in zip(*map(coded, found), strict=True):
        for key, used in work.used(stacked(nows)).items():
            uses[key] = max(uses.get(key, 0.0), float(used.use.max()))
            if not used.covered.all():
                gaps.add(key)
    return uses, frozenset(gaps)


def with_rung(choice: ChosenRungs, i: int, rung: int) -> ChosenRungs:
    """Return the choice with another rung of series `i`."""
    return (*choice[:i], rung, *choice[i + 1 :])


def still_passes(bench: Bench, choice: ChosenRungs) -> bool:
    """Whether every check passes, none becomes uncovered, and it sags and sways no further.

    No further than their limits, or than the rack did when it had grown.
    """
    bench.tried += 1
    try:
        rack = bench.rack(choice)
        one = bench.on(rack)
        passed: list[Block] = []
        for places in _in_order(bench, rack):
            some = one.blocks(places)
            uses, gaps = all_uses(bench, some)
            if not max(uses.values()) <= 1.0 or bench.opened(gaps):
                bench.watch = worst_place(bench, places, some)
                return False
            passed += some
    except FrameError:
        return False
    return all(m <= a for m, a in zip(worst_movements(passed), bench.allowed, strict=True))


def worst_place(bench: Bench, places: Sequence[Place], found: Sequence[Block]) -> Place:
    """Place of the largest use among those of some blocks."""
    if len(places) == 1:
        return places[0]
    worst = [max(all_uses(bench, [block])[0].values()) for block in found]
    return places[max(range(len(worst)), key=lambda i: np.nan_to_num(worst[i], nan=np.inf))]


def worst_movements(found: Sequence[Block]) -> tuple[float, float]:
    """Worst sag and worst sway over their limits [1]."""
    return worst_sag(found).use, worst_sway(found).use


def _in_order(bench: Bench, rack: Rack) -> Iterator[list[Place]]:
    """Places, the one that failed last time first, then those of its tilt, then tilt by tilt."""
    watch, places = bench.watch, bench.places(rack)
    first = watch.tilt if watch else max(rack.tilts)
    for tilt in sorted(rack.tilts, key=lambda t: abs(t - first)):
        there = [place for place in places if place.tilt == tilt]
        for last in (True, False):
            some = [place for place in there if (place == watch) == last]
            if some:
                yield some
