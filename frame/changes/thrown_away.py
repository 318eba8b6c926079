"""What a change takes off a rack that stands: nobody takes it back, its work is done anew."""

from dataclasses import dataclass

from frame.changes.cost import (
    channel_price,
    concrete_volume,
    ground_hours,
    hours_of_a_post,
    rail_length,
    sleeves_weight,
)
from frame.rack.rack import KNEES, Rack

LONGER = 1e-3
"""How much longer a pipe has to be before another takes its place [m]: what a cut is off by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThrownAway:
    """`steel` [N] that is replaced, and the `money` that was in it, 0 without prices."""

    steel: float = 0.0
    money: float = 0.0

    def __add__(self, other: "ThrownAway") -> "ThrownAway":
        """Add up what is replaced."""
        return ThrownAway(steel=self.steel + other.steel, money=self.money + other.money)


def thrown_away(before: Rack, after: Rack, bracing: tuple[str, ...]) -> ThrownAway:
    """Add up what of the rack `before` is replaced in that `after`; nothing where none stands.

    `bracing` that was on it. A post that is dug out leaves its concrete in the ground, and its
    hole is dug and filled anew. Pins, U-bolts, guys and anchors are left out (judgement: little,
    or used again).
    """
    if not before.stands:
        return ThrownAway()
    parts = (
        _posts(before) if _other_posts(before, after) else ThrownAway(),
        _pipe(before, sleeves_weight(before)) if _other_sleeve(before, after) else ThrownAway(),
        _pipe(before, before.beam.pipe.weight * before.beam.length)
        if before.beam.pipe.label != after.beam.pipe.label
        or after.beam.length > before.beam.length + LONGER
        else ThrownAway(),
        _rails(before)
        if before.rails.channel != after.rails.channel
        or after.rails.length > before.rails.length + LONGER
        else ThrownAway(),
        _pipe(before, _knees_weight(before))
        if KNEES in bracing and _other_knees(before, after)
        else ThrownAway(),
    )
    return sum(parts, start=ThrownAway())


def _other_posts(before: Rack, after: Rack) -> bool:
    was, now = before.posts, after.posts
    longer = now.height + now.footing.depth > was.height + was.footing.depth + LONGER
    return was.pipe.label != now.pipe.label or was.pipe.steel != now.pipe.steel or longer


def _other_sleeve(before: Rack, after: Rack) -> bool:
    was, now = before.sleeve, after.sleeve
    longer = now.length > was.length + LONGER or now.wall > was.wall + LONGER
    other = before.posts.pipe.od != after.posts.pipe.od or was.steel != now.steel
    return longer or other


def _other_knees(before: Rack, after: Rack) -> bool:
    was, now = before.knees, after.knees
    if was is None or now is None:
        return False
    return was.pipe.label != now.pipe.label or now.work_length > was.work_length + LONGER


def _knees_weight(rack: Rack) -> float:
    if rack.knees is None:
        return 0.0
    return 2 * len(rack.posts.positions) * rack.knees.pipe.weight * rack.knees.work_length


def _posts(rack: Rack) -> ThrownAway:
    posts, prices = rack.posts, rack.prices
    many = len(posts.positions)
    pipe = _pipe(rack, many * posts.pipe.weight * (posts.height + posts.footing.depth))
    if prices is None:
        return pipe
    work = prices.work * (ground_hours(rack) + many * hours_of_a_post())
    return pipe + ThrownAway(money=prices.concrete * concrete_volume(rack) + work)


def _rails(rack: Rack) -> ThrownAway:
    length = rail_length(rack)
    money = channel_price(rack) * length if rack.prices else 0.0
    return ThrownAway(steel=rack.rails.channel.weight * length, money=money)


def _pipe(rack: Rack, weight: float) -> ThrownAway:
    return ThrownAway(steel=weight, money=rack.prices.pipe * weight if rack.prices else 0.0)
