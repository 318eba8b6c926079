"""A pin or bolt right through sleeve and post: shear, bearing on the walls, bending, the hole.

Lengths m, forces N, torques N m, stresses Pa; numbers or arrays. AISC 360-22, from memory of the
standard: J3.7 (shear), J3.11(c) with J7 (a bolt through a hollow section bears at 1.8 Fy, since
nothing clamps the walls), J3.11 tear-out, F11 (bending of a round bar). Every `factor` is the
code's; with expected stresses and walls a factor of 1 gives the strength to expect.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState

BOLT_FACTOR, BEARING_FACTOR, BENDING_FACTOR = 2.0, 2.0, 1.67


@dataclass(frozen=True, slots=True, kw_only=True)
class ThroughPin:
    """A through pin: `diameter` [m], `shear_stress` Fnv, `yield_stress` [Pa] (A307: 27, 36 ksi).

    `post_radius` and `sleeve_radius` to the middle of each wall [m]. Threads in the shear plane
    are in Fnv, which goes with the full area of the shank.
    """

    diameter: Numbers
    shear_stress: Numbers
    yield_stress: Numbers
    post_radius: Numbers
    sleeve_radius: Numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class PinnedWall:
    """A wall the pin passes through twice: `wall` [m], `yield_stress`, `tensile` [Pa].

    `to_edge` is the clear distance [m] from the hole to the open end of the pipe.
    """

    wall: Numbers
    yield_stress: Numbers
    tensile: Numbers
    to_edge: Numbers


def _sheet(swing: Numbers, lift: Numbers, pin: ThroughPin) -> Sheet:
    """Begin with the force at each wall of the post: half the couple of the swing, half the lift.

    R is the smaller radius, the post's: no friction counted, and the set bolts nothing.
    """
    sheet = Sheet()
    sheet.given("T", "swing about the post", np.abs(swing), "N m")
    sheet.given("U", "force along the post", np.abs(lift), "N")
    sheet.given("Rp", "radius to the middle of the post's wall", pin.post_radius, "m")
    sheet.work("V", "force at each wall", "sqrt((T/(2*Rp))^2 + (U/2)^2)", "N")
    sheet.given("d", "diameter of the pin", pin.diameter, "m")
    return sheet


def pin_shear(
    swing: Numbers, lift: Numbers, pin: ThroughPin, factor: float = BOLT_FACTOR
) -> Check:
    """Check the pin in shear between post and sleeve, one plane a side: Fnv A, factor 2.00.

    `swing` about the post [N m]; `lift` along it [N], or the weight if the pin carries it.
    """
    sheet = _sheet(swing, lift, pin)
    sheet.given("Fnv", "shear stress of the pin", pin.shear_stress, "Pa", "Table J3.2")
    sheet.work("R", "strength", "Fnv*pi/4*d^2", "N", "J3-1")
    sheet.work("Ra", "counted on", f"R/{factor}", "N")
    sheet.use("use", "use of the pin", "V", "Ra")
    return Check(
        name=LimitState.PIN_SHEAR,
        demand=sheet["V"],
        allowable=sheet["Ra"],
        nominal=sheet["R"],
        unit="N",
        source="AISC 360-22 J3.7 (from memory of the standard)",
        steps=tuple(sheet.steps),
    )


def pin_bearing(
    swing: Numbers,
    lift: Numbers,
    pin: ThroughPin,
    wall: PinnedWall,
    factor: float = BEARING_FACTOR,
) -> Check:
    """Check one wall under the pin: bearing 1.8 Fy d t (J7) or tear-out 1.2 lc t Fu, factor 2.00.

    Run it for the post and for the sleeve. Tear-out is counted whichever way the force points.
    `swing` and `lift` as in `pin_shear`.
    """
    sheet = _sheet(swing, lift, pin)
    sheet.given("t", "wall", wall.wall, "m")
    sheet.given("Fy", "yield stress of the wall", wall.yield_stress, "Pa")
    sheet.given("Fu", "tensile strength of the wall", wall.tensile, "Pa")
    sheet.given("lc", "hole to the open end, clear", wall.to_edge, "m")
    sheet.work("Rb", "bearing", "1.8*Fy*d*t", "N", "J7-1")
    sheet.work("Rt", "tear-out", "1.2*lc*t*Fu", "N", "J3-6c")
    sheet.work("R", "strength", "min(Rb, Rt)", "N")
    sheet.work("Ra", "counted on", f"R/{factor}", "N")
    sheet.use("use", "use of the wall", "V", "Ra")
    return Check(
        name=LimitState.PIN_BEARING,
        demand=sheet["V"],
        allowable=sheet["Ra"],
        nominal=sheet["R"],
        unit="N",
        source="AISC 360-22 J3.11(c), J7, tear-out J3.11 (from memory of the standard)",
        steps=tuple(sheet.steps),
    )


def pin_bending(
    swing: Numbers, lift: Numbers, pin: ThroughPin, factor: float = BENDING_FACTOR
) -> Check:
    """Check the pin bent across the gap between the walls of post and sleeve.

    The pin is free to turn in its holes, so the moment is the force times the whole distance
    between the middles of the walls. Mn = Fy Z, at most 1.6 Fy S (F11), factor 1.67. `swing` and
    `lift` as in `pin_shear`.
    """
    sheet = _sheet(swing, lift, pin)
    sheet.given("Rs", "radius to the middle of the sleeve's wall", pin.sleeve_radius, "m")
    sheet.work("M", "bending of the pin", "V*(Rs - Rp)", "N m")
    sheet.given("Fy", "yield stress of the pin", pin.yield_stress, "Pa")
    sheet.work("Mn", "strength", "min(Fy*d^3/6, 1.6*Fy*pi*d^3/32)", "N m", "F11-1")
    sheet.work("Ma", "counted on", f"Mn/{factor}", "N m")
    sheet.use("use", "use of the pin", "M", "Ma")
    return Check(
        name=LimitState.PIN_BENDING,
        demand=sheet["M"],
        allowable=sheet["Ma"],
        nominal=sheet["Mn"],
        unit="N m",
        source="AISC 360-22 F11 (from memory of the standard); arm between mid-walls (judgement)",
        steps=tuple(sheet.steps),
    )


def section_left(od: Numbers, wall: Numbers, hole: Numbers) -> Numbers:
    """Share of a pipe's bending stiffness left at two opposite holes [1], bent across the holes.

    The holes sit where the stress is greatest: the wall arcs they take are cut out exactly (walls
    thin against the radius). For the check of the post at the pin, as a share of its strength in
    bending. Holes as wide as the pipe or wider leave nothing.
    """
    half = np.arcsin(np.minimum(np.divide(hole, np.subtract(od, wall)), 1.0))
    left: Numbers = 1 - (2 * half + np.sin(2 * half)) / np.pi
    return left
