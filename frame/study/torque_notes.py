"""Nuts and set bolts tightened beyond what their threads stand: whole sentences."""

from frame.checks.u_bolt import torque_for
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.study.parts.u_bolts import PROOF_SHARE, u_bolt
from frame.tables.bolts import find_grade, set_screw, thread
from frame.units import show

CLOSE = 1.02
"""How far a torque may pass a limit before it is told: a wrench reads no finer (judgement)."""


def torque_notes(rack: Rack) -> tuple[str, ...]:
    """Say which torque in the file is more than a bolt without a grade mark stands."""
    return (*_u_bolts(rack), *_set_bolts(rack))


def plain_proof_torque(diameter: float) -> float:
    """Torque [N m] at the proof load of a bolt of `diameter` [m] without a grade mark."""
    proof = PROOF_SHARE * find_grade("unmarked").fu * thread(diameter).stress_area
    return float(torque_for(proof, diameter))


def _u_bolts(rack: Rack) -> tuple[str, ...]:
    asked, most = rack.rails.u_bolts.torque, float(u_bolt(rack).proof_torque)
    if asked <= CLOSE * most:
        return ()
    told, limit = (show(t, "torque", rack.units) for t in (asked, most))
    note = (
        f"U-bolt nuts at {told} would stretch the rods: a rod without a grade mark is at its "
        f"proof load at {limit} on dry threads. No more grip than at {limit} is counted: tighten "
        "to less than that, or use thicker or more U-bolts."
    )
    return (note,)


def _set_bolts(rack: Rack) -> tuple[str, ...]:
    lock = rack.sleeve.lock
    if not isinstance(lock, SetBolts):
        return ()
    plain, seat = plain_proof_torque(lock.diameter), set_screw(lock.diameter).torque
    told, limit, seated = (show(t, "torque", rack.units) for t in (lock.torque, plain, seat))
    notes = []
    if lock.torque > CLOSE * plain:
        notes.append(
            f"Set bolts at {told} must be hardened: a bolt without a grade mark is at its proof "
            f"load at {limit}. The grip counted is that of hardened set screws."
        )
    if lock.torque > CLOSE * seat:
        notes.append(
            f"Set bolts at {told}: no more grip than at {seated} is counted, the most in the "
            "table for this size."
        )
    return tuple(notes)
