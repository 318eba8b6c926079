"""The plan: from the rack as it is, at each step the change that buys most for what it costs.

Greedy: every step is solved, but no two steps are weighed together, except where one alone buys
nothing since the next weakest part goes at nearly the same gust: then a second is tried on top.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.errors import FrameError
from frame.plan.offers import BRACING, MOVE, Offer, offers
from frame.plan.standing import Standing, glance, stand
from frame.rack.rack import Rack
from frame.study.cost import cost, pipe_weight
from frame.study.frames import Bracing
from frame.study.movement import worst_sag, worst_sway
from frame.study.survived import Learned
from frame.study.weakest import Weakest
from frame.units import LB

LEAST_GAIN = math.log(1.03)
"""Gain below which a step is not worth its trouble, as a rise of ln(gust)."""
MOST_STEPS = 8
SLOWEST = 1.0
"""Gust taken for still air where gains are weighed [m/s]."""
OVERHEAD = 15 * LB
"""What every step costs beside its own trouble, as a weight of steel [N] (judgement)."""
SLIP, MARGIN, MOVEMENT = 0.5, 0.5, 0.1
"""Weights of ln(gust) of the first slip and of the limit, and of movement over its limits, beside
ln(gust) of the first break [1] (judgement)."""
DEAR = 10.0
"""How much dearer digging or unloading makes a change where the rack stands [1] (judgement)."""
HOUR = 10 * LB
"""Weight of steel that an hour of work is taken to be worth [N] (judgement)."""
TOGETHER = 3
"""Changes that a second one is tried on top of."""


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step: what to `do` (more than one change where they only help together), and `after` it.

    `added_steel` [N], `added_cost` in the file's currency, None without prices.
    """

    do: tuple[str, ...]
    kind: str
    names: tuple[str, ...]
    after: Standing
    added_steel: float
    added_cost: float | None


@dataclass(frozen=True, kw_only=True)
class Plan:
    """Steps from `start`; `reached` the site's gust with the code's margin at the end.

    `left_out`: bracing described that no step took.
    """

    start: Standing
    steps: tuple[Step, ...]
    reached: bool
    left_out: tuple[str, ...]

    @property
    def end(self) -> Standing:
        """The rack after every step."""
        return self.steps[-1].after if self.steps else self.start


@dataclass(frozen=True, kw_only=True)
class Trial:
    """Changes tried: `made`, the `text` and `bracing` after them, what they gain and cost.

    `after` is None as long as the rack has only been looked at where it is weakest.
    """

    made: tuple[Offer, ...]
    text: str
    bracing: Bracing
    gain: float
    price: float
    after: Standing | None = None

    @property
    def score(self) -> float:
        """Gain for the price."""
        return self.gain / self.price


def make_plan(start: Standing, name: str, learned: Learned) -> Plan:
    """Take the best step until the site's gust is reached, or no step gains enough."""
    steps: list[Step] = []
    now = start
    while len(steps) < MOST_STEPS and not _done(now):
        best = _best(now, name, learned)
        if best is None or best.after is None:
            break
        steps.append(_step(now, best, best.after))
        now = best.after
    left = tuple(b for b in now.rack.bracing_names if b not in now.bracing)
    return Plan(start=start, steps=tuple(steps), reached=now.holds, left_out=left)


def _done(now: Standing) -> bool:
    return now.holds and not now.moves_too_far


def _best(now: Standing, name: str, learned: Learned) -> Trial | None:
    """Return the trial that gains most for its price; None where none gains enough.

    Trials are looked at where the rack is weakest, which can only flatter them; the best is then
    solved in full, until one stands at the head that is.
    """
    tried = list(_trials(now, (), now, name))
    best = _solved(tried, now, name, learned)
    if best is not None:
        return best
    near = sorted(tried, key=lambda t: -t.gain)[:TOGETHER]
    both: list[Trial] = []
    for first in near:
        after = _full(first, now, name, learned).after
        if after is not None:
            both += _trials(after, first.made, now, name)
    return _solved(both, now, name, learned)


def _solved(tried: Sequence[Trial], now: Standing, name: str, learned: Learned) -> Trial | None:
    """Return the best of some trials, solved in full; None where none gains enough."""
    left = [t for t in tried if t.gain > LEAST_GAIN]
    while left:
        best = max(left, key=lambda t: t.score)
        if best.after is not None:
            return best
        left.remove(best)
        full = _full(best, now, name, learned)
        if full.after is not None and full.gain > LEAST_GAIN:
            left.append(full)
    return None


def _full(trial: Trial, now: Standing, name: str, learned: Learned) -> Trial:
    """Solve a trial in full; without an `after` where it cannot stand."""
    try:
        after = stand(trial.text, name, trial.bracing, learned, now.blocks)
    except FrameError:
        return trial
    return replace(trial, after=after, gain=worth(after) - worth(now))


def _trials(at: Standing, made: tuple[Offer, ...], since: Standing, name: str) -> Iterator[Trial]:
    """Look at every change that answers what is weakest `at` a standing; gains from `since`."""
    weak = _weakest(at)
    for one in offers(at.rack, at.bracing, at.text):
        if not one.answers(weak):
            continue
        try:
            text = edited(at.text, one.edits) if one.edits else at.text
            rack = parse_rack(text, name) if one.edits else at.rack
            fitted = (*at.bracing, *one.fits)
            bracing = tuple(b for b in rack.bracing_names if b in fitted)
            found, code = glance(rack, bracing, at.places, at.blocks)
        except FrameError:
            continue
        moved = (worst_sag(code).use, worst_sway(code).use) if code else (0.0, 0.0)
        gain = _worth(rack, found, moved) - worth(since)
        price = _price(since, rack, bracing, (*made, one))
        yield Trial(made=(*made, one), text=text, bracing=bracing, gain=gain, price=price)


def _weakest(at: Standing) -> tuple[str, ...]:
    """Name what goes first of each kind below the site's gust, and what limits the margin."""
    most, limit = at.rack.site.map_gust, at.weakest.limit
    going = [f"{g.part}: {g.check}" for g in at.weakest.going if g.gust < most]
    return (*going, f"{limit.part}: {limit.check}")


def worth(at: Standing) -> float:
    """Tell how good a rack is: logarithms of its gusts, none counted beyond the site's [1]."""
    return _worth(at.rack, at.weakest, (at.sag.use, at.sway.use))


def _worth(rack: Rack, found: Weakest, moved: tuple[float, float]) -> float:
    most = rack.site.map_gust

    def height(gust: float) -> float:
        return math.log(min(max(gust, SLOWEST), most) / SLOWEST)

    first_break = found.first_break.gust if found.first_break else math.inf
    slip = min(found.first_slip.gust if found.first_slip else math.inf, first_break)
    over = sum(min(max(use - 1.0, 0.0), 3.0) for use in moved)
    gusts = height(first_break) + SLIP * height(slip) + MARGIN * height(found.limit_gust)
    return gusts - MOVEMENT * over


def _price(before: Standing, rack: Rack, bracing: Bracing, made: Sequence[Offer]) -> float:
    """Money that changes cost, without prices the steel and work as a weight [N]."""
    stands = before.rack.stands
    work = sum(o.work * (DEAR if stands and (o.digs or o.unloads) else 1.0) for o in made)
    work += OVERHEAD * len(made)
    prices, after = before.rack.prices, cost(rack, bracing)
    if prices is None or before.cost is None or after is None:
        return max(pipe_weight(rack, bracing) - before.steel + work, LB)
    return max(after - before.cost + prices.work * work / HOUR, 1e-3 * max(after, 1.0))


def _step(before: Standing, best: Trial, after: Standing) -> Step:
    costs = before.cost, after.cost
    added = None if costs[0] is None or costs[1] is None else costs[1] - costs[0]
    return Step(
        do=tuple(o.do for o in best.made),
        kind=BRACING if any(o.kind == BRACING for o in best.made) else MOVE,
        names=tuple(name for o in best.made for name in o.fits),
        after=after,
        added_steel=after.steel - before.steel,
        added_cost=added,
    )
