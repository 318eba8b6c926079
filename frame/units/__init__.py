"""Units at the edges: SI inside, builders' units in files and on paper.

In: text with units. Out: SI numbers, and back. Open `parse.py` first, then `show.py`. Every
conversion factor of the program is typed in `frame.units.factors`, once.
"""

from frame.units.factors import (
    DEG,
    F_STEP,
    FT,
    FT_LB,
    G0,
    IN_LB,
    INCH,
    KG_WEIGHT,
    KIP,
    KMH,
    KNOT,
    KSI,
    LB,
    MM,
    MPH,
    PCF,
    PCI,
    PLF,
    PSF,
    PSI,
    column_factor,
)
from frame.units.parse import TwoValuesError, UnitError, parse
from frame.units.prose import told_in
from frame.units.show import (
    METRIC,
    SYSTEMS,
    US,
    head_unit,
    show,
    show_both,
    show_no_more,
    show_number,
    show_size,
)

__all__ = [
    "DEG",
    "FT",
    "FT_LB",
    "F_STEP",
    "G0",
    "INCH",
    "IN_LB",
    "KG_WEIGHT",
    "KIP",
    "KMH",
    "KNOT",
    "KSI",
    "LB",
    "METRIC",
    "MM",
    "MPH",
    "PCF",
    "PCI",
    "PLF",
    "PSF",
    "PSI",
    "SYSTEMS",
    "US",
    "TwoValuesError",
    "UnitError",
    "column_factor",
    "head_unit",
    "parse",
    "show",
    "show_both",
    "show_no_more",
    "show_number",
    "show_size",
    "told_in",
]
