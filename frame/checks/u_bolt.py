"""The U-bolt that holds a rail to the beam: grip against turning and sliding, tension, prying.

Lengths m, forces N, torques N m, stresses Pa; numbers or arrays. Grip is friction, never to be the
only stop against turning: a bolt through rail and beam is.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers, Step, over

GRIP_FACTOR, BOLT_FACTOR = 2.0, 2.0
NUT_FACTOR = 0.2
"""Torque over preload and diameter, plain or zinc thread (Shigley Table 8-15)."""

FRICTION_LOW, FRICTION_HIGH = 0.15, 0.3
"""Galvanised or painted; bare and rusty (from memory of handbooks)."""

KEPT_LOW = 0.5
"""Share of the preload left after a year of rocking (judgement)."""

UNMARKED = 0.5
"""Share counted of a bent rod without a mark of its grade (judgement)."""

GRIP_SOURCE = (
    "preload Shigley Eq. 8-27, nut factor 0.2; friction 0.15 to 0.3 and half the preload kept "
    "(judgement); factor 2 (judgement)"
)
TENSION_SOURCE = "AISC 360-22 J3.7 (from memory of the standard); prying by equilibrium"


def torque_for(pull: Numbers, diameter: Numbers) -> Numbers:
    """Torque [N m] that pulls a bolt of `diameter` [m] to `pull` [N]: T = K d F, K = 0.2.

    Shigley Eq. 8-27, plain or zinc thread; an oiled thread needs about three quarters of it.
    """
    return NUT_FACTOR * diameter * pull


@dataclass(frozen=True, slots=True, kw_only=True)
class UBolt:
    """One U-bolt.

    Rod `diameter` [m], nut `torque` [N m], `tensile` strength Fu [Pa], most preload credited a leg
    `proof` [N], pipe `beam_od` [m], `friction` low and high, `kept` share of preload (low band),
    `sound` share of the rod's strength counted (0.5 if unmarked).
    """

    diameter: Numbers
    torque: Numbers
    tensile: Numbers
    proof: Numbers
    beam_od: Numbers
    friction_low: Numbers = FRICTION_LOW
    friction_high: Numbers = FRICTION_HIGH
    kept: Numbers = KEPT_LOW
    sound: Numbers = UNMARKED

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


def u_bolt_grip(turning: Numbers, sliding: Numbers, lift: Numbers, bolt: UBolt) -> Check:
    """Check the grip against `turning` about the beam [N m] and `sliding` along it [N] together.

    At the beam's surface sqrt((M/R)^2 + S^2) against mu (2 F kept - lift): one face only, and what
    the rail lifts off the beam [N] is lost to it; pressing down adds nothing. Set `sliding` to 0
    for turning alone. Nominal is the low band, factor 2; `extra` has the torque at both bands.
    """
    R = np.divide(bolt.beam_od, 2)
    up = np.maximum(lift, 0.0)
    demand = np.hypot(turning / R, sliding)
    low = bolt.friction_low * np.maximum(2 * bolt.preload * bolt.kept - up, 0.0)
    high = bolt.friction_high * np.maximum(2 * bolt.preload - up, 0.0)
    allowable = low / GRIP_FACTOR
    steps = (
        Step("M", "turning about the beam", "", np.abs(turning), "N m"),
        Step("S", "sliding along the beam", "", np.abs(sliding), "N"),
        Step("R", "radius of the beam", "", R, "m"),
        Step("D", "both at the beam's surface", "sqrt((M/R)^2 + S^2)", demand, "N"),
        Step("tq", "torque on each nut", "", bolt.torque, "N m"),
        Step("d", "diameter of the rod", "", bolt.diameter, "m"),
        Step("pr", "proof load of a leg", "", bolt.proof, "N"),
        Step("F", "preload of a leg", f"min(tq/({NUT_FACTOR}*d), pr)", bolt.preload, "N"),
        Step("kept", "share of it that lasts", "", bolt.kept, ""),
        Step("mu", "friction, low", "", bolt.friction_low, ""),
        Step("U", "lift of the rail", "", up, "N"),
        Step("G", "grip, low", "mu*max(2*F*kept - U, 0)", low, "N"),
        Step("Ga", "allowable", f"G/{GRIP_FACTOR}", allowable, "N"),
        Step("use", "use of the grip", "D/Ga", over(demand, allowable), ""),
    )
    return Check(
        name="grip of the U-bolt",
        demand=demand,
        allowable=allowable,
        nominal=low,
        unit="N",
        source=GRIP_SOURCE,
        steps=steps,
        note="friction only: put a bolt through rail and beam where turning matters",
        extra={"grip_low": low * R, "grip_high": high * R},
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
    """Check the worse leg in tension with prying: 0.75 Fu A, factor 2.00 (AISC J3.7).

    `lift` of the rail off the beam [N] (pressing counts as nil), `turning` about the beam [N m].
    A is the full area of the rod; the share `sound` covers bends and rods without a mark.
    """
    T = leg_pull(lift, turning, bolt.spread)
    nominal = bolt.sound * 0.75 * bolt.tensile * np.pi / 4 * np.square(bolt.diameter)
    allowable = nominal / BOLT_FACTOR
    steps = (
        Step("U", "lift of the rail", "", np.maximum(lift, 0.0), "N"),
        Step("M", "turning about the beam", "", np.abs(turning), "N m"),
        Step("B", "diameter of the beam", "", bolt.beam_od, "m"),
        Step("d", "diameter of the rod", "", bolt.diameter, "m"),
        Step("s", "leg to leg", "B + d", bolt.spread, "m"),
        Step("T", "pull in the worse leg", "max(U/2 + M/s, 2*M/s)", T, "N"),
        Step("Fu", "tensile strength of the rod", "", bolt.tensile, "Pa"),
        Step("k", "share counted", "", bolt.sound, ""),
        Step("R", "strength of a leg", "k*0.75*Fu*pi/4*d^2", nominal, "N", "J3-1"),
        Step("Ra", "allowable", f"R/{BOLT_FACTOR}", allowable, "N"),
        Step("use", "use of the leg", "T/Ra", over(T, allowable), ""),
    )
    return Check(
        name="tension of the U-bolt",
        demand=T,
        allowable=allowable,
        nominal=nominal,
        unit="N",
        source=TENSION_SOURCE,
        steps=steps,
    )
