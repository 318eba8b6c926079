"""Welds of pinned braces beside those of their lugs: tabs in slotted ends, and feet of stays."""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.welds.tab import Tab, slot_length, tab_line
from frame.checks.welds.weld import lug_line
from frame.named.part import Part, PartKind, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import metal_between, pipe_wall
from frame.parts.steel.braces import brace_parts, is_pinned
from frame.parts.welds.plates import PLATE_STEEL, plate_at_weld, welded_lug
from frame.parts.welds.welds import BraceEnd, line_checks, lug_forces
from frame.rack.pipe import Pipe
from frame.rack.weld import ARM_PER_LENGTH
from frame.solved.situation import Situation
from frame.tables.steels import find
from frame.units import INCH

TAB_GAP = INCH / 4
"""Free room between the end of a lug and the end of the pipe pinned to it [m] (judgement)."""
UNDER = "what holds the foot in the ground is not checked: pull one by its stay"


def tab_checks(now: Situation) -> Iterator[PartCheck]:
    """Weld and base metal of the tab at the worse end of every pinned brace, and of stays' feet.

    A foot's lug stands in line with its stay on what the foot is made of: its weld is that of a
    lug on a flat. What holds the foot in the ground is not checked.
    """
    for name, pipe, _ in brace_parts(now):
        if not is_pinned(now.rack, name):
            continue
        member = now.block.frame.ideal.model.members_of(name)[0]
        force = now.answer.on_members([member])[:, 0]
        yield from _tab(now, name, pipe, force.reshape(-1, 2, 6))
        if name.kind is PartKind.STAY:
            yield from _foot(now, name, pipe, force[:, :6])


def _tab(now: Situation, name: Part, pipe: Pipe, ends: np.ndarray) -> Iterator[PartCheck]:
    welds, plate = now.rack.welds, find(PLATE_STEEL)
    tab = Tab(
        length=slot_length(welds.lug_length, pipe.od),
        arm=ARM_PER_LENGTH * welds.lug_length + TAB_GAP,
        leg=welds.leg,
    )
    axial = np.abs(ends[:, :, 0]).max(axis=1)
    side = np.hypot(ends[:, :, 1], ends[:, :, 2]).max(axis=1)
    line = tab_line(axial, side, tab)
    metal = metal_between(now, pipe_wall(now, pipe), plate_at_weld(now))
    yield from line_checks(now, weld(name, PartKind.TAB), line, metal, pipe.steel, plate)


def _foot(now: Situation, name: Part, pipe: Pipe, force: np.ndarray) -> Iterator[PartCheck]:
    welds, ideal, plate = now.rack.welds, now.block.frame.ideal, find(PLATE_STEEL)
    member = ideal.model.members[ideal.model.members_of(name)[0]]
    foot, head = (np.array(ideal.model.nodes[n].xyz) for n in member.ends)
    rise = math.asin(float(head[2] - foot[2]) / float(np.linalg.norm(head - foot)))
    normal, along, side = lug_forces(BraceEnd(force, rise, pipe, PartKind.FOOT))
    line = lug_line(along, normal, side, welded_lug(welds))
    metal = metal_between(now, plate_at_weld(now))
    for part, check in line_checks(now, weld(name, PartKind.FOOT), line, metal, plate):
        yield part, replace(check, note="; ".join(filter(None, (check.note, UNDER))))
