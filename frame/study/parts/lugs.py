"""The lugs and bolts of pinned braces."""

from collections.abc import Iterator

import numpy as np

from frame.checks.lug import BoltedLug, bolted_lug
from frame.rack.rack import Rack
from frame.study.parts.braces import brace_parts
from frame.study.parts.forces import remark
from frame.study.parts.pipes import PartCheck
from frame.study.parts.welds import ARM_PER_LENGTH
from frame.study.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import find

STEEL = "unknown sound"
"""Steel of lugs cut from what lies about (judgement)."""


def lug(rack: Rack) -> BoltedLug:
    """Return the lug of a brace: as wide as long, the hole in its middle (judgement)."""
    welds, steel = rack.welds, find(STEEL)
    return BoltedLug(
        width=welds.lug_length,
        thickness=welds.lug_plate,
        diameter=welds.lug_bolt,
        to_end=ARM_PER_LENGTH * welds.lug_length,
        yield_stress=steel.fy,
        tensile=steel.fu,
        shear_stress=find_grade("unmarked").shear,
    )


def lug_checks(now: Situation) -> Iterator[PartCheck]:
    """Check the lug and bolt of the worse end of every brace that is pinned; stays always are."""
    knees = now.rack.knees
    for name, _, _ in brace_parts(now):
        if name.startswith("knee") and (knees is None or knees.ends == "welded"):
            continue
        member = now.block.frame.ideal.model.members_of(name)[0]
        ends = now.answer.on_members([member])[:, 0].reshape(-1, 2, 6)
        force = now.second_order * np.linalg.norm(ends[:, :, :3], axis=2).max(axis=1)
        yield f"lug, {name}", remark(bolted_lug(force, lug(now.rack)), find(STEEL))
