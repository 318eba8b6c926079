"""The plan: from the rack as it is, at each step the change that buys most for what it costs.

Greedy: every step is solved, but no two steps are weighed together, except where one alone buys
nothing since the next weakest part goes at nearly the same gust: then more are tried on top, one
by one, the cheapest that is good for the site, else by what they gain whatever they cost.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from frame.plan.offers import Offer
from frame.plan.standing import FURTHER, Asked, Standing, light, stand
from frame.plan.steps import PlanStep, joined, step_to, steps_through, tidied, with_meanwhile
from frame.plan.trials import Made, Trial, full, settled, trials
from frame.plan.worth import BEYOND

MOST_STEPS = 24
MOST_FURTHER = 3
"""Sizes taken further at most after the last step."""
LONGEST = 10
"""Most changes tried one on top of the other, a size after another counted too."""
MOST_SOLVED = 4
"""Trials of one step that are solved in full at most."""
MOST_CURES = 2
"""Changes tried on top of bracing that alone gains nothing."""


@dataclass(frozen=True, kw_only=True)
class Plan:
    """Steps from `start`, light; `reached` the site's gust with the code's margin at the end.

    `left_out`: bracing described that no step took. `cut_short`: more steps might have gained
    more, but were not tried.
    """

    start: Standing
    steps: tuple[PlanStep, ...]
    reached: bool
    left_out: tuple[str, ...]
    cut_short: bool = False

    def __repr__(self) -> str:
        """Tell the steps in words, and whether they reach the site's gust."""
        steps = [" and ".join(step.do) for step in self.steps]
        return f"Plan({steps}, {'reaches' if self.reached else 'falls short'})"

    @property
    def end(self) -> Standing:
        """The rack after every step, without the blocks it was solved on."""
        return self.steps[-1].after if self.steps else self.start


def make_plan(start: Standing, asked: Asked) -> tuple[Plan, Standing]:
    """Take the best step until the site's gust is reached, or no step gains enough.

    And what it then stands, solved afresh: on the way shapes to buckle in are carried from rack
    to rack.
    """
    quick = replace(asked, ranged=False)
    steps, end, cut_short = _climbed(start, [], start, quick)
    first = steps
    kept, end = tidied(start, steps, end, quick)
    if _fitted(kept) < _fitted(steps) and not end.holds:
        # Without bracing that is not needed, what limits is mended once more.
        steps, end, cut_short = _climbed(start, kept, end, quick)
        kept, end = tidied(start, steps, end, quick)
    kept = with_meanwhile(joined(kept, start.rack), first, start.rack)
    if kept:
        end = _afresh(end, asked)
        last = replace(kept[-1], after=light(end))
        kept = [*(_ranged(kept[:-1], asked) if asked.ranged else kept[:-1]), last]
    left = tuple(b for b in end.rack.bracing_names if b not in end.bracing)
    plan = Plan(
        start=light(start),
        steps=tuple(kept),
        reached=end.holds,
        left_out=left,
        cut_short=cut_short,
    )
    return plan, end


def _ranged(steps: Sequence[PlanStep], asked: Asked) -> list[PlanStep]:
    return [replace(step, after=light(_afresh(step.after, asked))) for step in steps]


def _afresh(at: Standing, asked: Asked) -> Standing:
    return stand(at.text, at.bracing, asked, near=FURTHER * at.limit_gust)


def _fitted(steps: Sequence[PlanStep]) -> int:
    return sum(len(step.names) for step in steps)


def _climbed(
    start: Standing, taken: Sequence[PlanStep], reached: Standing, asked: Asked
) -> tuple[list[PlanStep], Standing, bool]:
    """Go on from what steps taken have `reached` until no step gains enough.

    The steps, what they reach, and whether that was cut short.
    """
    steps, now, vain = list(taken), reached, frozenset[Made]()
    while len(steps) < MOST_STEPS and not _done(now):
        best, more = _best(now, asked, vain)
        vain |= more
        if best is None or best.after is None:
            break
        through = (*best.through, *(best.after for _ in best.made[len(best.through) :]))
        steps += steps_through(now, best.made, through)
        now = best.after
    cut_short = len(steps) >= MOST_STEPS and not _done(now)
    if cut_short and not now.holds:
        further, now = _further(now, steps, asked)
        steps += further
    return steps, now, cut_short


def _further(
    now: Standing, steps: Sequence[PlanStep], asked: Asked
) -> tuple[list[PlanStep], Standing]:
    """Take sizes of the plan further where that puts off what breaks first: no step more."""
    found: list[PlanStep] = []
    known = {key for step in steps for one in step.made for key in one.edits}
    for _ in range(MOST_FURTHER):
        looked = trials(now, (), now, asked, code=False, within=BEYOND)
        best, _vain = _solved([t for t in looked if set(t.made[0].edits) & known], now, asked)
        if best is None or best.after is None:
            break
        found.append(step_to(now, best.made, best.after))
        now = best.after
    return found, now


def _done(now: Standing) -> bool:
    return now.holds and not now.moves_too_far


def _best(
    now: Standing, asked: Asked, vain: frozenset[Made]
) -> tuple[Trial | None, frozenset[Made]]:
    """Return the trial that gains most for its price, None where none gains enough.

    By what is expected to go first; where that gains nothing any more, by the code's margin; then
    what was in `vain` at an earlier step; then bracing with what it takes, and several changes
    together; last by what breaks first though not at the site's gust, for the rack has not the
    code's margin there. And what was in vain now.
    """
    models = (False,) if now.holds else (False, True)
    looked: dict[bool, list[Trial]] = {}
    failed = frozenset[Made]()
    for again in (False, True) if vain else (False,):
        for code in models:
            if code not in looked:
                looked[code] = list(trials(now, (), now, asked, code=code))
            tried = [t for t in looked[code] if (t.do in vain) is again]
            best, more = _solved(tried, now, asked)
            failed |= more
            if best is not None:
                return best, failed
    best = _braced(now, [t for code in models for t in looked[code]], asked)
    chains = (_chain(now, looked[code], asked, code=code) for code in reversed(models))
    best = best or next((chain for chain in chains if chain), None)
    if best is None and not now.holds:
        later = list(trials(now, (), now, asked, code=False, within=BEYOND))
        best, _ = _solved(later, now, asked)
    return best, failed


def _chain(now: Standing, looked: Sequence[Trial], asked: Asked, *, code: bool) -> Trial | None:
    """Return changes that only help together: what is weakest is mended until enough is gained.

    The first is of those `looked` at already; it may gain nothing where it is good for the site,
    for what then limits is mended next.
    """
    at, made, through = now, tuple[Offer, ...](), tuple[Standing, ...]()
    for _ in range(LONGEST):
        # Bracing alone and what it takes have been tried before, see `_braced`.
        first = (t for t in looked if not t.made[0].fits)
        tried = list(first if at is now else trials(at, made, now, asked, code=code))
        best = _next(tried)
        if best is None:
            return None
        solved = full(settled(best, at, now, asked), now, asked)
        if solved.after is None or solved.enough:
            return replace(solved, through=through) if solved.after else None
        at, made, through = solved.after, solved.made, (*through, light(solved.after))
    return None


def _solved(
    tried: Sequence[Trial], now: Standing, asked: Asked
) -> tuple[Trial | None, frozenset[Made]]:
    """Return the best of some trials, solved in full, None where none gains enough.

    Trials are looked at where the rack is weakest, which can only flatter them; the best is then
    solved in full, until one stands at the head that is, or `MOST_SOLVED` were in vain. And which
    were.
    """
    left = [t for t in tried if t.enough]
    vain: list[Made] = []
    count = 0
    while left and count < MOST_SOLVED:
        best = max(left, key=lambda t: t.score)
        if best.after is not None:
            return best, frozenset(vain)
        left.remove(best)
        solved, count = full(settled(best, now, now, asked), now, asked), count + 1
        if solved.gains:
            left.append(solved)
        else:
            vain.append(best.do)
    done = [t for t in left if t.after]
    return max(done, key=lambda t: t.score, default=None), frozenset(vain)


def _braced(now: Standing, looked: Sequence[Trial], asked: Asked) -> Trial | None:
    """Fit bracing with a cure of what goes then: guys no better than their anchors are in vain.

    Cured is the code's margin where that fell or is not covered, else what breaks or slips first.
    """
    for fitted in {t.do: t for t in looked if t.made[0].fits and t.gain > 0}.values():
        solved = full(fitted, now, asked)
        for _ in range(MOST_CURES):
            at = solved.after
            if solved.gains or at is None:
                break
            code = at.limit_gust < now.limit_gust or not at.uncovered <= now.uncovered
            cures = [
                t for t in trials(at, solved.made, now, asked, code=code) if not t.made[-1].fits
            ]
            best = max(cures, key=_most_gain, default=None)
            if best is None:
                break
            through = (*solved.through, light(at))
            solved = full(replace(settled(best, at, now, asked), through=through), now, asked)
        if solved.gains:
            return solved
    return None


def _next(tried: Sequence[Trial]) -> Trial | None:
    """Return the cheapest of what is good for the site, else what gains most.

    Where nothing gains, since the next weakest goes at the same gust, what relieves most.
    """
    serving = [t for t in tried if t.serves]
    if serving:
        return min(serving, key=lambda t: t.price)
    gaining = [t for t in tried if t.gain > 0]
    if gaining:
        return max(gaining, key=_most_gain)
    return max((t for t in tried if t.relieves), key=lambda t: t.found.relieved, default=None)


def _most_gain(trial: Trial) -> tuple[float, float]:
    return round(trial.gain, 4), -trial.price
