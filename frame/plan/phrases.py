"""Words for what happens to a rack and for gusts, on screens and pictures alike."""

import math
from dataclasses import replace

from frame.named.limit_state import LimitState
from frame.named.part import Part, PartKind, Spot, one_of
from frame.tables.limit_states import by_limit_state
from frame.units import MPH, US

NEARLY = 1e-6
"""What a whole number may miss by and still be told as such."""

AT_SPOT = {Spot.SLEEVE_FOOT: "the foot of the sleeve", Spot.PIN: "the pin"}
ORDINALS = {1: "st", 2: "nd", 3: "rd"}
"""Ends of counting words, "th" else: rails are fewer than 21 (judgement)."""


def happens(part: Part, check: LimitState, *, several: bool = False) -> str:
    """Say what happens where a check of a part is reached: "the set bolt slips and ...".

    `several`: of any of the parts like it, left or right, at whichever post.
    """
    row = by_limit_state("check_words").get(check)
    told = row["happens"] if row else "{part} gives way"
    return told.format(part=spoken(part, several=several))


def spoken(part: Part, *, several: bool = False) -> str:
    """Name a part in a sentence: "the weld of the left knee at the post".

    `several`: any of the parts like it, "the weld of a knee at the post".
    """
    if several:
        part = part.unsided.unnumbered
    if isinstance(part.at, Part):
        return _where_parts_meet(part, spoken(part.at, several=several))
    if part.on:
        at = AT_SPOT.get(part.at, part.at) if part.at else ""
        return f"the {part.on} wall at {at}" if at else f"the {part.kind} of the {part.on}"
    if part.kind is PartKind.LUG:
        return f"a lug of the {part.group}"
    if part.kind is PartKind.RAIL_END:
        return f"a rail end at the {part.group}"
    if part.kind is PartKind.ANCHOR:
        return f"the anchor of {spoken(replace(part, kind=PartKind.GUY), several=several)}"
    return _one(part, "a" if several else "the")


def _where_parts_meet(part: Part, other: str) -> str:
    """Name what is where another part is: a wall, a weld, a lug or a rail's end."""
    if part.kind is PartKind.WALL:
        return f"the {part.on} wall at {other}"
    if part.kind is PartKind.RAIL_END:
        return f"the {part.kind} at {other}"
    if part.kind is PartKind.WELD and part.met is PartKind.SLEEVE:
        return f"the weld of the {part.on} to {other}"
    place = f" at the {part.on}" if part.on else ""
    return f"the {part.kind} of {other}{place}"


def _one(part: Part, article: str) -> str:
    """Name a part that stands for itself, by where it is."""
    if part.number and part.kind in (PartKind.POST, PartKind.RAIL):
        return _counted(part.kind, part.number)
    name = one_of(part.group) or str(part.kind)
    one = " ".join(word for word in (article, part.edge, part.side, name) if word)
    return f"{one} of {_counted(PartKind.POST, part.number)}" if part.number else one


def _counted(kind: PartKind, number: int) -> str:
    return f"the {number}{ORDINALS.get(number, 'th')} {kind} from the left"


def number(gust: float | None, units: str) -> str:
    """Return a gust [m/s] without its unit, never more than it is; none found is over the highest.

    In whole numbers, rounded down: panels are taken off before it.
    """
    if gust is None or gust > 199.5 * MPH:
        return ">200" if units == US else ">89"
    return f"{math.floor((gust / MPH if units == US else gust) + NEARLY)}"


def gust(speed: float, units: str) -> str:
    """Return a gust [m/s] with its unit, in whole numbers."""
    told = number(speed, units).replace(">", "over ")
    return f"{told} {'mph' if units == US else 'm/s'}"
