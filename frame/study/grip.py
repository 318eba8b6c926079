"""How much torque about the post the sleeve's lock holds."""

from frame.checks.set_bolt import Grip
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.tables.bolts import set_screw

KEPT_WITHOUT_JAM_NUTS = 0.5
"""Share of the torque left on set bolts without jam nuts (judgement)."""


def kept(lock: SetBolts) -> float:
    """Share of the torque that lasts on set bolts [1]."""
    return 1.0 if lock.jam_nuts else KEPT_WITHOUT_JAM_NUTS


def set_bolts(rack: Rack) -> Grip | None:
    """Return the grip of the set bolts with the holding forces of the table; None with a pin."""
    lock = rack.sleeve.lock
    if not isinstance(lock, SetBolts):
        return None
    row = set_screw(lock.diameter)
    return Grip(
        count=lock.count,
        torque=lock.torque,
        seating_torque=row.torque,
        holding_low=row.hold,
        holding_high=row.hold_textbook,
        post_od=rack.posts.pipe.od,
        kept=kept(lock),
    )


def grip(rack: Rack) -> tuple[float | None, float | None]:
    """Torque the set bolts hold, low and high [N m]; None where a pin locks the sleeve."""
    bolts = set_bolts(rack)
    return (float(bolts.low), float(bolts.high)) if bolts else (None, None)
