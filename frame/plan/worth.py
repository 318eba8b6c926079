"""How good a rack is, and whether a change makes it enough better to be worth a step."""

import math
from dataclasses import replace

from frame.plan.glance import Glance, before
from frame.plan.standing import Standing
from frame.rack.rack import Rack

BEYOND, SLIP_BEYOND = 1.5, 1.1
"""Gust over the site's up to which a later break, and a later slip, is worth something [1].

What is expected to break at half as much again breaks in one rack of ten at the site's gust
(judgement)."""
SLOWEST = 1.0
"""Gust taken for still air where gains are weighed [m/s]."""
SLIP, MARGIN, MOVEMENT = 0.7, 0.5, 0.1
"""Weights of ln(gust) of the first slip, of the limit and of what it is short of under other
loads, and of movement over its limits, beside ln(gust) of the first break [1] (judgement)."""
UNCOVERED = 0.1
"""Weight of a check that no rule covers: as a tenth of the gust of the first break (judgement)."""
LEAST_RISE = 1.03
"""Rise of a gust below which a step is not worth its trouble [1]."""
MOST_FALL = 0.65
"""What a step may leave of the code's limit gust [1]: a code may count less on a guyed post."""
LEAST_CALM = 0.2
"""Part of a limit by which a movement over it must shrink to be worth a step [1] (judgement)."""


def worth(at: Standing) -> float:
    """Tell how good a rack is: logarithms of its gusts, none counted beyond the site's [1]."""
    return value(at.rack, before(at))


def better(rack: Rack, was: Glance, now: Glance, changes: int = 1) -> bool:
    """Whether a gust below the site's rises enough or it moves less, and none falls too far.

    What goes first may fall as little as a rise that is not worth a step, the code's limit to
    `MOST_FALL`. Enough is more for several `changes` than for one. What no rule covers after it
    must not have been covered before; to have it covered is enough.
    """
    rises = _rises(rack, was, now)
    calmer = was.over - now.over > LEAST_CALM * changes
    reaches = was.limit < rack.site.map_gust <= now.limit or now.short <= 1.0 < was.short
    kept = min(rises[:2]) > 1 / LEAST_RISE and min(rises[2:]) > MOST_FALL
    enough = calmer or reaches or max(rises) > LEAST_RISE**changes
    return (enough or now.uncovered < was.uncovered) and kept and now.uncovered <= was.uncovered


def pays(was: Standing, now: Standing) -> bool:
    """Whether a step buys anything by itself: a gust rises, it moves less, more is covered."""
    before_it, after_it = before(was), before(now)
    calmer = before_it.over - after_it.over > LEAST_CALM
    return (
        calmer
        or after_it.uncovered < before_it.uncovered
        or max(_rises(now.rack, before_it, after_it)) > LEAST_RISE
    )


def as_good(rack: Rack, was: Glance, smaller: Glance, larger: Glance) -> bool:
    """Whether a larger size buys next to nothing more than a smaller one.

    No gust rises enough from the one to the other. How far it moves counts where neither raises a
    gust above what `was`: a size is not chosen for stiffness that is no matter of strength.
    """
    if max(_rises(rack, smaller, larger)) > LEAST_RISE or larger.uncovered < smaller.uncovered:
        return False
    strength = max(_rises(rack, was, larger)) > LEAST_RISE
    return strength or smaller.over - larger.over <= LEAST_CALM


def keeps(end: Standing, now: Glance, *, size: bool) -> bool:
    """Whether a rack is as good as the `end` of a plan, of which something was taken back.

    It reaches the site's gust too, loses less than a step must gain of any gust, and moves no
    further; where it moves too far anyway a smaller `size` may, and less without a change.
    """
    was, far = before(end), end.moves_too_far
    if now.limit < end.rack.site.map_gust <= was.limit or not now.uncovered <= was.uncovered:
        return False
    more = (math.inf if size else LEAST_CALM) if far else 0.0
    return max(_rises(end.rack, now, was)) <= LEAST_RISE and now.over <= was.over + more


def least_kept(end: Standing) -> Glance:
    """Return the gusts [m/s] that a rack has to stand to be as good as the `end` of a plan.

    See `keeps`: the site's gust where the end has the code's margin there.
    """
    was, most = before(end), end.rack.site.map_gust
    slip = min(was.slip, was.first_break, SLIP_BEYOND * most)
    return replace(
        was,
        first_break=min(was.first_break, BEYOND * most) / LEAST_RISE,
        slip=slip / LEAST_RISE,
        limit=most if was.limit >= most else was.limit / LEAST_RISE,
    )


def _rises(rack: Rack, was: Glance, now: Glance) -> tuple[float, float, float, float]:
    """How many times as high the gusts of the first break, the first slip and the limit are [1].

    None counts beyond the site's, nor a slip that comes after the break. And how many times as
    strong it is under other loads, by the root.
    """
    most = rack.site.map_gust

    def rise(then: float, after: float, cap: float) -> float:
        return max(min(after, cap), SLOWEST) / max(min(then, cap), SLOWEST)

    return (
        rise(was.first_break, now.first_break, BEYOND * most),
        rise(min(was.slip, was.first_break), min(now.slip, now.first_break), SLIP_BEYOND * most),
        rise(was.limit, now.limit, most),
        was.short / now.short,
    )


def value(rack: Rack, found: Glance) -> float:
    """Tell how good gusts and movements of a rack are [1], see `worth`."""
    most = rack.site.map_gust

    def height(gust: float, cap: float) -> float:
        return math.log(min(max(gust, SLOWEST), cap) / SLOWEST)

    slip = min(found.slip, found.first_break)
    gone = height(found.first_break, BEYOND * most) + SLIP * height(slip, SLIP_BEYOND * most)
    margin = height(found.limit, most) - math.log(found.short)
    return gone + MARGIN * margin - MOVEMENT * found.over - UNCOVERED * len(found.uncovered)
