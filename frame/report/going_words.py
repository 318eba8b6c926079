"""Words for what is expected to go: what happens, at about which gust, and what cures it."""

import math
from collections.abc import Iterable

from frame.checks.check import Kind
from frame.named.limit_state import LimitState
from frame.records.going import Going
from frame.records.results import Row
from frame.report import words
from frame.report.screen.phrases import gust as whole
from frame.report.screen.phrases import number
from frame.search.weakest import Weakest
from frame.tables.limit_states import by_limit_state

MILD = (Kind.TURNS, Kind.LEANS)
"""Kinds that leave panels and rack where they are: warned of, no reason to take panels off."""
BEYOND = "none"
TOPPLES, TOPPLED = "topples", "weight and wind push it over faster than it can push back"
NOTHING_LEFT = "nothing left"
USED_UP = {
    LimitState.CHORD_WALL: (
        "the pipe is pressed and bent so much that the rule leaves its wall nothing"
    ),
    LimitState.SLEEVE_BEARING: "the pipe is bent so much that the rule leaves its wall nothing",
}
"""Why nothing is left, by check."""
SAID = {
    Kind.TURNS: "it swings with the wind and tears its wiring, but does not fall",
    Kind.LEANS: "seen in time, it can be set right",
}
"""What a mild kind does to a rack."""
NO_LEANING = {
    LimitState.SLEEVE_BEARING: "dents",
    LimitState.POST_DOWN: "sinks",
    LimitState.POST_UP: "lifts",
}
"""What is of the kind that leans, and is seen as something else."""


def how(going: Going) -> str:
    """Say how something goes in one word: its kind, but for what no builder calls leaning."""
    return NO_LEANING.get(going.check, str(going.kind))


def ranged(going: Going | None, system: str) -> str:
    """Return "33 (25 to 44)": the gust at which it is expected to go and its range, no unit."""
    if going is None:
        return BEYOND
    if going.gust < words.STILL:
        return "still air"
    low, middle, high = (number(g, system) for g in (going.low, going.gust, going.high))
    return f"{middle} ({low} to {high})"


def about(going: Going, system: str) -> str:
    """Return "at about 33 mph (25 to 44)", or "in still air"."""
    if going.gust < words.STILL:
        return "in still air"
    low, high = (number(g, system) for g in (going.low, going.high))
    return f"at about {whole(going.gust, system)} ({low} to {high})"


def forecast(gust: float, system: str) -> str:
    """Return a gust [m/s] in a column whose head has the unit; infinite is none looked at."""
    if math.isinf(gust):
        return BEYOND
    return "still air" if gust < words.STILL else number(gust, system)


def beyond_numbers(row: Row, *, why: bool = True) -> str:
    """Return what a use that is no number any more is called, and `why`; else "".

    "topples" where second order runs away with the forces, "nothing left" where what else a part
    carries takes all of its allowable strength.
    """
    least = max(row.allowable, row.nominal if math.isfinite(row.nominal) else 0.0)
    if not math.isfinite(row.demand) or row.demand > words.HOPELESS * least > 0:
        return f"{TOPPLES}: {TOPPLED}" if why else TOPPLES
    if row.demand > 0 >= row.allowable:
        used = USED_UP.get(row.check, "what else it carries takes all of it")
        return f"{NOTHING_LEFT}: {used}" if why else NOTHING_LEFT
    return ""


def mildest(found: Iterable[Weakest]) -> tuple[Going, ...]:
    """Return what turns and what leans first over some racks or tilts, each the lowest."""
    lowest: dict[Kind, Going] = {}
    for one in (going for weak in found for going in weak.going if going.kind in MILD):
        if one.kind not in lowest or one.gust < lowest[one.kind].gust:
            lowest[one.kind] = one
    return tuple(sorted(lowest.values(), key=lambda g: g.gust))


def cure(going: Going) -> str:
    """Return what stops a slip, "" where none is known but making the part stronger."""
    row = by_limit_state("slip_cures").get(going.check)
    return row["cure"] if row else ""
