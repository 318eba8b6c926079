"""Readings as a rack file has them."""

from frame.rack.measured import Measured
from frame.tables.readings import reading_kinds

UNITS = {"length": "mm", "angle": "deg", "force": "N"}
SIZES = {"length": 1e3, "angle": 57.29577951308232, "force": 1.0}


def measured_text(measured: Measured) -> str:
    """Return the section of a file that says what was read, in metric units."""
    lines = ["[measured]", f'pull = "{measured.pull:.3f} N"', f'push = "{measured.push:.3f} N"']
    lines.append(f'press = "{measured.press:.3f} N"')
    for reading in measured.taken:
        kind = reading_kinds()[reading.key].kind
        if kind == "shakes":
            lines.append(f"{reading.key} = {10 * reading.value:.3f}")
            continue
        told, within = (
            f'"{SIZES[kind] * v:.4f} {UNITS[kind]}"' for v in (reading.value, reading.within)
        )
        lines.append(f"{reading.key} = {{ read = {told}, within = {within} }}")
    return "\n".join(["", *lines, ""])
