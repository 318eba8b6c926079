"""Standard pipe by nominal size; oil-field tubing and casing by outside diameter."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from frame.errors import CatalogError
from frame.tables.lookup import plain_name
from frame.tables.reader import rows, si
from frame.units import INCH, PLF

if TYPE_CHECKING:
    from frame.tables.pipe_words import PipeWords

STANDARD = "standard pipe"
SCHEDULES = ("40", "80")
TAPE = INCH / 32
"""How far a diameter read off a tape may be from the listed one [m]."""


@dataclass(frozen=True, slots=True)
class PipeSize:
    """A listed pipe: `od`, nominal `wall` [m], plain-end `weight` [N/m].

    `family` is "standard pipe", "tubing" or "casing". `nominal` is the nominal size of standard
    pipe ("3-1/2", which is 4.000 in outside) and empty for tubing and casing, which are named by
    their outside diameter.
    """

    name: str
    family: str
    nominal: str
    od: float
    wall: float
    weight: float
    source: str


@cache
def pipes() -> tuple[PipeSize, ...]:
    """Return every pipe listed."""
    return tuple(pipe for pipe, _ in _listed())


def of_diameter(od: float, within: float = TAPE) -> tuple[PipeSize, ...]:
    """Return the pipes whose outside diameter is `od` [m], give or take `within` [m]."""
    return tuple(pipe for pipe in pipes() if abs(pipe.od - od) <= within)


def find(text: str) -> PipeSize:
    """Return the pipe called `text`.

    "3-1/2 in nominal sch 40", "NPS 3-1/2" (schedule 40 unless it says 80 or extra strong), "DN 80
    sch 40", "2-7/8 in tubing 6.5 lb/ft", "4-1/2 in casing 10.5". A nominal size is never taken for
    an outside diameter or the other way round.

    Raises
    ------
    CatalogError
        If no such pipe is listed, or the text can be read both ways: it says how to write each.
    """
    for pipe in pipes():
        if plain_name(pipe.name) == plain_name(text):
            return pipe
    from frame.tables.pipe_words import read_words
    from frame.tables.square_tubes import is_square, square_refused

    if is_square(text):
        raise CatalogError(square_refused(text))
    asked = read_words(text)
    if asked.unknown or not asked.size:
        raise CatalogError(f'"{text}" is not a pipe in the catalog; {_how_to_write()}')
    if asked.schedule and asked.schedule not in _schedules(asked.size):
        known = " or ".join(f"sch {schedule}" for schedule in _schedules(asked.size))
        raise CatalogError(
            f'"{text}": no schedule {asked.schedule} in the catalog; write {known}, '
            f"or give the outside diameter and the wall"
        )
    if asked.family:
        return _by_weight(text, asked)
    if asked.nominal and not asked.outside and not asked.weight:
        return _by_nominal(text, asked)
    return _settle(text, asked)


def _schedules(size: str) -> tuple[str, ...]:
    """Schedules listed of a nominal size; of a size that is none, the usual ones."""
    listed = [r["schedule"] for p, r in _listed() if p.nominal and r["size"] == size]
    return tuple(listed) or SCHEDULES


@cache
def _listed() -> tuple[tuple[PipeSize, dict[str, str]], ...]:
    return tuple((_pipe(row), row) for row in rows("pipes"))


def _pipe(row: dict[str, str]) -> PipeSize:
    return PipeSize(
        name=row["name"],
        family=row["family"],
        nominal=row["size"] if row["family"] == STANDARD else "",
        od=si(row, "od_in"),
        wall=si(row, "wall_in"),
        weight=si(row, "weight_lb_per_ft"),
        source=row["source"],
    )


def _by_nominal(text: str, asked: "PipeWords") -> PipeSize:
    """Return standard pipe of a size that was said to be nominal."""
    if asked.metric and not asked.schedule:
        raise CatalogError(
            f'"{text}" does not give the wall, and pipe to metric standards has other walls; add '
            f"sch 40 or sch 80, or give the outside diameter and the wall"
        )
    wanted = asked.schedule or SCHEDULES[0]
    for pipe, row in _listed():
        same = pipe.family == STANDARD and row["size"] == asked.size
        if same and row["schedule"] == wanted:
            return pipe
    sizes = ", ".join(dict.fromkeys(p.nominal for p in pipes() if p.nominal))
    raise CatalogError(
        f'"{text}": there is no nominal size {asked.size} in the catalog (it has {sizes})'
        f"{_outside_hint(asked)}"
    )


def _by_weight(text: str, asked: "PipeWords") -> PipeSize:
    """Return tubing or casing by outside diameter and named weight."""
    if asked.nominal or asked.schedule:
        raise CatalogError(
            f'"{text}": {asked.family} is named by outside diameter and weight, without nominal '
            f"size or schedule; write it like {_examples(asked.family)}"
        )
    family = [(p, row) for p, row in _listed() if p.family == asked.family]
    same = [(p, row) for p, row in family if row["size"] == asked.size]
    for pipe, row in same:
        weights = [float(w) for w in row["named_weights"].split(";")]
        if asked.weight and min(abs(w - asked.weight) for w in weights) < 0.005:
            return pipe
    near = same or sorted(family, key=lambda listed: abs(listed[0].od - asked.od))[:4]
    names = _join(pipe for pipe, _ in near)
    what = "gives no weight per foot" if same and not asked.weight else "is not in the catalog"
    raise CatalogError(f'"{text}" {what}; write {names}')


def _settle(text: str, asked: "PipeWords") -> PipeSize:
    """Return a pipe of a size not said to be nominal, if that leaves no doubt, or ask."""
    outside = of_diameter(asked.od) if asked.od else ()
    nominal = [p for p, row in _listed() if p.nominal and row["size"] == asked.size]
    plain = not (asked.outside or asked.weight or asked.nominal)
    if plain and asked.schedule and nominal and not any(p.nominal for p in outside):
        return next(p for p in nominal if p.name.endswith(asked.schedule))
    meanings = []
    if nominal and not asked.outside:
        (first,) = _samples(nominal, asked)
        meanings.append(f'"{first.name}" if the size is nominal ({_inches(first)})')
    if outside:
        some = _join(_samples(outside, asked))
        meanings.append(f"{some} if it measures {asked.size} in outside")
    if not meanings:
        raise CatalogError(f'"{text}" is not a pipe in the catalog; {_how_to_write()}')
    raise CatalogError(
        f'"{text}" does not say which pipe; write {", or ".join(meanings)}; '
        f"or give the outside diameter and the wall"
    )


def _samples(same: Iterable[PipeSize], asked: "PipeWords") -> list[PipeSize]:
    """Return one standard pipe and one tubing or casing of those that share a diameter."""
    wanted = f"sch {asked.schedule or SCHEDULES[0]}"
    standard = [pipe for pipe in same if pipe.nominal and pipe.name.endswith(wanted)]
    other = [pipe for pipe in same if not pipe.nominal]
    if asked.weight:
        other.sort(key=lambda pipe: abs(pipe.weight - asked.weight * PLF))
    return standard[:1] + other[:1]


def _outside_hint(asked: "PipeWords") -> str:
    same = of_diameter(asked.od)
    return f"; {asked.size} in outside is {_join(_samples(same, asked))}" if same else ""


def _inches(pipe: PipeSize) -> str:
    return f"{pipe.od / INCH:.3f} in outside"


def _join(some: Iterable[PipeSize]) -> str:
    return " or ".join(f'"{pipe.name}"' for pipe in some)


def _examples(family: str) -> str:
    return _join([p for p in pipes() if p.family == family][2:4])


def _how_to_write() -> str:
    return (
        'write it like "3-1/2 in nominal sch 40", "2-7/8 in tubing 6.5 lb/ft" or "4-1/2 in casing '
        '10.5 lb/ft", see them all with "rack catalog --kind pipe", or give the outside diameter '
        "and the wall"
    )
