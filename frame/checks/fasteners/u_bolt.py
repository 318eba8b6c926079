"""The U-bolt that holds a rail to the beam: grip against turning and sliding, tension, prying.

Lengths m, forces N, torques N m, stresses Pa; numbers or arrays. Grip is friction, never to be the
only stop against turning: a bolt through rail and beam is.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Kind, Numbers, Step, over
from frame.named.limit_state import LimitState

GRIP_FACTOR, BOLT_FACTOR = 2.0, 2.0
NUT_FACTOR = 0.2
"""Torque over preload and diameter, plain or zinc thread (Shigley Table 8-15)."""

FRICTION = 0.15
"""Galvanised or painted; bare and rusty steel has 0.3 (from memory of handbooks)."""

KEPT = 0.5
"""Share of the preload left after a year of rocking (judgement)."""

_WRAP = (
    "preload Shigley Eq. 8-27, nut factor 0.2; belt friction T1 = T2 e^(mu pi) of the rod round "
    "half the beam (any text on statics)"
)
GRIP_SOURCE = f"{_WRAP}; friction 0.15 and half the preload kept (judgement); factor 2 (judgement)"
EXPECTED_GRIP_SOURCE = f"{_WRAP}; friction and preload kept (judgement)"
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

    Shigley Eq. 8-27, plain or zinc thread; an oiled thread needs about three quarters of it.
    """
    return NUT_FACTOR * diameter * pull


@dataclass(frozen=True, slots=True, kw_only=True)
class UBolt:
    """One U-bolt.

    Rod `diameter` [m] and tensile `stress_area` of its thread [m2], nut `torque` [N m], `tensile`
    strength Fu [Pa], most preload credited a leg `proof` [N], pipe `beam_od` [m], `friction` [1]
    and `kept` share of preload, the code's unless given.
    """

    diameter: Numbers
    stress_area: Numbers
    torque: Numbers
    tensile: Numbers
    proof: Numbers
    beam_od: Numbers
    friction: Numbers = FRICTION
    kept: Numbers = KEPT

    @property
    def preload(self) -> Numbers:
        """Pull in each leg as tightened [N]: torque / (0.2 d), no more than the proof load."""
        pull: Numbers = np.minimum(self.torque / (NUT_FACTOR * self.diameter), self.proof)
        return pull

    @property
    def proof_torque(self) -> Numbers:
        """Torque on a nut at which its leg is at its proof load [N m]: more only stretches it."""
        return torque_for(self.proof, self.diameter)

    @property
    def spread(self) -> Numbers:
        """Distance between the legs [m]: beam and rod."""
        return self.beam_od + self.diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLoads:
    """What each rail brings to its U-bolts together, the rails along the last axis.

    `turning` about the beam [N m], `sliding` along it [N], `lift` off it [N] (pressing negative).
    """

    turning: Numbers
    sliding: Numbers
    lift: Numbers

    def lost(self, clamp: Numbers) -> Numbers:
        """Lift of all rails [N], of each no more than the `clamp` of its U-bolts [N]."""
        up = np.minimum(np.maximum(self.lift, 0.0), np.asarray(clamp)[..., None])
        total: Numbers = np.sum(np.atleast_1d(up), axis=-1)
        return total


def legs_apart(friction: Numbers) -> Numbers:
    """Difference of the legs' pulls over their sum [1] when a rod round half the beam slips.

    Belt friction: T1 = T2 e^(mu pi), so (T1 - T2) / (T1 + T2) = tanh(mu pi / 2). The rod lies on
    the beam over half its girth; touching at its crown alone it would hold mu, which is less.
    """
    share: Numbers = np.tanh(np.multiply(friction, np.pi) / 2)
    return share


def gripped(friction: Numbers, clamp: Numbers, loads: RailLoads, rails: int) -> Numbers:
    """Grip of all U-bolts at the beam's surface [N].

    `clamp` is the pull of all legs on one rail together, 2 F a U-bolt [N]: the rod holds what its
    legs can differ by, the rail's face friction times what presses it on the beam, which a lift
    takes away and pressing down does not add to.
    """
    rod = rails * legs_apart(friction) * clamp
    face: Numbers = friction * (rails * np.asarray(clamp) - loads.lost(clamp))
    return rod + face


def u_bolt_grip(loads: RailLoads, bolt: UBolt, count: int = 1) -> Check:
    """Check the grip of all U-bolts, `count` on each rail, against turning and sliding together.

    The panels tie the rails together and slip is ductile, so all turning about the beam, whichever
    way, stands against all grip: at the beam's surface sqrt((M/R)^2 + S^2) against the sum over
    the rails of (mu + tanh(mu pi / 2)) 2 F kept - mu lift. Fields of the bolt are numbers or
    arrays of the cases; the last axis of the loads, the rails, is added up. Nominal is the low
    end of friction and preload kept; factor 2.
    """
    M, S = (np.sum(np.abs(np.atleast_1d(x)), axis=-1) for x in (loads.turning, loads.sliding))
    return _grip(M, S, loads, bolt, count, GRIP_FACTOR)


def expected_u_bolt_grip(loads: RailLoads, bolt: UBolt, count: int = 1) -> Check:
    """Check loads as in `u_bolt_grip` against the grip of the friction and preload expected.

    `bolt.friction` and `bolt.kept` are one draw for all U-bolts: 0.2 (0.13 to 0.32) and 0.7 (0.45
    to 0.95), judgement. What pulls rails against one another, as guys at opposite corners do, is
    not counted: a little slip hands it to the panels between. Allowable is the strength.
    """
    M, S = (np.abs(np.sum(np.atleast_1d(x), axis=-1)) for x in (loads.turning, loads.sliding))
    return _grip(M, S, loads, bolt, count)


def _grip(
    M: Numbers,
    S: Numbers,
    loads: RailLoads,
    bolt: UBolt,
    count: int,
    factor: float = 1.0,
) -> Check:
    """Check turning `M` and sliding `S` of all rails."""
    rails = np.atleast_1d(loads.lift).shape[-1]
    clamp = 2 * count * bolt.preload * bolt.kept
    grip = gripped(bolt.friction, clamp, loads, rails)
    R = np.divide(bolt.beam_od, 2)
    demand, allowable = np.hypot(M / R, S), grip / factor
    apart = "(exp(mu*pi) - 1)/(exp(mu*pi) + 1)"
    steps = (
        Step("M", "turning about the beam, all rails", "", M, "N m"),
        Step("S", "sliding along the beam, all rails", "", S, "N"),
        Step("R", "radius of the beam", "", R, "m"),
        Step("D", "both at the beam's surface", "sqrt((M/R)^2 + S^2)", demand, "N"),
        Step("tq", "torque on each nut", "", bolt.torque, "N m"),
        Step("d", "diameter of the rod", "", bolt.diameter, "m"),
        Step("pr", "proof load of a leg", "", bolt.proof, "N"),
        Step("F", "preload of a leg", f"min(tq/({NUT_FACTOR}*d), pr)", bolt.preload, "N"),
        Step("kept", "share of it that lasts", "", bolt.kept, ""),
        Step("mu", "friction", "", bolt.friction, ""),
        Step("w", "legs' difference over their sum at slip", apart, legs_apart(bolt.friction), ""),
        Step("n", "U-bolts on all rails together", "", rails * count, ""),
        Step("U", "lift of all rails, of each at most its clamp", "", loads.lost(clamp), "N"),
        Step("G", "grip", "n*2*F*kept*(mu + w) - mu*U", grip, "N"),
        Step("Ga", "counted on", f"G/{factor}", allowable, "N"),
        Step("use", "use of the grip", "D/Ga", over(demand, allowable), ""),
    )
    return Check(
        name=LimitState.U_BOLT_GRIP,
        demand=demand,
        allowable=allowable,
        nominal=grip,
        unit="N",
        source=GRIP_SOURCE if factor > 1 else EXPECTED_GRIP_SOURCE,
        steps=steps,
        note=GRIP_NOTE,
        kind=Kind.TILTS,
    )


def leg_pull(lift: Numbers, turning: Numbers, spread: Numbers) -> Numbers:
    """Pull [N] in the worse leg of a U-bolt when the rail lifts and pries.

    The rail can push on the beam's crown but not pull: max(U/2 + M/s, 2 M/s), the second once the
    far leg has gone slack and the crown pushes back. All of the moment is given to the legs.
    """
    up, M = np.maximum(lift, 0.0), np.abs(turning)
    pull: Numbers = np.maximum(up / 2 + M / spread, 2 * M / spread)
    return pull


def u_bolt_tension(lift: Numbers, turning: Numbers, bolt: UBolt) -> Check:
    """Check the worse leg in tension with prying: Fu on the thread's stress area, factor 2.00.

    `lift` of the rail off the beam [N] (pressing counts as nil), `turning` about the beam [N m].
    AISC J3.7 has 0.75 Fu on the full area of the rod, which is the same for most threads.
    """
    nominal = bolt.tensile * np.asarray(bolt.stress_area)
    return _tension(lift, turning, bolt, nominal, BOLT_FACTOR)


def expected_u_bolt_tension(
    lift: Numbers, turning: Numbers, bolt: UBolt, share: Numbers = 1.0
) -> Check:
    """Check a pull as in `u_bolt_tension` against `share` of the strength expected; no factor.

    `bolt.tensile` is what half of such rods exceed: 58 ksi without a mark (judgement).
    """
    return _tension(lift, turning, bolt, share * bolt.tensile * bolt.stress_area, 1.0)


def _tension(
    lift: Numbers, turning: Numbers, bolt: UBolt, nominal: Numbers, factor: float
) -> Check:
    T = leg_pull(lift, turning, bolt.spread)
    allowable = nominal / factor
    steps = (
        Step("U", "lift of the rail", "", np.maximum(lift, 0.0), "N"),
        Step("M", "turning about the beam", "", np.abs(turning), "N m"),
        Step("B", "diameter of the beam", "", bolt.beam_od, "m"),
        Step("d", "diameter of the rod", "", bolt.diameter, "m"),
        Step("s", "leg to leg", "B + d", bolt.spread, "m"),
        Step("T", "pull in the worse leg", "max(U/2 + M/s, 2*M/s)", T, "N"),
        Step("A", "tensile stress area of the thread", "", bolt.stress_area, "m2"),
        Step("Fu", "tensile strength of the rod", "", np.divide(nominal, bolt.stress_area), "Pa"),
        Step("Rn", "strength of a leg", "Fu*A", nominal, "N", "J3-1"),
        Step("Ra", "counted on", f"Rn/{factor}", allowable, "N"),
        Step("use", "use of the leg", "T/Ra", over(T, allowable), ""),
    )
    return Check(
        name=LimitState.U_BOLT_TENSION,
        demand=T,
        allowable=allowable,
        nominal=nominal,
        unit="N",
        source=TENSION_SOURCE,
        steps=steps,
    )
