"""The U-bolts that hold the rails to the beam, all rails together."""

from collections.abc import Iterator

import numpy as np

from frame.checks.check import Check, Step
from frame.checks.u_bolt import UBolt, u_bolt_grip, u_bolt_tension
from frame.rack.rack import Rack
from frame.study.parts.forces import connections, pulled_at_corners
from frame.study.parts.pipes import PartCheck
from frame.study.situation import Situation
from frame.tables.bolts import find_grade, thread

PROOF_SHARE = 0.55
"""Proof stress over tensile strength of mild bolts, SAE J429 grade 1 (from memory)."""


def proof_load(diameter: float) -> float:
    """Proof load [N] of a rod of `diameter` [m] without a mark of its grade."""
    return PROOF_SHARE * find_grade("unmarked").fu * thread(diameter).stress_area


def u_bolt(rack: Rack) -> UBolt:
    """Return the rack's U-bolt: a bent rod without a mark of its grade."""
    rod, steel = rack.rails.u_bolts, find_grade("unmarked")
    return UBolt(
        diameter=rod.diameter,
        torque=rod.torque,
        tensile=steel.fu,
        proof=proof_load(rod.diameter),
        beam_od=rack.beam.pipe.od,
    )


def u_bolt_checks(now: Situation) -> Iterator[PartCheck]:
    """Grip against turning and sliding, tension with prying, of every U-bolt.

    The beam's centre line is where friction must balance the rail; the legs are pried by the
    larger of the turning there and at the rail's centre line, between which it varies in a
    straight line. Several U-bolts on a rail share alike.
    """
    count, bolt = now.rack.rails.u_bolts.count, u_bolt(now.rack)
    at = connections(now, "u-bolt")
    Fx, Fy, Fz, Mx, My, Mz = np.moveaxis(now.answer.on_connections(at) / count, -1, 0)
    _, y, z = np.moveaxis(now.each(lambda b: b.frame.out)[:, None], -1, 0)
    turning = Mx + now.rack.stand_off * (y * Fz - z * Fy)
    pried = np.maximum(np.abs(turning), np.abs(Mx))
    lift = -(y * Fy + z * Fz)
    yield "U-bolt", u_bolt_grip(turning, Fx, lift, bolt)
    yield "U-bolt", u_bolt_tension(lift, pried, bolt)
    if pulled_at_corners(now.block):
        yield "U-bolt", _twist(np.hypot(My, Mz))


def _twist(twist: np.ndarray) -> Check:
    """Name the twist of a rail pulled sideways at its end, which no check here covers."""
    return Check(
        name="twist of the rail on its U-bolt",
        demand=twist,
        allowable=np.inf,
        nominal=np.inf,
        unit="N m",
        source="no formula: a rail that its neighbours or guys pull round (judgement)",
        covered=False,
        note="not covered: bolt the rail to the beam on both sides, or tie the rails",
        steps=(Step("T", "turning of the rail about any axis but the beam's", "", twist, "N m"),),
    )
