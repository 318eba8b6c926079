"""Changes tried on a rack: looked at where it is weakest, or solved in full."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.errors import FrameError
from frame.named.aim import Key
from frame.plan.glance import before, glance
from frame.plan.offers import Offer, offers
from frame.plan.price import price_of
from frame.plan.standing import Asked, Standing, stand_like
from frame.plan.worth import better, value, worth
from frame.solved.frames import Bracing

Made = tuple[str, ...]
THINNER = 1e-3
"""How much thinner a post may come out [m] before its sleeve no longer fits (judgement)."""


@dataclass(frozen=True, kw_only=True)
class Trial:
    """Changes tried: `made`, the `text` and `bracing` after them, what they gain and cost.

    `serves`: whether the thing changed is then good for the site's gust. `after` is None as long
    as the rack has only been looked at where it is weakest; `through`: the standings after each of
    several changes but the last.
    """

    made: tuple[Offer, ...]
    text: str
    bracing: Bracing
    gain: float
    price: float
    enough: bool
    serves: bool = False
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


def full(trial: Trial, now: Standing, asked: Asked) -> Trial:
    """Solve a trial in full; without an `after` where it cannot stand."""
    try:
        after = stand_like(now, trial.text, trial.bracing, asked)
    except FrameError:
        return trial
    enough = better(now.rack, before(now), before(after), len(trial.made))
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

    for sizes in offers(at.rack, at.bracing, at.text):
        answering = [one for one in sizes if one.answers(weak)]
        if answering:
            yield from _sizes(answering, look)


def _sizes(sizes: Sequence[Offer], look: Callable[[Offer], Trial | None]) -> Iterator[Trial]:
    """Look at the sizes of one thing, weakest first.

    The smallest that is good for the site's gust, where one is: a size that is too small again a
    few steps later is no step. Else the next, a farther one and the largest. Where even the
    largest gains nothing, no smaller one is looked at.
    """
    *smaller, largest = sizes
    top = look(largest)
    if top and top.gain <= 0:
        return
    serves = top is not None and top.serves
    for one in smaller if serves else smaller[:3:2]:
        trial = look(one)
        if trial and (trial.serves or not serves):
            yield trial
            if serves:
                return
    if top:
        yield top


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
        enough=better(rack, was, found, len(made)),
        serves=found.serves,
    )


def _weakest(at: Standing, most: float, *, code: bool) -> tuple[Key, ...]:
    """Return what limits the code's margin, or what slips and breaks first below a gust [m/s]."""
    if code:
        return (at.weakest.limit.key,) if at.weakest.limit.key else ()
    going = (at.first_slip, at.first_break)
    return tuple(g.key for g in going if g and g.gust < most)
