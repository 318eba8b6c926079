"""The lightest rack that holds: arrangements looked at, the nearest grown, the best trimmed.

An arrangement is a bracing, where the guys start, and one or two posts. Each is looked at once as
described; up to three are grown until every check passes (`frame/study/growth.py`); the lightest
or cheapest that holds is trimmed.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.errors import FrameError
from frame.rack.rack import Rack
from frame.study.arrangements import Arrangement, arrangements, picked, screened, short_of
from frame.study.bench import Bench, Choice, Failing, Tell, movement, put
from frame.study.checkers import CHECKERS
from frame.study.cost import burden, cost, pipe_weight
from frame.study.frames import solved_models, split
from frame.study.governing import Checker
from frame.study.growth import cuttable, grow, trim
from frame.study.gusts import survey
from frame.study.lowered import lowered
from frame.study.moves import verify
from frame.study.offered import ladders
from frame.study.results import BracingResult
from frame.study.share import result, steel_weight
from frame.study.stock import offer
from frame.study.weakest import Weakest

METHOD = (
    "Method: {looked} arrangements (bracing, where guys start, one or two posts) looked at once, "
    "{grown} of them grown; of these the {best} that holds (without undue sag or sway, if any is) "
    "trimmed: {ladders} things on ladders of {rungs} sizes, up where a check fails, then down one "
    "at a time; {tried} racks solved."
)
BY_WEIGHT, BY_PRICE = "lightest (each guy counted as 10 lb)", "cheapest by the file's prices"
LIGHTEST = (
    "It holds, and nothing in it can be one size weaker by itself. Two things changed together "
    "were not tried, nor the other arrangements trimmed, so a lighter rack may exist."
)
NOT_ENOUGH = (
    "Every size offered that helps what fails was taken: no proof that no other rack could hold."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What one change bought, made in this order: gusts [m/s] before and after, pipe added [N].

    `added_cost` in the file's currency, None without prices.
    """

    words: str
    limit_gust: tuple[float, float]
    let_go_gust: tuple[float, float]
    added_steel: float
    added_cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Grown:
    """An arrangement that was grown: `words`, whether it `holds`, its pipe [N] and cost then."""

    words: str
    holds: bool
    pipe: float
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """What the search found: the file's `text`, its `rack`, and its full `result`.

    `stuck`: what still fails where nothing holds, with its use, worst first (nan: not covered any
    more). `uncovered`: checks that no rule covers. `steel`: weight of pipe before and after [N];
    `cost` likewise, None without prices. `grown`: every arrangement grown, the one sized first.
    """

    text: str
    rack: Rack
    result: BracingResult
    stuck: tuple[tuple[str, float], ...]
    uncovered: tuple[str, ...]
    bought: tuple[Bought, ...]
    method: str
    steel: tuple[float, float]
    cost: tuple[float | None, float | None]
    grown: tuple[Grown, ...]

    @property
    def holds(self) -> bool:
        """Whether every check passes, by the same look at it that the comparison takes."""
        return not self.stuck and self.result.holds


def size(
    text: str,
    name: str,
    bracing: tuple[str, ...] | None,
    checkers: Sequence[Checker],
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
    stock = offer(rack, text, catalog=catalog)
    tell("looking at bracings, guys and posts")
    looked = screened(tuple(arrangements(rack, text, name, bracing)), checkers)
    tries: list[_Try] = []
    refused: FrameError | None = None
    for one in picked(looked, open_bracing=bracing is None):
        bench = Bench(
            text=edited(text, one.edits),
            name=name,
            bracing=one.bracing,
            checkers=checkers,
            ladders=ladders(one.rack, one.bracing, stock),
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
    chosen = tries[0]
    bench, final = chosen.bench, chosen.choice
    if not chosen.stuck:
        bench.allowed = (max(1.0, chosen.moved[0]), max(1.0, chosen.moved[1]))
        final = trim(bench, final)
    method = METHOD.format(
        looked=len(looked),
        grown=len(tries),
        best=BY_WEIGHT if rack.prices is None else BY_PRICE,
        ladders=len(bench.ladders),
        rungs=sum(len(x.rungs) for x in bench.ladders),
        tried=len(looked) + sum(t.bench.tried for t in tries),
    )
    return _sized(rack, chosen, final, tuple(t.told for t in tries), f"{method} {stock.words}")


@dataclass(frozen=True, kw_only=True)
class _Try:
    """An arrangement on its bench, grown to `choice` from `start`; what is `stuck` there."""

    bench: Bench
    arrangement: Arrangement
    start: Choice
    choice: Choice
    stuck: Failing

    @cached_property
    def rack(self) -> Rack:
        return self.bench.rack(self.choice)

    @cached_property
    def moved(self) -> tuple[float, float]:
        """Sag and sway over their limits [1]."""
        return movement(self.bench.blocks(self.rack))

    @property
    def rank(self) -> tuple[float, bool, float]:
        """What makes it better than another: nearer to holding, then still, then light."""
        short = max((short_of(use) for _, use in self.stuck), default=0.0)
        moves = not self.stuck and max(self.moved) > 1
        return short, moves, burden(self.rack, self.bench.bracing)

    @property
    def told(self) -> Grown:
        bracing = self.bench.bracing
        return Grown(
            words=self.arrangement.words,
            holds=not self.stuck,
            pipe=pipe_weight(self.rack, bracing),
            cost=cost(self.rack, bracing),
        )


def _grown(bench: Bench, arrangement: Arrangement) -> _Try:
    start = cuttable(bench, tuple(ladder.start for ladder in bench.ladders))
    choice, stuck = grow(bench, start)
    return _Try(bench=bench, arrangement=arrangement, start=start, choice=choice, stuck=stuck)


def _sized(
    described: Rack, chosen: _Try, final: Choice, grown: tuple[Grown, ...], method: str
) -> Sized:
    """Solve the sized rack in full and tell what each step bought."""
    bench = chosen.bench
    rack, bracing = bench.rack(final), bench.bracing
    bench.tell("solving the sized rack in full")
    found = solved_models(rack, bracing)
    code, _ = split(found)
    steel = steel_weight(code[0])
    rows = survey(found, CHECKERS)
    full = replace(result(code, rows, steel, steel), lowered=lowered(rack, bracing, found))
    return Sized(
        text=bench.written(final),
        rack=rack,
        result=full,
        stuck=chosen.stuck,
        uncovered=tuple(f"{r.part} ({r.check})" for r in full.rows if not r.covered),
        bought=tuple(_bought(described, chosen, final)),
        method=f"{method} {NOT_ENOUGH if chosen.stuck else LIGHTEST}",
        steel=(pipe_weight(described, bracing), pipe_weight(rack, bracing)),
        cost=(cost(described, bracing), cost(rack, bracing)),
        grown=grown,
    )


def _bought(described: Rack, chosen: _Try, final: Choice) -> Iterator[Bought]:
    """Make the changes one after the other, those that strengthen first, and solve after each.

    The arrangement comes first. A change that cannot stand without a later one is told with it.
    """
    bench, now = chosen.bench, chosen.start
    told = list(chosen.arrangement.changes)
    before = _solve(bench, described)
    start = now
    order = [i for i in range(len(final)) if final[i] != start[i]]
    order.sort(key=lambda i: final[i] < start[i])
    for i in (*((None,) if told else ()), *order):
        bench.tell("finding what each step bought")
        if i is not None:
            now = put(now, i, final[i])
            told.append(bench.ladders[i].rungs[final[i]].words)
        try:
            after = _solve(bench, bench.rack(now))
        except FrameError:
            continue
        yield Bought(
            words="; ".join(told),
            limit_gust=(before[0].limit_gust, after[0].limit_gust),
            let_go_gust=(before[0].let_go_gust, after[0].let_go_gust),
            added_steel=after[1] - before[1],
            added_cost=None if before[2] is None or after[2] is None else after[2] - before[2],
        )
        before, told = after, []


def _solve(bench: Bench, rack: Rack) -> tuple[Weakest, float, float | None]:
    """Solve the gusts; weight of pipe and cost."""
    found = verify(rack, bench.bracing, bench.checkers)
    return found, pipe_weight(rack, bench.bracing), cost(rack, bench.bracing)
