"""A flat lug with one bolt, and the bolt: what a pinned brace hangs on.

AISC 360-22, from memory of the standard: D5.1 (a pin-connected plate: net width and tear-out), J7
(bearing), D2 (gross section), J3.7 (the bolt in one shear plane). Lengths m, forces N, stresses
Pa; numbers or arrays.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState
from frame.units import INCH

RUPTURE_FACTOR, YIELD_FACTOR = 2.0, 1.67
CLEARANCE = INCH / 16
"""Hole over bolt [m], AISC 360-22 Table J3.3."""
EXTRA = 0.63 * INCH
"""Added to twice the plate's thickness for the width that counts beside a pin [m], D5.1."""
SOURCE = "AISC 360-22 D2, D5.1, J3.7, J7 (from memory of the standard)"
NOTE = "one lug beside one tab bends both: a fork, or a lug on either side, does not"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltedLug:
    """A lug `width` wide and `thickness` thick [m] with a bolt of `diameter` [m].

    `to_end` from the middle of the hole to the lug's end [m]; `yield_stress`, `tensile` of the
    plate, `shear_stress` of the bolt [Pa].
    """

    width: Numbers
    thickness: Numbers
    diameter: Numbers
    to_end: Numbers
    yield_stress: Numbers
    tensile: Numbers
    shear_stress: Numbers


def bolted_lug(force: Numbers, lug: BoltedLug, *, factored: bool = True) -> Check:
    """Check a lug and its bolt under a `force` [N] any way in the lug's plane.

    The least of: net width beside the hole, Fu 2 t be with be = 2 t + 16 mm but no more than there
    is; tear-out, 0.6 Fu 2 t (a + d / 2); bearing, 1.8 Fy d t; the bolt in one plane, Fnv A, all
    with factor 2.00; the gross section, Fy w t, factor 1.67. Tear-out counts whichever way the
    force points. Nothing is left where the hole is as wide as the lug or its edge reaches the end.
    Not `factored`: against the strength to expect of the steels of `lug`, without the factors.
    """
    rupture, yielding = (RUPTURE_FACTOR, YIELD_FACTOR) if factored else (1.0, 1.0)
    sheet = Sheet()
    sheet.given("P", "force at the bolt", np.abs(force), "N")
    sheet.given("w", "width of the lug", lug.width, "m")
    sheet.given("t", "thickness of the lug", lug.thickness, "m")
    sheet.given("d", "diameter of the bolt", lug.diameter, "m")
    sheet.given("e", "middle of the hole to the end", lug.to_end, "m")
    sheet.given("Fy", "yield stress of the lug", lug.yield_stress, "Pa")
    sheet.given("Fu", "tensile strength of the lug", lug.tensile, "Pa")
    sheet.given("Fnv", "shear stress of the bolt", lug.shear_stress, "Pa", "Table J3.2")
    sheet.given("c", "clearance of the hole", CLEARANCE, "m", "Table J3.3")
    sheet.given("x", "added width", EXTRA, "m", "D5.1")
    sheet.work("h", "hole", "d + c", "m")
    sheet.work("be", "width that counts each side", "max(min(2*t + x, (w - h)/2), 0)", "m")
    sheet.work("a", "hole to the end, clear", "max(e - h/2, 0)", "m")
    sheet.work("Rn", "net width", "Fu*2*t*be", "N", "D5-1")
    sheet.work("Rt", "tear-out", "0.6*Fu*2*t*(a + d/2) if a > 0 else 0", "N", "D5-2")
    sheet.work("Rb", "bearing", "1.8*Fy*d*t", "N", "J7-1")
    sheet.work("Rv", "bolt in shear", "Fnv*pi/4*d^2", "N", "J3-1")
    sheet.work("Rg", "gross section", "Fy*w*t", "N", "D2-1")
    least = "min(Rn, Rt, Rb, Rv)"
    word = "allowable" if factored else "expected"
    sheet.work("Ra", word, f"min({least}/{rupture}, Rg/{yielding})", "N")
    sheet.use("use", "use of lug and bolt", "P", "Ra")
    return Check(
        name=LimitState.LUG,
        demand=sheet["P"],
        allowable=sheet["Ra"],
        nominal=sheet.value(f"min({least}, Rg)"),
        unit="N",
        source=SOURCE,
        note=NOTE,
        steps=tuple(sheet.steps),
    )
