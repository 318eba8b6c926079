"""Amounts of money in the currency of the rack file."""

from frame.rack.rack import Rack

WHOLE_FROM = 20.0
"""Amount from which no hundredths are printed."""
COUNTED = (
    "by the file's prices: pipe, rails and ties, wire, fittings, anchors, concrete, rod of pins "
    "and U-bolts, and the work on posts, holes and bracing (hours by judgement). Clamps, set "
    "bolts, paint and panels are not in it."
)


def amount(value: float | None) -> str:
    """Return an amount without its currency, for a table; "-" where there are no prices."""
    if value is None:
        return "-"
    shown = f"{value:,.0f}" if abs(value) >= WHOLE_FROM else f"{value:.2f}".removesuffix(".00")
    return "0" if shown in ("-0", "-0.00", "0.00") else shown


def money(value: float | None, rack: Rack) -> str:
    """Return an amount with the name of its currency."""
    return f"{amount(value)} {_currency(rack)}".rstrip()


def what_cost_counts(rack: Rack) -> str:
    """Say in which currency cost is told and what is in it; nothing where there are no prices."""
    if rack.prices is None:
        return ""
    name = _currency(rack)
    return f"Cost{f' in {name}' if name else ''}, {COUNTED}"


def _currency(rack: Rack) -> str:
    return rack.prices.currency if rack.prices else ""
