"""What a rack costs by the prices in its file: pipe, rails, guys, anchors, hours of work.

Not in it: bolts, clamps, concrete, rod, paint and panels, and work but on posts and bracing.
"""

import math

from frame.idealize.actions import SLEEVE_WEIGHT
from frame.idealize.bands import guy_groups, guy_lengths
from frame.idealize.build import build
from frame.idealize.state import State
from frame.rack.guy import NO_FITTING, Guys
from frame.rack.prices import Prices
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.study.changes import Change
from frame.tables.reader import rows
from frame.units import FT, LB

TURNED_BACK = 3 * FT
"""Wire that the two ends of a guy take beyond its length [m] (judgement)."""
STEEL_AN_HOUR = 10 * LB
"""Weight of steel that an hour of work is taken to be worth, to turn trouble into hours [N]."""


def pipe_weight(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Weight [N] of the pipe in posts, sleeves, beam, knees and stays (feet on level ground)."""
    posts, many = rack.posts, len(rack.posts.positions)
    sleeves = SLEEVE_WEIGHT * posts.pipe.weight * rack.sleeve.length
    total = many * (posts.pipe.weight * (posts.height + posts.footing.depth) + sleeves)
    total += rack.beam.pipe.weight * rack.beam.length
    if rack.knees and KNEES in bracing:
        total += 2 * many * rack.knees.pipe.weight * rack.knees.work_length
    if rack.stays and STAYS in bracing:
        run = math.hypot(rack.stays.out, rack.stays.along, posts.height)
        total += 4 * rack.stays.pipe.weight * run
    return total


def cost(rack: Rack, bracing: tuple[str, ...]) -> float | None:
    """Money for the rack with this bracing; None where the file gives no prices."""
    prices = rack.prices
    if prices is None:
        return None
    return materials(rack, bracing, prices) + prices.work * hours(rack, bracing)


def burden(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Measure a whole rack by its cost, without prices by its pipe, each guy an hour more [N]."""
    priced = cost(rack, bracing)
    if priced is not None:
        return priced
    return pipe_weight(rack, bracing) + 4 * len(rack.guys_in(bracing)) * STEEL_AN_HOUR


def materials(rack: Rack, bracing: tuple[str, ...], prices: Prices) -> float:
    """Money for pipe, channel, wire, fittings and anchors."""
    channel = len(rack.rails.positions) * rack.rails.length
    if rack.ties and TIES in bracing:
        reach = rack.rails.positions[-1] - rack.rails.positions[0] + rack.rails.channel.width
        channel += len(rack.ties.at) * reach
    total = prices.pipe * pipe_weight(rack, bracing) + prices.rail * channel
    for group, runs in guy_runs(rack, bracing):
        total += prices.wire * (sum(runs) + TURNED_BACK * len(runs)) + prices.anchor * len(runs)
        if group.fitting != NO_FITTING:
            total += prices.fitting * len(runs)
    return total


def hours(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Hours of work that posts and bracing take [h]."""
    each = {row["item"]: float(row["hours"]) for row in rows("work_hours")}
    total = len(rack.posts.positions) * each["post"]
    if rack.knees and KNEES in bracing:
        total += 2 * len(rack.posts.positions) * each["knee brace"]
    if rack.stays and STAYS in bracing:
        total += 4 * each["stay"]
    if rack.ties and TIES in bracing:
        total += len(rack.ties.at) * each["tie rail"]
    return total + sum(4 * (each["guy"] + each[g.anchor]) for g in rack.guys_in(bracing))


def added_cost(rack: Rack, bracing: tuple[str, ...], change: Change) -> float | None:
    """Money a change adds, its trouble turned into hours; None where there are no prices."""
    prices = rack.prices
    if prices is None:
        return None
    now = materials(rack, bracing, prices)
    then = materials(change.rack, change.bracing, prices)
    return then - now + prices.work * change.work / STEEL_AN_HOUR


def trouble(rack: Rack, bracing: tuple[str, ...], change: Change) -> float:
    """Measure a change by its cost, without prices by its steel and work [N] (judgement)."""
    priced = added_cost(rack, bracing, change)
    if priced is not None:
        return priced
    added = pipe_weight(change.rack, change.bracing) - pipe_weight(rack, bracing)
    return change.work + added


def guy_runs(rack: Rack, bracing: tuple[str, ...]) -> list[tuple[Guys, list[float]]]:
    """Return every group of guys that is fitted, and their lengths at the worst tilt [m]."""
    groups = {g.name: g for g in rack.guys_in(bracing)}
    runs: dict[str, list[float]] = {name: [] for name in groups}
    for tilt in rack.tilts if groups else ():
        ideal = build(rack, tilt, tuple(groups), State())
        found: dict[str, list[float]] = {name: [] for name in groups}
        for name, length in zip(guy_groups(ideal), guy_lengths(ideal), strict=True):
            found[name].append(float(length))
        runs = {name: max(runs[name], found[name], key=sum) for name in groups}
    return [(groups[name], runs[name]) for name in groups]
