"""What changes cost beside each other: money, or without prices steel and trouble as a weight."""

from collections.abc import Sequence

from frame.changes.cost import STEEL_AN_HOUR, bought_steel, cost
from frame.changes.thrown_away import thrown_away
from frame.plan.offers import Offer
from frame.plan.standing import Standing
from frame.rack.rack import Rack
from frame.solved.frames import Bracing
from frame.units import LB

OVERHEAD = 25 * LB
"""What every step costs beside its own trouble, as a weight of steel [N] (judgement)."""
DEAR = 10.0
"""How much dearer digging or unloading makes a change where the rack stands [1] (judgement)."""


def price_of(before: Standing, rack: Rack, bracing: Bracing, made: Sequence[Offer]) -> float:
    """Money that changes cost, without prices the steel and work as a weight [N]."""
    stands = before.rack.stands
    work = sum(o.work * (DEAR if stands and (o.digs or o.unloads) else 1.0) for o in made)
    work += OVERHEAD * len(made)
    prices, money = before.rack.prices, added_cost(before, rack, cost(rack, bracing))
    if prices is None or money is None:
        return max(added_steel(before, rack, bought_steel(rack, bracing)) + work, LB)
    least = 1e-3 * max(before.cost or 0.0, 1.0)
    return max(money + prices.work * work / STEEL_AN_HOUR, least)


def added_steel(before: Standing, rack: Rack, steel: float) -> float:
    """Steel [N] that is bought to make a rack of so much `steel` of the one before.

    See `thrown_away`.
    """
    return steel - before.steel + thrown_away(before.rack, rack, before.bracing).steel


def added_cost(before: Standing, rack: Rack, money: float | None) -> float | None:
    """Money to make a rack that costs so much of the one before; None without prices."""
    if before.cost is None or money is None:
        return None
    return money - before.cost + thrown_away(before.rack, rack, before.bracing).money
