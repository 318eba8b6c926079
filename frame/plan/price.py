"""What changes cost beside each other: money, or without prices steel and trouble as a weight."""

from collections.abc import Sequence

from frame.changes.cost import STEEL_AN_HOUR, bought_steel, cost
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
    prices, after = before.rack.prices, cost(rack, bracing)
    if prices is None or before.cost is None or after is None:
        return max(bought_steel(rack, bracing) - before.steel + work, LB)
    return max(after - before.cost + prices.work * work / STEEL_AN_HOUR, 1e-3 * max(after, 1.0))
