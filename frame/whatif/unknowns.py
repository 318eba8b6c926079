"""What is not known of a rack: which ends each unknown may have, and how to find it out.

Only unknowns that the answer takes both ways, or at their low end, are listed.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from frame.idealize.state import HIGH, LOW, SOFT, STIFF
from frame.rack.pipe import ERW_DESIGN_WALL, Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.sleeve import SetBolts
from frame.search.governing import FLOW_WORDS, STATE_WORDS
from frame.tables import steels

PAPERS = "A53 B"
"""Steel that unmarked pipe may turn out to be: by far the most common (judgement)."""


def same(rack: Rack) -> Rack:
    """Leave the rack as it is."""
    return rack


@dataclass(frozen=True, slots=True, kw_only=True)
class BandEnd:
    """One end of an unknown: `words`, and what of the worst it takes away.

    `rack` changes the rack, `stiff` where that changes its frame; `state` pins bands of `State`.
    """

    words: str
    rack: Callable[[Rack], Rack] = same
    stiff: bool = False
    state: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """What is not known, how to find it out, and the ends it may turn out to have."""

    name: str
    find_out: str
    ends: tuple[BandEnd, ...]


def unknowns(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Unknown]:
    """Everything that is taken both ways, or at its low end, for this rack and bracing."""
    ground = tuple(BandEnd(words=STATE_WORDS["soil", s], state={"soil": s}) for s in (STIFF, SOFT))
    yield Unknown(
        name="the ground, wet or dry",
        find_out="dig beside the post after weeks of rain and in the driest month",
        ends=ground,
    )
    if len(rack.site.flow) > 1:
        yield Unknown(
            name="air under the panels, free or blocked",
            find_out="look: is over half of the opening under the panels always blocked, or never",
            ends=tuple(BandEnd(words=FLOW_WORDS[f], rack=_flow(f)) for f in rack.site.flow),
        )
    if rack.guys_in(bracing):
        yield from _guys()
    yield from _pipes(rack, bracing)
    yield from _grips(rack)
    if not rack.rails.marked:
        yield Unknown(
            name="the make of the rails",
            find_out="look along their backs for a stamped or printed maker's name",
            ends=(BandEnd(words="strut channel with its maker's mark", rack=_marked),),
        )


def _marked(rack: Rack) -> Rack:
    return replace(rack, rails=replace(rack.rails, marked=True))


def _flow(flow: str) -> Callable[[Rack], Rack]:
    return lambda rack: replace(rack, site=replace(rack.site, flow=(flow,)))


def _guys() -> Iterator[Unknown]:
    yield Unknown(
        name="the pull left in the guys",
        find_out="read a tension gauge in summer heat and in winter frost",
        ends=(
            BandEnd(words="tight as in cold", state={"pretension": HIGH}),
            BandEnd(words="slack as in heat", state={"pretension": LOW}),
        ),
    )
    yield Unknown(
        name="the give of wire and anchors",
        find_out="pull one guy with a come-along and a gauge, and measure how far it comes",
        ends=(
            BandEnd(words="they hardly give", state={"guys": STIFF}),
            BandEnd(words="they give", state={"guys": SOFT}),
        ),
    )


def _pipes(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Unknown]:
    """Walls counted thinner than if they were measured, and steel without papers."""
    fitted = {"post": rack.posts.pipe, "beam": rack.beam.pipe}
    fitted |= {KNEES: rack.knees.pipe} if rack.knees and KNEES in bracing else {}
    fitted |= {STAYS: rack.stays.pipe} if rack.stays and STAYS in bracing else {}
    for name, pipe in fitted.items():
        if pipe.wall_factor < ERW_DESIGN_WALL:
            yield Unknown(
                name=f"the wall of the {name}",
                find_out="measure it with calipers at a cut end, at four places",
                ends=(BandEnd(words="as thick as listed", rack=_measured(name), stiff=True),),
            )
    if not all(s.identified for s in (*(p.steel for p in fitted.values()), rack.sleeve.steel)):
        yield Unknown(
            name="the steel of the pipe",
            find_out="look for stamped or stencilled marks, or ask for its papers",
            ends=(BandEnd(words=f"{PAPERS} by its papers", rack=_with_papers),),
        )


def _measured(name: str) -> Callable[[Rack], Rack]:
    """Let the wall of one pipe be as listed, by calipers."""
    return lambda rack: _edited(
        rack, lambda n, p: replace(p, wall_factor=ERW_DESIGN_WALL) if n == name else p
    )


def _with_papers(rack: Rack) -> Rack:
    """Let every pipe without papers be what it most often is."""
    steel, sleeve = steels.find(PAPERS), rack.sleeve
    if not sleeve.steel.identified:
        rack = replace(rack, sleeve=replace(sleeve, steel=steel))
    return _edited(rack, lambda _, p: p if p.steel.identified else replace(p, steel=steel))


def _edited(rack: Rack, edit: Callable[[str, Pipe], Pipe]) -> Rack:
    knees, stays = rack.knees, rack.stays
    return replace(
        rack,
        posts=replace(rack.posts, pipe=edit("post", rack.posts.pipe)),
        beam=replace(rack.beam, pipe=edit("beam", rack.beam.pipe)),
        knees=knees and replace(knees, pipe=edit(KNEES, knees.pipe)),
        stays=stays and replace(stays, pipe=edit(STAYS, stays.pipe)),
    )


def _grips(rack: Rack) -> Iterator[Unknown]:
    """List how much of a torque lasts, where jam nuts would tell."""
    lock = rack.sleeve.lock
    if isinstance(lock, SetBolts) and not lock.jam_nuts:
        yield Unknown(
            name="the torque left on the set bolts",
            find_out="put a torque wrench on them after a windy season; or fit jam nuts",
            ends=(BandEnd(words="three quarters of it, as with jam nuts", rack=_jammed),),
        )


def _jammed(rack: Rack) -> Rack:
    lock = rack.sleeve.lock
    assert isinstance(lock, SetBolts)
    return replace(rack, sleeve=replace(rack.sleeve, lock=replace(lock, jam_nuts=True)))
