"""What a rack has stood tells of what it will stand: ranges cut off by what was lived through.

Each check's gust is taken as lognormal about its median, with one spread below and one above, as
its 10 to 90 range gives them. A check that stood a gust is not in the part of that distribution
below it; one that slipped in it is not in the part above: the distributions are truncated. Each
check by itself (judgement). The code's margin never hears of it.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from statistics import NormalDist

from frame.checks.check import Kind
from frame.named.aim import Key
from frame.named.part import Part, PartKind
from frame.rack.rack import Rack
from frame.rack.stood import LEANED, TILTED, TURNED
from frame.records.going import Going

NORMAL = NormalDist()
TENTH = NORMAL.inv_cdf(0.9)
"""Standard deviations from the median to either end of a 10 to 90 range."""
SURE = 1e-4
"""Least chance left to what was lived through [1]: a report may be wrong (judgement)."""
OF_ITSELF: Mapping[PartKind, Callable[[Rack], object]] = {
    PartKind.RACK: lambda rack: (rack.posts, rack.sleeve, rack.beam, rack.rails, rack.panels),
    PartKind.POST: lambda rack: rack.posts,
    PartKind.BEAM: lambda rack: rack.beam,
    PartKind.SPLICE: lambda rack: rack.beam,
    PartKind.KNEE: lambda rack: rack.knees,
    PartKind.STAY: lambda rack: rack.stays,
    PartKind.TIE: lambda rack: rack.ties,
    PartKind.TAB: lambda rack: (rack.knees, rack.stays),
    PartKind.FOOT: lambda rack: rack.stays,
    PartKind.RAIL: lambda rack: rack.rails,
    PartKind.U_BOLT: lambda rack: rack.rails,
    PartKind.STRAP: lambda rack: rack.rails,
    PartKind.STOP: lambda rack: rack.rails,
    PartKind.CLAMP: lambda rack: rack.panels,
    PartKind.PANEL: lambda rack: rack.panels,
    PartKind.SLEEVE: lambda rack: (rack.sleeve.length, rack.sleeve.wall, rack.sleeve.steel),
    PartKind.SET_BOLT: lambda rack: (rack.sleeve.lock, rack.posts.pipe),
    PartKind.PIN: lambda rack: (rack.sleeve.lock, rack.posts.pipe),
    PartKind.HOLE: lambda rack: (rack.sleeve.lock, rack.posts.pipe),
    PartKind.GUY: lambda rack: rack.guys,
    PartKind.ANCHOR: lambda rack: rack.guys,
    PartKind.LUG: lambda rack: (rack.guys, rack.welds),
    PartKind.RAIL_END: lambda rack: (rack.guys, rack.rails, rack.welds.lug_bolt),
    PartKind.WELD: lambda rack: rack.welds,
    PartKind.WALL: lambda _: None,
}
"""What of a rack must be as it was for what a part has stood to count still.

The play of a sleeve is not of it: a shim makes no bolt stronger."""
GAVE = {TURNED: Kind.TURNS, TILTED: Kind.TILTS, LEANED: Kind.LEANS}


@dataclass(frozen=True, slots=True)
class CutOff:
    """What is left of a check's distribution: from the share `bottom` to the share `top` [1]."""

    bottom: float = 0.0
    top: float = 1.0

    def score(self, share: float) -> float:
        """Return the standard score below which that share of what is left lies."""
        return NORMAL.inv_cdf(self.bottom + share * (self.top - self.bottom))


Learned = Mapping[Key, CutOff]
NOTHING_LEARNED: Learned = {}


def learn(rack: Rack, then: Iterable[Going]) -> dict[Key, CutOff]:
    """Return what the file's `stood` tells of each check.

    `then`: what was expected of the rack as it stood then, at that tilt with that bracing. Where
    something gave, the check of its kind expected first did; others of that kind are left as they
    were, for what gave may have spared them. Without its panels a rack stands nearly anything.
    """
    stood = rack.stood
    if stood is None or not stood.panels_on:
        return {}
    gave = GAVE.get(stood.moved)
    some = [going for going in then if going.gust > 0]
    first = min((g for g in some if g.kind == gave), key=lambda g: g.gust, default=None)
    cuts = {}
    for going in some:
        reached = min(max(NORMAL.cdf(_score(going, stood.gust)), SURE), 1 - SURE)
        if going is first:
            cuts[going.key] = CutOff(top=reached)
        elif gave is None or going.kind != gave:
            cuts[going.key] = CutOff(bottom=reached)
    return cuts


def still_counts(learned: Learned, then: Rack, now: Rack) -> Learned:
    """Return what is learned of those parts that are in a rack `now` as they were `then`.

    A part that is replaced has stood nothing yet. A wall, weld or hole is of what it is on and of
    what meets it there.
    """
    return {key: cut for key, cut in learned.items() if _as_it_was(key[0], then, now)}


def _as_it_was(part: Part, then: Rack, now: Rack) -> bool:
    kinds = (part.kind, part.on, part.met)
    return all(
        OF_ITSELF[kind](then) == OF_ITSELF[kind](now)
        for kind in kinds
        if isinstance(kind, PartKind)
    )


def told(going: Going, learned: Learned) -> Going:
    """Return what is expected of a check, given what was learned of it."""
    cut = learned.get(going.key)
    if cut is None or going.gust <= 0:
        return going
    low, middle, high = (_gust(going, cut.score(share)) for share in (0.1, 0.5, 0.9))
    return replace(going, low=low, gust=middle, high=high, guessed=going.gust)


def _spreads(going: Going) -> tuple[float, float]:
    """Return the standard deviations of ln(gust) below and above the median."""
    least = 1e-6
    below = max(math.log(going.gust / going.low), least) / TENTH
    return below, max(math.log(going.high / going.gust), least) / TENTH


def _score(going: Going, gust: float) -> float:
    """Return the standard score of a gust [m/s] in the distribution of a check."""
    away = math.log(gust / going.gust) if gust > 0 else -math.inf
    below, above = _spreads(going)
    return away / (above if away > 0 else below)


def _gust(going: Going, score: float) -> float:
    """Gust [m/s] at a standard score."""
    below, above = _spreads(going)
    return going.gust * math.exp(score * (above if score > 0 else below))
