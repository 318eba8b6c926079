"""The plates that lugs are cut from: their steel, their size and the metal beside their welds."""

from frame.checks.welds.weld import Lug, Metal
from frame.parts.forces import Wall, metal_between, pipe_wall
from frame.rack.pipe import Pipe
from frame.rack.weld import ARM_PER_LENGTH, Welds
from frame.solved.situation import Situation
from frame.tables.steels import find

PLATE_STEEL = "unknown sound"
"""Steel of lugs and straps cut from what lies about (judgement)."""


def welded_lug(welds: Welds) -> Lug:
    """Return the lug that braces and guys hang on, the hole half its length off the weld."""
    return Lug(
        length=welds.lug_length,
        thickness=welds.lug_plate,
        arm=ARM_PER_LENGTH * welds.lug_length,
        leg=welds.leg,
    )


def plate_at_weld(now: Situation) -> Wall:
    """Part of the plate [m] that stands to one of the two welds on its faces, and its steel."""
    return now.rack.welds.lug_plate / 2, find(PLATE_STEEL)


def lug_metal(now: Situation, carrier: Pipe, ndim: int = 1) -> Metal:
    """Metal beside the weld of a lug on a `carrier`, expected of `ndim` dimensions."""
    return metal_between(now, pipe_wall(now, carrier, ndim), plate_at_weld(now), ndim=ndim)
