"""Fitted values as edits of the rack file, each marked as fitted with its band.

What compare, size and gusts make of them is for them: the code's margin takes a fitted wall or
sleeve only where it is worse than counted on, and never a firmer ground, for that was read on one
day; what is expected takes them as they are.
"""

import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from frame.casefile.write import Edits, Where, marked
from frame.diagnosis.fit import SURE, Fit
from frame.diagnosis.unknowns import (
    BEAM_WALL,
    BOW,
    GROUND,
    GUY_PULL,
    PLAY,
    POST_WALL,
    SLEEVE,
)
from frame.units import MM, show

LEARNED = 0.3
"""Share of its variance that an unknown must have lost to be written (judgement)."""
LEAST_PLAY = 0.1 * MM
MARK = "fitted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A fitted value by its `key`: `value`, and `low` to `high` in 19 of 20 [SI or 1].

    `kind` of quantity to print it as, "" for a plain factor; `edits` of the file.
    """

    key: str
    value: float
    low: float
    high: float
    kind: str
    edits: Edits

    def shown_band(self, units: str) -> str:
        """Return its band as printed."""
        return f"{self.shown(self.low, units)} to {self.shown(self.high, units)}"

    def shown(self, value: float, units: str) -> str:
        """Return one of its values as printed."""
        return show(value, self.kind, units) if self.kind else f"{value:.2g}"


def fitted_values(found: Fit, text: str) -> tuple[Fitted, ...]:
    """List what the readings tell well enough to stand in the file, whose `text` is given."""
    return tuple(_list(found, text))


def with_fitted(text: str, some: tuple[Fitted, ...], units: str) -> str:
    """Return the file with fitted values in it, all else as it was.

    Raises
    ------
    InputError
        Where the file is laid out in a way that cannot be edited safely.
    """
    edits = {where: value for one in some for where, value in one.edits.items()}
    marks = {where: f"{MARK}: {one.shown_band(units)}" for one in some for where in one.edits}
    return marked(text, edits, marks) if edits else text


def _list(found: Fit, text: str) -> Iterator[Fitted]:
    rack, units = found.forward.rack, found.forward.rack.units
    raw = tomllib.loads(text.replace("\r\n", "\n"))
    ground, sleeve = ("site", "ground_stiffness"), ("sleeve", "stiffness")
    yield from _told(found, GROUND, 1.0, "", partial(_factor, ground))
    yield from _told(found, SLEEVE, 1.0, "", partial(_factor, sleeve))
    if found.yard.single:
        yield from _told(found, PLAY, 1.0, "thickness", partial(_play, units))
    for key, part, pipe in (
        (BEAM_WALL, "beam", rack.beam.pipe),
        (POST_WALL, "post", rack.posts.pipe),
    ):
        made = partial(_wall, part, raw[part]["pipe"], units)
        yield from _told(found, key, pipe.wall, "thickness", made)
    yield from _bow(found)
    for i, group in enumerate(rack.guys, 1):
        if group.name in found.forward.measured.fitted:
            made = partial(_pull, (f"guys {i}", "pretension"), units)
            yield from _told(found, GUY_PULL, group.pretension, "force", made)


def _told(
    found: Fit, key: str, times: float, kind: str, edits: Callable[[float], Edits]
) -> Iterator[Fitted]:
    if key not in {u.key for u in found.unknowns} or found.learned(key) < LEARNED:
        return
    low, high = (times * end for end in found.band(key))
    value = times * found.values[key]
    yield Fitted(key=key, value=value, low=low, high=high, kind=kind, edits=edits(value))


def _factor(where: Where, value: float) -> Edits:
    return {where: float(f"{value:.3g}")}


def _play(units: str, value: float) -> Edits:
    return {("sleeve", "play"): show(max(value, LEAST_PLAY), "thickness", units)}


def _wall(part: str, before: object, units: str, value: float) -> Edits:
    known = dict(before) if isinstance(before, dict) else {"listed": str(before)}
    return {(part, "pipe"): {**known, "fitted": show(value, "thickness", units)}}


def _pull(where: Where, units: str, value: float) -> Edits:
    return {where: show(value, "force", units)}


def _bow(found: Fit) -> Iterator[Fitted]:
    """Yield the bow of both ends together, where it is surely there."""
    value, sigma = found.values[BOW], found.spread(BOW)
    if abs(value) < SURE * sigma:
        return
    units = found.forward.rack.units
    yield Fitted(
        key=BOW,
        value=value,
        low=value - SURE * sigma,
        high=value + SURE * sigma,
        kind="movement",
        edits={("beam", "bow"): show(value, "movement", units)},
    )
