"""What decides the answer: the unknowns that move it most, and what if they turn out well."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from frame.loads.expected_winds import CASE_B, ONE_SIDED, WIND
from frame.records.going import Going
from frame.search.grid import TOP
from frame.tables.expected import spreads

TOLD = 3
"""Unknowns told at most."""
LEAST = math.log(1.03)
"""Rise of ln(gust) below which an unknown does not decide anything."""
GUSTS = (WIND, ONE_SIDED, CASE_B)
"""Inputs that nobody can find out beforehand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deciding:
    """An unknown, by its `key` and in words, what is `assumed` of it and how to `find_out`.

    `going`: what it decides; `gust_if_well` [m/s]: when that would come if the unknown turned out
    at its better end, no later than what comes next.
    """

    key: str
    unknown: str
    assumed: str
    find_out: str
    going: Going
    gust_if_well: float


def deciding(ladder: Sequence[Going]) -> tuple[Deciding, ...]:
    """Rank the unknowns by how far each alone would lift the first break and the first slip.

    `ladder`: everything that is expected to go, in order.
    """
    found: dict[str, Deciding] = {}
    for some in ([g for g in ladder if not g.slips], [g for g in ladder if g.slips]):
        for one in _of(some):
            known = found.get(one.key)
            if known is None or _rise(one) > _rise(known):
                found[one.key] = one
    ranked = sorted(found.values(), key=_rise, reverse=True)
    return tuple(one for one in ranked if _rise(one) > LEAST)[:TOLD] or tuple(ranked[:1])


def _of(ladder: Sequence[Going]) -> Iterable[Deciding]:
    """Unknowns of what goes first of a ladder of one sort."""
    if not ladder or ladder[0].gust <= 0:
        return
    first = ladder[0]
    for shift in first.shifts:
        if shift.key in GUSTS or not shift.up:
            continue
        high = shift.high >= shift.low
        spread = spreads()[shift.key]
        yield Deciding(
            key=shift.key,
            unknown=spread.words,
            assumed=f"{spread.median:g}, {spread.low:g} to {spread.high:g}",
            find_out=spread.find_out,
            going=first,
            gust_if_well=min(_moved(going, shift.key, high=high) for going in ladder),
        )


def _moved(going: Going, key: str, *, high: bool) -> float:
    """Gust [m/s] at which something goes with one unknown at an end of its range."""
    shift = next((s for s in going.shifts if s.key == key), None)
    return going.gust * math.exp((shift.high if high else shift.low) if shift else 0.0)


def _rise(one: Deciding) -> float:
    """Rise of ln(gust), no farther than is searched."""
    return math.log(min(one.gust_if_well, TOP) / one.going.gust)
