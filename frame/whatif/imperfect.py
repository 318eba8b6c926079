"""Built a little wrong: does the answer flip with the errors a hand-builder makes?

Tolerances are those a careful builder holds by hand (common practice, no source): 1 degree of
tilt, 1/4 in. of a dimension, plumb to 1/4 in. in 6 ft, and one nut that worked loose.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from frame.casefile.buildable.rack import check_rack
from frame.casefile.notes import Notes
from frame.rack.rack import KNEES, Rack
from frame.rack.sleeve import SetBolts
from frame.search.survived import Learned
from frame.search.weakest import Weakest, learned_of, weakest
from frame.solved.blocks import solved_models
from frame.units import DEG, FT, INCH

TILT, OFF = 1 * DEG, INCH / 4
LEAN = INCH / 4 / (6 * FT)
"""Lean of a post set by eye and level [1]."""
LOOSE = 0.5
"""Part of the torque left on a nut that worked loose [1] (judgement).

Both legs of a U-bolt lose it, for the rod slides round until they pull alike; the rail's other
U-bolts keep theirs.
"""
SHALLOW = 2 * INCH
"""How much shallower a hole may come out [m] (common practice: 1 to 2 in.)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """One error of building, solved: what decides of the rack `drawn`, and `after` the error.

    `flips`: the rack holds the map gust as drawn and no longer so, or it first gives in
    another way, or another part first tilts or breaks.
    """

    words: str
    drawn: Weakest
    after: Weakest
    flips: bool

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite if beyond the highest."""
        return self.after.limit_gust

    @property
    def let_go_gust(self) -> float:
        """Gust at which the first part is expected to go [m/s], infinite if none."""
        return self.after.let_go_gust

    @property
    def first(self) -> str:
        """What is expected to go first, "" if nothing."""
        return self.after.let_go.part if self.after.let_go else ""


def flaws(
    rack: Rack,
    bracing: tuple[str, ...],
    whole: Weakest | None = None,
    learned: Learned | None = None,
) -> tuple[Flaw, ...]:
    """Solve the rack with one small error of building at a time, the worst first.

    `whole`: what decides of it as drawn, `learned`: what it has stood tells, if known already.
    """
    learned = learned_of(rack) if learned is None else learned
    drawn = whole or weakest(solved_models(rack, bracing), learned)
    found = []
    for words, wrong in building_errors(rack, bracing):
        if not _can_be(wrong):
            continue
        after = weakest(solved_models(wrong, bracing), learned)
        found.append(_flaw(rack, words, drawn, after))
    return tuple(sorted(found, key=lambda s: (s.let_go_gust, s.limit_gust)))


def building_errors(rack: Rack, bracing: tuple[str, ...]) -> Iterator[tuple[str, Rack]]:
    """Every small error of building, the safe-looking and the unsafe way where both can hurt."""
    yield "tilt 1 deg steeper", replace(rack, tilts=tuple(t + TILT for t in rack.tilts))
    yield "tilt 1 deg flatter", replace(rack, tilts=tuple(max(t - TILT, 0.0) for t in rack.tilts))
    footing = rack.posts.footing
    shallow = replace(footing, depth=footing.depth - SHALLOW)
    yield "post 2 in. less deep", replace(rack, posts=replace(rack.posts, footing=shallow))
    tall = replace(rack.posts, height=rack.posts.height + OFF)
    yield "post 1/4 in. taller", replace(rack, posts=tall)
    aside = tuple(x + OFF for x in rack.rails.positions)
    yield "rails 1/4 in. off centre", replace(rack, rails=replace(rack.rails, positions=aside))
    out = replace(rack.sleeve, clearance=rack.sleeve.clearance + INCH / 16)
    yield "sleeve 1/16 in. looser", replace(rack, sleeve=out)
    knees = rack.knees
    if knees and KNEES in bracing:
        for word, by in (("short of", -OFF), ("past", OFF)):
            moved = replace(knees, reach=knees.reach + by)
            yield f"knees 1/4 in. {word} their marks on the beam", replace(rack, knees=moved)
    yield from _loose(rack, bracing)
    yield "post out of plumb, 1/4 in. in 6 ft", leaning_rack(rack)


def leaning_rack(rack: Rack) -> Rack:
    """Return a rack whose panels stand steeper by the lean of its post, all the guys as drawn.

    A post that leans across the beam carries its panels with it. That its own weight then pushes
    it over is small beside the wind (a part of 1/288) and is in the checks as 0.002 of the weights
    set aside (AISC 360-22 C2.2b) in every case without wind.
    """
    return replace(rack, tilts=tuple(t + LEAN for t in rack.tilts))


def _loose(rack: Rack, bracing: tuple[str, ...]) -> Iterator[tuple[str, Rack]]:
    bolts = rack.rails.u_bolts
    slack = replace(bolts, torque=(1 - (1 - LOOSE) / bolts.count) * bolts.torque)
    words = "one U-bolt's nut loose to half its torque, on the rail pressed hardest"
    yield words, replace(rack, rails=replace(rack.rails, u_bolts=slack))
    lock = rack.sleeve.lock
    if isinstance(lock, SetBolts):
        share = 1 - (1 - LOOSE) / lock.count
        loose = replace(lock, torque=share * lock.torque)
        words = "one set bolt worked loose to half its torque"
        yield words, replace(rack, sleeve=replace(rack.sleeve, lock=loose))
    if rack.guys_in(bracing):
        slackened = tuple(replace(g, pretension=LOOSE * g.pretension) for g in rack.guys)
        yield "guys tightened to half the pull", replace(rack, guys=slackened)


def _can_be(rack: Rack) -> bool:
    notes = Notes(rack.units)
    check_rack(rack, notes)
    return not notes.problems


def _flaw(rack: Rack, words: str, drawn: Weakest, after: Weakest) -> Flaw:
    gust = rack.site.map_gust
    held = drawn.limit_gust >= gust > after.limit_gust
    return Flaw(words=words, drawn=drawn, after=after, flips=held or _goes(drawn) != _goes(after))


def _goes(found: Weakest) -> tuple[str, str]:
    """Return in which way it first gives, and which part first tilts or breaks, on either side."""
    first, grave = found.let_go, found.act_by
    return (first.kind if first else "", grave.part.unsided if grave else "")
