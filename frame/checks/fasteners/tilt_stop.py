"""A stop against tilting: a plate across the beam beside a rail, welded to the beam, bolted to it.

The plate stands on edge, square to the beam's axis, as wide as the beam, coped over the beam and
welded on both faces; two bolts through both side walls of the rail hold it to the plate, one pair
of holes for each tilt. The bolts hold by a couple along the rail: how high over the beam they are
changes nothing but the edge that they tear towards. Off the middle of a doubled rail their holes
cost it bending strength, see `drilled_share` of `frame.checks.steel.rail_stock`. Lengths m, forces
N, moments N m, stresses Pa; numbers or arrays.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step, demand_over
from frame.checks.fasteners.lug import CLEARANCE
from frame.checks.sheet import Sheet
from frame.checks.welds.wall_use import Shares, wall_use
from frame.checks.welds.weld import FILLET_THROAT, WeldLine
from frame.named.limit_state import LimitState

RUPTURE_FACTOR, YIELD_FACTOR = 2.0, 1.67
WELDED = 0.8
"""Width of the plate that is welded to the beam over the beam's diameter [1] (judgement)."""
EDGE = 1.5
"""Middle of a bolt to the plate's edge over its diameter [1], AISC 360-22 Table J3.4, about."""
CLEAR = 1.0
"""Most that counts of the clear distance from a hole to the rail's edge, over the bolt's diameter
[1] (judgement)."""
BACK = 2.0
"""Wall and inside of the bend of a channel's back, that a hole keeps clear of, over the wall [1]
(judgement)."""
MOST_SLENDER = 50
PLATE_SOURCE = "AISC 360-22 F11.1, J3.7, J3.11a (from memory of the standard)"
WALL_SOURCE = "AISC 360-22 Table K2.1, transverse plate (from memory of the standard)"
NOTE = "drill the rail and the plate together, one pair of holes for each tilt"


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltStop:
    """A stop on a beam of `beam_od` and `beam_wall`: its `plate` thickness, `bolt` diameter [m].

    `plate_yield`, `bolt_shear`; `rail_wall` and `rail_tensile` of the rail it holds, of one
    channel where there are two; `rail_edge` from the middle of a hole to that channel's slot face
    and to the outside of its back, as far from one as from the other [m]; `beam_yield`.
    """

    beam_od: Numbers
    beam_wall: Numbers
    beam_yield: Numbers
    plate: Numbers
    plate_yield: Numbers
    bolt: Numbers
    bolt_shear: Numbers
    rail_wall: Numbers
    rail_tensile: Numbers
    rail_edge: Numbers

    @property
    def bolt_spacing(self) -> Numbers:
        """Distance between the two bolts [m]."""
        apart: Numbers = np.subtract(self.beam_od, np.multiply(2 * EDGE, self.bolt))
        return apart

    @property
    def clears_back(self) -> bool | npt.NDArray[np.bool_]:
        """Whether a hole finds room beside the back of its channel and the bend there."""
        clear = np.subtract(self.rail_edge, np.add(self.bolt, CLEARANCE) / 2)
        room: npt.NDArray[np.bool_] = np.greater(clear, np.multiply(BACK, self.rail_wall))
        return room

    @property
    def welded_width(self) -> Numbers:
        """Width of plate welded to the beam [m]."""
        wide: Numbers = np.multiply(WELDED, self.beam_od)
        return wide


def stop_plate(turning: Numbers, at: TiltStop, *, factored: bool = True) -> Check:
    """Check plate and bolts under the `turning` of a rail about the beam [N m].

    The least of: the plate bent in its plane, Fy b D^2 / 4 (F11.1, factor 1.67); two bolts in one
    plane of shear, Fnv A s (J3.7); one side wall of the rail torn behind a bolt, 1.2 lc t Fu s
    with what is clear of slot face or back, a bolt's width at most (J3.11a; bearing, 2.4 d t Fu,
    is never less), both with factor 2.00. The wall goes on round either bend, so neither is a
    free edge, and the far side wall helps: on the safe side. Not `factored`: against the strength
    to expect of the steels of `at`. Nothing is left where the bolts find no room side by side, or
    a hole none beside the back and its bend.
    """
    rupture, yielding = (RUPTURE_FACTOR, YIELD_FACTOR) if factored else (1.0, 1.0)
    sheet = Sheet()
    sheet.given("M", "turning of the rail about the beam", np.abs(turning), "N m")
    sheet.given("D", "width of the plate, as the beam", at.beam_od, "m")
    sheet.given("b", "thickness of the plate", at.plate, "m")
    sheet.given("d", "diameter of a bolt", at.bolt, "m")
    sheet.given("t", "side wall of the rail, one of two", at.rail_wall, "m")
    sheet.given("e", "middle of a hole to slot face and back", at.rail_edge, "m")
    sheet.given("c", "clearance of the hole", CLEARANCE, "m", "Table J3.3")
    sheet.given("Fy", "yield stress of the plate", at.plate_yield, "Pa")
    sheet.given("Fnv", "shear stress of a bolt", at.bolt_shear, "Pa", "Table J3.2")
    sheet.given("Fu", "tensile strength of the rail", at.rail_tensile, "Pa")
    sheet.work("s", "bolt to bolt", f"max(D - {2 * EDGE}*d, 0)", "m")
    sheet.work("Mp", "plate bent in its plane", "Fy*b*D^2/4", "N m", "F11-1")
    sheet.work("Mb", "bolts in shear", "Fnv*pi/4*d^2*s", "N m", "J3-1")
    sheet.work("a", "hole to the edge, clear", "e - (d + c)/2", "m")
    clear = f"min({CLEAR}*d, a) if a > {BACK}*t else 0"
    sheet.work("lc", "counted of it; 0: it cuts the back", clear, "m")
    sheet.work("Mt", "rail torn behind a bolt", "1.2*lc*t*Fu*s", "N m", "J3-6c")
    counted = f"min(Mp/{yielding}, min(Mb, Mt)/{rupture})"
    sheet.work("Ma", "counted on", counted, "N m")
    sheet.use("use", "use of the stop", "M", "Ma")
    return Check(
        name=LimitState.TILT_STOP,
        demand=sheet["M"],
        allowable=sheet["Ma"],
        nominal=sheet.value("min(Mp, Mb, Mt)"),
        unit="N m",
        source=PLATE_SOURCE,
        steps=tuple(sheet.steps),
        note=NOTE,
    )


def stop_line(turning: Numbers, at: TiltStop, leg: Numbers) -> WeldLine:
    """Force per length of the two fillets of a stop, a straight line each: f = M / (w^2 / 3).

    Round the beam they are longer, so this is on the safe side. Blodgett 7.4, two lines.
    """
    M = np.abs(turning)
    sheet = Sheet()
    sheet.given("M", "turning of the rail about the beam", M, "N m")
    sheet.given("wd", "width welded", at.welded_width, "m")
    sheet.work("S", "modulus of two lines", "wd^2/3", "m2", "Blodgett 7.4")
    sheet.given("fs", "force along the weld", np.zeros_like(M), "N/m")
    sheet.work("f", "force per length", "M/S", "N/m")
    return WeldLine(leg=leg, throat=FILLET_THROAT, steps=tuple(sheet.steps))


def stop_wall(
    turning: Numbers, at: TiltStop, chord_stress: Numbers = 0.0, expected: Numbers | None = None
) -> Check:
    """Check the beam's wall under a stop bent in its own plane: M / (k 0.5 w P) [1].

    P = 5.5 Fy t^2 Qf / (1 - 0.81 w / D), Table K2.1, transverse plate, with factor 1.67, or with
    `expected`, tested over nominal strength, the strength to expect of the wall and yield of `at`.
    Not covered beyond D/t = 50. `chord_stress`: compression of the beam at the stop [Pa].
    """
    Fy, t, D, w = at.beam_yield, at.beam_wall, at.beam_od, at.welded_width
    M = np.abs(turning)
    P1 = 5.5 * Fy * np.square(t) / (1 - 0.81 * np.divide(w, D))
    whole = 0.5 * w * P1

    def together(shares: Shares) -> Numbers:
        return demand_over(M, shares[0] * whole)

    used = wall_use(together, chord_stress, Fy, expected)
    steps = (
        Step("M", "turning of the rail about the beam", "", M, "N m"),
        Step("D", "diameter of the beam", "", D, "m"),
        Step("t", "its wall", "", t, "m"),
        Step("wd", "width welded", "", w, "m"),
        Step("Fy", "yield stress of the beam", "", Fy, "Pa"),
        Step("fc", "compression in the beam", "", np.maximum(chord_stress, 0.0), "Pa"),
        used.left_step,
        Step("P1", "wall yields", "5.5*Fy*t^2/(1 - 0.81*wd/D)", P1, "N", "K2.1"),
        Step("M1", "same, in the plate's plane", "0.5*wd*P1", whole, "N m", "K2.1"),
        *used.share_steps,
        Step("use", "use of the wall", "M/(k*M1)", used.use, ""),
    )
    return Check(
        name=LimitState.CHORD_WALL,
        demand=used.demand,
        allowable=used.allowable,
        nominal=used.nominal,
        unit="",
        source=WALL_SOURCE,
        covered=np.divide(D, t) <= MOST_SLENDER,
        steps=steps,
    )
