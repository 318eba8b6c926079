"""The sizes a search may choose from, for everything but the guys."""

import math
from collections.abc import Iterator

from frame.casefile.write import Edits, Value, Where
from frame.checks.u_bolt import NUT_FACTOR
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.sleeve import SetBolts
from frame.study.changes import SHARE_OF_PROOF
from frame.study.ladder import Ladder, Rung, ladder, lengths, written
from frame.study.offered_lines import line_ladders
from frame.study.parts.u_bolts import proof_load
from frame.study.stock import Offer, beam_lengths, post_length
from frame.tables import channels
from frame.tables.bolts import set_screw
from frame.units import FT, FT_LB, INCH, METRIC, MM

RODS = {False: tuple(INCH * s for s in (3 / 8, 1 / 2, 5 / 8)), True: (10 * MM, 12 * MM, 16 * MM)}
PINS = {
    False: tuple(INCH * s for s in (1 / 2, 5 / 8, 3 / 4, 1, 5 / 4)),
    True: tuple(MM * s for s in (12, 16, 20, 24, 30)),
}
"""Diameters offered [m], inch and metric."""
MOST_BOLTS = 2
"""Set bolts in a sleeve before a pin is the better answer (judgement)."""
LEGS = tuple(INCH * n / 16 for n in (2, 3, 4, 5, 6))
SLEEVES = tuple(INCH * n for n in (6, 8, 10, 12, 16, 20))
WALLS = tuple(INCH * n / 16 for n in (3, 4, 5, 6, 8))
HOLES = tuple(INCH * n for n in (10, 12, 14, 18, 24, 30, 36))
DEPTHS = tuple(FT * n / 2 for n in range(6, 21))
LEAST = {"post": 2.3 * INCH, "beam": 1.8 * INCH, "knees": 1.2 * INCH, "stays": 1.2 * INCH}
"""Least outside diameters offered [m]."""
DROPS = (1.0, 0.8, 0.65)
REACHES = (1 / 6, 1 / 4, 1 / 3, 1 / 2)
"""Places of the knees: drops over the one described, reaches over the arm [1]."""
IN_GROUND = ("post: post in ground", "post: post turning", "post: post lifted")
AT_SLEEVE = ("post wall at foot", "post wall at its top", "sleeve wall")


def ladders(rack: Rack, bracing: tuple[str, ...], stock: Offer) -> tuple[Ladder, ...]:
    """Every ladder of the rack with this bracing; a thing without choice has none.

    Welds and set bolts are only ever made stronger: less of them saves nothing.
    """
    sleeve, footing, leg = rack.sleeve, rack.posts.footing, rack.welds.leg
    holes = [h for h in HOLES if h > rack.posts.pipe.od + 2 * INCH]
    found = [
        *_pipes(rack, bracing, stock),
        _lock(rack),
        _u_bolts(rack),
        _rails(rack),
        _rail_count(rack),
        lengths(rack, ("welds", "leg"), leg, [s for s in LEGS if s > leg], ("weld",)),
        lengths(
            rack,
            ("sleeve", "length"),
            sleeve.length,
            [s for s in SLEEVES if s < _room(rack)],
            AT_SLEEVE,
        ),
        lengths(
            rack,
            ("sleeve", "wall"),
            sleeve.wall,
            WALLS,
            ("sleeve wall", "weld, beam to sleeve"),
        ),
        lengths(
            rack,
            ("post", "depth"),
            footing.depth,
            [d for d in DEPTHS if d > 1.5 * footing.ignored],
            IN_GROUND,
        ),
        lengths(rack, ("post", "hole"), footing.hole, holes, (*IN_GROUND, "post: post pressed")),
        _backfill(footing.backfill),
        *line_ladders(rack, bracing, stock.wires),
        *_knee_places(rack, bracing),
    ]
    return tuple(one for one in found if len(one.rungs) > 1)


def _backfill(now: str) -> Ladder:
    """From earth or gravel to concrete."""
    cast = "concrete"
    described = Rung(words=f"hole filled with {now}", edits={})
    filled = Rung(words=f"hole filled with {cast}", edits={("post", "backfill"): cast})
    rungs = (described,) if now == cast else (described, filled)
    helps = (*IN_GROUND, "post: post pressed")
    return Ladder(name="backfill", rungs=rungs, start=0, helps=helps)


def _room(rack: Rack) -> float:
    """Return the length [m] that a sleeve may have at most."""
    room = rack.posts.height - rack.beam.pipe.od / 2
    return min(room, rack.knees.drop - rack.beam.pipe.od / 2) if rack.knees else room


def _pipes(rack: Rack, bracing: tuple[str, ...], stock: Offer) -> Iterator[Ladder]:
    """Pipes on offer by weight; of the catalog's the steel stays as described."""
    post, beam = rack.posts.pipe, rack.beam.pipe
    helps: tuple[str, ...] = ("post: bending", "post wall", "weld")
    yield _pipe(stock, post, "post", helps, post_length(rack))
    helps = ("beam", "weld, beam", "weld, knee")
    yield _pipe(stock, beam, "beam", helps, max(beam_lengths(rack)))
    if rack.knees and KNEES in bracing:
        helps = ("knee", "weld, knee", "beam wall at knee")
        yield _pipe(stock, rack.knees.pipe, "knees", helps)
    if rack.stays and STAYS in bracing:
        yield _pipe(stock, rack.stays.pipe, "stays", ("stay", "weld, stay"))


def _pipe(
    stock: Offer, now: Pipe, section: str, helps: tuple[str, ...], length: float = 0.0
) -> Ladder:
    """Pipes that are thick enough to think of, and come in the `length` needed [m]."""
    made = []
    for p in stock.pipes:
        if p.od >= LEAST[section] and p.longest >= length:
            edits: dict[Where, Value] = {(section, "pipe"): p.written}
            if p.steel is not None:
                edits[section, "steel"] = p.steel or None
            made.append((p.weight, Rung(words=f"{section}: {p.name}", edits=edits)))
    described = Rung(words=f"{section}: {now.label}", edits={})
    return ladder(f"{section} pipe", described, made, now.weight, helps)


def _lock(rack: Rack) -> Ladder:
    """From the set bolts as described to more and tighter ones, then to a through pin."""
    lock, helps = rack.sleeve.lock, ("set bolt", "pin", "through")
    keys = ("set_bolts", "set_bolt", "set_bolt_torque", "jam_nuts")
    gone: dict[Where, None] = {("sleeve", key): None for key in keys}
    pins = []
    for size in PINS[rack.units == METRIC]:
        text = written(size, rack.units)
        edits: Edits = {**gone, ("sleeve", "pin"): text}
        pins.append((size, Rung(words=f"a through pin, {text}", edits=edits)))
    if not isinstance(lock, SetBolts):
        described = Rung(words="the pin as described", edits={})
        return ladder("sleeve lock", described, pins, lock.diameter, helps)
    torque = _torque(max(set_screw(lock.diameter).torque, lock.torque), rack.units)
    bolts = [
        Rung(
            words=f"{count} set bolts at {torque} with jam nuts",
            edits={
                ("sleeve", "set_bolt_torque"): torque,
                ("sleeve", "jam_nuts"): "yes",
                ("sleeve", "set_bolts"): count,
            },
        )
        for count in range(lock.count, max(lock.count, MOST_BOLTS) + 1)
    ]
    fitting = [rung for size, rung in pins if size <= rack.posts.pipe.od / 3]
    described = Rung(words="the set bolts as described", edits={})
    return Ladder(name="sleeve lock", rungs=(described, *bolts, *fitting), start=0, helps=helps)


def _torque(torque: float, units: str) -> str:
    """Write a torque for a rack file, rounded down."""
    if units == METRIC:
        return f"{math.floor(torque)} N m"
    return f"{math.floor(torque / FT_LB)} ft-lb"


def _u_bolts(rack: Rack) -> Ladder:
    """Rods and counts by the grip they give, tightened to nine tenths of their proof load."""
    now = rack.rails.u_bolts
    made: list[tuple[float, Rung]] = []
    for rod in RODS[rack.units == METRIC]:
        proof = proof_load(rod)
        size = written(rod, rack.units)
        tight = _torque(SHARE_OF_PROOF * NUT_FACTOR * rod * proof, rack.units)
        for count in (1, 2, 3, 4):
            edits: Edits = {
                ("rails", "u_bolt"): size,
                ("rails", "u_bolts"): count,
                ("rails", "u_bolt_torque"): tight,
            }
            words = f"{count} U-bolt{'s' * (count > 1)} of {size} at {tight} on every rail"
            made.append((count * SHARE_OF_PROOF * proof, Rung(words=words, edits=edits)))
    most = proof_load(now.diameter)
    grip = now.count * min(now.torque / (NUT_FACTOR * now.diameter), most)
    return ladder(
        "U-bolts", Rung(words="the U-bolts as described", edits={}), made, grip, ("U-bolt",)
    )


def _rails(rack: Rack) -> Ladder:
    made = [
        (c.S1, Rung(words=f"rails: {c.name}", edits={("rails", "channel"): c.name}))
        for c in channels.channels()
    ]
    now = rack.rails.channel
    return ladder("rails", Rung(words=f"rails: {now.name}", edits={}), made, now.S1, ("rail",))


def _rail_count(rack: Rack) -> Ladder:
    """Two to four rails under each column of panels, each with an equal strip of it."""
    columns, now = rack.panels.columns(), len(rack.rails.positions)
    made: list[tuple[float, Rung]] = []
    for each in (2, 3, 4):
        places = [
            left + (right - left) * (i + 0.5) / each
            for left, right in columns
            for i in range(each)
        ]
        edits: Edits = {
            ("rails", "count"): None,
            ("rails", "positions"): [written(x, rack.units) for x in places],
        }
        words = f"{len(places)} rails, {each} evenly under each column of panels"
        made.append((len(places), Rung(words=words, edits=edits)))
    described = Rung(words=f"{now} rails where described", edits={})
    return ladder("rail count", described, made, now, ("rail", "U-bolt", "panel clamp"))


def _knee_places(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Ladder]:
    """Every place of the knees on a grid that makes them shorter than described."""
    knees = rack.knees
    if knees is None or KNEES not in bracing:
        return
    made = []
    for drop in DROPS:
        for reach in REACHES:
            size = (drop * knees.drop, reach * max(rack.arms))
            texts = [written(s, rack.units) for s in size]
            edits: Edits = {("knees", "drop"): texts[0], ("knees", "reach"): texts[1]}
            words = f"knees {texts[0]} down the post and {texts[1]} out"
            length = math.hypot(*size)
            if length < 0.98 * knees.work_length:
                made.append((length, Rung(words=words, edits=edits)))
    made.sort(key=lambda m: m[0])
    described = Rung(words="knees where described", edits={})
    rungs = (*(rung for _, rung in made), described)
    yield Ladder(name="place of the knees", rungs=rungs, start=len(made), helps=(), whole=True)
