"""Rails, all together, and the tie rails along their ends."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.fasteners.lug import CLEARANCE
from frame.checks.steel.rail import bending, tie_rail, twist
from frame.checks.steel.rail_buckling import doubled_share
from frame.checks.steel.rail_stock import (
    TRADE,
    UNMARKED,
    RailStock,
    drilled,
    expected_stock,
)
from frame.idealize.deck import clamp_stations
from frame.named.limit_state import LimitState
from frame.named.part import RAILS, Edge, PartKind
from frame.named.part import tie as tie_part
from frame.parts.checker import PartCheck
from frame.parts.forces import pulled_at_corners
from frame.parts.rails.strips import struck
from frame.rack.rack import TIES
from frame.solved.blocks import Block
from frame.solved.situation import Situation
from frame.tables.channels import (
    Channel,
    longest_unbraced,
    unbraced_factor,
    unbraced_middle,
)
from frame.tables.steels import find, material
from frame.units import KSI

ALLOWED = 25 * KSI
"""Allowable stress in bending of marked strut channel, MFMA-4 (from memory of the standard)."""
ALLOWED_SHARE = 0.6
"""Same over the yield stress of channel of unknown make: 1 / 1.67, AISI S100 F1 (from memory)."""
CHANNEL_STEEL = "A1011 SS 33"


def stock(now: Situation, channel: Channel, ndim: int) -> RailStock:
    """Return what a rail of strut channel is cut from, slots in its back.

    In the median model as expected in every case, of `ndim` dimensions. Its steel is taken to be
    what the trade forms channel of; a maker who marks it answers for the trade's stress as well.
    """
    if now.median:
        expected = find(CHANNEL_STEEL).expected_fy * now.expected("rail", ndim)
        return expected_stock(channel, expected, material().E, material().G)
    steel, marked = find(CHANNEL_STEEL), now.rack.rails.marked
    return RailStock(
        channel=channel,
        yield_stress=steel.fy,
        allowable_stress=allowed_stress(marked=marked),
        elastic=material().E,
        shear=material().G,
        source=TRADE if marked else UNMARKED,
    )


def rail_stock(now: Situation, ndim: int) -> RailStock:
    """Return what the rails are cut from, with the holes of stops where there are some."""
    rack = now.rack
    made = stock(now, rack.rails.channel, ndim)
    return drilled(made, rack.welds.lug_bolt + CLEARANCE) if rack.rails.stops else made


def allowed_stress(*, marked: bool) -> float:
    """Bending stress [Pa] that the code's count allows channel, `marked` by its maker or not."""
    return ALLOWED if marked else ALLOWED_SHARE * find(CHANNEL_STEEL).fy


def free_length(now: Situation) -> float:
    """Length of rail [m] that may twist: in the code's count from its U-bolt to the last clamp.

    There the clamps between are not counted as held: the panels can roll all rails together. It
    is expected that a panel, which lies on two rails, holds them at every clamp.
    """
    stations = clamp_stations(now.rack)
    if now.median:
        return float(np.diff(sorted([0.0, *stations])).max())
    return max(abs(s) for s in stations)


def left_by_twisting(span: float, *, expected: bool = False) -> float:
    """Share of a single channel's strength left over a free `span` [m]; nan beyond the table.

    What is `expected` lies between the spans of the trade's table.
    """
    if span > longest_unbraced() * 1.001:
        return float("nan")
    return unbraced_middle(span) if expected else unbraced_factor(span)


def bending_of(now: Situation, made: RailStock, M1: Numbers, M2: Numbers) -> Check:
    """Check a rail in bending: twisting over its free length leaves a single channel less."""
    length = free_length(now)
    if made.channel.doubled:
        share, why = doubled_share(made, length)
        return bending(made, M1, M2, share, why)
    return bending(made, M1, M2, left_by_twisting(length, expected=now.median))


def rail_checks(now: Situation) -> Iterator[PartCheck]:
    """Bending both ways and twist of the worst rail; with axial force where guys pull on it.

    A one-sided gust strikes half of the rack harder than the whole, but no rail harder than a
    local gust does (`struck`): the two are not multiplied. Where guys pull on the rails' corners,
    their pull in still air is no part of what is expected to break: a rail that gives a little
    lets them slack.
    """
    share = struck(now)[:, None, None]
    pulled = pulled_at_corners(now.block)
    at = (now.relieved if now.median else now).ends(_members(now.block))
    made = rail_stock(now, 3)
    length = free_length(now)
    T, My, Mz = (share * moment for moment in (at.T, at.My, at.Mz))
    yield RAILS, bending_of(now, made, Mz, My)
    yield RAILS, twist(made, T, length)
    if pulled and not now.median:
        check = tie_rail(made, share * at.N, Mz, My, length)
        yield RAILS, replace(check, name=LimitState.RAIL_PULLED)


def tie_checks(now: Situation) -> Iterator[PartCheck]:
    """Axial force and bending of the tie rails, held at every rail.

    No part of what is expected to break: they only share the load among the rails, and one that
    yields gives its share back to rails that are checked themselves.
    """
    ties, rack = now.rack.ties, now.rack
    if ties is None or TIES not in now.block.bracing or now.median:
        return
    gap = float(np.diff(rack.rails.positions).max())
    for where in ties.at:
        part = tie_part(Edge(where))
        at = now.ends(now.block.frame.ideal.model.members_of(part))
        yield part, tie_rail(stock(now, ties.channel, 3), at.N, at.Mz, at.My, gap)


def _members(block: Block) -> list[int]:
    """Positions of the members of all rails."""
    members = block.frame.ideal.model.members
    return [i for i, m in enumerate(members) if m.part.kind is PartKind.RAIL]
