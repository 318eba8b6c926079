"""An arrangement that is grown, and then trimmed to the gust that it can hold."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from frame.changes.cost import burden
from frame.changes.stock import Supply
from frame.named.aim import Key
from frame.rack.rack import Rack
from frame.search.laden import laden, laden_uses
from frame.search.weakest import lowest_limit
from frame.sizing.begun import widened
from frame.sizing.bench import Bench, ChosenRungs, Failing, worst_movements
from frame.sizing.growth import grow, trim
from frame.solved.blocks import Block
from frame.units import MPH

MOST_WIDENED = 3
"""How often a rack that has grown is offered sizes anew."""
MOST_LOWERED, NEAR = 6, 1.02
"""How often another gust is tried for what falls short, and how near the highest is found [1]."""
LEAST_GUST = 20 * MPH
"""Gust for which what holds still less is trimmed [m/s]."""
KEPT = 1 - 1e-5
"""Share of a gust for which a rack is trimmed that keeps the margin up to it [1]."""
UNCOVERED = 0.1
"""What a check that no rule covers counts for, as a part of the gust reached [1] (judgement)."""


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """An arrangement, `words` for it, on its bench, grown from `begun` to `choice`.

    `start`: the rack as described, after `changes`. What is `stuck` at `choice`.
    """

    bench: Bench
    words: str
    changes: tuple[str, ...]
    start: ChosenRungs
    begun: ChosenRungs
    choice: ChosenRungs
    stuck: Failing

    @cached_property
    def rack(self) -> Rack:
        """The rack as grown."""
        return self.bench.rack(self.choice)

    @cached_property
    def nearest(self) -> tuple[float, ChosenRungs]:
        """How near what it began from or grew to is to holding, see `nearness`, and which."""
        some = dict.fromkeys((self.choice, self.begun))
        return max(((nearness(self.bench, c), c) for c in some), key=lambda found: found[0])

    @cached_property
    def out_of_shape(self) -> bool:
        """Whether it holds and sags or sways over its limits."""
        return not self.stuck and max(worst_movements(self.bench.blocks(self.rack))) > 1

    @cached_property
    def measure(self) -> float:
        """Measure of the rack as grown, see `frame.changes.cost.burden`."""
        return burden(self.rack, self.bench.bracing)

    @property
    def rank(self) -> tuple[float, float]:
        """What makes it better than another: nearer to holding, then light."""
        return -self.nearest[0] if self.stuck else -math.inf, self.measure


def attempt(
    bench: Bench, begun: ChosenRungs, stock: Supply, words: str, changes: tuple[str, ...]
) -> Attempt:
    """Grow a rack on its bench from a choice; where it is stuck, it is offered sizes anew.

    Raises
    ------
    FrameError
        Where such a rack cannot be built, or cut from stock.
    """
    choice, stuck = grow(bench, begun)
    start = bench.start
    for _ in range(MOST_WIDENED):
        if not stuck:
            break
        wider, so_far = widened(bench, choice, stock)
        further, stuck = grow(wider, so_far)
        if further == so_far:
            break
        more = so_far[len(choice) :]
        start, begun, bench, choice = (*start, *more), (*begun, *more), wider, further
    bench.solved.forget()
    return Attempt(
        bench=bench,
        words=words,
        changes=changes,
        start=start,
        begun=begun,
        choice=choice,
        stuck=stuck,
    )


def nearness(bench: Bench, choice: ChosenRungs) -> float:
    """Tell how near a rack is to holding [1]: ln of the gust up to which it keeps the margin.

    No gust beyond the site's counts. Less what it is short of under loads that no gust changes,
    and what no rule covers.
    """
    rack = bench.rack(choice)
    code = bench.blocks(rack)
    limit = lowest_limit(code)
    kept = min(max(limit.gust, 1.0), rack.site.map_gust)
    return math.log(kept / laden(code).short) - UNCOVERED * len(limit.uncovered)


def trimmed_to_hold(found: Attempt) -> ChosenRungs:
    """Trim what was grown; what falls short for the highest gust found that it can hold."""
    bench, choice = _reaching(found) if found.stuck else (found.bench, found.choice)
    moved = worst_movements(bench.blocks(bench.rack(choice)))
    return trim(replace(bench, allowed=(max(1.0, moved[0]), max(1.0, moved[1]))), choice)


def _reaching(found: Attempt) -> tuple[Bench, ChosenRungs]:
    """Grow for gusts between one that is held and the site's, each halfway to what failed.

    On a bench for the highest that was reached. What nothing mends under other loads may be as it
    is: more wind alone can be held all the same.
    """
    kept, high = found.nearest[1], found.rack.site.map_gust
    code = found.bench.blocks(found.bench.rack(kept))
    low = KEPT * min(max(lowest_limit(code).gust, LEAST_GUST), high)
    bench = replace(found.bench, gust=low, excused=_excused(code))
    for _ in range(MOST_LOWERED):
        if high < NEAR * low:
            break
        higher = replace(bench, gust=math.sqrt(low * high))
        further, short = grow(higher, kept)
        if short:
            high = higher.gust
        else:
            kept, low, bench = further, higher.gust, higher
    return bench, kept


def _excused(code: Sequence[Block]) -> dict[Key, float]:
    """Name what a rack uses too much of under loads that no gust changes, and how much [1]."""
    most = {key: float(uses.max()) / KEPT for key, uses in laden_uses(code).items()}
    return {key: use for key, use in most.items() if use > 1.0}
