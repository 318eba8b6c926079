"""Straps across a rail: where it is held by several U-bolts, their legs pass beside it."""

import math
from dataclasses import dataclass

from frame.checks.fasteners.u_bolt import BOLT_FACTOR
from frame.named.part import PartKind
from frame.parts.rails.u_bolts import u_bolt
from frame.parts.welds.plates import PLATE_STEEL
from frame.rack.rack import Rack
from frame.shop.steel.pieces import HOLE, PLATE, Mark, Piece, on_tape
from frame.tables.steels import find, material
from frame.units import INCH, METRIC, MM, show

APART, EDGE, WIDE = 3.0, 1.5, 3.0
"""Bolts apart, middle of a hole to an end, and width of a strap, in diameters of the rod: what
AISC 360-22 J3.3 prefers, and Table J3.4 rounded up (from memory of the standard)."""
BENDING_FACTOR = 1.67
"""AISC 360-22 F11 (from memory of the standard)."""
PLATES = {
    "us": tuple(n * INCH / 16 for n in (4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 32)),
    METRIC: tuple(n * MM for n in (6, 8, 10, 12, 15, 20, 25, 30, 40, 50)),
}
"""Thicknesses of flat bar [m] (common practice, no source)."""
NUT = 2.0
"""Nut, washer and thread over a strap, in diameters of the rod (judgement)."""
LOWER, UPPER = "U-bolt, lower leg", "U-bolt, upper leg"
MIDDLE = "middle of the rail"


@dataclass(frozen=True, slots=True)
class Strap:
    """Holes of a strap from its middle, `out` [m]; `width`, `thickness`, `length` [m].

    `through`: the middle leg passes through the rail. `over`: how far strap, nut and thread stand
    out over the rail [m].
    """

    out: tuple[float, ...]
    width: float
    thickness: float
    length: float
    hole: float
    through: bool
    over: float


def strap_of(rack: Rack) -> Strap | None:
    """Work out the straps of a rack; None where one U-bolt holds each rail, through its web.

    The legs beside the rail leave a whole section of the strap at its edge. That section, a
    cantilever, bears the legs with what the check counts on of a leg: M = sum of P (x - w / 2),
    t = sqrt(4 M 1.67 / (Fy b)), AISC 360-22 F11-1 (from memory of the standard).
    """
    count, rod = rack.rails.u_bolts.count, rack.rails.u_bolts.diameter
    if count == 1:
        return None
    step = MM if rack.units == METRIC else INCH / 16
    side = rack.rails.channel.width / 2
    hole = rod + HOLE
    through = count % 2 == 1
    pitch = math.ceil(APART * rod / step - 1e-6) * step
    stop = rack.welds.lug_plate if rack.rails.stops else 0.0
    least = max(side + stop + hole / 2, APART * rod if through else 0.0)
    first = math.ceil(least / step - 1e-6) * step
    beside = [first + k * pitch for k in range(count // 2)]
    out = (*(-x for x in reversed(beside)), *((0.0,) if through else ()), *beside)
    width = WIDE * rod
    leg = u_bolt(rack)
    pull = float(leg.tensile * leg.stress_area) / BOLT_FACTOR
    moment = sum(pull * (x - side) for x in beside)
    needed = math.sqrt(4 * moment * BENDING_FACTOR / (find(PLATE_STEEL).fy * width))
    kept = PLATES[METRIC if rack.units == METRIC else "us"]
    thickness = next((t for t in kept if t >= needed - 1e-9), needed)
    length = 2 * on_tape(beside[-1] + EDGE * rod + step / 2, rack.units)
    over = thickness + NUT * rod
    return Strap(out, width, thickness, length, hole, through, over)


def strap_piece(rack: Rack, strap: Strap) -> Piece:
    """Return the straps as a piece: one across each leg line of every rail."""
    wide, thick = (show(v, "length", rack.units) for v in (strap.width, strap.thickness))
    middle = strap.length / 2
    marks = [
        Mark(name=f"U-bolt {i}", at=middle + x, hole=strap.hole)
        for i, x in enumerate(strap.out, 1)
    ]
    marks.append(Mark(name=MIDDLE, at=middle))
    volume = strap.length * strap.width * strap.thickness
    return Piece(
        letter="",
        name="strap",
        of=PartKind.STRAP,
        count=2 * len(rack.rails.positions),
        kind=PLATE,
        stock=f"flat {wide} x {thick}",
        od=strap.width,
        wall=strap.thickness,
        length=strap.length,
        weight=volume * material().unit_weight,
        marks=tuple(sorted(marks, key=lambda m: m.at)),
    )


def strap_words(rack: Rack, letter: str) -> str:
    """Say where the legs go of more U-bolts than one on a rail; empty for one."""
    strap = strap_of(rack)
    if strap is None:
        return ""
    middle = (
        "the middle one through the rail, the others beside it"
        if strap.through
        else ("all beside the rail")
    )
    over = show(strap.over, "length", rack.units)
    return (
        f"; legs through two straps {letter} across the outer face of each rail, {middle}; straps "
        f"and nuts stand {over} over the rail: where a panel's frame would lie on them, pack "
        "every clamp up by that"
    )
