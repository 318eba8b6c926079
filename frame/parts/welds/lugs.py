"""The lugs and bolts of pinned braces."""

from collections.abc import Iterator

import numpy as np

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from frame.named.part import lug as lug_part
from frame.parts.checker import PartCheck
from frame.parts.forces import remark, tensile_of
from frame.parts.steel.braces import brace_parts, is_pinned
from frame.parts.welds.plates import PLATE_STEEL
from frame.rack.weld import ARM_PER_LENGTH
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import Steel, find


def lug_with_bolt(now: Situation, ndim: int = 1) -> BoltedLug:
    """Return the lug of a brace or guy: as wide as long, the hole in its middle (judgement)."""
    welds = now.rack.welds
    return bolted_plate(
        now,
        find(PLATE_STEEL),
        (welds.lug_length, welds.lug_plate),
        ARM_PER_LENGTH * welds.lug_length,
        ndim=ndim,
    )


def bolted_plate(
    now: Situation, steel: Steel, size: tuple[float, float], to_end: float, ndim: int = 1
) -> BoltedLug:
    """Return a plate of a `size`, width and thickness [m], with the bolt of the lugs through it.

    `to_end` from the middle of the hole [m]. Expected strengths are of `ndim` dimensions.
    """
    grade = find_grade("unmarked")
    return BoltedLug(
        width=size[0],
        thickness=size[1],
        diameter=now.rack.welds.lug_bolt,
        to_end=to_end,
        yield_stress=now.yield_of(steel, ndim) if now.median else steel.fy,
        tensile=tensile_of(now, steel, ndim),
        shear_stress=grade.expected_shear * now.expected("rod_shear", ndim)
        if now.median
        else grade.shear,
    )


def lug_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the lug and bolt of the worse end of every brace that is pinned; stays always are."""
    for name, _, _ in brace_parts(now):
        if not is_pinned(now.rack, name):
            continue
        member = now.block.frame.ideal.model.members_of(name)[0]
        ends = now.answer.on_members([member])[:, 0].reshape(-1, 2, 6)
        force = np.linalg.norm(ends[:, :, :3], axis=2).max(axis=1)
        check = bolted_lug(force, lug_with_bolt(now), factored=not now.median)
        yield lug_part(name), remark(check, find(PLATE_STEEL))
