"""The sizes a search may choose from: pipe, rails and knees here, the rest in its neighbours."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

from frame.casefile.write import Edits, Value, Where
from frame.changes.offered_fastenings import OF_STOP, fastening_series
from frame.changes.offered_ground import ground_series
from frame.changes.offered_lines import line_series
from frame.changes.series import Rung, Series, Thing, series, written_length
from frame.changes.stock import Supply, beam_lengths, post_length
from frame.named.aim import Aim, Helps
from frame.named.limit_state import LimitState, Movement
from frame.named.part import PartKind
from frame.parts.rails.rails import allowed_stress
from frame.rack.knee_foot import on_sleeve
from frame.rack.pipe import Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.tables import channels, steels
from frame.units import INCH, parse

PAPERS = "A53 B"
"""Steel of new pipe with its papers."""
SECTIONS = {
    Thing.POST_PIPE: ("post", 2.3 * INCH),
    Thing.BEAM_PIPE: ("beam", 1.8 * INCH),
    Thing.KNEES_PIPE: ("knees", 1.2 * INCH),
    Thing.STAYS_PIPE: ("stays", 1.2 * INCH),
}
"""Section of the file that gives a pipe, and least outside diameter offered [m]."""
WIDER = 1.5
"""How much wider than its post a beam is offered at most [1]: common practice, no source.

Nor is a knee offered wider than what it is welded to, beam and post."""
ROOM = INCH / 2
"""Least gap between a U-bolt and the weld of a sleeve [m]: room for a nut's turn (judgement)."""
DROPS = (1.0, 0.8, 0.65)
REACHES = (1 / 6, 1 / 4, 1 / 3, 1 / 2)
"""Places of the knees: drops over the one described, reaches over the arm [1]."""
OF_POST: Helps = (
    Aim(kind=PartKind.POST, states=(LimitState.INTERACTION,)),
    Aim(kind=PartKind.WALL, on=PartKind.POST),
    Aim(kind=PartKind.HOLE),
    Aim(kind=PartKind.WELD, at=PartKind.KNEE),
    Movement.SWAY,
)
OF_BEAM: Helps = (
    Aim(kind=PartKind.BEAM),
    Aim(kind=PartKind.WALL, on=PartKind.BEAM),
    Aim(kind=PartKind.SPLICE),
    Aim(kind=PartKind.WELD, at=PartKind.SLEEVE),
    Aim(kind=PartKind.WELD, at=PartKind.KNEE),
    *OF_STOP,
    Movement.SAG,
)
OF_KNEES: Helps = (
    Aim(kind=PartKind.KNEE),
    *(Aim(kind=k, at=PartKind.KNEE) for k in (PartKind.WELD, PartKind.LUG, PartKind.WALL)),
)
OF_STAYS: Helps = (
    Aim(kind=PartKind.STAY),
    *(Aim(kind=k, at=PartKind.STAY) for k in (PartKind.WELD, PartKind.LUG)),
)
"""What a bigger pipe strengthens."""


def all_series(rack: Rack, bracing: tuple[str, ...], stock: Supply) -> tuple[Series, ...]:
    """Every series of the rack with this bracing; a thing without choice has none."""
    found = [
        *_pipes(rack, bracing, stock),
        *_papers(rack, stock),
        _rails(rack),
        _rail_count(rack),
        *fastening_series(rack, bracing),
        *ground_series(rack),
        *line_series(rack, bracing, stock.wires),
        *_knee_places(rack, bracing),
        *_knees_jacked(rack, bracing),
    ]
    return tuple(one for one in found if len(one.rungs) > 1)


def _pipes(rack: Rack, bracing: tuple[str, ...], stock: Supply) -> Iterator[Series]:
    """Pipes on offer by weight; of the catalog's the steel stays as described."""
    post = "posts" if len(rack.posts.positions) > 1 else "a post"
    yield _pipe(stock, rack.posts.pipe, Thing.POST_PIPE, post, OF_POST, post_length(rack))
    widest = max(WIDER * rack.posts.pipe.od, rack.beam.pipe.od)
    long = max(beam_lengths(rack))
    beam = _pipe(stock, rack.beam.pipe, Thing.BEAM_PIPE, "a beam", OF_BEAM, long, widest)
    yield _straight(beam) if rack.beam.bow else beam
    if rack.knees and KNEES in bracing:
        narrow = max(min(rack.beam.pipe.od, rack.posts.pipe.od), rack.knees.pipe.od)
        yield _pipe(stock, rack.knees.pipe, Thing.KNEES_PIPE, "knees", OF_KNEES, widest=narrow)
    if rack.stays and STAYS in bracing:
        yield _pipe(stock, rack.stays.pipe, Thing.STAYS_PIPE, "stays", OF_STAYS)


def _pipe(
    stock: Supply,
    now: Pipe,
    thing: Thing,
    called: str,
    helps: Helps,
    length: float = 0.0,
    widest: float = math.inf,
) -> Series:
    """Pipes thick enough to think of, no wider than `widest`, in the `length` needed [m]."""
    section, least = SECTIONS[thing]
    made = []
    for p in stock.pipes:
        if least <= p.od <= widest and p.longest >= length:
            edits: dict[Where, Value] = {(section, "pipe"): p.written}
            if p.steel is not None:
                edits[section, "steel"] = p.steel or None
            made.append((p.weight, Rung(words=f"{called} of {p.name}", edits=edits)))
    described = Rung(words=f"{called} of {now.label}", edits={})
    return series(thing, described, made, now.weight, helps)


def _straight(beams: Series) -> Series:
    """Return other beams than a crooked one: straight."""
    gone: Edits = {("beam", "bow"): None}
    rungs = (replace(r, edits={**r.edits, **gone}) if r.edits else r for r in beams.rungs)
    return replace(beams, rungs=tuple(rungs))


def _papers(rack: Rack, stock: Supply) -> Iterator[Series]:
    """Offer new pipe with papers in place of pipe that nobody has identified, as big."""
    if stock.limited:
        return
    for thing, section, pipe, called, more, helps in (
        (
            Thing.POST_STEEL,
            "post",
            rack.posts.pipe,
            "post and sleeve",
            ("sleeve",),
            (*OF_POST, Aim(kind=PartKind.WALL, on=PartKind.SLEEVE)),
        ),
        (Thing.BEAM_STEEL, "beam", rack.beam.pipe, "the beam", (), OF_BEAM),
    ):
        if not pipe.steel.identified and steels.find(PAPERS).fy > pipe.steel.fy:
            edits: Edits = {(part, "steel"): PAPERS for part in (section, *more)}
            described = Rung(words=f"{section} of {pipe.steel.name} steel", edits={})
            papers = f"new pipe with papers, {PAPERS}"
            again = "" if more else papers
            rung = Rung(words=f"{papers}, for {called}", edits=edits, again=again)
            rungs = (described, rung)
            yield Series(thing=thing, rungs=rungs, start=0, helps=helps)


def _rails(rack: Rack) -> Series:
    """Offer channels by what the code allows in bending, with their maker's mark and without.

    Whoever has marked channel gets marked channel.
    """
    now, marked, made = rack.rails.channel, rack.rails.marked, list[tuple[float, Rung]]()
    for c in channels.channels():
        words, edits = f"rails of {c.name}", {("rails", "channel"): c.name}
        made.append((c.S1 * allowed_stress(marked=marked), Rung(words=words, edits={**edits})))
        if not marked:
            rung = Rung(
                words=f"{words} with the maker's mark", edits={**edits, ("rails", "marked"): "yes"}
            )
            made.append((c.S1 * allowed_stress(marked=True), rung))
    return series(
        Thing.RAILS,
        Rung(words=f"rails of {now.name}", edits={}),
        made,
        now.S1 * allowed_stress(marked=marked),
        tuple(Aim(kind=k) for k in (PartKind.RAIL, PartKind.RAIL_END)),
    )


def _rail_count(rack: Rack) -> Series:
    """Two to four rails under each column of panels, each with an equal strip of it."""
    columns, now = rack.panels.column_edges(), len(rack.rails.positions)
    made: list[tuple[float, Rung]] = []
    for each in (2, 3, 4):
        even = (
            left + (right - left) * (i + 0.5) / each
            for left, right in columns
            for i in range(each)
        )
        places = [_beside_sleeves(x, rack) for x in even]
        if min(b - a for a, b in itertools.pairwise(places)) < rack.rails.channel.width:
            continue
        edits: Edits = {
            ("rails", "count"): None,
            ("rails", "positions"): [written_length(x, rack.units) for x in places],
        }
        words = f"{len(places)} rails, {each} evenly per panel column"
        made.append((len(places), Rung(words=words, edits=edits)))
    described = Rung(words=f"{now} rails where described", edits={})
    helps = tuple(Aim(kind=k) for k in (PartKind.RAIL, PartKind.U_BOLT, PartKind.CLAMP))
    return series(Thing.RAIL_COUNT, described, made, now, helps)


def _beside_sleeves(x: float, rack: Rack) -> float:
    """Return the place of a rail [m], moved as its U-bolt needs to clear a sleeve's weld."""
    posts, sleeve = rack.posts, rack.sleeve
    room = posts.pipe.od / 2 + sleeve.clearance / 2 + sleeve.wall + rack.welds.leg
    room += rack.rails.u_bolts.diameter / 2 + ROOM
    near = min(posts.positions, key=lambda post: abs(x - post))
    return x if abs(x - near) >= room else near + math.copysign(room, x - near)


def _knee_places(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Series]:
    """Every place of the knees on a grid that makes them shorter than described."""
    knees = rack.knees
    if knees is None or KNEES not in bracing:
        return
    made = []
    for drop in DROPS:
        for reach in REACHES:
            size = (drop * knees.drop, reach * max(rack.arms))
            texts = [written_length(s, rack.units) for s in size]
            down, out = (parse(text, "length") for text in texts)
            edits: Edits = {("knees", "drop"): texts[0], ("knees", "reach"): texts[1]}
            words = f"knees from {texts[0]} down the post to {texts[1]} out along the beam"
            length = math.hypot(*size)
            placed = replace(knees, drop=down, reach=out)
            if length < 0.98 * knees.work_length and not on_sleeve(rack, placed):
                made.append((length, Rung(words=words, edits=edits)))
    made.sort(key=lambda m: m[0])
    described = Rung(words="knees where described", edits={})
    rungs = (*(rung for _, rung in made), described)
    yield Series(thing=Thing.KNEES_PLACE, rungs=rungs, start=len(made), helps=(), whole=True)


def _knees_jacked(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Series]:
    """Knees fitted after the panels carry none of their weight unless the beam is lifted first."""
    if rack.knees is None or KNEES not in bracing or rack.knees.fitted != "after":
        return
    described = Rung(words="knees welded as the beam hangs", edits={})
    words = "jack the beam to shape before the knees are welded"
    jacked = Rung(words=words, edits={("knees", "fitted"): "jacked"})
    helps = (Aim(kind=PartKind.BEAM, states=(LimitState.INTERACTION,)), Movement.SAG)
    yield Series(thing=Thing.KNEES_FITTED, rungs=(described, jacked), start=0, helps=helps)
