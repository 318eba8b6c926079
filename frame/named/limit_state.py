"""Every limit state that is checked, by an id; its value is what is printed of it."""

from enum import StrEnum


class LimitState(StrEnum):
    """What a check checks. Decide by the member; tables are keyed on the member's name."""

    BUCKLING = "buckling"
    PULL = "pull"
    INTERACTION = "bending, axial force and twist together"
    CHORD_WALL = "chord wall"
    SLEEVE_BEARING = "wall bearing at the sleeve"
    PIN_BEARING = "wall under the pin"
    PIN_SHEAR = "pin in shear"
    PIN_BENDING = "pin in bending"
    SWING_GRIP = "grip against swing"
    LIFT_GRIP = "grip against lift"
    POST_TURNING = "post turning in the ground"
    POST_LEANING = "post in ground, leaning"
    POST_SIDEWAYS = "post in ground, sideways"
    POST_SIDEWAYS_CODED = "post in ground, sideways, presumptive"
    POST_SIDEWAYS_SLAB = "post in ground, sideways, held by a slab, presumptive"
    POST_SIDEWAYS_CLAY = "post in ground, sideways, clay at its limit"
    POST_SIDEWAYS_SAND = "post in ground, sideways, sand at its limit"
    POST_DOWN = "post in ground, pressed down"
    POST_UP = "post in ground, pulled up"
    U_BOLT_GRIP = "grip of the U-bolt"
    U_BOLT_TENSION = "tension of the U-bolt"
    U_BOLT_LOCAL = "pull of a local gust on the U-bolt"
    U_BOLT_TWIST = "twist of the rail on its U-bolt"
    TILT_STOP = "plate and bolts of the tilt stop"
    LUG = "lug and its bolt"
    RAIL_END = "rail end and its bolt"
    WELD_METAL = "weld metal"
    BASE_METAL = "base metal at weld"
    RAIL_BENDING = "bending of the rail, both ways"
    RAIL_LOCAL = "bending of the rail in a local gust"
    RAIL_TWIST = "twist of the open rail"
    RAIL_PULLED = "axial force and bending of the rail"
    TIE_RAIL = "axial force and bending of the tie rail"
    CLAMP_LIFT = "clamp bolt against lift"
    PANEL_RATING = "the panel's own pressure rating"
    GUY_WIRE = "guy wire"
    GUY_HARDWARE = "guy hardware"
    ANCHOR_DEADMAN = "anchor, deadman"
    ANCHOR_SCREW = "anchor, screw"
    ANCHOR_PICKETS = "anchor, pickets"
    ANCHOR_BLOCK_DRAGGED = "anchor, block dragged"
    ANCHOR_BLOCK_TIPPED = "anchor, block tipped"
    ANCHOR_ROCK = "anchor, eye in rock"
    ANCHOR_TESTED = "anchor, tested"
    TOPPLES = "topples"


class Movement(StrEnum):
    """What else than a limit state may fall short: the rack moves further than it should."""

    SAG = "moves: sag"
    SWAY = "moves: sway"


PIPE_CHECKS = (LimitState.INTERACTION, LimitState.BUCKLING, LimitState.PULL)
"""Checks of a whole pipe by the forces along it, not of a place on it."""
