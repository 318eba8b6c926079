"""Changes of a plan taken back where its end is as good without them: what buys nothing goes.

And stronger rails taken in place of more rails, where those cost less.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.write import Where
from frame.changes.offered_fastenings import STOPS, stops_of
from frame.errors import FrameError
from frame.plan.glance import Glance, before, glance
from frame.plan.offers import Changes, Offer, offers
from frame.plan.price import price_of
from frame.plan.standing import Asked, Standing, stand_like
from frame.plan.worth import keeps, least_kept
from frame.plan.written import on_what_is_there, written
from frame.rack.rack import Rack
from frame.solved.frames import Bracing

SAVES_FROM = 0.1
"""Part of a plan's price from which on a smaller size of what digs nothing is looked for [1]."""

PLACES: Where = ("rails", "positions")
CHANNEL: Where = ("rails", "channel")

Kept = tuple[Offer | None, ...]


def trimmed(
    start: Standing, groups: Sequence[Changes], end: Standing, asked: Asked
) -> tuple[list[Changes], Standing]:
    """Leave out changes, and take smaller sizes, where the end is as good with all the others.

    `groups`: the changes of each step; none sets what another sets. From the dearest on, each is
    looked at where the end is weakest, with what was taken back before it; then all are solved.
    Bracing comes first, for its lugs go with it; then rails, which may be fewer if stronger; last
    what may be smaller.
    """
    trim = _Trim(start=start, end=end, asked=asked)
    plan: Kept = tuple(o for made in groups for o in made)
    order = sorted(range(len(plan)), key=lambda i: trim.turn(plan, i))
    fewer = trim.through(plan, [i for i in order if not trim.sized(plan, i)])
    fewer = trim.fewer_rails(fewer)
    smaller = trim.through(fewer, [i for i in order if trim.sized(plan, i)])
    # What is smaller may fail where the quick look flatters it: what is left out still goes.
    for less in (smaller, fewer) if smaller != fewer else (fewer,):
        after = trim.solved(less) if less != plan else None
        if after:
            left = iter(less)
            kept = [tuple(o for _ in made if (o := next(left))) for made in groups]
            return [made for made in kept if made], after
    return list(groups), end


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trim:
    """Looks at a plan's `end` with some of its changes taken back."""

    start: Standing
    end: Standing
    asked: Asked

    def price(self, plan: Kept) -> float:
        """Price of what is left of a plan, infinite where that cannot be built."""
        try:
            _, rack, bracing = written(self.start, _made(plan), self.asked.name)
        except FrameError:
            return float("inf")
        return price_of(self.start, rack, bracing, _made(plan))

    def less(self, plan: Kept, i: int) -> Kept:
        """Return the plan without a change, or with the smallest size of it that is enough."""
        if plan[i] is None:
            return plan
        ways = [self.without(plan, i), *(_with(plan, i, o) for o in self.smaller(plan, i))]
        if not self.enough(ways[-1], plan):
            return plan
        return ways[bisect_left(ways, True, hi=len(ways) - 1, key=lambda w: self.enough(w, plan))]

    def without(self, plan: Kept, i: int) -> Kept:
        """Leave out a change, and what is done to bracing that is then not fitted.

        A rail has one stop at most.
        """
        one, rest = plan[i], _with(plan, i, None)
        if one and PLACES in one.edits:
            many = len(self.start.rack.rails.positions)
            rest = tuple(_with_stops(o, many) if o else None for o in rest)
        names = (*self.start.bracing, *(name for o in _made(rest) for name in o.fits))
        rack = self.start.rack
        return tuple(o if o and on_what_is_there(o, rack, names) else None for o in rest)

    def smaller(self, plan: Kept, i: int) -> Sequence[Offer]:
        """Return the sizes between what was there before the plan and a change."""
        one, rest = plan[i], _made(_with(plan, i, None))
        if one is None or not self.sized(plan, i):
            return ()
        try:
            text, rack, bracing = written(self.start, rest, self.asked.name)
        except FrameError:
            return ()
        for sizes in offers(rack, bracing, text, every=True):
            place = next((n for n, o in enumerate(sizes) if o.do == one.do), None)
            if place is not None:
                return sizes[:place]
        return ()

    def fewer_rails(self, plan: Kept) -> Kept:
        """Take stronger rails in place of more, where that is as good and costs less."""
        i = next((n for n, o in enumerate(plan) if o and PLACES in o.edits), None)
        if i is None:
            return plan
        price = self.price(plan)
        cheaper = (w for w in self._on_stronger(plan, i) if self.price(w) < price)
        return next((w for w in cheaper if self.enough(w, plan)), plan)

    def _on_stronger(self, plan: Kept, i: int) -> Iterator[Kept]:
        """Yield the plan with the rails there were in place of more, of every stronger channel."""
        rest = self.without(plan, i)
        at = next((n for n, o in enumerate(rest) if o and CHANNEL in o.edits), i)
        rest = _with(rest, at, None)
        try:
            text, rack, bracing = written(self.start, _made(rest), self.asked.name)
        except FrameError:
            return
        for sizes in offers(rack, bracing, text, every=True):
            yield from (_with(rest, at, one) for one in sizes if CHANNEL in one.edits)

    def through(self, plan: Kept, order: Sequence[int]) -> Kept:
        """Take back what is not needed of some changes, one after the other."""
        for i in order:
            plan = self.less(plan, i)
        return plan

    def turn(self, plan: Kept, i: int) -> tuple[bool, float]:
        """Tell when it is a change's turn: the least first."""
        one = plan[i]
        return not (one and one.fits), self.rest(plan, i)

    def rest(self, plan: Kept, i: int) -> float:
        """Price of a plan without one of its changes."""
        return self.price(_with(plan, i, None))

    def sized(self, plan: Kept, i: int) -> bool:
        """Whether a smaller size of a change would save a part of the price, or digging."""
        one, whole = plan[i], self.price(plan)
        if one is None or one.fits:
            return False
        return one.digs or one.unloads or whole - self.rest(plan, i) > SAVES_FROM * whole

    def enough(self, less: Kept, plan: Kept) -> bool:
        """Look whether less than a plan is as good as its end."""
        size = less.count(None) == plan.count(None)
        try:
            _, rack, bracing = written(self.start, _made(less), self.asked.name)
            return all(
                keeps(
                    self.end, self.look(rack, bracing, code=code, everywhere=all_of_it), size=size
                )
                for code, all_of_it in ((True, False), (False, True), (True, True))
            )
        except FrameError:
            return False

    def look(self, rack: Rack, bracing: Bracing, *, code: bool, everywhere: bool) -> Glance:
        """Look at what is left of the plan at the gusts it has to stand."""
        return glance(
            self.end, rack, bracing, code=code, least=least_kept(self.end), everywhere=everywhere
        )

    def solved(self, less: Kept) -> Standing | None:
        """Solve what is left of a plan; None where that is not as good as its end."""
        try:
            text, _, bracing = written(self.start, _made(less), self.asked.name)
            after = stand_like(self.end, text, bracing, self.asked)
        except FrameError:
            return None
        # Snow and people on it are no gust: they too are carried as before.
        carries = after.holds or not self.end.holds
        good = carries and keeps(self.end, before(after), size=None not in less)
        return after if good else None


def _with(plan: Kept, i: int, one: Offer | None) -> Kept:
    return (*plan[:i], one, *plan[i + 1 :])


def _with_stops(one: Offer, most: int) -> Offer:
    """Return a change that welds stops to so many rails at most; others as they are."""
    count = one.edits.get(STOPS)
    if not isinstance(count, int) or count <= most:
        return one
    fewer = stops_of(most)
    return replace(one, do=fewer.words, edits=fewer.edits)


def _made(plan: Kept) -> Changes:
    return tuple(o for o in plan if o)
