"""The season card: what to do before winter, and what to look at after a storm, in which order."""

from dataclasses import dataclass

from frame.named.limit_state import LimitState
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.records.results import BracingResult
from frame.tables.limit_states import by_limit_state
from frame.tables.reader import rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """What to `look` at, what it `means` if it shows, and whether to stop or go `then`."""

    look: str
    means: str
    then: str


def before_winter(rack: Rack, bracing: tuple[str, ...]) -> tuple[str, ...]:
    """Return what is done to this rack before winter, in the order of walking round it."""
    has = {"always"}
    has.add("pin" if isinstance(rack.sleeve.lock, Pin) else "set bolts")
    if rack.guys_in(bracing):
        has.add("guys")
    if rack.site.snow:
        has.add("snow")
    return tuple(row["do"] for row in rows("season_work") if row["part"] in has)


def sign_of(check: LimitState) -> Sign:
    """Return what shows that a check was near its end; KeyError where none is listed."""
    row = by_limit_state("storm_signs")[check]
    return Sign(look=row["look"], means=row["means"], then=row["then"])


def after_storm(result: BracingResult) -> tuple[Sign, ...]:
    """Return the signs in the order in which things let go, each once.

    Rows that no wind brings down come last.
    """
    return tuple(dict.fromkeys(sign_of(row.check) for row in result.ladder))
