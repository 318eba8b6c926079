"""Amounts of money in the currency of the rack file."""

from frame.rack.rack import Rack

WHOLE_FROM = 20.0
"""Amount from which no hundredths are printed."""
LEAST = 0.005
"""Amount below which nothing is paid."""
WHAT = {
    "pipe": "pipe",
    "rail": "rails and ties",
    "wire": "wire",
    "fitting": "fittings",
    "anchor": "anchors",
    "concrete": "concrete",
    "rod": "rod of pins and U-bolts",
    "work": "the work on posts, holes and bracing (hours by judgement)",
}
"""What each price of the file is paid for."""
UNPRICED = "Counted as nothing, being free or without a price in the file"
LEFT_OUT = "Clamps, set bolts, paint and panels are not in it."
NOTHING = "-"


def amount(value: float | None) -> str:
    """Return an amount without its currency, for a table; "-" for nothing and without prices."""
    if value is None or abs(value) < LEAST:
        return NOTHING
    return f"{value:,.0f}" if abs(value) >= WHOLE_FROM else f"{value:.2f}".removesuffix(".00")


def money(value: float | None, rack: Rack) -> str:
    """Return an amount with the name of its currency."""
    shown = amount(value)
    return "nothing" if shown == NOTHING else f"{shown} {_currency(rack)}".rstrip()


def what_cost_counts(rack: Rack) -> str:
    """Say in which currency cost is told and what is in it; nothing where there are no prices."""
    if rack.prices is None:
        return ""
    name = _currency(rack)
    paid = [words for key, words in WHAT.items() if getattr(rack.prices, key)]
    free = [words for words in WHAT.values() if words not in paid]
    said = (
        f"Cost{f' in {name}' if name else ''}, by the file's prices: {', '.join(paid) or 'none'}."
    )
    more = f" {UNPRICED}: {', '.join(free)}." if free else ""
    return f"{said}{more} {LEFT_OUT}"


def _currency(rack: Rack) -> str:
    return rack.prices.currency if rack.prices else ""
