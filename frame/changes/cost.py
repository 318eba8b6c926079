"""What a rack costs by the prices in its file: pipe, rails, guys, concrete, rod, hours of work.

Not in it: set bolts, clamps, paint and panels, and work but on posts and bracing.
"""

import math

from frame.idealize.actions import SLEEVE_WEIGHT
from frame.idealize.bands import guy_groups, guy_lengths
from frame.idealize.build import build
from frame.idealize.state import State
from frame.rack.guy import NO_FITTING, Guys
from frame.rack.prices import Prices
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.tables.channels import COMMON, find
from frame.tables.reader import rows
from frame.tables.steels import material
from frame.units import FT, INCH, LB

TURNED_BACK = 3 * FT
"""Wire that the two ends of a guy take beyond its length [m] (judgement)."""
STEEL_AN_HOUR = 10 * LB
"""Weight of steel that an hour of work is taken to be worth, to turn trouble into hours [N]."""
STEEL_A_CUBIC_FOOT = 8 * LB
"""Weight of steel that a cubic foot of concrete is taken to be worth [N] (judgement)."""
THREADS, PAST = 1.5 * INCH, INCH
"""Rod past the rail at each leg of a U-bolt, past the sleeve at a pin's ends [m] (judgement)."""


def pipe_weight(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Weight [N] of the pipe in posts, sleeves, beam, knees and stays (feet on level ground)."""
    total = posts_weight(rack) + sleeves_weight(rack) + beam_weight(rack)
    if KNEES in bracing:
        total += knees_weight(rack)
    if STAYS in bracing:
        total += stays_weight(rack)
    return total


def posts_weight(rack: Rack) -> float:
    """Weight [N] of the posts, from foot to beam."""
    posts = rack.posts
    each = posts.pipe.weight * (posts.height + posts.footing.depth)
    return len(posts.positions) * each


def beam_weight(rack: Rack) -> float:
    """Weight [N] of the beam."""
    return rack.beam.pipe.weight * rack.beam.length


def knees_weight(rack: Rack) -> float:
    """Weight [N] of the knees described, none where there are none."""
    if rack.knees is None:
        return 0.0
    return 2 * len(rack.posts.positions) * rack.knees.pipe.weight * rack.knees.work_length


def stays_weight(rack: Rack) -> float:
    """Weight [N] of the stays described, their feet on level ground, none where there are none."""
    if rack.stays is None:
        return 0.0
    run = math.hypot(rack.stays.out, rack.stays.along, rack.posts.height)
    return 4 * rack.stays.pipe.weight * run


def sleeves_weight(rack: Rack) -> float:
    """Weight [N] of the sleeves over the posts."""
    each = SLEEVE_WEIGHT * rack.posts.pipe.weight * rack.sleeve.length
    return len(rack.posts.positions) * each


def rail_length(rack: Rack) -> float:
    """Length of the rails [m]."""
    return len(rack.rails.positions) * rack.rails.length


def channel_price(rack: Rack) -> float:
    """Price of the rails' channel by length [1/m]: of two where they are back to back.

    Channel deeper than the `COMMON` one costs as much more as it weighs.
    """
    channel, common = rack.rails.channel, find(COMMON)
    price = rack.prices.rail if rack.prices else 0.0
    many = 2 if channel.doubled else 1
    deeper = channel.depth / many > common.depth
    return price * (channel.weight / common.weight if deeper else many)


def channel_length(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Length of channel in rails and tie rails [m]."""
    total = rail_length(rack)
    if rack.ties and TIES in bracing:
        reach = rack.rails.positions[-1] - rack.rails.positions[0] + rack.rails.channel.width
        total += len(rack.ties.at) * reach
    return total


def bought_steel(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Weight [N] of pipe, rails, tie rails, and the rod in pins and U-bolts."""
    channel = rack.rails.channel.weight * channel_length(rack, bracing)
    return pipe_weight(rack, bracing) + channel + rod_weight(rack)


def cost(rack: Rack, bracing: tuple[str, ...]) -> float | None:
    """Money for the rack with this bracing; None where the file gives no prices."""
    prices = rack.prices
    if prices is None:
        return None
    return materials(rack, bracing, prices) + prices.work * hours(rack, bracing)


def burden(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Measure a whole rack by its cost, without prices by steel, concrete and hours [N]."""
    priced = cost(rack, bracing)
    if priced is not None:
        return priced
    concrete = STEEL_A_CUBIC_FOOT * concrete_volume(rack) / FT**3
    return bought_steel(rack, bracing) + hours(rack, bracing) * STEEL_AN_HOUR + concrete


def hole_volume(rack: Rack) -> float:
    """Earth that is dug for the posts [m3]."""
    footing = rack.posts.footing
    return len(rack.posts.positions) * math.pi / 4 * footing.hole**2 * footing.depth


def concrete_volume(rack: Rack) -> float:
    """Concrete round the posts [m3]."""
    posts = rack.posts
    if not posts.footing.cast:
        return 0.0
    inside = math.pi / 4 * posts.pipe.od**2 * posts.footing.depth
    return hole_volume(rack) - len(posts.positions) * inside


def rod_weight(rack: Rack) -> float:
    """Weight of the rod in pins and U-bolts [N]: half round the beam, legs through the rail."""
    bolts, sleeve = rack.rails.u_bolts, rack.sleeve
    legs = rack.beam.pipe.od + 2 * (rack.rails.channel.depth + THREADS)
    bent = math.pi / 2 * (rack.beam.pipe.od + bolts.diameter) + legs
    volume = len(rack.rails.positions) * bolts.count * bent * math.pi / 4 * bolts.diameter**2
    if isinstance(sleeve.lock, Pin):
        through = rack.posts.pipe.od + 2 * (sleeve.wall + PAST)
        many = len(rack.posts.positions)
        volume += many * through * math.pi / 4 * sleeve.lock.diameter**2
    return volume * material().unit_weight


def materials(rack: Rack, bracing: tuple[str, ...], prices: Prices) -> float:
    """Money for pipe, channel, wire, fittings, anchors, concrete and rod."""
    total = prices.pipe * pipe_weight(rack, bracing)
    total += channel_price(rack) * channel_length(rack, bracing)
    total += prices.concrete * concrete_volume(rack) + prices.rod * rod_weight(rack)
    for group, runs in guy_runs(rack, bracing):
        total += prices.wire * (sum(runs) + TURNED_BACK * len(runs)) + prices.anchor * len(runs)
        if group.fitting != NO_FITTING:
            total += prices.fitting * len(runs)
    return total


def hours(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Hours of work that posts and bracing take [h]."""
    each = _hours_each()
    total = len(rack.posts.positions) * hours_of_a_post() + ground_hours(rack)
    if rack.knees and KNEES in bracing:
        total += 2 * len(rack.posts.positions) * each["knee brace"]
    if rack.stays and STAYS in bracing:
        total += 4 * each["stay"]
    if rack.ties and TIES in bracing:
        total += len(rack.ties.at) * each["tie rail"]
    return total + sum(4 * (each["guy"] + each[g.anchor]) for g in rack.guys_in(bracing))


def hours_of_a_post() -> float:
    """Hours that a post takes but for its hole [h]."""
    return _hours_each()["post"]


def ground_hours(rack: Rack) -> float:
    """Hours that digging for the posts and concrete round them take [h]."""
    each = _hours_each()
    dug = each["digging a cubic foot"] * hole_volume(rack)
    return (dug + each["concrete a cubic foot"] * concrete_volume(rack)) / FT**3


def _hours_each() -> dict[str, float]:
    return {row["item"]: float(row["hours"]) for row in rows("work_hours")}


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
