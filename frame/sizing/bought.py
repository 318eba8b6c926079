"""What each change of a rack bought: told in the order in which one after another is missed."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from frame.changes.cost import cost, pipe_weight
from frame.changes.series import Series, Thing, told_together
from frame.errors import FrameError
from frame.named.aim import Short, helped
from frame.rack.rack import Rack
from frame.search.expected_going import first_going
from frame.search.weakest import Weakest, lowest_limit
from frame.sizing.bench import Bench, ChosenRungs, with_rung
from frame.solved.blocks import solved_models, split
from frame.units import MPH

LEAST = math.log(1.01)
"""Least rise of ln(gust) that a change is told for by itself."""
GROUPS = {
    **dict.fromkeys((Thing.POST_PIPE, Thing.POST_STEEL), "post"),
    **dict.fromkeys((Thing.BEAM_PIPE, Thing.BEAM_STEEL), "beam"),
    **dict.fromkeys((Thing.SLEEVE_LENGTH, Thing.SLEEVE_WALL, Thing.CLEARANCE), "sleeve"),
    **dict.fromkeys((Thing.POST_DEPTH, Thing.HOLE, Thing.BACKFILL, Thing.FOOT), "ground"),
    **dict.fromkeys((Thing.RAILS, Thing.RAIL_COUNT), "rails"),
}
"""What is climbed in one go."""
SLOWEST, FASTEST = 1 * MPH, 200 * MPH
"""Gusts told apart [m/s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackGusts:
    """Gusts of a rack [m/s], infinite where none does it.

    `margin`: up to which it has the code's; `first_slip`, `first_break`: expected.
    """

    margin: float
    first_slip: float
    first_break: float

    @property
    def let_go(self) -> float:
        """Gust at which the first part is expected to go [m/s]."""
        return min(self.first_slip, self.first_break)

    def beyond(self, before: "RackGusts") -> bool:
        """Whether any gust rises enough over those `before` to be told."""
        pairs = (
            (self.margin, before.margin),
            (self.first_slip, before.first_slip),
            (self.first_break, before.first_break),
        )
        return any(_height(after) - _height(gust) > LEAST for after, gust in pairs)


def _height(gust: float) -> float:
    return math.log(min(max(gust, SLOWEST), FASTEST))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What changes bought, made in this order: gusts `before` and `after`, pipe added [N].

    `added_cost` in the file's currency, None without prices.
    """

    words: str
    before: RackGusts
    after: RackGusts
    added_steel: float
    added_cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """A rack solved: its gusts, what is `weak`, its pipe [N] and cost."""

    gusts: RackGusts
    weak: tuple[Short, ...]
    steel: float
    cost: float | None


@dataclass(kw_only=True)
class Ledger:
    """What was bought so far; changes `told` wait for the one that makes them count."""

    bench: Bench
    before: _Look
    rows: list[Bought] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    def enter(self, rack: Rack, *words: str) -> None:
        """Make a change, and write it down if it buys anything by now."""
        self.told += words
        try:
            after = solved_gusts(self.bench, rack)
        except FrameError:
            return
        if after.gusts.beyond(self.before.gusts):
            self.write(after)

    def write(self, after: _Look) -> None:
        """Write down what waits, with what it comes to."""
        before, costs = self.before, (self.before.cost, after.cost)
        added = None if costs[0] is None or costs[1] is None else costs[1] - costs[0]
        self.rows.append(
            Bought(
                words=told_together(self.told),
                before=before.gusts,
                after=after.gusts,
                added_steel=after.steel - before.steel,
                added_cost=added,
            )
        )
        self.before, self.told = after, []

    def close(self, rack: Rack) -> None:
        """Tell what still waits with the row before it."""
        if not self.told:
            return
        waiting, self.told = self.told, []
        if self.rows:
            last = self.rows.pop()
            self.told.append(last.words)
            self.before = replace(
                self.before,
                gusts=last.before,
                steel=self.before.steel - last.added_steel,
                cost=None
                if self.before.cost is None or last.added_cost is None
                else self.before.cost - last.added_cost,
            )
        self.told += waiting
        self.write(solved_gusts(self.bench, rack))


def bought(
    bench: Bench, described: Rack, start: ChosenRungs, final: ChosenRungs, changes: Sequence[str]
) -> tuple[Bought, ...]:
    """Make the changes from the rack `described` to the `final` choice, and solve after each.

    `changes`: what leads to the `start` on the bench, first. Then always what helps the weakest; a
    change that buys nothing by itself is told with the next. What is made weaker comes
    last, in one go.
    """
    bench.tell("finding what each step bought")
    ledger, now = Ledger(bench=bench, before=solved_gusts(bench, described)), start
    if changes:
        ledger.enter(bench.rack(now), *changes)
    left = [i for i in range(len(final)) if final[i] > start[i]]
    weak = ledger.before.weak
    while left:
        bench.tell("finding what each step bought")
        first = next(_helping(bench, left, weak), left[0])
        some = [i for i in left if _group(bench.series[i]) == _group(bench.series[first])]
        left = [i for i in left if i not in some]
        for i in some:
            now = with_rung(now, i, final[i])
        said = [bench.series[i].rungs[final[i]].words for i in some]
        try:
            rack = bench.rack(now)
        except FrameError:
            ledger.told += said
            continue
        ledger.enter(rack, *said)
        weak = ledger.before.weak
    ledger.close(bench.rack(now))
    weaker = [i for i in range(len(final)) if final[i] < start[i]]
    if weaker:
        lighter = told_together(bench.series[i].rungs[final[i]].words for i in weaker)
        ledger.told = [f"lighter: {lighter}"]
        ledger.write(solved_gusts(bench, bench.rack(final)))
    return tuple(ledger.rows)


def _helping(bench: Bench, left: Sequence[int], weak: Sequence[Short]) -> Iterator[int]:
    for short in weak:
        yield from (i for i in left if helped(bench.series[i].helps, short))


def _group(series: Series) -> str:
    """Name what is built in one go: everything of a group of guys, of the sleeve, of the hole."""
    return series.group or GROUPS.get(series.thing, series.thing)


def solved_gusts(bench: Bench, rack: Rack) -> _Look:
    """Solve the gusts of a rack on the bench afresh; ranges are left out."""
    code, median = split(solved_models(rack, bench.bracing))
    limit = lowest_limit(code)
    found = Weakest(limit=limit, going=first_going(median, ranged=False))
    slip, broke = found.first_slip, found.first_break
    going = sorted((g for g in (slip, broke) if g), key=lambda g: g.gust)
    most = rack.site.map_gust
    weak: list[Short] = [limit.key] if limit.key else []
    weak += [g.key for g in going if g.gust < most]
    return _Look(
        gusts=RackGusts(
            margin=limit.gust,
            first_slip=slip.gust if slip else math.inf,
            first_break=broke.gust if broke else math.inf,
        ),
        weak=tuple(weak),
        steel=pipe_weight(rack, bench.bracing),
        cost=cost(rack, bench.bracing),
    )
