"""From the sleeve and weld sections of a file to the sleeve and the welds."""

import math

from frame.casefile.assemble.pipe import named_steel
from frame.casefile.keys.rack import ELECTRODES, SleeveKeys, WeldKeys
from frame.casefile.notes import Notes
from frame.rack.pipe import Pipe
from frame.rack.sleeve import Pin, SetBolts, Sleeve
from frame.rack.weld import Welds
from frame.tables import wrench
from frame.units import parse

ASSUMED_COUNT, ASSUMED_SIZE = 1, "1/2 in"
"""Set bolts of a sleeve whose lock the file does not describe."""
BOLT_KEYS = ("set_bolts", "set_bolt", "set_bolt_torque", "jam_nuts")


def build_sleeve(notes: Notes, keys: SleeveKeys, post: Pipe) -> Sleeve:
    """Make the sleeve, as thick as what counts of the post unless the file says otherwise."""
    wall = keys.wall
    if wall is None:
        wall = post.wall * post.wall_factor - post.rust
        if not math.isnan(wall):
            notes.assume("sleeve.wall", f"{notes.show(wall, 'thickness')}, what the post counts")
    return Sleeve(
        length=keys.length,
        clearance=keys.clearance if keys.play is None else keys.play,
        wall=wall,
        steel=named_steel(notes, "sleeve", keys.steel),
        lock=build_lock(notes, keys),
        stiffness=1.0 if keys.stiffness is None else keys.stiffness,
        as_built=keys.clearance,
    )


def build_lock(notes: Notes, keys: SleeveKeys) -> SetBolts | Pin:
    """Make what locks the sleeve: a pin if given, else set bolts."""
    if keys.pin is not None:
        if any(getattr(keys, name) is not None for name in BOLT_KEYS):
            notes.wrong("sleeve.pin", "stands beside set bolts", "give the pin or the set bolts")
        return Pin(diameter=keys.pin)
    count, size, torque = keys.set_bolts, keys.set_bolt, keys.set_bolt_torque
    if count is None:
        count = ASSUMED_COUNT
        notes.assume("sleeve.set_bolts", str(count))
    if size is None:
        size = parse(ASSUMED_SIZE, "length")
        notes.assume("sleeve.set_bolt", notes.show(size))
    if torque is None:
        torque = wrench.wrench_torque(size)
        notes.assume("sleeve.set_bolt_torque", notes.wrench_tight(torque))
    if keys.jam_nuts is None:
        notes.assume("sleeve.jam_nuts", "no")
    return SetBolts(count=count, diameter=size, torque=torque, jam_nuts=keys.jam_nuts == "yes")


def build_welds(keys: WeldKeys) -> Welds:
    """Make the welds."""
    return Welds(
        leg=keys.leg,
        electrode=parse(ELECTRODES[keys.electrode], "stress"),
        lug_length=keys.lug_length,
        lug_plate=keys.lug_plate,
        lug_bolt=keys.lug_bolt,
    )
