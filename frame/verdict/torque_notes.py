"""Nuts and set bolts tightened beyond what their threads stand: whole sentences."""

from frame.changes.offered_fastenings import SHARE_OF_PROOF
from frame.checks.fasteners.u_bolt import torque_for
from frame.parts.rails.u_bolts import proof_load, u_bolt
from frame.parts.steel.grip import most_torque, share_kept
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.units import show, show_no_more

CLOSE = 1.02
"""How far a torque may pass a limit before it is told: a wrench reads no finer (judgement)."""


def torque_notes(rack: Rack) -> tuple[str, ...]:
    """Say which torque in the file is more than a bolt without a grade mark stands."""
    return (*_u_bolts(rack), *_set_bolts(rack))


def plain_proof_torque(diameter: float) -> float:
    """Torque [N m] at the proof load of a bolt of `diameter` [m] without a grade mark."""
    return float(torque_for(proof_load(diameter), diameter))


def counted_on_u_bolts(rack: Rack) -> float:
    """Torque [N m] on the nuts of U-bolts that counts: none past the proof load of the rod."""
    return min(rack.rails.u_bolts.torque, float(u_bolt(rack).proof_torque))


def counted_on_set_bolts(rack: Rack) -> float | None:
    """Torque [N m] on set bolts that counts: what is kept, up to the most; None with a pin."""
    lock = rack.sleeve.lock
    if not isinstance(lock, SetBolts):
        return None
    return min(share_kept(lock) * lock.torque, most_torque(rack))


def _u_bolts(rack: Rack) -> tuple[str, ...]:
    asked, most = rack.rails.u_bolts.torque, float(u_bolt(rack).proof_torque)
    if asked <= CLOSE * most:
        return ()
    told, limit = (show(t, "torque", rack.units) for t in (asked, most))
    safe = show_no_more(SHARE_OF_PROOF * most, "torque", rack.units)
    note = (
        f"U-bolt nuts at {told} would stretch the rods: a rod without a grade mark is at its "
        f"proof load at {limit} on dry threads, and no more grip than that is counted. Rods that "
        f"were tightened so may be stretched: replace them and tighten the new ones to {safe}, or "
        "use thicker or more U-bolts; then run it again."
    )
    return (note,)


def _set_bolts(rack: Rack) -> tuple[str, ...]:
    lock = rack.sleeve.lock
    if not isinstance(lock, SetBolts):
        return ()
    plain, seat = plain_proof_torque(lock.diameter), most_torque(rack)
    told, limit, seated = (show(t, "torque", rack.units) for t in (lock.torque, plain, seat))
    notes = []
    if lock.torque > CLOSE * plain:
        notes.append(
            f"Set bolts at {told} are counted only if they are marked as hardened: one without a "
            f"grade mark is at its proof load at {limit}. If yours are unmarked, stay under that, "
            "write the torque in the file and run it again."
        )
    if lock.torque > CLOSE * seat:
        notes.append(
            f"Set bolts at {told}: no more grip than at {seated} is counted, the most in the "
            "table for this size or as much as dents the post's wall."
        )
    return tuple(notes)
