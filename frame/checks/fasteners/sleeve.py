"""The sleeve that carries the beam on the post: couple over its length, wall bearing, slop.

Lengths m, forces N, moments N m, stresses Pa, angles rad; numbers or arrays.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Kind, Numbers
from frame.checks.sheet import Sheet
from frame.checks.welds.round_joint import MOST_YIELD
from frame.checks.welds.wall_use import CHORD_LEFT, CHORD_LEFT_AT_YIELD, OPEN_END
from frame.named.limit_state import LimitState

WALL_FACTOR = 1.67
LINE_CONTACT = 0.0
"""Width of contact over diameter for a loose sleeve: it bears along a line (judgement)."""

SOURCE = (
    "AISC 360-22 Table K2.1, plate on a round wall (from memory of the standard), used for "
    "contact without weld (judgement); couple by linear pressure over the sleeve (judgement)"
)
EXPECTED_SOURCE = (
    "AISC 360-22 Table K2.1, plate on a round wall (from memory of the standard), times what "
    "length and place of the contact make of it (judgement)"
)
NOTE = "capping the post and shimming the sleeve tight raise this"


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingWall:
    """A pipe wall pressed from the side: `od`, `wall` [m] as counted on, `yield_stress` [Pa].

    `contact` is the width of the contact over the diameter [1], nil along a line. `open_end` where
    the pipe stops within about a diameter of the contact without a cap: the foot of a sleeve, an
    open post top.
    """

    od: Numbers
    wall: Numbers
    yield_stress: Numbers
    contact: Numbers = LINE_CONTACT
    open_end: bool = True

    @property
    def share(self) -> float:
        """Share of the strength left [1]."""
        return OPEN_END if self.open_end else 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Couple:
    """What presses a wall at one end of a sleeve `length` long over its post: N m, N and m.

    `moment` is about the middle of the sleeve. Of the side force that the sleeve passes, `shear`
    is the part along the push of the couple at that end, negative where it takes some of it off,
    and `beside` the part square to it. Pressure varies in a straight line along the sleeve, so the
    resultants of the halves stand 2/3 of the length apart; a sleeve that bears at its very ends
    has a longer arm and less force.
    """

    moment: Numbers
    shear: Numbers
    length: Numbers
    beside: Numbers = 0.0


def wall_bearing(couple: Couple, wall: BearingWall, stress: Numbers = 0.0) -> Check:
    """Check the wall of post or sleeve under the side force at one end of the sleeve.

    R = 5.5 Fy t^2 Qf (1 + 0.25 l/D) / (1 - 0.81 b), l the length and b the width of contact over
    the diameter (b = 0: a line along the pipe), half of it at an open end, factor 1.67. `stress`
    is the pipe's own compression there [Pa]. Run it for the post at the foot of the sleeve
    (stressed, not an end), for the post's top and for the sleeve's foot (ends). Not covered
    outside the table's limits: D/t <= 50, Fy <= 52 ksi, b <= 1.
    """
    Fy, b = wall.yield_stress, wall.contact
    inside = (np.divide(wall.od, wall.wall) <= 50, np.less_equal(Fy, MOST_YIELD), np.less(b, 1))
    sheet = _pressed(couple, wall)
    sheet.given("b", "width of contact over diameter", b, "")
    sheet.work("l", "length that bears at each end", "L/3", "m")
    sheet.given("fc", "the pipe's own compression", np.maximum(stress, 0.0), "Pa")
    sheet.work("Q", "share left by it", CHORD_LEFT, "", "K2-4")
    strength = "e*5.5*Fy*t^2*(1 + 0.25*l/D)/(1 - 0.81*min(b, 1))"
    sheet.work("R", "strength", strength, "N", "K2.1")
    sheet.work("Ra", "allowable", f"Q*R/{WALL_FACTOR}", "N")
    sheet.use("use", "use of the wall", "F", "Ra")
    return Check(
        name=LimitState.SLEEVE_BEARING,
        demand=sheet["F"],
        allowable=sheet["Ra"],
        nominal=sheet.value(f"({CHORD_LEFT_AT_YIELD})*R"),
        unit="N",
        source=SOURCE,
        covered=np.logical_and.reduce(np.broadcast_arrays(*inside)),
        steps=tuple(sheet.steps),
        note=NOTE,
        kind=Kind.LEANS,
    )


def expected_wall_bearing(
    couple: Couple, wall: BearingWall, stress: Numbers = 0.0, bearing: Numbers = 1.5
) -> Check:
    """Check a side force as in `wall_bearing` against the strength expected.

    R = `bearing` 5.5 Fy t^2 Qf, `bearing` what contact and arm make of it: 1.5 is contact along
    lines at the sleeve's very ends, a whole length apart; 1 to 2 (judgement). Qf by fc / Fy, held
    at 1. Goes on outside the table's limits, where the form is still a fair estimate. Allowable is
    the strength.
    """
    sheet = _pressed(couple, wall)
    sheet.given("c", "share that contact and arm make of it", bearing, "")
    sheet.given("fc", "the pipe's own compression", np.maximum(stress, 0.0), "Pa")
    sheet.work("Q", "share left by it", CHORD_LEFT_AT_YIELD, "", "K2-4")
    sheet.work("R", "strength expected", "Q*c*e*5.5*Fy*t^2", "N", "K2.1")
    sheet.use("use", "use of the wall", "F", "R")
    return Check(
        name=LimitState.SLEEVE_BEARING,
        demand=sheet["F"],
        allowable=sheet["R"],
        nominal=sheet["R"],
        unit="N",
        source=EXPECTED_SOURCE,
        steps=tuple(sheet.steps),
        note=NOTE,
        kind=Kind.LEANS,
    )


def _pressed(couple: Couple, wall: BearingWall) -> Sheet:
    """Begin with the side force at one end of a sleeve."""
    sheet = Sheet()
    sheet.given("M", "moment about the middle of the sleeve", np.abs(couple.moment), "N m")
    sheet.given("V", "side force along the couple's push at that end", couple.shear, "N")
    sheet.given("B", "side force square to it", couple.beside, "N")
    sheet.given("L", "length of sleeve over the post", couple.length, "m")
    sheet.work("F", "side force there", "sqrt((M/(2/3*L) + V/2)^2 + (B/2)^2)", "N")
    sheet.given("D", "diameter of the pipe", wall.od, "m")
    sheet.given("t", "wall", wall.wall, "m")
    sheet.given("Fy", "yield stress", wall.yield_stress, "Pa")
    sheet.given("e", "share left at an open end", wall.share, "")
    return sheet
