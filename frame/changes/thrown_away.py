"""What a change takes off a rack that stands: nobody takes it back, its work is done anew."""

from dataclasses import dataclass

from frame.changes.cost import (
    beam_weight,
    channel_price,
    concrete_volume,
    ground_hours,
    hours_of_a_post,
    knees_weight,
    posts_weight,
    rail_length,
    sleeves_weight,
    stays_weight,
)
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, STAYS, Rack

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

    `bracing` that was on it. A post that is dug out takes its concrete along, and its hole is
    dug and filled anew. Pins, U-bolts, guys and anchors are left out (judgement: little,
    or used again).
    """
    if not before.stands:
        return ThrownAway()
    parts = (
        (other_posts(before, after), _posts(before)),
        (_other_sleeve(before, after), _pipe(before, sleeves_weight(before))),
        (_other_beam(before, after), _pipe(before, beam_weight(before))),
        (_other_rails(before, after), _rails(before)),
        (KNEES in bracing and _other_knees(before, after), _pipe(before, knees_weight(before))),
        (STAYS in bracing and _other_stays(before, after), _pipe(before, stays_weight(before))),
    )
    return sum((gone for other, gone in parts if other), start=ThrownAway())


def concrete_to_pour(before: Rack, after: Rack) -> float:
    """Concrete [m3] that the rack `after` asks for beyond what stays of the one `before`.

    A post that is replaced where a rack stands comes out with its pier: its hole is filled whole,
    but for the new post. Round a post that stays, what is there stays.
    """
    if before.stands and other_posts(before, after):
        return concrete_volume(after)
    return max(concrete_volume(after) - concrete_volume(before), 0.0)


def other_posts(before: Rack, after: Rack) -> bool:
    """Whether the posts of a rack are replaced in that `after`: by longer ones or other pipe."""
    was, now = before.posts, after.posts
    longer = now.height + now.footing.depth > was.height + was.footing.depth + LONGER
    return longer or _other_pipe(was.pipe, now.pipe)


def _other_pipe(was: Pipe, now: Pipe) -> bool:
    """Whether a pipe is another one: of another size, or new with papers."""
    return (was.label, was.steel) != (now.label, now.steel)


def _other_beam(before: Rack, after: Rack) -> bool:
    was, now = before.beam, after.beam
    return now.length > was.length + LONGER or _other_pipe(was.pipe, now.pipe)


def _other_rails(before: Rack, after: Rack) -> bool:
    was, now = before.rails, after.rails
    other = (was.channel, was.marked) != (now.channel, now.marked)
    return other or now.length > was.length + LONGER


def _other_sleeve(before: Rack, after: Rack) -> bool:
    was, now = before.sleeve, after.sleeve
    longer = now.length > was.length + LONGER or now.wall > was.wall + LONGER
    other = before.posts.pipe.od != after.posts.pipe.od or was.steel != now.steel
    return longer or other


def _other_knees(before: Rack, after: Rack) -> bool:
    was, now = before.knees, after.knees
    if was is None or now is None:
        return False
    return now.work_length > was.work_length + LONGER or _other_pipe(was.pipe, now.pipe)


def _other_stays(before: Rack, after: Rack) -> bool:
    was, now = before.stays, after.stays
    return was is not None and now is not None and _other_pipe(was.pipe, now.pipe)


def _posts(rack: Rack) -> ThrownAway:
    pipe, prices = _pipe(rack, posts_weight(rack)), rack.prices
    if prices is None:
        return pipe
    work = prices.work * (ground_hours(rack) + len(rack.posts.positions) * hours_of_a_post())
    return pipe + ThrownAway(money=prices.concrete * concrete_volume(rack) + work)


def _rails(rack: Rack) -> ThrownAway:
    length = rail_length(rack)
    money = channel_price(rack) * length if rack.prices else 0.0
    return ThrownAway(steel=rack.rails.channel.weight * length, money=money)


def _pipe(rack: Rack, weight: float) -> ThrownAway:
    return ThrownAway(steel=weight, money=rack.prices.pipe * weight if rack.prices else 0.0)
