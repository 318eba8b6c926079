"""A series of sizes to choose from, weakest rung first, each as edits of the rack file."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from frame.casefile.write import Edits, Where
from frame.named.aim import Helps
from frame.rack.rack import Rack
from frame.units import INCH, METRIC, MM

WHOLE_FROM = 40 * MM
"""Size from which metric lengths are taken to whole centimetres [m]."""
FEET_FROM = 3 * 12 * 16
"""Sixteenths of an inch from which feet are told."""


class Thing(StrEnum):
    """What can be changed in sizes; its value names it and its row of `plan_work.csv`."""

    POST_PIPE = "post pipe"
    BEAM_PIPE = "beam pipe"
    KNEES_PIPE = "knees pipe"
    STAYS_PIPE = "stays pipe"
    POST_STEEL = "post steel"
    BEAM_STEEL = "beam steel"
    RAILS = "rails"
    RAIL_COUNT = "rail count"
    KNEES_PLACE = "place of the knees"
    KNEES_FITTED = "knees fitted"
    LOCK = "sleeve lock"
    WELDS_LEG = "welds leg"
    SLEEVE_LENGTH = "sleeve length"
    SLEEVE_WALL = "sleeve wall"
    CLEARANCE = "sleeve clearance"
    U_BOLTS = "U-bolts"
    TILT_STOP = "tilt stop"
    CLAMPS = "panel clamps"
    LUGS = "lugs"
    POST_DEPTH = "post depth"
    HOLE = "hole"
    BACKFILL = "backfill"
    FOOT = "foot"
    WIRE = "wire"
    FITTINGS = "fittings"
    ANCHORS = "anchors"
    GUYS_PLACE = "place"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One size: what it is in `words`, and the `edits` of the rack file that make it so.

    `again`: how it is told right after another change of the same part, where that is shorter.
    """

    words: str
    edits: Edits
    again: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One thing to size: `rungs` from weakest to strongest, `start` the one described.

    `group`: the guys whose thing it is, "" where of no guys.

    `helps`: the checks and movements that it is climbed for.
    Rungs under `start` are lighter and tried when the rest is settled; all of them, from the
    lightest, where `whole`, else one down at a time.
    """

    thing: Thing
    rungs: tuple[Rung, ...]
    start: int
    helps: Helps
    whole: bool = False
    group: str = ""

    @property
    def name(self) -> str:
        """Return what is sized in words."""
        return f"{self.group}, {self.thing}" if self.group else self.thing


def series(
    thing: Thing,
    described: Rung,
    sizes: Sequence[tuple[float, Rung]],
    now: float,
    helps: Helps,
    group: str = "",
) -> Series:
    """Put the rung described among (measure of strength, rung); `now` is its own measure."""
    by_size = sorted(sizes, key=lambda s: s[0])
    weaker = [r for measure, r in by_size if measure < now * (1 - 1e-3)]
    better = [r for measure, r in by_size if measure > now * (1 + 1e-3)]
    rungs = (*weaker, described, *better)
    return Series(thing=thing, rungs=rungs, start=len(weaker), helps=helps, group=group)


def lengths(
    rack: Rack,
    thing: Thing,
    where: Where,
    words: str | tuple[str, str],
    now: float,
    sizes: Sequence[float],
    helps: Helps,
) -> Series:
    """Return the series of a length [m], now `now`, that the file gives at `where`.

    `words` of a rung have a place, {}, for the length; of two the second are how it is told again.
    """
    first, again = (words, "") if isinstance(words, str) else words
    made = []
    for size in sizes:
        text = written_length(size, rack.units)
        rung = Rung(words=first.format(text), edits={where: text}, again=again.format(text))
        made.append((size, rung))
    return series(thing, Rung(words=f"{thing} as described", edits={}), made, now, helps)


def written_length(size: float, units: str) -> str:
    """Write a length for a rack file: to a sixteenth of an inch, or in mm a builder would use.

    From 3 ft on in feet and inches.
    """
    if units == METRIC:
        step = 10 * MM if abs(size) >= WHOLE_FROM else MM
        return f"{round(size / step) * step / MM:.0f} mm"
    sixteenths = round(abs(size) / INCH * 16)
    feet, rest = divmod(sixteenths, 12 * 16) if sixteenths >= FEET_FROM else (0, sixteenths)
    whole, part = divmod(rest, 16)
    shared = math.gcd(part, 16)
    fraction = f"{part // shared}/{16 // shared}" if part else ""
    inches = "-".join(filter(None, (str(whole or ""), fraction)))
    sign = "-" if size < 0 and sixteenths else ""
    told = (f"{feet} ft" if feet else "", f"{inches or '0'} in" if inches or not feet else "")
    return sign + " ".join(filter(None, told))


def told_together(changes: Iterable[str]) -> str:
    """Put the words of several changes in a row; whose guys they are of is said once."""
    said, before = "", ""
    for change in (part for words in changes for part in words.split("; ")):
        of, colon, rest = change.partition(": ")
        joins = bool(colon) and of == before
        said += f", {rest}" if joins else f"; {change}" if said else change
        before = of
    return said
