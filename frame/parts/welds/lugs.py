"""The lugs and bolts of pinned braces."""

from collections.abc import Iterator

import numpy as np

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from frame.named.part import PartKind
from frame.named.part import lug as lug_part
from frame.parts.checker import PartCheck
from frame.parts.forces import remark, tensile_of
from frame.parts.steel.braces import brace_parts
from frame.parts.welds.welds import ARM_PER_LENGTH
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import find

STEEL = "unknown sound"
"""Steel of lugs cut from what lies about (judgement)."""


def brace_lug(now: Situation) -> BoltedLug:
    """Return the lug of a brace: as wide as long, the hole in its middle (judgement)."""
    welds, steel, grade = now.rack.welds, find(STEEL), find_grade("unmarked")
    return BoltedLug(
        width=welds.lug_length,
        thickness=welds.lug_plate,
        diameter=welds.lug_bolt,
        to_end=ARM_PER_LENGTH * welds.lug_length,
        yield_stress=now.yield_of(steel) if now.median else steel.fy,
        tensile=tensile_of(now, steel),
        shear_stress=grade.expected_shear * now.expected("rod_shear")
        if now.median
        else grade.shear,
    )


def lug_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the lug and bolt of the worse end of every brace that is pinned; stays always are."""
    knees = now.rack.knees
    for name, _, _ in brace_parts(now):
        if name.kind is PartKind.KNEE and (knees is None or knees.ends == "welded"):
            continue
        member = now.block.frame.ideal.model.members_of(name)[0]
        ends = now.answer.on_members([member])[:, 0].reshape(-1, 2, 6)
        force = np.linalg.norm(ends[:, :, :3], axis=2).max(axis=1)
        check = bolted_lug(force, brace_lug(now), factored=not now.median)
        yield lug_part(name), remark(check, find(STEEL))
