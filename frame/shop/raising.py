"""The order of welding and raising: what is lifted, how heavy, where it balances."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from frame.changes.cost import beam_weight, concrete_volume, posts_weight, sleeves_weight
from frame.loads.wind import HALF_AIR_DENSITY
from frame.named.part import PartKind
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.buying.there import NOTHING_THERE, StandingRack, There
from frame.shop.steel.braces import WELDED
from frame.shop.steel.pieces import Piece
from frame.tables.soils import CONCRETE_UNIT_WEIGHT
from frame.units import LB, MPH, show

CALM = 20 * MPH
"""Gust above which nothing is lifted by hand or loader (common practice of crane work)."""
IN_HAND = 25 * LB
"""Push of the wind on a panel that two people still hold [N] (judgement)."""
PLATE = 1.3
"""Drag of a flat plate square to the wind [1]: Hoerner, 1.17 to 1.3 by its shape (from memory)."""
BEFORE_ALL = "Have buried lines marked. Look up: no wire within the length of what you lift."


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """One step: what to `do`; `lift` is the heaviest thing lifted in it [N], 0 for none.

    `balance` [m] from the hook end of what is lifted, None where it is its middle.
    """

    do: str
    lift: float = 0.0
    balance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Raising:
    """Stages in order, the gust [m/s] above which nothing is lifted, and what holds it meanwhile.

    `low_edge`: force that holds the panels at their low edge while the U-bolts are loose, with
    the tilt the steepest of the file [N]; `jack`: force that lifts each beam end's knee point to
    where an unloaded beam would be [N], no more than hangs there: beyond it the jacks lift the
    whole beam off its post; 0 where nothing is jacked.
    """

    stages: tuple[Lift, ...]
    calm: float
    low_edge: float
    jack: float


def calm_gust(rack: Rack) -> float:
    """Return the gust above which nothing is lifted [m/s]: crane practice, or a panel's."""
    panel = rack.panels.width * rack.panels.height
    return min(CALM, math.sqrt(IN_HAND / (HALF_AIR_DENSITY * PLATE * panel)))


def low_edge_force(rack: Rack, pieces: tuple[Piece, ...]) -> float:
    """Force square to the rails at their low ends that keeps loose panels from swinging [N].

    Weight of panels and rails times how far they stand off the beam, over half a rail: statics
    about the beam's axis, at the steepest tilt.
    """
    rails = sum(p.count * p.weight for p in pieces if p.of in (PartKind.RAIL, PartKind.TIE))
    panel_off = rack.stand_off + (rack.rails.channel.depth + rack.panels.thickness) / 2
    moment = rails * rack.stand_off + rack.panels.total_weight * panel_off
    return moment * math.sin(max(rack.tilts)) / (rack.rails.length / 2)


def jack_force(load: float, arm: float, at: float) -> float:
    """Force [N] that brings a cantilever back to level `at` a distance [m] from its root.

    `load` per length [N/m] all along an `arm` [m]: R = w (6 L^2 - 4 a L + a^2) / (8 a), by
    superposing the deflections of any table of beams.
    """
    return load * (6 * arm**2 - 4 * at * arm + at**2) / (8 * at)


def raising(
    rack: Rack,
    bracing: tuple[str, ...],
    pieces: tuple[Piece, ...],
    standing: StandingRack | None = None,
    there: There = NOTHING_THERE,
) -> Raising:
    """Work out the order of raising one rack; of one that is `standing`, what comes off first."""
    by_name = {p.name: p for p in pieces}
    jack = 0.0
    if KNEES in bracing and rack.knees and rack.knees.fitted == "jacked":
        hung = rack.panels.total_weight + by_name["rail"].count * by_name["rail"].weight
        hung += by_name["beam"].weight
        jack = jack_force(hung / rack.beam.length, max(rack.arms), rack.knees.reach)
        jack = min(jack, hung / (2 * len(rack.posts.positions)))
    return Raising(
        stages=(
            *_ground_work(rack, by_name, standing, there),
            *_stages(rack, bracing, by_name),
        ),
        calm=calm_gust(rack),
        low_edge=low_edge_force(rack, pieces),
        jack=jack,
    )


def _ground_work(
    rack: Rack, by_name: dict[str, Piece], standing: StandingRack | None, there: There
) -> Iterator[Lift]:
    """Yield all about the posts; where they stand and are replaced, first what comes off."""
    post = max((p for p in by_name.values() if p.of is PartKind.POST), key=lambda p: p.length)
    several = len(rack.posts.positions) > 1
    first = f"{BEFORE_ALL} "
    if standing and there.posts_come_out:
        yield from _taken_down(standing.rack, first)
        first = ""
    elif standing:
        yield Lift(
            do=f"{first}What stands already stays: of what follows, do what is new. Panels come "
            "off before rails, beam, sleeve or what locks it are changed."
        )
        return
    yield Lift(
        do=f"{first}Set {'the posts' if several else 'the post'} foot down, plumb both ways, prop "
        f"{'each' if several else 'it'} four ways, fill"
        + (
            "; leave the concrete a week."
            if rack.posts.footing.cast
            else " in layers, each tamped hard."
        ),
        lift=post.weight,
        balance=post.length / 2,
    )


def _taken_down(old: Rack, first: str) -> Iterator[Lift]:
    """Yield how an `old` rack comes off the posts that are dug out, and how these come out.

    The order is that of raising, backwards (common practice, no source).
    """
    many = len(old.posts.positions)
    pier = concrete_volume(old) * CONCRETE_UNIT_WEIGHT
    lock = "Draw the pin" if isinstance(old.sleeve.lock, Pin) else "Loosen the set bolts"
    yield Lift(
        do=f"{first}Take off all that hangs on the old post{'s' if many > 1 else ''} before "
        "anyone digs there: the panels, from the outside inwards, left and right by turns, the "
        "rails propped and roped meanwhile; then the rails, then guys and braces.",
        lift=max(old.panels.weight, old.rails.channel.weight * old.rails.length),
    )
    yield Lift(
        do=f"{lock}, and lift the beam off with its sleeve{'s' if many > 1 else ''}, level, a "
        "rope at each end to steer it; nobody under it.",
        lift=beam_weight(old) + sleeves_weight(old),
        balance=old.beam.length / 2,
    )
    yield Lift(
        do=f"Rope and prop {'each' if many > 1 else 'the'} old post, and dig it out"
        + (
            " with its pier: lift both by machine, or break the pier up in the hole. Nobody in "
            "the hole while it hangs."
            if pier
            else "."
        )
        + " Then dig to the new size; shore or slope it before anyone stands in it deeper than "
        "the chest.",
        lift=(pier + posts_weight(old)) / many,
    )


def _stages(rack: Rack, bracing: tuple[str, ...], by_name: dict[str, Piece]) -> Iterator[Lift]:
    sleeve, beam = by_name["sleeve"], by_name["beam"]
    several = len(rack.posts.positions) > 1
    yield Lift(
        do="On the ground, beam upside down on blocks: weld the sleeve"
        f"{'s' if several else ''} into its saddle, square both ways. Tack at four points, then "
        "opposite quarters in short runs, so that it does not draw. Then the lugs. Close no tube: "
        "leave a drain hole at the foot of each."
    )
    yield Lift(
        do="Lift the beam over the post"
        f"{'s' if several else ''} level, with a rope at each end to steer it; nobody under it.",
        lift=beam.weight + sleeve.count * sleeve.weight,
        balance=beam.length / 2,
    )
    left = rack.sleeve.clearance
    shim = (
        "Shim the sleeve on the post, top and mouth, all round, to "
        f"{show(left, 'thickness', rack.units)} of play. "
        if left < rack.sleeve.as_built
        else ""
    )
    lock = (
        "Drill through and bolt the pin."
        if isinstance(rack.sleeve.lock, Pin)
        else ("Tighten the set bolts.")
    )
    yield Lift(do=f"{shim}{lock} Paint a line across sleeve and post.")
    knees = rack.knees if KNEES in bracing else None
    pinned = knees is not None and knees.ends != WELDED
    if knees and knees.fitted == "before":
        yield Lift(
            do="Fit the knees: "
            + (
                "pin both ends, check the beam with a string, tighten and lock the bolts."
                if pinned
                else "tack both ends, check the beam with a string, weld."
            ),
            lift=by_name["knee"].weight,
        )
    yield Lift(
        do="Hang the rails on their U-bolts, nuts by hand, from the middle outwards, left and "
        "right by turns. Prop and rope their low ends at the tilt, then tighten by turns.",
        lift=by_name["rail"].weight,
        balance=by_name["rail"].length / 2,
    )
    if rack.rails.stops:
        yield Lift(
            do="Bolt each tilt stop to its rail in one pair of holes, through both sides of the "
            "rail, the rail at that tilt, and weld it to the beam; then drill the rail for the "
            "other tilts through the plate.",
        )
    if rack.ties and TIES in bracing and rack.ties.fitted == "before":
        yield Lift(do="Bolt the tie rails under the rail ends.", lift=by_name["tie rail"].weight)
    yield Lift(
        do="Lay the panels, face covered, from the middle outwards, left and right by turns; "
        "every clamp tight before the next panel. Props stay until the last.",
        lift=rack.panels.weight,
    )
    yield from _later(rack, bracing, by_name)


def _later(rack: Rack, bracing: tuple[str, ...], by_name: dict[str, Piece]) -> Iterator[Lift]:
    knees = rack.knees if KNEES in bracing else None
    pinned = knees is not None and knees.ends != WELDED
    if knees and knees.fitted == "jacked":
        yield Lift(
            do="Jack the beam under both knee points at once, on timber to firm ground, until a "
            "string along its top is straight. "
            + (
                "Pin the knees, their holes drilled to fit, then "
                if pinned
                else "Fit the knees, weld both ends, let them cool, then "
            )
            + "let the jacks down together.",
            lift=by_name["knee"].weight,
        )
    elif knees and knees.fitted == "after":
        yield Lift(
            do=f"Fit the knees as the beam hangs and {'pin' if pinned else 'weld'} them; the "
            "droop stays.",
            lift=by_name["knee"].weight,
        )
    if rack.ties and TIES in bracing and rack.ties.fitted != "before":
        yield Lift(do="Bolt the tie rails under the rail ends.", lift=by_name["tie rail"].weight)
    if rack.stays and STAYS in bracing:
        yield Lift(do="Set the feet of the stays, pin the stays, heads first.")
    if rack.guys_in(bracing):
        yield Lift(do="Hang the guys, test every anchor, tighten crosswise by the card.")
    yield Lift(do="Bond the metal; have an electrician wire it. Take the props away last.")
