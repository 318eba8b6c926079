"""The U-bolts that hold the rails to the beam, all rails together."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Step
from frame.checks.fasteners.u_bolt import (
    RailLoads,
    UBolt,
    expected_u_bolt_grip,
    expected_u_bolt_tension,
    u_bolt_grip,
    u_bolt_tension,
)
from frame.named.limit_state import LimitState
from frame.named.part import U_BOLT, PartKind
from frame.parts.checker import PartCheck
from frame.parts.forces import connections, pulled_at_corners
from frame.rack.rack import Rack
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade, thread
from frame.tables.expected import spreads

GRADE = "unmarked"
PROOF_SHARE = 0.55
"""Proof stress over tensile strength of mild bolts, SAE J429 grade 1 (from memory)."""


def proof_load(diameter: float) -> float:
    """Proof load [N] of a rod of `diameter` [m] without a mark of its grade."""
    return PROOF_SHARE * find_grade(GRADE).fu * thread(diameter).stress_area


def u_bolt(rack: Rack) -> UBolt:
    """Return the rack's U-bolt: a bent rod without a mark of its grade."""
    rod = rack.rails.u_bolts
    return UBolt(
        diameter=rod.diameter,
        stress_area=thread(rod.diameter).stress_area,
        torque=rod.torque,
        tensile=find_grade(GRADE).fu,
        proof=proof_load(rod.diameter),
        beam_od=rack.beam.pipe.od,
    )


def expected_u_bolt(rack: Rack) -> UBolt:
    """Return the rack's U-bolt with the strength expected of such a rod."""
    bolt, tensile = u_bolt(rack), find_grade(GRADE).expected_fu
    return replace(bolt, tensile=tensile, proof=PROOF_SHARE * tensile * bolt.stress_area)


def pulled_apart(now: Situation, lift: FloatArray, turning: FloatArray) -> Check:
    """Check U-bolts in tension under the `lift` [N] and `turning` [N m] of each, (n, places).

    In every case of what is expected they slip by the friction that one in ten has more of.
    """
    if now.median:
        share, most = now.expected("rod_tension", 2), spreads()["u_bolt_friction"].high
        return expected_u_bolt_tension(lift, turning, expected_u_bolt(now.rack), most, share)
    return u_bolt_tension(lift, turning, u_bolt(now.rack))


def u_bolt_checks(now: Situation) -> Iterator[PartCheck]:
    """Grip of all U-bolts together against turning and sliding, tension with prying of each.

    The beam's centre line is where friction must balance the rail; the legs are pried by the
    larger of the turning there and at the rail's centre line, between which it varies in a
    straight line. Several U-bolts on a rail share alike. Where there are stops against tilting
    they carry the turning, and friction is left the sliding. What guys at the rails' corners pull
    in still air is no part of what is expected to slip: a slip lets them slack.
    """
    count = now.rack.rails.u_bolts.count
    loads, (Mx, My, Mz) = rail_loads(now), _moments(now)
    pried = np.maximum(np.abs(loads.turning), np.abs(Mx))
    yield U_BOLT, _grip(now, slipping_loads(now))
    yield U_BOLT, pulled_apart(now, np.asarray(loads.lift) / count, pried / count)
    if pulled_at_corners(now.block):
        yield U_BOLT, _twist(np.hypot(My, Mz) / count)


def rail_loads(now: Situation) -> RailLoads:
    """Return what each rail brings to its U-bolts: turning about the beam's centre line."""
    at = connections(now, PartKind.U_BOLT)
    Fx, Fy, Fz, Mx, _, _ = np.moveaxis(now.answer.on_connections(at), -1, 0)
    _, y, z = np.moveaxis(now.each(lambda b: b.frame.out)[:, None], -1, 0)
    turning = Mx + now.rack.stand_off * (y * Fz - z * Fy)
    return RailLoads(turning=turning, sliding=Fx, lift=-(y * Fy + z * Fz))


def slipping_loads(now: Situation) -> RailLoads:
    """Return what each rail brings to the grip of its U-bolts, and to stops that take the rest."""
    return rail_loads(now.relieved if now.median else now)


def _moments(now: Situation) -> FloatArray:
    """Moments at the rail's centre line about global axes [N m], (3, n, rails)."""
    found = now.answer.on_connections(connections(now, PartKind.U_BOLT))
    return np.moveaxis(found[..., 3:], -1, 0)


def counted_u_bolt(now: Situation) -> UBolt:
    """Return the rack's U-bolt as the code counts it, or as expected in every case."""
    if not now.median:
        return u_bolt(now.rack)
    return replace(
        expected_u_bolt(now.rack),
        friction=now.expected("u_bolt_friction"),
        kept=now.expected("u_bolt_kept"),
        nut_factor=now.expected("u_bolt_nut_factor"),
    )


def _grip(now: Situation, loads: RailLoads) -> Check:
    count = now.rack.rails.u_bolts.count
    if now.rack.rails.stops:
        loads = replace(loads, turning=np.zeros_like(loads.turning))
    gripping = expected_u_bolt_grip if now.median else u_bolt_grip
    return gripping(loads, counted_u_bolt(now), count)


def _twist(twist: np.ndarray) -> Check:
    """Name the twist of a rail pulled sideways at its end, which no check here covers."""
    return Check(
        name=LimitState.U_BOLT_TWIST,
        demand=twist,
        allowable=np.inf,
        nominal=np.inf,
        unit="N m",
        source="no formula: a rail that its neighbours or guys pull round (judgement)",
        covered=False,
        note="not covered: bolt the rail to the beam on both sides, or tie the rails",
        steps=(Step("T", "turning of the rail about any axis but the beam's", "", twist, "N m"),),
    )
