"""The lightest rack that holds: arrangements looked at, the nearest grown, the best trimmed.

An arrangement is a bracing, where the guys start, and one or two posts. Each is looked at once as
described; up to three are grown until every check passes (`frame/sizing/growth.py`); the lightest
or cheapest that holds is trimmed.
"""

import math
from dataclasses import dataclass, replace
from functools import cached_property

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.cost import burden, cost, pipe_weight
from frame.changes.offered import all_series
from frame.changes.stock import supply
from frame.errors import FrameError
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.search.survey import survey
from frame.search.survived import NOTHING_LEARNED
from frame.sizing.arrangements import Arrangement, arrangements, picked, screened, short_of
from frame.sizing.bench import Bench, ChosenRungs, Failing, Tell, worst_movements
from frame.sizing.bought import Bought, bought
from frame.sizing.growth import cuttable, grow, trim
from frame.sizing.stopped import Stopped, stopped
from frame.solved.blocks import solved_models, split
from frame.units import MPH
from frame.verdict.bracings import result, steel_weight
from frame.whatif.lowered import lowered

METHOD = (
    "Method: {looked} arrangements (bracing, where guys start, one or two posts) looked at once, "
    "{grown} of them grown; of those that hold (without undue sag or sway, if any is) up to two "
    "trimmed and the {best} taken: {series} things on series of {rungs} sizes, up where a check "
    "fails, then down one at a time; {tried} racks solved."
)
BY_WEIGHT = "lightest (concrete and hours of work counted as some steel too)"
BY_PRICE = "cheapest by the file's prices"
LIGHTEST = (
    "It holds, and nothing in it can be one size weaker by itself. Two things changed together "
    "were not tried, nor every arrangement trimmed, so a lighter rack may exist."
)
NOT_ENOUGH = (
    "Every size offered that helps what fails was taken, then nothing left heavier than the gust "
    "reached asks for: no proof that no other rack could hold."
)
MOST_MORE, MOST_TRIMMED = 2, 2
"""Arrangements grown beyond the first where none of those holds; those that hold, trimmed."""
MOST_LOWERED, STEP_DOWN = 6, 0.96
"""How often, and by what share at the least, the gust is lowered for what falls short."""
LEAST_GUST = 20 * MPH
"""Gust under which what falls short is not trimmed [m/s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grown:
    """An arrangement that was grown, and maybe `trimmed`: `words`, whether it `holds`.

    `moves`: whether it sags or sways over its limits, where it holds. Its pipe [N], cost (None
    without prices) and `burden` then.
    """

    words: str
    holds: bool
    moves: bool
    trimmed: bool
    pipe: float
    cost: float | None
    burden: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """What the search found: the file's `text`, its `rack`, and its full `result`.

    `stopped`: what still fails where nothing holds, worst first. `uncovered`: checks that no rule
    covers. `steel`: weight of pipe before and after [N]; `cost` likewise, None without prices.
    `grown`: every arrangement grown, the one sized first.
    """

    text: str
    rack: Rack
    result: BracingResult
    stopped: tuple[Stopped, ...]
    uncovered: tuple[str, ...]
    bought: tuple[Bought, ...]
    method: str
    steel: tuple[float, float]
    cost: tuple[float | None, float | None]
    grown: tuple[Grown, ...]

    def __repr__(self) -> str:
        """Name the rack, its bracing, and how many steps were bought."""
        return f"Sized({self.rack.name!r}, {self.result!r}, {len(self.bought)} steps)"

    @property
    def holds(self) -> bool:
        """Whether every check passes, by the same look at it that the comparison takes."""
        return not self.stopped and self.result.holds


def size(
    text: str,
    name: str,
    bracing: tuple[str, ...] | None,
    tell: Tell = lambda _: None,
    *,
    catalog: bool = False,
) -> Sized:
    """Size the rack file `text`, called `name`; `tell` hears of every step.

    For one `bracing`, or for the one that comes out lightest where it is None. Pipe and wire come
    from the stock of the file, if it lists any, and from the catalog too where `catalog` says so.

    Raises
    ------
    FrameError
        Where nothing described can be built from what is at hand.
    """
    rack = parse_rack(text, name)
    stock = supply(rack, text, catalog=catalog)
    tell("looking at bracings, guys and posts")
    looked = screened(tuple(arrangements(rack, text, name, bracing)))
    tries: list[_Try] = []
    refused: FrameError | None = None
    first, more = picked(looked, open_bracing=bracing is None)
    for one in (*first, *more[:MOST_MORE]):
        if one in more and any(not t.stuck for t in tries):
            break
        bench = Bench(
            text=edited(text, one.edits),
            name=name,
            bracing=one.bracing,
            series=all_series(one.rack, one.bracing, stock),
            limited=stock.limited,
            tell=tell,
        )
        try:
            tries.append(_grown(bench, one))
        except FrameError as error:
            refused = error
    if refused and not tries:
        raise refused
    tries.sort(key=lambda t: t.rank)
    near = [t for t in tries if not t.stuck and t.rank[1] == tries[0].rank[1]][:MOST_TRIMMED]
    trimmed = {id(t): _trimmed(t) for t in near or tries[:1]}
    told = {id(t): t.told(trimmed.get(id(t))) for t in tries}
    chosen = min(near or tries[:1], key=lambda t: told[id(t)].burden)
    tries.sort(key=lambda t: t is not chosen)
    grown = tuple(told[id(t)] for t in tries)
    method = METHOD.format(
        looked=len(looked),
        grown=len(tries),
        best=BY_WEIGHT if rack.prices is None else BY_PRICE,
        series=len(chosen.bench.series),
        rungs=sum(len(x.rungs) for x in chosen.bench.series),
        tried=len(looked) + sum(t.bench.tried for t in tries),
    )
    return _sized(rack, chosen, trimmed[id(chosen)], grown, f"{method} {stock.words}")


@dataclass(frozen=True, kw_only=True)
class _Try:
    """An arrangement on its bench, grown to `choice` from `start`; what is `stuck` there."""

    bench: Bench
    arrangement: Arrangement
    start: ChosenRungs
    choice: ChosenRungs
    stuck: Failing

    @cached_property
    def rack(self) -> Rack:
        return self.bench.rack(self.choice)

    @cached_property
    def moved(self) -> tuple[float, float]:
        """Sag and sway over their limits [1]."""
        return worst_movements(self.bench.blocks(self.rack))

    @property
    def rank(self) -> tuple[float, bool, float]:
        """What makes it better than another: nearer to holding, then still, then light."""
        short = max((short_of(use) for _, use in self.stuck), default=0.0)
        moves = not self.stuck and max(self.moved) > 1
        return short, moves, burden(self.rack, self.bench.bracing)

    def told(self, final: ChosenRungs | None) -> Grown:
        """Tell of it, as trimmed to a `final` choice if it was."""
        bracing, rack = self.bench.bracing, self.bench.rack(final) if final else self.rack
        return Grown(
            words=self.arrangement.words,
            holds=not self.stuck,
            moves=self.rank[1],
            trimmed=final is not None,
            pipe=pipe_weight(rack, bracing),
            cost=cost(rack, bracing),
            burden=burden(rack, bracing),
        )


def _grown(bench: Bench, arrangement: Arrangement) -> _Try:
    start = cuttable(bench, bench.start)
    choice, stuck = grow(bench, start)
    bench.solved.kept.clear()
    return _Try(bench=bench, arrangement=arrangement, start=start, choice=choice, stuck=stuck)


def _trimmed(chosen: _Try) -> ChosenRungs:
    """Trim what was grown; what falls short is grown anew for the gust it can hold."""
    bench, choice, stuck = chosen.bench, chosen.choice, chosen.stuck
    gust = bench.rack(choice).site.map_gust
    for _ in range(MOST_LOWERED):
        if not stuck:
            break
        gust *= min(STEP_DOWN, 0.99 / math.sqrt(max(use for _, use in stuck)))
        if not gust > LEAST_GUST:
            return chosen.choice
        text = edited(bench.text, {("site", "map_gust"): f"{gust / MPH:.1f} mph"})
        bench = replace(bench, text=text)
        choice, stuck = grow(bench, chosen.start)
    if stuck:
        return chosen.choice
    moved = worst_movements(bench.blocks(bench.rack(choice)))
    bench.allowed = (max(1.0, moved[0]), max(1.0, moved[1]))
    final = trim(bench, choice)
    chosen.bench.tried = bench.tried
    return final


def _sized(
    described: Rack, chosen: _Try, final: ChosenRungs, grown: tuple[Grown, ...], method: str
) -> Sized:
    """Solve the sized rack in full and tell what each step bought."""
    bench = chosen.bench
    rack, bracing = bench.rack(final), bench.bracing
    bench.tell("solving the sized rack in full")
    found = solved_models(rack, bracing)
    code, _ = split(found)
    steel = steel_weight(code[0])
    rows = survey(found)
    full = replace(
        result(code, rows, steel, steel), lowered=lowered(rack, bracing, NOTHING_LEARNED, found)
    )
    changes = chosen.arrangement.changes
    return Sized(
        text=bench.written(final),
        rack=rack,
        result=full,
        stopped=stopped(bench, chosen.choice, chosen.stuck),
        uncovered=full.not_checked,
        bought=bought(bench, described, chosen.start, final, changes),
        method=f"{method} {NOT_ENOUGH if chosen.stuck else LIGHTEST}",
        steel=(pipe_weight(described, bracing), pipe_weight(rack, bracing)),
        cost=(cost(described, bracing), cost(rack, bracing)),
        grown=grown,
    )
