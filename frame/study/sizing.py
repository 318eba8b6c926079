"""The lightest rack that holds: grown until every check passes, then trimmed size by size.

Grow: where a check fails, the ladders that help it go up, until all pass or no rung is left. Trim:
every ladder goes down as long as all still pass, again and again until none can. So the result
holds, and nothing in it can be one size weaker by itself; two sizes changed together are not
tried, but for the place of the knees, of which every one of a grid is.
"""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from frame.casefile.read import parse_rack
from frame.errors import FrameError
from frame.rack.rack import Rack
from frame.study.bench import Bench, Choice, Tell, all_uses, holds, movement, put
from frame.study.cost import cost, pipe_weight
from frame.study.governing import Checker
from frame.study.moves import verify
from frame.study.offered import ladders
from frame.study.results import BracingResult
from frame.study.share import result, steel_weight
from frame.study.stock import offer
from frame.study.weakest import Weakest

ROUNDS = 40
FAR = 3.0
"""Use from which a ladder goes up two rungs at once [1]."""
METHOD = (
    "Method: {ladders} things on ladders of {rungs} sizes, grown where a check fails, then "
    "trimmed one at a time; {tried} racks solved."
)
LIGHTEST = (
    "It holds, and nothing in it can be one size weaker by itself. Two things changed together "
    "were not tried, so a lighter rack may exist."
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
class Sized:
    """What the search found: the file's `text`, its `rack`, and its full `result`.

    `stuck`: what still fails where nothing holds, with its use, worst first (nan: not covered any
    more). `uncovered`: checks that no rule covers. `steel`: weight of pipe before and after [N];
    `cost` likewise, None without prices.
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

    @property
    def holds(self) -> bool:
        """Whether every check passes, by the same look at it that the comparison takes."""
        return not self.stuck and self.result.holds


def size(
    text: str,
    name: str,
    bracing: tuple[str, ...],
    checkers: Sequence[Checker],
    tell: Tell = lambda _: None,
    *,
    catalog: bool = False,
) -> Sized:
    """Size the rack file `text`, called `name`, for one bracing; `tell` hears of every step.

    Pipe and wire come from the stock of the file, if it lists any, and from the catalog too where
    `catalog` says so.
    """
    rack = parse_rack(text, name)
    stock = offer(rack, text, catalog=catalog)
    bench = Bench(
        text=text,
        name=name,
        bracing=bracing,
        checkers=checkers,
        ladders=ladders(rack, bracing, stock),
        limited=stock.limited,
        tell=tell,
    )
    start = cuttable(bench, tuple(ladder.start for ladder in bench.ladders))
    final, stuck = grow(bench, start)
    if not stuck:
        moved = movement(bench.blocks(bench.rack(final)))
        bench.allowed = (max(1.0, moved[0]), max(1.0, moved[1]))
        final = trim(bench, final)
    sized = bench.rack(final)
    tell("solving the sized rack in full")
    found = bench.blocks(sized)
    steel = steel_weight(found[0])
    full = result(found, steel, steel)
    method = METHOD.format(
        ladders=len(bench.ladders),
        rungs=sum(len(x.rungs) for x in bench.ladders),
        tried=bench.tried,
    )
    return Sized(
        text=bench.written(final),
        rack=sized,
        result=full,
        stuck=stuck,
        uncovered=tuple(f"{r.part} ({r.check})" for r in full.rows if not r.covered),
        bought=tuple(_bought(bench, start, final)),
        method=f"{method} {stock.words} {NOT_ENOUGH if stuck else LIGHTEST}",
        steel=(pipe_weight(rack, bracing), pipe_weight(sized, bracing)),
        cost=(cost(rack, bracing), cost(sized, bracing)),
    )


def cuttable(bench: Bench, choice: Choice) -> Choice:
    """Change pipes that the stock is too short for, until what is described can be cut.

    Raises
    ------
    FrameError
        Where no pipe at hand is long enough.
    """
    try:
        bench.rack(choice)
    except FrameError:
        for i, ladder in enumerate(bench.ladders):
            for rung in range(len(ladder.rungs)):
                trial = put(choice, i, rung)
                try:
                    bench.rack(trial)
                except FrameError:
                    continue
                return trial
        raise
    return choice


def grow(bench: Bench, choice: Choice) -> tuple[Choice, tuple[tuple[str, float], ...]]:
    """Go up where checks fail; return what still fails when nothing helps, worst first.

    A check that no rule covers any more, though it was covered as described, fails: use nan.
    """
    failing: dict[str, float] = {}
    shut: set[tuple[int, int]] = set()
    for turn in range(ROUNDS):
        bench.tell("growing where checks fail")
        bench.tried += 1
        uses, gaps = all_uses(bench, bench.blocks(bench.rack(choice)))
        bench.gaps = bench.gaps if turn else gaps
        failing = {name: use for name, use in uses.items() if not use <= 1.0}
        failing.update(dict.fromkeys(gaps - bench.gaps, math.nan))
        if not failing:
            return choice, ()
        raised = _raised(bench, choice, failing, shut)
        if raised == choice:
            break
        choice = raised
    worst = sorted(failing.items(), key=lambda item: -np.nan_to_num(item[1], nan=np.inf))
    return choice, tuple(worst)


def _raised(
    bench: Bench, choice: Choice, failing: dict[str, float], shut: set[tuple[int, int]]
) -> Choice:
    """Raise, for every failing check, the ladder that helps it and has climbed least."""
    up: dict[int, int] = {}
    for name, use in failing.items():
        helping = [
            i
            for i, ladder in enumerate(bench.ladders)
            if plain(name).startswith(ladder.helps)
            and choice[i] + 1 < len(ladder.rungs)
            and (i, choice[i] + 1) not in shut
        ]
        if helping:
            least = min(helping, key=lambda i: choice[i] - bench.ladders[i].start)
            up[least] = max(up.get(least, 1), 2 if use > FAR else 1)
    for i, steps in up.items():
        trial = put(choice, i, min(choice[i] + steps, len(bench.ladders[i].rungs) - 1))
        try:
            bench.rack(trial)
        except FrameError:
            shut.add((i, choice[i] + 1))
            continue
        choice = trial
    return choice


def plain(name: str) -> str:
    """Leave the numbers of posts and sleeves out of a part's name."""
    return re.sub(r"\b(post|sleeve|knee) \d+", r"\1", name)


def trim(bench: Bench, choice: Choice) -> Choice:
    """Go down every ladder while all checks pass, until no ladder can; whole ones only once."""
    settled: Choice = ()
    while settled != choice:
        first, settled = not settled, choice
        for i, ladder in enumerate(bench.ladders):
            if ladder.whole and first:
                choice = _lightest(bench, choice, i)
            while choice[i] > 0 and not ladder.whole:
                bench.tell(f"trimming: {ladder.name}")
                if not holds(bench, put(choice, i, choice[i] - 1)):
                    break
                choice = put(choice, i, choice[i] - 1)
    return choice


def _lightest(bench: Bench, choice: Choice, i: int) -> Choice:
    """Try every rung of one ladder under the present one, from the lightest."""
    for rung in range(choice[i]):
        bench.tell(f"trimming: {bench.ladders[i].name}")
        if holds(bench, put(choice, i, rung)):
            return put(choice, i, rung)
    return choice


def _bought(bench: Bench, start: Choice, final: Choice) -> Iterator[Bought]:
    """Make the changes one after the other, those that strengthen first, and solve after each.

    A change that cannot stand without a later one is told together with it.
    """
    now, told = start, []
    before = _solve(bench, bench.rack(now))
    changed = [i for i in range(len(final)) if final[i] != start[i]]
    for i in sorted(changed, key=lambda i: final[i] < start[i]):
        bench.tell("finding what each step bought")
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
