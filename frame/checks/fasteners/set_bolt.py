"""Set bolts through the sleeve: their grip on the post against swing and lift.

Forces N, torques N m, lengths m, stresses Pa; numbers or arrays. A set bolt thrusts on the post
and the sleeve's far wall presses back as hard: friction on both faces holds. Holding forces of
tables are those of set screws on hardened shafts, so for the code's margin on a pipe wall only the
low table counts.

Several bolts by statics, bolts and far wall sharing alike: n equal thrusts hold (n + s) / 2 times
what one holds, s the length of the sum of their directions. Bolts in line add 1.0 each, at right
angles 0.7, two that face each other nothing.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Kind, Numbers
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState

GRIP_FACTOR = 2.0
"""Factor on slip under steady load; 4 to 8 is usual where the joint shakes (Shigley)."""

FURTHER_BOLT = 0.7
"""What each further bolt adds to the first, at a right angle to it; in line with it, more."""

TOGETHER = f"(min(n, 1) + {FURTHER_BOLT}*max(n - 1, 0))"
"""What n bolts hold over what one holds."""

NUT_FACTOR = 0.2
"""Torque over thrust and diameter, zinc thread; 0.3 if black (Shigley Table 8-15, from memory).

The code's grip goes by torque, as its table does: the factor says only how soon the wall dents,
and the lower is the safer.
"""

TOP_FRICTION, EXPECTED_TOP_FRICTION = 0.15, 0.25
"""Of the beam on the post's top: galvanised or painted (from memory of handbooks); expected
(judgement)."""

SOURCE = (
    "holding force of set screws by seating torque, a public chart of half of Shigley Mechanical "
    "Engineering Design, Table 7-4, both from memory; in proportion to torque (judgement); "
    "further bolts and the weight on the post by statics; thrust no more than pi Fy t^2 (yield "
    "lines of a plate under a point load); factor 2"
)
EXPECTED_SOURCE = (
    "thrust by Shigley Eq. 8-27, no more than pi Fy t^2 (yield lines of a plate "
    "under a point load); friction (judgement); further bolts and the weight by statics"
)
NOTE = (
    "counts torque checked after a week and every year, of which a jam nut saves half of what is "
    "else lost. A jam nut stops loosening, it adds no grip. "
    "Further bolts count beside or at a right angle to the first; one that faces it adds nothing"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """The set bolts of one sleeve.

    `torque` on each [N m] of `diameter` [m]; `kept`, the share of the torque still there;
    `nut_factor`, torque over thrust and diameter [1].
    `seating_torque` at which one bolt holds `holding` [N] along the post's surface, by the low
    table. The post's `post_od`, `post_wall` [m] and `post_yield` [Pa].
    """

    count: Numbers
    diameter: Numbers
    torque: Numbers
    seating_torque: Numbers
    holding: Numbers
    post_od: Numbers
    post_wall: Numbers
    post_yield: Numbers
    kept: Numbers = 1.0
    nut_factor: Numbers = NUT_FACTOR

    @property
    def denting(self) -> Numbers:
        """Thrust [N] at which a bolt's point dents the post's wall, pi Fy t^2.

        A plate pressed at a point yields along a fan of lines, of 4 pi times its plastic moment
        Fy t^2 / 4 (any text on yield lines); AISC 360-22 Table K2.1 has 5.5 Fy t^2 for a pipe
        pressed along a line of no length, before its factor of 1.67.
        """
        return _bolts(Sheet(), self)["Pd"]


def set_bolt_grip(swing: Numbers, grip: Grip, lift: Numbers = 0.0, weight: Numbers = 0.0) -> Check:
    """Check the grip of set bolts against `swing` about the post [N m] with `lift` [N] along it.

    Friction resists the resultant of both at the post's surface; as a torque,
    sqrt(swing^2 + (lift D/2)^2) against the grip. `weight` [N] is the dead weight that still
    presses the beam on the post's top: what it rubs there adds to the grip. Nominal is the low
    band.
    """
    sheet = _bolts(_loads(swing, lift, grip), grip)
    sheet.given("t0", "torque of the table", grip.seating_torque, "N m")
    sheet.given("H", "holding force of one bolt at it, low", grip.holding, "N")
    sheet.work("share", "share reached", "min(K*d*P/t0, 1)", "")
    sheet.work("Gb", "grip of the bolts, low", f"H*share*{TOGETHER}*R", "N m")
    _rubs(sheet, weight, TOP_FRICTION)
    sheet.work("G", "grip, low", "Gb + Gw", "N m")
    sheet.work("Ga", "allowable", f"G/{GRIP_FACTOR}", "N m")
    sheet.use("use", "use of the grip", "Td", "Ga")
    return Check(
        name=LimitState.SWING_GRIP,
        demand=sheet["Td"],
        allowable=sheet["Ga"],
        nominal=sheet["G"],
        unit="N m",
        source=SOURCE,
        steps=tuple(sheet.steps),
        note=NOTE,
        kind=Kind.TURNS,
    )


def expected_set_bolt_grip(
    swing: Numbers, grip: Grip, friction: Numbers, lift: Numbers = 0.0, weight: Numbers = 0.0
) -> Check:
    """Check swing and lift as in `set_bolt_grip` against the grip expected, by friction alone.

    The thrust of every bolt times `friction` [1], that of its point and of the far wall together
    (`set_bolt_friction` of `expected.csv`), at the post's radius, and `EXPECTED_TOP_FRICTION` of
    the `weight` [N] at the radius where it rubs. The tables of set screws take no part. Allowable
    is the strength.
    """
    sheet = _bolts(_loads(swing, lift, grip), grip)
    sheet.given("mu", "friction of point and far wall together", friction, "")
    sheet.work("Gb", "grip of the bolts", f"mu*P*{TOGETHER}*R", "N m")
    _rubs(sheet, weight, EXPECTED_TOP_FRICTION)
    sheet.work("G", "grip expected", "Gb + Gw", "N m")
    sheet.use("use", "use of the grip", "Td", "G")
    return Check(
        name=LimitState.SWING_GRIP,
        demand=sheet["Td"],
        allowable=sheet["G"],
        nominal=sheet["G"],
        unit="N m",
        source=EXPECTED_SOURCE,
        steps=tuple(sheet.steps),
        note=NOTE,
        kind=Kind.TURNS,
    )


def _loads(swing: Numbers, lift: Numbers, grip: Grip) -> Sheet:
    """Begin with what the grip must hold."""
    sheet = Sheet()
    sheet.given("T", "swing about the post", np.abs(swing), "N m")
    sheet.given("U", "lift along the post", np.maximum(lift, 0.0), "N")
    sheet.given("R", "radius of the post", np.divide(grip.post_od, 2), "m")
    sheet.work("Td", "both, as a torque", "sqrt(T^2 + (U*R)^2)", "N m")
    return sheet


def _bolts(sheet: Sheet, grip: Grip) -> Sheet:
    """Go on with the thrust of a bolt: kept torque / (K d), no more than dents the wall."""
    sheet.given("n", "number of bolts", grip.count, "")
    sheet.given("d", "diameter of a bolt", grip.diameter, "m")
    sheet.given("tq", "torque on each bolt", grip.torque, "N m")
    sheet.given("kept", "share of it that lasts", grip.kept, "")
    sheet.given("K", "nut factor", grip.nut_factor, "")
    sheet.given("t", "wall of the post", grip.post_wall, "m")
    sheet.given("Fy", "yield stress of the post", grip.post_yield, "Pa")
    sheet.work("Pd", "thrust that dents the wall", "pi*Fy*t^2", "N")
    sheet.work("P", "thrust of a bolt", "min(kept*tq/(K*d), Pd)", "N")
    return sheet


def _rubs(sheet: Sheet, weight: Numbers, friction: float) -> None:
    """Go on with the grip of the weight on the post's top, at 2/3 of its radius.

    A flat pivot under even pressure (any text on friction): between the rim of an open post, its
    radius, and a line along the beam over a capped one, half of it.
    """
    sheet.given("W", "dead weight on the post's top", np.maximum(weight, 0.0), "N")
    sheet.work("r", "radius at which it rubs", "2/3*R", "m")
    sheet.work("Gw", "grip of the weight", f"{friction}*W*r", "N m")
