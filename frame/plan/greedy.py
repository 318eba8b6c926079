"""The plan: from the rack as it is, at each step the change that buys most for what it costs.

Greedy: every step is solved, but no two steps are weighed together, except where one alone buys
nothing since the next weakest part goes at nearly the same gust: then a second is tried on top.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.errors import FrameError
from frame.gusts.survived import Learned
from frame.plan.glance import before, glance
from frame.plan.offers import BRACING, MOVE, Offer, offers
from frame.plan.price import price_of
from frame.plan.standing import Standing, stand
from frame.plan.worth import better, value, worth
from frame.solved.frames import Bracing

MOST_STEPS = 8
THINNER = 1e-3
"""How much thinner a post may come out [m] before its sleeve no longer fits (judgement)."""
LONGEST = 4
"""Most changes taken together."""
MOST_SOLVED = 4
"""Trials of one step that are solved in full at most."""


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step: what is `made` (more than one change where they only help together), and `after`.

    `added_steel` [N], `added_cost` in the file's currency, None without prices.
    """

    made: tuple[Offer, ...]
    after: Standing
    added_steel: float
    added_cost: float | None

    @property
    def do(self) -> tuple[str, ...]:
        """What to do, in words."""
        return tuple(o.do for o in self.made)

    @property
    def kind(self) -> str:
        """Whether it fits bracing or changes something else."""
        return BRACING if self.names else MOVE

    @property
    def names(self) -> tuple[str, ...]:
        """Bracing it fits."""
        return tuple(name for o in self.made for name in o.fits)


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
    enough: bool
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
        steps.append(_step(now, best.made, best.after))
        now = best.after
    steps = _tidied(start, steps, name, learned)
    now = steps[-1].after if steps else start
    left = tuple(b for b in now.rack.bracing_names if b not in now.bracing)
    return Plan(start=start, steps=tuple(steps), reached=now.holds, left_out=left)


def _done(now: Standing) -> bool:
    return now.holds and not now.moves_too_far


def _best(now: Standing, name: str, learned: Learned) -> Trial | None:
    """Return the trial that gains most for its price; None where none gains enough.

    By what is expected to go first; where that gains nothing any more, by the code's margin; then
    by several changes together.
    """
    models = (False,) if now.holds else (False, True)
    for code in models:
        tried = list(_trials(now, (), now, name, code=code))
        best = _solved(tried, now, name, learned)
        if best is not None:
            return best
    chains = (_chain(now, name, learned, code=code) for code in reversed(models))
    return next((chain for chain in chains if chain), None)


def _chain(now: Standing, name: str, learned: Learned, *, code: bool) -> Trial | None:
    """Return changes that only help together: what is weakest is mended until enough is gained."""
    at, made = now, tuple[Offer, ...]()
    for _ in range(LONGEST):
        tried = [t for t in _trials(at, made, now, name, code=code) if t.gain > 0]
        if not tried:
            return None
        full = _full(max(tried, key=lambda t: (round(t.gain, 4), -t.price)), now, name, learned)
        if full.after is None or full.enough:
            return full if full.after else None
        at, made = full.after, full.made
    return None


def _solved(tried: Sequence[Trial], now: Standing, name: str, learned: Learned) -> Trial | None:
    """Return the best of some trials, solved in full; None where none gains enough.

    Trials are looked at where the rack is weakest, which can only flatter them; the best is then
    solved in full, until one stands at the head that is, or `MOST_SOLVED` were in vain.
    """
    left = [t for t in tried if t.enough]
    solved = 0
    while left and solved < MOST_SOLVED:
        best = max(left, key=lambda t: t.score)
        if best.after is not None:
            return best
        left.remove(best)
        full, solved = _full(best, now, name, learned), solved + 1
        if full.after is not None and full.enough:
            left.append(full)
    return max((t for t in left if t.after), key=lambda t: t.score, default=None)


def _full(trial: Trial, now: Standing, name: str, learned: Learned) -> Trial:
    """Solve a trial in full; without an `after` where it cannot stand."""
    try:
        after = stand(trial.text, name, trial.bracing, learned, now.blocks)
    except FrameError:
        return trial
    enough = better(now.rack, before(now), before(after))
    return replace(trial, after=after, gain=worth(after) - worth(now), enough=enough)


def _trials(
    at: Standing, made: tuple[Offer, ...], since: Standing, name: str, *, code: bool
) -> Iterator[Trial]:
    """Look at every change that answers what is weakest `at` a standing; gains from `since`."""
    weak = _weakest(at, code=code)
    for one in offers(at.rack, at.bracing, at.text):
        if not one.answers(weak):
            continue
        try:
            text = edited(at.text, one.edits) if one.edits else at.text
            rack = parse_rack(text, name) if one.edits else at.rack
            fitted = (*at.bracing, *one.fits)
            bracing = tuple(b for b in rack.bracing_names if b in fitted)
            if rack.posts.pipe.od < at.rack.posts.pipe.od - THINNER:
                continue
            found = glance(at, rack, bracing, code=code)
        except FrameError:
            continue
        was, both = before(since), (*made, one)
        yield Trial(
            made=both,
            text=text,
            bracing=bracing,
            gain=value(rack, found) - value(rack, was),
            price=price_of(since, rack, bracing, both),
            enough=better(rack, was, found),
        )


def _weakest(at: Standing, *, code: bool) -> tuple[str, ...]:
    """Name what limits the code's margin, or what goes first of slips and of breaks."""
    if code:
        return (f"{at.weakest.limit.part}: {at.weakest.limit.check}",)
    most = at.rack.site.map_gust
    going = (at.first_slip, at.first_break)
    return tuple(f"{g.part}: {g.check}" for g in going if g and g.gust < most)


def _tidied(start: Standing, steps: list[Step], name: str, learned: Learned) -> list[Step]:
    """Take at once the last of several sizes that steps went through, and solve again."""
    groups = [step.made for step in steps]
    kept: list[tuple[Offer, ...]] = []
    for i, made in enumerate(groups):
        later = [o for group in groups[i + 1 :] for o in group]
        earlier = [o for group in groups[:i] for o in group]
        fresh = [o for o in made if not any(_same(o, e) for e in earlier)]
        last = tuple(_last(o, later) for o in fresh)
        if last:
            kept.append(last)
    if kept == groups:
        return steps
    tidied, now = [], start
    for i, made in enumerate(kept):
        if kept[: i + 1] == groups[: i + 1]:
            tidied.append(steps[i])
            now = steps[i].after
            continue
        try:
            after = _after(now, made, name, learned)
        except FrameError:
            return steps
        tidied.append(_step(now, made, after))
        now = after
    return tidied


def _last(one: Offer, later: Sequence[Offer]) -> Offer:
    """Return the last change of the same thing, with what the ones before it set beside it."""
    edits = dict(one.edits)
    for other in later:
        if _same(one, other):
            one = other
            edits.update(other.edits)
    return replace(one, edits=edits)


def _same(one: Offer, other: Offer) -> bool:
    """Whether two changes set the same thing."""
    return bool(set(one.edits) & set(other.edits))


def _after(now: Standing, made: Sequence[Offer], name: str, learned: Learned) -> Standing:
    text = now.text
    for one in made:
        text = edited(text, one.edits) if one.edits else text
    fitted = (*now.bracing, *(name for o in made for name in o.fits))
    bracing = tuple(b for b in now.rack.bracing_names if b in fitted)
    return stand(text, name, bracing, learned, now.blocks)


def _step(before: Standing, made: tuple[Offer, ...], after: Standing) -> Step:
    costs = before.cost, after.cost
    added = None if costs[0] is None or costs[1] is None else costs[1] - costs[0]
    return Step(
        made=made,
        after=after,
        added_steel=after.steel - before.steel,
        added_cost=added,
    )
