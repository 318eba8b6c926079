"""Things to buy, counted."""

from dataclasses import dataclass

from frame.named.part import PartKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something to buy: for one rack `amount` pieces, metres, newtons or m3, by `unit`.

    `unit` is "", "length", "weight", "volume" or "liquid" (m3 too); `at_hand` of what all racks
    need; `planned`: what the cut plan buys for all racks, None without one; `price` of one unit in
    the file's currency, None without. `note`: what to look for. `on`: the parts that it holds or
    sits on, and goes with.
    """

    name: str
    amount: float
    unit: str = ""
    at_hand: float = 0.0
    planned: float | None = None
    price: float | None = None
    note: str = ""
    on: tuple[PartKind, ...] = ()

    def to_buy(self, racks: int) -> float:
        """Amount to buy for so many racks."""
        if self.planned is not None:
            return self.planned
        return max(self.amount * racks - self.at_hand, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shopping:
    """Items, and cost of one rack with everything counted, None without prices."""

    items: tuple[Item, ...]
    cost: float | None
