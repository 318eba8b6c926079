"""Write a quantity as a builder reads it, with no more digits than it has earned."""

import math
from dataclasses import dataclass

from frame.units.factors import (
    DEG,
    F_STEP,
    FT,
    FT_LB,
    IN_LB,
    INCH,
    KG_WEIGHT,
    KSI,
    LB,
    MM,
    MPH,
    PCF,
    PCI,
    PLF,
    PSF,
    PSI,
)

US, METRIC = "us", "metric"
SYSTEMS = (US, METRIC)
SIXTEENTHS = 16
NEARLY = 1e-6
"""Part of the last place printed by which a number may fall short and still count as whole."""
NO_MATTER = 0.02
"""Part of a sixteenth of an inch, or of a millimetre, that a size may be off its series [1]."""
FEET_FROM = 24
"""Inches from which a length is written in feet and inches."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit to print in: `label`, `factor` to SI, and the most `decimals` that mean anything."""

    label: str
    factor: float
    decimals: int


@dataclass(frozen=True, slots=True)
class QuantityUnits:
    """Units of one kind of quantity; `small` ones take over below `below` [SI]."""

    us: Unit
    metric: Unit
    us_small: Unit | None = None
    us_below: float = 0.0
    metric_small: Unit | None = None
    metric_below: float = 0.0

    def unit_for(self, system: str, size: float = math.inf) -> Unit:
        """Return the unit for a quantity of absolute `size` [SI]; the usual one without a size."""
        small = self.us_small if system == US else self.metric_small
        below = self.us_below if system == US else self.metric_below
        usual = self.us if system == US else self.metric
        return small if small and size < below else usual


_FORCE = QuantityUnits(Unit("lb", LB, 1), Unit("kN", 1e3, 2), None, 0, Unit("N", 1.0, 0), 995.0)
_MOMENT = QuantityUnits(
    Unit("ft-lb", FT_LB, 1),
    Unit("kN m", 1e3, 2),
    Unit("in-lb", IN_LB, 0),
    9.995 * FT_LB,
    Unit("N m", 1.0, 1),
    995.0,
)
KINDS = {
    "length": QuantityUnits(Unit("in", INCH, 2), Unit("mm", MM, 0)),
    "thickness": QuantityUnits(Unit("in", INCH, 3), Unit("mm", MM, 2)),
    "movement": QuantityUnits(Unit("in", INCH, 2), Unit("mm", MM, 1)),
    "area": QuantityUnits(Unit("in2", INCH**2, 4), Unit("mm2", MM**2, 1)),
    "panel area": QuantityUnits(Unit("sq ft", FT**2, 1), Unit("m2", 1.0, 2)),
    "second moment": QuantityUnits(Unit("in4", INCH**4, 3), Unit("cm4", 1e-8, 2)),
    "section modulus": QuantityUnits(Unit("in3", INCH**3, 3), Unit("cm3", 1e-6, 2)),
    "weight": QuantityUnits(Unit("lb", LB, 1), Unit("kg", KG_WEIGHT, 1)),
    "force": _FORCE,
    "speed": QuantityUnits(Unit("mph", MPH, 0), Unit("m/s", 1.0, 1)),
    "pressure": QuantityUnits(
        Unit("psf", PSF, 1), Unit("kPa", 1e3, 2), None, 0, Unit("Pa", 1.0, 0), 995.0
    ),
    "stress": QuantityUnits(Unit("ksi", KSI, 1), Unit("MPa", 1e6, 0)),
    "modulus": QuantityUnits(Unit("ksi", KSI, 0), Unit("GPa", 1e9, 1)),
    "weight per length": QuantityUnits(Unit("lb/ft", PLF, 3), Unit("kg/m", KG_WEIGHT, 3)),
    "unit weight": QuantityUnits(Unit("pcf", PCF, 0), Unit("kN/m3", 1e3, 1)),
    "pressure per depth": QuantityUnits(Unit("psf/ft", PSF / FT, 0), Unit("kPa/m", 1e3, 1)),
    "stiffness per length": QuantityUnits(Unit("psi", PSI, 0), Unit("MPa", 1e6, 1)),
    "stiffness per depth": QuantityUnits(Unit("pci", PCI, 0), Unit("MN/m3", 1e6, 2)),
    "force per length": QuantityUnits(
        Unit("lb/in", LB / INCH, 0),
        Unit("kN/m", 1e3, 1),
        Unit("lb/ft", PLF, 2),
        99.5 * LB / INCH,
        Unit("N/m", 1.0, 0),
        995.0,
    ),
    "force along a weld": QuantityUnits(Unit("lb/in", LB / INCH, 0), Unit("kN/m", 1e3, 1)),
    "torque": _MOMENT,
    "moment": _MOMENT,
    "angle": QuantityUnits(Unit("deg", DEG, 1), Unit("deg", DEG, 1)),
    "expansion": QuantityUnits(Unit("per F", 1 / F_STEP, 8), Unit("per C", 1.0, 8)),
    "number": QuantityUnits(Unit("", 1.0, 2), Unit("", 1.0, 2)),
}
"""Every kind that can be printed. "length" is read off a tape, "thickness" off calipers.

"force per length": loads along a rail in lb/ft, what a weld takes in lb/in (common practice).
"""


def show(value: float, kind: str, system: str = US, digits: int = 3) -> str:
    """Return `value` [SI] with its unit, about `digits` significant figures.

    Lengths of 2 ft and more in feet, inches and sixteenths (5'-11 7/16"), shorter ones in inches
    and sixteenths (11-7/16 in), metric ones in mm (1050 mm) up to 10 m.
    """
    if math.isnan(value):
        raise ValueError(f"a {kind} that is not a number cannot be shown")
    if math.isinf(value):
        return "no limit"
    if kind == "length":
        return _tape(value) if system == US else _metric_length(value)
    unit = KINDS[kind].unit_for(system, abs(value))
    return f"{_figures(value / unit.factor, unit.decimals, digits)} {unit.label}".rstrip()


def show_no_more(value: float, kind: str, system: str = US) -> str:
    """Return a limit of `kind` ("speed", not a length) rounded down as `show` prints it.

    What must not be passed is never printed larger than it is.
    """
    factor = KINDS[kind].unit_for(system, abs(value)).factor
    if not math.isfinite(value) or not value:
        return show(value, kind, system)
    places = _places(value / factor, KINDS[kind].unit_for(system, abs(value)).decimals, 3)
    steps = math.floor(value / factor * 10**places + NEARLY)
    return show(steps / 10**places * factor, kind, system)


def show_both(value: float, kind: str, system: str = US, digits: int = 3) -> str:
    """Return `value` in `system` with the other system's equivalent in brackets."""
    other = METRIC if system == US else US
    first, second = show(value, kind, system, digits), show(value, kind, other, digits)
    return first if first == second else f"{first} ({second})"


def show_size(value: float, system: str = US) -> str:
    """Return the size [m] that a bolt is bought by: one of the inch series in inches anywhere.

    Half an inch is no M13, and M12 is weaker.
    """
    sixteenths, millimetres = value / INCH * 16, value / MM
    inch = abs(sixteenths - round(sixteenths)) < NO_MATTER
    metric = abs(millimetres - round(millimetres)) < NO_MATTER
    return show(value, "length", US if inch and not metric else system)


def show_number(value: float, kind: str, system: str = US, digits: int = 3) -> str:
    """Return `value` without its unit, always in the unit of `head_unit`: for table columns.

    A thickness keeps its zeros (4.500), as tables of pipe print it.
    """
    if math.isnan(value):
        raise ValueError(f"a {kind} that is not a number cannot be shown")
    if math.isinf(value):
        return "no limit"
    unit = KINDS[kind].unit_for(system)
    if kind == "thickness":
        return f"{round(value / unit.factor, unit.decimals) + 0.0:.{unit.decimals}f}"
    return _figures(value / unit.factor, unit.decimals, digits)


def head_unit(kind: str, system: str = US) -> str:
    """Return the label of the unit `show_number` writes in."""
    return KINDS[kind].unit_for(system).label


def _figures(value: float, decimals: int, digits: int) -> str:
    """Return a rounded number with thousands separators, no trailing zeros and no minus zero."""
    rounded = round(value, decimals)
    if not rounded:
        return "0"
    places = _places(value, decimals, digits)
    text = f"{round(value, places):,.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _places(value: float, decimals: int, digits: int) -> int:
    """Return how many places of a number are printed; negative where tens or more are rounded."""
    return min(decimals, digits - 1 - math.floor(math.log10(abs(value))))


def _tape(value: float) -> str:
    """Return a length as read off a tape, to the nearest sixteenth."""
    steps = round(abs(value) / INCH * SIXTEENTHS)
    sign = "-" if value < 0 and steps else ""
    inches, part = divmod(steps, SIXTEENTHS)
    if inches < FEET_FROM:
        return f"{sign}{_inches(inches, part, '-')} in"
    feet, rest = divmod(inches, 12)
    # 16'-0 11/16": without the 0 it reads as 16 ft 11 and something.
    nought = "" if rest or not part else "0 "
    return f"{sign}{feet}'-{nought}{_inches(rest, part, ' ')}\""


def _inches(whole: int, part: int, joint: str) -> str:
    """Return whole inches and a fraction in lowest terms."""
    if not part:
        return str(whole)
    common = math.gcd(part, SIXTEENTHS)
    fraction = f"{part // common}/{SIXTEENTHS // common}"
    return f"{whole}{joint}{fraction}" if whole else fraction


def _metric_length(value: float) -> str:
    """Return a length in whole mm; tenths below 10 mm; metres from 10 m."""
    size = abs(value)
    if size >= 10:
        return f"{_figures(value, 2, 6)} m"
    decimals = 1 if size < 0.01 else 0
    return f"{_figures(value / MM, decimals, 4).replace(',', '')} mm"
