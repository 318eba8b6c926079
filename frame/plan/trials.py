"""Changes tried on a rack: looked at where it is weakest, or solved in full."""

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.errors import FrameError
from frame.named.aim import Key
from frame.plan.glance import Glance, before, glance
from frame.plan.offers import Offer, offers
from frame.plan.price import price_of
from frame.plan.standing import Asked, Standing, stand_like
from frame.plan.steps import last_sizes
from frame.plan.worth import LEAST_RISE, as_good, better, value, worth
from frame.solved.frames import Bracing

Made = tuple[str, ...]
FLATTERED = 1.03
"""Limit gust looked for first over that of a look by the code [1]: seldom exceeded."""
THINNER = 1e-3
"""How much thinner a post may come out [m] before its sleeve no longer fits (judgement)."""


@dataclass(frozen=True, kw_only=True)
class Trial:
    """Changes tried: `made`, the `text` and `bracing` after them, what they gain and cost.

    Gusts as `found` where the rack is weakest, `larger`: sizes above the last of the changes;
    `relieves`: whether the weakest that it strengthens goes later, though another goes first.
    `after` is None as long as it has only been looked at there; `through`: the standings after
    each of several changes but the last.
    """

    made: tuple[Offer, ...]
    text: str
    bracing: Bracing
    gain: float
    price: float
    enough: bool
    found: Glance
    relieves: bool = False
    larger: tuple[Offer, ...] = ()
    after: Standing | None = None
    through: tuple[Standing, ...] = ()

    @property
    def do(self) -> Made:
        """What is done, in words."""
        return tuple(o.do for o in self.made)

    @property
    def score(self) -> float:
        """Gain for the price."""
        return self.gain / self.price

    @property
    def vain(self) -> bool:
        """Whether it gains nothing, nor would with what then limits mended too."""
        return self.gain <= 0 and not self.serves and not self.relieves

    @property
    def gains(self) -> bool:
        """Whether it gains enough, solved in full."""
        return self.after is not None and self.enough and self.gain > 0

    @property
    def serves(self) -> bool:
        """Whether the thing changed is then good for the site's gust."""
        return self.found.serves


def full(trial: Trial, now: Standing, asked: Asked) -> Trial:
    """Solve a trial in full; without an `after` where it cannot stand."""
    try:
        seen = trial.found.limit
        # What was not looked at by the code is as it was.
        near = FLATTERED * seen if seen != now.limit_gust else None
        after = stand_like(now, trial.text, trial.bracing, asked, near=near)
    except FrameError:
        return trial
    enough = better(now.rack, before(now), before(after), _changes(trial.made))
    return replace(trial, after=after, gain=worth(after) - worth(now), enough=enough)


def trials(
    at: Standing,
    made: tuple[Offer, ...],
    since: Standing,
    asked: Asked,
    *,
    code: bool,
    within: float = 1.0,
) -> Iterator[Trial]:
    """Look at every change that answers what is weakest `at` a standing; gains from `since`.

    What goes first is weak `within` so many times the site's gust. Of the sizes of a thing, see
    `_sizes`.
    """
    weak = _weakest(at, within * at.rack.site.map_gust, code=code)

    def look(one: Offer) -> Trial | None:
        return _trial(at, (*made, one), since, asked, code=code)

    def alike(smaller: Trial, larger: Trial) -> bool:
        return as_good(at.rack, before(since), smaller.found, larger.found)

    for sizes in offers(at.rack, at.bracing, at.text):
        open_to = [one for one in sizes if asked.fitted or not one.fits]
        answering = [one for one in open_to if one.answers(weak)]
        found = _sizes(answering, look, alike) if answering else None
        if found:
            yield found


def _sizes(
    sizes: Sequence[Offer],
    look: Callable[[Offer], Trial | None],
    as_good: Callable[[Trial, Trial], bool],
) -> Trial | None:
    """Look at the sizes of one thing, weakest first, and return the smallest that is enough.

    The smallest that is good for the site's gust, where one is: a size that is too small again a
    few steps later is no step. Else the smallest as good as the largest: from there on another
    part limits. None where even the largest is in vain, or every pipe and channel is. What is
    enough is taken to stay enough in larger sizes.
    """
    left = list(sizes)
    top = look(left.pop())
    # What is far larger is not stronger everywhere: a wide sleeve dents a narrow beam, on deep
    # rails the panels have a longer arm.
    while left and (top is None or (top.vain and _section(sizes[0]))):
        top = look(left.pop())
    if top is None or top.vain:
        return None
    best = top

    def enough(one: Offer) -> bool:
        nonlocal best
        trial = look(one)
        found = trial is not None and _as_far(trial, top, as_good)
        best = trial if trial and found else best
        return found

    first = bisect_left(left, True, key=enough)
    return replace(best, larger=tuple(sizes[first + 1 :]))


def _as_far(trial: Trial, top: Trial, as_good: Callable[[Trial, Trial], bool]) -> bool:
    """Whether a size is good for the site where the largest is, else as good as that."""
    if top.serves:
        return trial.serves
    if top.gain > 0:
        return as_good(trial, top)
    return trial.relieves and trial.found.relieved * LEAST_RISE >= top.found.relieved


def _section(one: Offer) -> bool:
    return any(key in ("pipe", "channel") for _, key in one.edits)


def settled(trial: Trial, at: Standing, since: Standing, asked: Asked) -> Trial:
    """Take a size on to the smallest that has the code's margin at the site's gust, where one has.

    What is only good for what is expected there is too small again a few steps later. No size that
    gains less, for a part far too large brings down what it joins. The trial's
    last change is made `at` a standing, its gains are those `since` another.
    """

    def look(one: Offer, *, code: bool) -> Trial | None:
        return _trial(at, (*trial.made[:-1], one), since, asked, code=code)

    def serves(one: Offer) -> bool:
        found = look(one, code=True)
        return found is not None and found.serves

    sizes = (trial.made[-1], *trial.larger)
    if not trial.larger or not trial.made[-1].helps or serves(sizes[0]) or not serves(sizes[-1]):
        return trial
    size = bisect_left(sizes, True, lo=1, hi=len(sizes) - 1, key=serves)
    larger = look(sizes[size], code=False)
    if larger is None or larger.gain < trial.gain - math.log(LEAST_RISE):
        return trial
    return replace(larger, larger=sizes[size + 1 :])


def _trial(
    at: Standing, made: tuple[Offer, ...], since: Standing, asked: Asked, *, code: bool
) -> Trial | None:
    """Look at the last of the changes `made` since a standing; None where it cannot be made."""
    one = made[-1]
    try:
        text = edited(at.text, one.edits) if one.edits else at.text
        rack = parse_rack(text, asked.name) if one.edits else at.rack
        fitted = (*at.bracing, *one.fits)
        bracing = tuple(b for b in rack.bracing_names if b in fitted)
        if rack.posts.pipe.od < at.rack.posts.pipe.od - THINNER:
            return None
        found = glance(at, rack, bracing, one.helps, code=code)
    except FrameError:
        return None
    was = before(since)
    return Trial(
        made=made,
        text=text,
        bracing=bracing,
        gain=value(rack, found) - value(rack, was),
        price=price_of(since, rack, bracing, made),
        enough=better(rack, was, found, _changes(made)),
        found=found,
        relieves=found.relieved > LEAST_RISE * _answered(at, one, code=code),
    )


def _changes(made: Sequence[Offer]) -> int:
    """Count changes: a thing that is taken through several sizes is one."""
    return sum(map(len, last_sizes([tuple(made)])))


def _answered(at: Standing, one: Offer, *, code: bool) -> float:
    """Gust [m/s] at which the first of what is weakest goes that a change answers."""
    going = [(g.key, g.gust) for g in (at.first_slip, at.first_break) if g]
    limit = at.weakest.limit
    weak = going if not code else [(limit.key, limit.gust)] if limit.key else []
    return min((gust for key, gust in weak if one.answers((key,))), default=math.inf)


def _weakest(at: Standing, most: float, *, code: bool) -> tuple[Key, ...]:
    """Return what limits the code's margin or no rule covers, or what goes first below a gust."""
    if code:
        return (*(one.key for one in at.held_back if one.key), *at.uncovered)
    going = (at.first_slip, at.first_break)
    return tuple(g.key for g in going if g and g.gust < most)
