"""What must be built for an answer to hold, as data, and what of it the file does not say."""

from typing import Any

from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.verdict.torque_notes import counted_on_set_bolts, counted_on_u_bolts

WELDS = {"welds.leg": "leg"}
U_BOLTS = {"rails.u_bolts": "number", "rails.u_bolt": "size", "rails.u_bolt_torque": "torque"}
SET_BOLTS = {
    "sleeve.set_bolts": "number",
    "sleeve.set_bolt": "size",
    "sleeve.set_bolt_torque": "torque",
    "sleeve.jam_nuts": "jam nuts",
}
"""Keys of the file, and what they are called in a line."""


def assumed(rack: Rack, keys: dict[str, str]) -> str:
    """Return " (assumed: torque)" for what the file leaves out of some keys; empty if nothing."""
    missing = {a.key for a in rack.assumptions}
    names = [name for key, name in keys.items() if key in missing]
    return f" (assumed, not in the file: {', '.join(names)})" if names else ""


def built_data(rack: Rack) -> dict[str, Any]:
    """Return welds and torques for JSON: as written, as counted, and the keys assumed."""
    lock, rods = rack.sleeve.lock, rack.rails.u_bolts
    bolts = isinstance(lock, SetBolts)
    return {
        "weld_leg": rack.welds.leg,
        "rails_marked": rack.rails.marked,
        "u_bolts": {
            "a_rail": rods.count,
            "diameter": rods.diameter,
            "torque": rods.torque,
            "torque_counted": counted_on_u_bolts(rack),
        },
        "set_bolts": {
            "count": lock.count,
            "diameter": lock.diameter,
            "torque": lock.torque,
            "torque_counted": counted_on_set_bolts(rack),
            "jam_nuts": lock.jam_nuts,
        }
        if isinstance(lock, SetBolts)
        else None,
        "pin": None if bolts else {"diameter": lock.diameter},
        "assumed": [a.key for a in rack.assumptions if a.key in {**WELDS, **U_BOLTS, **SET_BOLTS}],
    }
