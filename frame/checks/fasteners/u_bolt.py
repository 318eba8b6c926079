"""The U-bolt that holds a rail to the beam: grip against turning and sliding, tension, prying.

Lengths m, forces N, torques N m, stresses Pa; numbers or arrays. Grip is friction, never to be the
only stop against turning: a bolt through rail and beam is. Not covered: what the preload does to
the wall of a thin beam, and to the sides of the rail.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Kind, Numbers
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState

GRIP_FACTOR, BOLT_FACTOR = 2.0, 2.0
NUT_FACTOR = 0.2
"""Torque over preload and diameter, zinc thread; 0.3 if black (Shigley Table 8-15, from memory).

It goes with the friction below, of galvanised steel; black threads that lose a quarter of their
preload, not half, keep as much as `KEPT` says (0.2 / 0.3 x 3 / 4).
"""

FRICTION = 0.15
"""Galvanised or painted; bare and rusty steel has 0.3 (from memory of handbooks)."""

KEPT = 0.5
"""Share of the preload left after a year of rocking (judgement)."""

_WRAP = (
    "preload Shigley Eq. 8-27; belt friction T1 = T2 e^(mu pi) of the rod round "
    "half the beam (any text on statics)"
)
_APART = "(exp(mu*pi) - 1)/(exp(mu*pi) + 1)"
GRIP_SOURCE = (
    f"{_WRAP}; friction 0.15, nut factor 0.2 and half the preload kept (judgement); factor 2 "
    "(judgement)"
)
EXPECTED_GRIP_SOURCE = f"{_WRAP}; friction, nut factor and preload kept (judgement)"
GRIP_NOTE = (
    "friction only: put a bolt through rail and beam where turning matters. The panels tie the "
    "rails together, so all U-bolts slip as one"
)
TENSION_SOURCE = (
    "AISC 360-22 J3.7 (from memory of the standard) on the tensile stress area of the thread, "
    "ASME B1.1; prying by equilibrium"
)


def torque_for(pull: Numbers, diameter: Numbers) -> Numbers:
    """Torque [N m] that pulls a bolt of `diameter` [m] to `pull` [N]: T = K d F, K = 0.2.

    Shigley Eq. 8-27, zinc thread, which is the safe side of what stretches a bolt: a black one
    needs half as much again (Table 8-15, from memory), an oiled one about nine tenths.
    """
    return NUT_FACTOR * diameter * pull


@dataclass(frozen=True, slots=True, kw_only=True)
class UBolt:
    """One U-bolt.

    Rod `diameter` [m] and tensile `stress_area` of its thread [m2], nut `torque` [N m], `tensile`
    strength Fu [Pa], most preload credited a leg `proof` [N], pipe `beam_od` [m]; `friction`,
    `kept` share of preload and `nut_factor` [1], the code's unless given.
    """

    diameter: Numbers
    stress_area: Numbers
    torque: Numbers
    tensile: Numbers
    proof: Numbers
    beam_od: Numbers
    friction: Numbers = FRICTION
    kept: Numbers = KEPT
    nut_factor: Numbers = NUT_FACTOR

    @property
    def proof_torque(self) -> Numbers:
        """Torque on a nut at which its leg is at its proof load [N m]: more only stretches it."""
        return torque_for(self.proof, self.diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLoads:
    """What each rail brings to its U-bolts together, the rails along the last axis.

    `turning` about the beam [N m], `sliding` along it [N], `lift` off it [N] (pressing negative).
    """

    turning: Numbers
    sliding: Numbers
    lift: Numbers

    @property
    def opposed(self) -> tuple[Numbers, Numbers]:
        """Turning and sliding of all rails, added up whichever way each goes."""
        turning, sliding = np.atleast_1d(self.turning), np.atleast_1d(self.sliding)
        return np.sum(np.abs(turning), axis=-1), np.sum(np.abs(sliding), axis=-1)

    @property
    def as_one(self) -> tuple[Numbers, Numbers]:
        """Turning and sliding of all rails as one, what goes opposite ways taken off."""
        turning, sliding = np.atleast_1d(self.turning), np.atleast_1d(self.sliding)
        return np.abs(np.sum(turning, axis=-1)), np.abs(np.sum(sliding, axis=-1))

    def lost(self, clamp: Numbers) -> Numbers:
        """Lift of all rails [N], of each no more than the `clamp` of its U-bolts [N]."""
        up = np.minimum(np.maximum(self.lift, 0.0), np.asarray(clamp)[..., None])
        total: Numbers = np.sum(np.atleast_1d(up), axis=-1)
        return total


def u_bolt_grip(loads: RailLoads, bolt: UBolt, count: int = 1) -> Check:
    """Check the grip of all U-bolts, `count` on each rail, against turning and sliding together.

    The panels tie the rails together and slip is ductile, so all turning about the beam, whichever
    way, stands against all grip: at the beam's surface sqrt((M/R)^2 + S^2) against the sum over
    the rails of (mu + tanh(mu pi / 2)) 2 F kept - mu lift. Fields of the bolt are numbers or
    arrays of the cases; the last axis of the loads, the rails, is added up. Nominal is the low
    end of friction and preload kept; factor 2.
    """
    return _grip(*loads.opposed, loads, bolt, count, GRIP_FACTOR)


def expected_u_bolt_grip(loads: RailLoads, bolt: UBolt, count: int = 1) -> Check:
    """Check loads as in `u_bolt_grip` against the grip of the friction and preload expected.

    `bolt.friction`, `bolt.kept` and `bolt.nut_factor` are one draw each for all U-bolts: rows of
    `expected.csv`. What pulls rails against one another, as guys at opposite corners do, is not
    counted: a little slip hands it to the panels between. Allowable is the strength.
    """
    return _grip(*loads.as_one, loads, bolt, count)


def _grip(
    M: Numbers,
    S: Numbers,
    loads: RailLoads,
    bolt: UBolt,
    count: int,
    factor: float = 1.0,
) -> Check:
    """Check turning `M` and sliding `S` of all rails.

    Preload of a leg as tightened: torque / (K d), no more than the proof load. The rod holds
    what its legs can differ by, the rail's face friction times what presses it on the beam, which
    a lift takes away and pressing down does not add to. Belt friction over half the beam's girth:
    T1 = T2 e^(mu pi), so (T1 - T2) / (T1 + T2) = tanh(mu pi / 2); a rod that touched at its crown
    alone would hold mu, which is less.
    """
    rails = np.atleast_1d(loads.lift).shape[-1]
    sheet = Sheet()
    sheet.given("M", "turning about the beam, all rails", M, "N m")
    sheet.given("S", "sliding along the beam, all rails", S, "N")
    sheet.given("R", "radius of the beam", np.divide(bolt.beam_od, 2), "m")
    sheet.work("D", "both at the beam's surface", "sqrt((M/R)^2 + S^2)", "N")
    sheet.given("tq", "torque on each nut", bolt.torque, "N m")
    sheet.given("d", "diameter of the rod", bolt.diameter, "m")
    sheet.given("K", "nut factor", bolt.nut_factor, "")
    sheet.given("pr", "proof load of a leg", bolt.proof, "N")
    F = sheet.work("F", "preload of a leg", "min(tq/(K*d), pr)", "N")
    sheet.given("kept", "share of it that lasts", bolt.kept, "")
    sheet.given("mu", "friction", bolt.friction, "")
    sheet.work("w", "legs' difference over their sum at slip", _APART, "")
    sheet.given("n", "U-bolts on all rails together", rails * count, "")
    lost = loads.lost(2 * count * F * bolt.kept)
    sheet.given("U", "lift of all rails, of each at most its clamp", lost, "N")
    sheet.work("G", "grip", "n*2*F*kept*(mu + w) - mu*U", "N")
    sheet.work("Ga", "counted on", f"G/{factor}", "N")
    sheet.use("use", "use of the grip", "D", "Ga")
    return Check(
        name=LimitState.U_BOLT_GRIP,
        demand=sheet["D"],
        allowable=sheet["Ga"],
        nominal=sheet["G"],
        unit="N",
        source=GRIP_SOURCE if factor > 1 else EXPECTED_GRIP_SOURCE,
        steps=tuple(sheet.steps),
        note=GRIP_NOTE,
        kind=Kind.TILTS,
    )


def u_bolt_tension(lift: Numbers, turning: Numbers, bolt: UBolt) -> Check:
    """Check the worse leg in tension with prying: Fu on the thread's stress area, factor 2.00.

    `lift` of the rail off the beam [N] (pressing counts as nil), `turning` about the beam [N m],
    all of which is given to the legs. AISC J3.7 has 0.75 Fu on the full area of the rod, which is
    the same for most threads.
    """
    return _tension(_pried(lift, turning, bolt, "M"), bolt, bolt.tensile, BOLT_FACTOR)


def expected_u_bolt_tension(
    lift: Numbers,
    turning: Numbers,
    bolt: UBolt,
    most_friction: Numbers,
    share: Numbers = 1.0,
) -> Check:
    """Check a pull as in `u_bolt_tension` against `share` of the strength expected; no factor.

    `bolt.tensile` is what half of such rods exceed: 58 ksi without a mark (judgement).

    The legs are pried no further than until the rod slips. Round a pipe nothing but friction holds
    one leg's pull against the other's: at slip T1 = T2 e^(mu pi), a couple of r s/2 times their
    sum, r = tanh(mu pi / 2). Turning adds nothing to the sum, for one leg gives what the other
    takes; nuts and lift do. Past that the rail turns, which is a row of its own, and the rest goes
    by the panels to other rails, to stops, or with the pull of guys that fall slack.

    What grips better is pried further: counted with the grip it has, a tighter nut would break a
    leg sooner, though all it does is to hold on longer. So `most_friction` is the most that is
    met, whatever `bolt.friction`, and the sum both proof loads, or the lift if that is more,
    whatever the torque (judgement, the safe side). All up to that is given to the legs, none to
    the rail's face.
    """
    sheet = _pried(lift, turning, bolt, "Mb")
    sheet.given("mu", "friction, the most that is met", most_friction, "")
    sheet.work("r", "legs' difference over their sum at slip", _APART, "")
    sheet.given("pr", "proof load of a leg, the most from its nut", bolt.proof, "N")
    slips = "min(Mb, r*max(2*pr, U)*s/2)"
    sheet.work("M", "what of it pries the legs before the rod slips", slips, "N m")
    return _tension(sheet, bolt, np.multiply(share, bolt.tensile), 1.0)


def _pried(lift: Numbers, turning: Numbers, bolt: UBolt, symbol: str) -> Sheet:
    """Write down what lifts and turns a rail, the turning as `symbol`, and leg to leg."""
    sheet = Sheet()
    sheet.given("U", "lift of the rail", np.maximum(lift, 0.0), "N")
    sheet.given(symbol, "turning about the beam", np.abs(turning), "N m")
    sheet.given("B", "diameter of the beam", bolt.beam_od, "m")
    sheet.given("d", "diameter of the rod", bolt.diameter, "m")
    sheet.work("s", "leg to leg", "B + d", "m")
    return sheet


def _tension(sheet: Sheet, bolt: UBolt, strength: Numbers, factor: float) -> Check:
    """Check the worse leg of a U-bolt, of a `strength` [Pa], when the rail lifts and pries.

    The rail can push on the beam's crown but not pull: its leg has U/2 + M/s, or 2 M/s once the
    far leg has gone slack and the crown pushes back.
    """
    sheet.work("T", "pull in the worse leg", "max(U/2 + M/s, 2*M/s)", "N")
    sheet.given("A", "tensile stress area of the thread", bolt.stress_area, "m2")
    sheet.given("Fu", "tensile strength of the rod", strength, "Pa")
    sheet.work("Rn", "strength of a leg", "Fu*A", "N", "J3-1")
    sheet.work("Ra", "counted on", f"Rn/{factor}", "N")
    sheet.use("use", "use of the leg", "T", "Ra")
    return Check(
        name=LimitState.U_BOLT_TENSION,
        demand=sheet["T"],
        allowable=sheet["Ra"],
        nominal=sheet["Rn"],
        unit="N",
        source=TENSION_SOURCE,
        steps=tuple(sheet.steps),
    )
