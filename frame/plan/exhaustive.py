"""Every combination of a small space of changes, solved: how far off is the plan?

The plan takes one step after the other and never weighs all of them together; here they are.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from frame.errors import FrameError
from frame.plan.decision import with_bracing
from frame.plan.glance import Glance, before
from frame.plan.greedy import Plan
from frame.plan.offers import Offer
from frame.plan.price import price_of
from frame.plan.space import MOST, Space, make_space
from frame.plan.standing import Asked, Standing, stand
from frame.plan.worth import BEYOND
from frame.plan.written import written
from frame.search.weakest import learned_of
from frame.solved.blocks import Block
from frame.solved.frames import Bracing

ALIKE = 0.995
"""Part of a gust from which on it is taken for as high [1]: the digits of two searches."""
CALMER = 0.02
"""Part over a limit of movement that is taken for no further [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedRack:
    """Changes `made`, the `bracing` after them, the gusts `found`, the price, whether it holds."""

    made: tuple[Offer, ...]
    bracing: Bracing
    found: Glance
    price: float
    holds: bool

    @property
    def do(self) -> tuple[str, ...]:
        """What to do, in words."""
        return tuple(o.do for o in self.made)


@dataclass(frozen=True, kw_only=True)
class Exhausted:
    """What became of every combination of a `space` that could stand, `tried` of them.

    `plan` as a combination like the others. `best`: of the latest first break, the cheapest of
    those alike; of a plan that reached its site's gust, among those that do, move no further and
    are no dearer, for it stopped there. `cheapest`: the cheapest that is as good as the plan in
    every gust and moves no further.
    """

    space: Space
    tried: int
    plan: ChangedRack
    reached: bool
    best: ChangedRack
    cheapest: ChangedRack
    some_holds: bool
    most: float

    @property
    def behind(self) -> float:
        """How far the plan's first break falls short of the best [1], 0 where it does not.

        None is counted beyond one and a half times the site's gust, as no plan seeks it there.
        """
        best, mine = (min(c.found.first_break, self.most) for c in (self.best, self.plan))
        return max(1.0 - mine / best, 0.0) if best > 0 else 0.0

    @property
    def dearer(self) -> float:
        """Price of the plan over that of the cheapest as good [1]."""
        return self.plan.price / self.cheapest.price if self.cheapest.price > 0 else 1.0


def exhausted(
    text: str,
    name: str,
    units: str | None,
    plan: Plan,
    tell: Callable[[int, int], None] = lambda _, __: None,
    most: int = MOST,
) -> Exhausted:
    """Try every combination, `most` at the most, for the rack file that a plan was made of.

    `tell` hears how many are solved, and of how many.
    """
    text, rack, _ = with_bracing(text, name, units)
    asked = Asked(name=name, learned=learned_of(rack), read=rack, ranged=False)
    start = stand(text, plan.start.bracing, asked)
    space = make_space(start, plan, asked, most)
    return exhaust(space, plan, asked, lambda done: tell(done, space.most_combinations))


def exhaust(
    space: Space,
    plan: Plan,
    asked: Asked,
    tell: Callable[[int], None] = lambda _: None,
) -> Exhausted:
    """Solve every combination; `tell` hears of each how many were solved before it."""
    tried = tuple(_tried(space, asked, tell))
    taken = tuple(o for step in plan.steps for o in step.made)
    mine = _combination(space.start, taken, plan.end)
    most = BEYOND * space.start.rack.site.map_gust
    near = tried
    if plan.reached:
        near = tuple(c for c in tried if c.price <= mine.price and _as_good(c, mine, plan))
    found = (mine, *near)
    latest = max(min(c.found.first_break, most) for c in found)
    as_late = [c for c in found if min(c.found.first_break, most) >= ALIKE * latest]
    as_good = [c for c in tried if _as_good(c, mine, plan)]
    return Exhausted(
        space=space,
        tried=len(tried),
        plan=mine,
        reached=plan.reached,
        best=min(as_late, key=lambda c: c.price),
        cheapest=min((mine, *as_good), key=lambda c: c.price),
        some_holds=any(c.holds for c in tried),
        most=most,
    )


def _tried(space: Space, asked: Asked, tell: Callable[[int], None]) -> Iterator[ChangedRack]:
    """Solve one combination after the other, on the frames of the last where they are alike."""
    like: Sequence[Block] = ()
    for count, made in enumerate(space.combinations()):
        tell(count)
        try:
            text, _, bracing = written(space.start, made, asked.name)
            after = stand(text, bracing, asked, like)
        except FrameError:
            continue
        like = after.blocks
        yield _combination(space.start, made, after)


def _combination(start: Standing, made: tuple[Offer, ...], after: Standing) -> ChangedRack:
    price = price_of(start, after.rack, after.bracing, made) if made else 0.0
    return ChangedRack(
        made=made,
        bracing=after.bracing,
        found=before(after),
        price=price,
        holds=after.holds,
    )


def _as_good(one: ChangedRack, mine: ChangedRack, plan: Plan) -> bool:
    """Whether a combination is as good as the plan: it holds too, or has every gust as high."""
    if plan.reached:
        return one.holds and one.found.over <= mine.found.over + CALMER
    gusts = ("first_break", "slip", "limit")
    kept = all(getattr(one.found, g) >= ALIKE * getattr(mine.found, g) for g in gusts)
    return kept and one.found.over <= mine.found.over + CALMER
