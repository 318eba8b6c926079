"""The lightest rack that holds: arrangements looked at, the nearest grown, the best trimmed.

An arrangement is a bracing, where the guys start, and one or two posts. Each is looked at once as
described; up to three are grown until every check passes (`frame/sizing/growth.py`), and a rack
found before, if one is handed in; the lightest or cheapest that holds is trimmed
(`frame/sizing/attempt.py`), or of those that fall short what holds the highest gust.
"""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.cost import burden, cost, pipe_weight
from frame.changes.offered import all_series
from frame.changes.stock import Supply, supply
from frame.changes.tried import Tried
from frame.errors import FrameError
from frame.rack.rack import Rack, bracing_title
from frame.records.results import BracingResult
from frame.search.survey import survey
from frame.search.survived import NOTHING_LEARNED
from frame.sizing.arrangements import Arrangement, arrangements, picked, screened
from frame.sizing.attempt import Attempt, attempt, nearness, trimmed_to_hold
from frame.sizing.begun import Begun, taken_up
from frame.sizing.bench import Bench, ChosenRungs, Tell
from frame.sizing.bought import Bought, bought
from frame.sizing.growth import STIFFER, cuttable
from frame.sizing.stopped import Stopped, stopped
from frame.solved.blocks import solved_models, split
from frame.verdict.bracings import result, steel_weight
from frame.whatif.lowered import lowered

METHOD = (
    "Method: {looked} arrangements (bracing, where guys start, one or two posts) looked at once; "
    "{grown} racks grown{begun}; of those that hold (without undue sag or sway, if that is not "
    "half as much again) the lightest trimmed and the {best} taken: {series} things on series of "
    "{rungs} sizes, up where a check fails, then down one at a time; {tried} racks solved."
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
    begun: Begun | None = None,
) -> Sized:
    """Size the rack file `text`, called `name`; `tell` hears of every step.

    For one `bracing`, or for the one that comes out lightest where it is None. Pipe and wire come
    from the stock of the file, if it lists any, and from the catalog too where `catalog` says so.
    Never worse than what was `begun` of the same file: that is gone on with too.

    Raises
    ------
    FrameError
        Where nothing described can be built from what is at hand.
    """
    rack = parse_rack(text, name)
    stock = supply(rack, text, catalog=catalog)
    tell("looking at bracings, guys and posts")
    looked = screened(tuple(arrangements(rack, text, name, bracing)))
    tries: list[Attempt] = []
    refused: FrameError | None = None
    first, more = picked(looked, open_bracing=bracing is None)
    if begun:
        with suppress(FrameError):
            bench = _bench(text, name, Arrangement(bracing=begun.bracing, rack=rack), stock, tell)
            tries.append(_gone_on(bench, begun, stock))
    for one in (*first, *more[:MOST_MORE]):
        if one in more and any(not t.stuck for t in tries):
            break
        try:
            bench = _bench(text, name, one, stock, tell)
            start = cuttable(bench, bench.start)
            tries.append(attempt(bench, start, stock, one.words, one.changes))
        except FrameError as error:
            refused = error
    if refused and not tries:
        raise refused
    near = _nearest(tries)
    finals = {id(t): trimmed_to_hold(t) for t in near}
    told = {id(t): _told(t, finals.get(id(t))) for t in tries}
    if near[0].stuck:
        chosen = max(near, key=lambda t: nearness(t.bench, finals[id(t)]))
    else:
        chosen = min(near, key=lambda t: told[id(t)].burden)
    tries.sort(key=lambda t: (t is not chosen, *t.rank))
    grown = tuple(told[id(t)] for t in tries)
    method = METHOD.format(
        looked=len(looked),
        grown=len(tries),
        begun=f", one of them {begun.called}" if begun else "",
        best=BY_WEIGHT if rack.prices is None else BY_PRICE,
        series=len(chosen.bench.series),
        rungs=sum(len(x.rungs) for x in chosen.bench.series),
        tried=len(looked) + sum(t.bench.tally.tried for t in tries),
    )
    return _sized(rack, chosen, finals[id(chosen)], grown, f"{method} {stock.words}")


def _bench(text: str, name: str, one: Arrangement, stock: Supply, tell: Tell) -> Bench:
    return Bench(
        text=edited(text, one.edits),
        name=name,
        bracing=one.bracing,
        series=all_series(one.rack, one.bracing, stock),
        limited=stock.limited,
        tell=tell,
        solved=Tried(bracing=one.bracing),
    )


def _gone_on(bench: Bench, begun: Begun, stock: Supply) -> Attempt:
    """Grow a rack found before."""
    wider, choice, beside = taken_up(bench, begun, stock)
    words = f"{bracing_title(begun.bracing)}, {begun.called}"
    return attempt(wider, choice, stock, words, tuple(rung.words for rung in beside))


def _nearest(tries: Sequence[Attempt]) -> list[Attempt]:
    """Return what is trimmed: of what holds, what moves no further than it should if any is so.

    Unless that is far more of a rack. Up to two, the lightest, or of what falls short the nearest
    one; and what was found before.
    """
    by_rank = sorted(tries, key=lambda t: t.rank)
    holding = [t for t in by_rank if not t.stuck]
    still = [
        t for t in holding if not t.out_of_shape and t.measure <= STIFFER * holding[0].measure
    ]
    most = MOST_TRIMMED if holding else 1
    return [t for i, t in enumerate(still or holding or by_rank) if i < most or t.begun != t.start]


def _told(one: Attempt, final: ChosenRungs | None) -> Grown:
    """Tell of what was grown, as trimmed to a `final` choice if it was."""
    bracing, rack = one.bench.bracing, one.bench.rack(final) if final else one.rack
    return Grown(
        words=one.words,
        holds=not one.stuck,
        moves=one.out_of_shape,
        trimmed=final is not None,
        pipe=pipe_weight(rack, bracing),
        cost=cost(rack, bracing),
        burden=burden(rack, bracing),
    )


def _sized(
    described: Rack, chosen: Attempt, final: ChosenRungs, grown: tuple[Grown, ...], method: str
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
    return Sized(
        text=bench.written(final),
        rack=rack,
        result=full,
        stopped=stopped(bench, chosen.choice, chosen.stuck),
        uncovered=full.not_checked,
        bought=bought(bench, described, chosen.start, final, chosen.changes),
        method=f"{method} {NOT_ENOUGH if chosen.stuck else LIGHTEST}",
        steel=(pipe_weight(described, bracing), pipe_weight(rack, bracing)),
        cost=(cost(described, bracing), cost(rack, bracing)),
        grown=grown,
    )
