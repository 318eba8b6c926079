"""Rails, all together, and the tie rails along their ends."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.rail import bending, tie, twist
from frame.checks.rail_stock import Stock
from frame.fem.forces import Sections
from frame.idealize.deck import clamp_stations
from frame.rack.rack import TIES, Rack
from frame.study.parts.forces import pulled_at_corners
from frame.study.parts.pipes import PartCheck
from frame.study.situation import Situation
from frame.tables.channels import Channel, unbraced_factor
from frame.tables.reader import rows, si
from frame.tables.steels import find, material
from frame.units import KSI

ALLOWED = 25 * KSI
"""Allowable stress in bending of strut channel, MFMA-4 (from memory of the standard)."""
STEEL = "A1011 SS 33"


def stock(channel: Channel) -> Stock:
    """Return what a rail of strut channel is cut from, slots in its back."""
    return Stock(
        channel=channel,
        yield_stress=find(STEEL).fy,
        allowable_stress=ALLOWED,
        elastic=material().E,
        shear=material().G,
    )


def free_length(rack: Rack) -> float:
    """Length of rail [m] that may twist: from its U-bolt to the outermost clamp.

    The clamps between are not counted as held: the panels can roll all rails together.
    """
    return max(abs(s) for s in clamp_stations(rack))


def left_by_twisting(span: float) -> float:
    """Share of a rail's strength left over a free `span` [m]; nan beyond the trade's table."""
    last = max(si(row, "span_ft") for row in rows("channel_unbraced"))
    return unbraced_factor(span) if span <= last * 1.001 else float("nan")


def rail_checks(now: Situation) -> Iterator[PartCheck]:
    """Bending both ways and twist of the worst rail; with axial force where guys pull on it."""
    rack = now.rack
    at = _sections(now, "rail ")
    made = stock(rack.rails.channel)
    length = free_length(rack)
    yield "rail", bending(made, at.Mz, at.My, left_by_twisting(length))
    yield "rail", twist(made, at.T, length)
    if pulled_at_corners(now.block):
        check = tie(made, at.N, at.Mz, at.My, length)
        yield "rail", replace(check, name="axial force and bending of the rail")


def tie_checks(now: Situation) -> Iterator[PartCheck]:
    """Axial force and bending of the tie rails, held at every rail."""
    ties, rack = now.rack.ties, now.rack
    if ties is None or TIES not in now.block.bracing:
        return
    gap = float(np.diff(rack.rails.positions).max())
    for where in ties.at:
        at = _sections(now, f"tie, {where}")
        yield f"tie, {where}", tie(stock(ties.channel), at.N, at.Mz, at.My, gap)


def _sections(now: Situation, start: str) -> Sections:
    members = now.block.frame.ideal.model.members
    return now.ends([i for i, m in enumerate(members) if m.part.startswith(start)])
