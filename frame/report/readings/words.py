"""Readings as a builder says them."""

from frame.tables.readings import SHAKES, THIN, reading_kinds
from frame.units import show


def reading_name(key: str) -> str:
    """Name a reading."""
    return reading_kinds()[key].words


def reading_shown(key: str, value: float | None, units: str) -> str:
    """Write a reading [SI] as it is read off its tool."""
    kind = reading_kinds()[key].kind
    if value is None:
        return "can't tell"
    if kind == SHAKES:
        return f"{10 * value:.0f}"
    if kind == "length":
        return show(value, "thickness" if key in THIN else "movement", units)
    return show(value, kind, units, 2)
