"""Conversion factors to SI, exact by definition (NIST SP 811, appendix B)."""

import math

INCH = 0.0254
FT = 12 * INCH
YARD = 3 * FT
MM = 1e-3
G0 = 9.80665
"""Standard acceleration of gravity [m/s2]."""
KG_WEIGHT = G0
"""Weight of one kilogram [N]."""
LB = 0.45359237 * G0
"""Pound-force [N]."""
OUNCE = LB / 16
KIP = 1000 * LB
PSI = LB / INCH**2
KSI = 1000 * PSI
PSF = LB / FT**2
PCF = LB / FT**3
PCI = LB / INCH**3
PLF = LB / FT
MPH = 1609.344 / 3600
KMH = 1 / 3.6
KNOT = 1852 / 3600
IN_LB = INCH * LB
FT_LB = FT * LB
DEG = math.pi / 180
F_STEP = 5 / 9
"""A temperature difference of one degree Fahrenheit [K]."""
F_FREEZING = 32.0
"""Degrees Fahrenheit at 0 C, exact by definition."""

_FORCE = {"lb": LB, "kip": KIP, "kg": KG_WEIGHT, "n": 1.0, "kn": 1e3}
_STRESS = {
    **dict.fromkeys(("psi", "lb/in2"), PSI),
    **dict.fromkeys(("ksi", "kip/in2"), KSI),
    **dict.fromkeys(("psf", "lb/ft2"), PSF),
    **dict.fromkeys(("pa", "n/m2"), 1.0),
    **dict.fromkeys(("kpa", "kn/m2"), 1e3),
    **dict.fromkeys(("mpa", "n/mm2"), 1e6),
    "gpa": 1e9,
}
UNITS: dict[str, dict[str, float]] = {
    "length": {"in": INCH, "ft": FT, "yd": YARD, "mm": MM, "cm": 0.01, "m": 1.0},
    "weight": {**_FORCE, "oz": OUNCE},
    "force": _FORCE,
    "speed": {
        **dict.fromkeys(("mph", "mi/h"), MPH),
        **dict.fromkeys(("km/h", "kmh", "kph"), KMH),
        **dict.fromkeys(("m/s", "mps"), 1.0),
        **dict.fromkeys(("ft/s", "fps"), FT),
        **dict.fromkeys(("knot", "kt", "kn"), KNOT),
    },
    "pressure": _STRESS,
    "stress": _STRESS,
    "weight per length": {
        **dict.fromkeys(("lb/ft", "plf"), PLF),
        "lb/in": LB / INCH,
        "kip/ft": KIP / FT,
        "kg/m": KG_WEIGHT,
        "n/m": 1.0,
        "kn/m": 1e3,
    },
    "torque": {
        **dict.fromkeys(("ft lb", "lb ft"), FT_LB),
        **dict.fromkeys(("in lb", "lb in"), IN_LB),
        **dict.fromkeys(("ft kip", "kip ft"), 1000 * FT_LB),
        **dict.fromkeys(("in kip", "kip in"), 1000 * IN_LB),
        **dict.fromkeys(("n m", "nm", "m n"), 1.0),
        **dict.fromkeys(("kn m", "knm"), 1e3),
        **dict.fromkeys(("kg m", "kgm"), KG_WEIGHT),
    },
    "angle": {"deg": DEG, "rad": 1.0},
}
"""Factor to SI of every unit understood, by kind of quantity and spelling as tidied."""

SPELLINGS = {
    **dict.fromkeys(("lbs", "pound", "pounds", "lbf"), "lb"),
    **dict.fromkeys(("ounce", "ounces"), "oz"),
    **dict.fromkeys(("kips", "k"), "kip"),
    **dict.fromkeys(("kgs", "kilo", "kilos", "kilogram", "kilograms", "kgf"), "kg"),
    **dict.fromkeys(("newton", "newtons"), "n"),
    "kilonewton": "kn",
    "kilonewtons": "kn",
    **dict.fromkeys(("inch", "inches", "ins", '"'), "in"),
    **dict.fromkeys(("foot", "feet", "'"), "ft"),
    **dict.fromkeys(("yard", "yards", "yds"), "yd"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("degree", "degrees", "degs"), "deg"),
    **dict.fromkeys(("radian", "radians"), "rad"),
    **dict.fromkeys(("knots", "kts"), "knot"),
    **dict.fromkeys(("hr", "hour"), "h"),
    **dict.fromkeys(("sec", "second"), "s"),
    "pascal": "pa",
}
"""Other spellings of the words units are made of."""

EXAMPLES = {
    "length": '"14 ft 2-1/2 in", "5 1/4 in", "0.237 in" or "1050 mm"',
    "weight": '"48 lb", "42 kg" or "400 N"',
    "force": '"300 lb" or "1.3 kN"',
    "speed": '"105 mph", "170 km/h" or "47 m/s"',
    "pressure": '"30 psf" or "1.4 kPa"',
    "stress": '"35 ksi" or "240 MPa"',
    "weight per length": '"7.58 lb/ft", "11 kg/m" or "110 N/m"',
    "torque": '"30 ft-lb", "300 in-lb" or "40 N m"',
    "angle": '"35 deg"',
    "size": '"41 in x 69 in" or "1040 mm x 1755 mm"',
}
"""How to write each kind, for messages."""

COLUMNS = {
    "in": INCH,
    "in2": INCH**2,
    "in3": INCH**3,
    "in4": INCH**4,
    "mm": MM,
    "mm2": MM**2,
    "ft": FT,
    "lb": LB,
    "kip": KIP,
    "n": 1.0,
    "lb_per_ft": PLF,
    "psi": PSI,
    "ksi": KSI,
    "psf": PSF,
    "psf_per_ft": PSF / FT,
    "pcf": PCF,
    "pci": PCI,
    "in_lb": IN_LB,
    "ft_lb": FT_LB,
    "per_ft": 1 / FT,
    "per_f": 1 / F_STEP,
    "deg": DEG,
    "mph": MPH,
}
"""Factor to SI of the unit at the end of a column head of a data table."""


def column_factor(head: str) -> float:
    """Factor to SI of the unit a column head ends in (`od_in`, `fy_ksi`); 1 without a unit."""
    parts = head.split("_")
    for start in range(1, len(parts)):
        factor = COLUMNS.get("_".join(parts[start:]))
        if factor is not None:
            return factor
    return 1.0
