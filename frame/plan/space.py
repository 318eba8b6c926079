"""A small space of changes: few enough things that every combination of them can be solved.

In it are all bracing described, everything that the plan took, and what mends what is weakest,
again and again: after the plan, as the rack is, and with all bracing fitted. What mends is the
first to find room, then the plan's last steps; its others are taken as done.
"""

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from itertools import chain, combinations, product, zip_longest

from frame.casefile.read import parse_rack
from frame.errors import FrameError
from frame.plan.greedy import Plan
from frame.plan.offers import Offer, offers
from frame.plan.standing import Asked, Standing, stand
from frame.plan.trials import trials
from frame.plan.worth import BEYOND
from frame.plan.written import on_what_is_there

MOST = 240
"""Combinations that are tried at most: some minutes of work."""
MOST_MENDED = 4
"""How often what is weakest is mended to find what may matter."""


@dataclass(frozen=True, kw_only=True)
class Space:
    """What may be changed: every `fitting` of bracing and, of each thing, any one of its offers.

    `start`: the rack before. `done`: changes of the plan for which there was no room, taken as
    made in every combination; `beside`: how many things were left as they are.
    """

    start: Standing
    fitting: tuple[Offer, ...]
    things: tuple[tuple[Offer, ...], ...]
    done: tuple[Offer, ...] = ()
    beside: int = 0

    @property
    def most_combinations(self) -> int:
        """How many combinations there are at most."""
        choices = (len(thing) + 1 for thing in self.things)
        return math.prod(choices, start=1 << len(self.fitting))

    def combinations(self) -> Iterator[tuple[Offer, ...]]:
        """Every combination once: what is fitted, then a choice of each thing, or none.

        Changes to bracing that is not fitted are passed over.
        """
        rack = self.start.rack
        for many in range(len(self.fitting) + 1):
            for fitted in combinations(self.fitting, many):
                names = (*self.start.bracing, *(name for o in fitted for name in o.fits))
                choices = [
                    (None, *(o for o in thing if on_what_is_there(o, rack, names)))
                    for thing in self.things
                ]
                always = tuple(o for o in self.done if on_what_is_there(o, rack, names))
                for chosen in product(*choices):
                    yield (*fitted, *always, *(o for o in chosen if o))


def make_space(start: Standing, plan: Plan, asked: Asked, most: int = MOST) -> Space:
    """Gather what may matter, and no more than `most` combinations of it.

    Raises
    ------
    FrameError
        Where the rack cannot stand as it is.
    """
    fitting = tuple(
        o for sizes in offers(start.rack, start.bracing, start.text) for o in sizes if o.fits
    )
    taken = [o for step in plan.steps for o in step.made if not o.fits]
    every = {*start.bracing, *(one for o in fitting for one in o.fits)}
    ways = (
        _mending(plan.end.text, plan.end.bracing, asked),
        reversed(taken),
        _mending(start.text, every, asked),
        _mending(start.text, start.bracing, asked),
    )
    space, done, beside = Space(start=start, fitting=fitting, things=()), list[Offer](), 0
    for one in filter(None, chain.from_iterable(zip_longest(*ways))):
        wider = _with(space, one)
        if wider.most_combinations <= most:
            space = wider
        elif one in taken:
            done.insert(0, one)
        else:
            beside += 1
    return replace(space, done=tuple(done), beside=beside)


def _with(space: Space, one: Offer) -> Space:
    """Add a change to the thing it is of, or as a thing of its own."""
    for i, thing in enumerate(space.things):
        if any(set(one.edits) & set(other.edits) for other in thing):
            if any(dict(one.edits) == dict(other.edits) for other in thing):
                return space
            wider = (*space.things[:i], (*thing, one), *space.things[i + 1 :])
            return replace(space, things=wider)
    return replace(space, things=(*space.things, (one,)))


def _mending(text: str, fitted: Collection[str], asked: Asked) -> Iterator[Offer]:
    """Mend what is weakest in a file's rack with some bracing fitted, as long as that gains.

    By what breaks and slips first and by the code's margin, in turn.
    """
    names = parse_rack(text, asked.name).bracing_names
    try:
        at = stand(text, tuple(b for b in names if b in fitted), asked)
    except FrameError:
        return
    for count in range(MOST_MENDED):
        codes = (False, True) if count % 2 == 0 else (True, False)
        found = next((f for code in codes if (f := _mended(at, asked, code=code))), None)
        if found is None:
            return
        one, text = found
        yield one
        try:
            at = stand(text, at.bracing, asked, at.blocks)
        except FrameError:
            return


def _mended(at: Standing, asked: Asked, *, code: bool) -> tuple[Offer, str] | None:
    """Return the change that gains most where a rack is weakest, and the file with it."""
    looked = trials(at, (), at, asked, code=code, within=BEYOND)
    tried = (t for t in looked if not t.made[0].fits and t.gain > 0)
    best = max(tried, key=lambda t: t.gain, default=None)
    return (best.made[0], best.text) if best else None
