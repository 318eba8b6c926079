"""Quantities in whole sentences: temperatures and lengths of advice in the builder's units."""

import math
import re

from frame.units.factors import F_FREEZING, F_STEP, INCH, KSI, MM, UNITS
from frame.units.show import US

STEP = 5
"""Whole units that advice is rounded to: more heat, more zinc ground off, less strength."""
METRIC = {"F": "C", "in": "mm", "ksi": "MPa"}
MPA = UNITS["stress"]["mpa"]
_QUANTITY = re.compile(r"(\d+)(?: to (\d+))? (F|in|ksi)\b")


def told_in(text: str, system: str) -> str:
    """Return advice written in whole degrees F, inches and ksi in units of `system`.

    Metric values are rounded to 5 on the safe side: "200 to 300 F" to "95 to 150 C".
    """
    return text if system == US else _QUANTITY.sub(_metric, text)


def _metric(found: re.Match[str]) -> str:
    low, high, unit = found.groups()
    ends = " to ".join(str(_converted(float(n), unit)) for n in (low, high) if n)
    return f"{ends} {METRIC[unit]}"


def _converted(value: float, unit: str) -> int:
    if unit == "ksi":
        return STEP * math.floor(value * KSI / MPA / STEP)
    exact = (value - F_FREEZING) * F_STEP if unit == "F" else value * INCH / MM
    return STEP * math.ceil(round(exact / STEP, 6))
