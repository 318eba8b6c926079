"""Bars of what goes first as the gusts rise, and of what each step of the plan buys."""

from collections.abc import Sequence
from textwrap import wrap

from matplotlib.figure import Figure

from frame.draw.bars import (
    BEGINS,
    ENDS,
    GONE,
    LETTERS,
    MAPPED,
    MARGIN,
    MAY_GO,
    SLIPS,
    Bar,
    bar_sheet,
)
from frame.named.aim import Key
from frame.plan.decision import Decision
from frame.plan.gone import BROKEN, TOPPLES, gone
from frame.plan.phrases import gust, happens, number
from frame.plan.standing import Standing
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.units import show

MOST = 10
"""Rows of a ladder that are drawn."""
ALIKE = 1.02
"""Gust over the lowest of parts of one sort up to which they are told as one [1] (judgement)."""
TOLD = {TOPPLES: "the rack topples", BROKEN: "something has broken already"}


def ladder_sheet(
    rack: Rack, ladders: Sequence[tuple[str, Sequence[Going]]], system: str
) -> Figure:
    """Sheet of what goes first of each rack, with its range, the lowest middle first."""
    groups = [(title, [_rung(g, system) for g in _first(found)]) for title, found in ladders]
    title = f"{rack.name}: what goes first, as the gusts rise"
    return bar_sheet(rack, title, groups, system, key=(MAY_GO, GONE, MAPPED))


def plan_sheet(found: Decision, system: str) -> Figure:
    """Sheet of what each step of the plan buys, the rack as it is first."""
    rack = found.rack
    first = "as it is" if rack.stands else "bare"
    groups = [(first, [_standing(found.plan.start, system)])]
    for number_, step in enumerate(found.plan.steps, 1):
        lines = wrap(f"{number_}) {step.words}", LETTERS - 14)
        groups.append(("\n".join(lines), [_standing(step.after, system)]))
    title = f"{rack.name}: what each step buys"
    return bar_sheet(rack, title, groups, system, key=(BEGINS, ENDS, SLIPS, MARGIN, MAPPED))


def _first(found: Sequence[Going]) -> list[list[Going]]:
    """Return the lowest; left and right, and post and post, that go alike are one."""
    seen: dict[Key, list[Going]] = {}
    for going in sorted(found, key=lambda g: g.gust):
        seen.setdefault((going.part.unsided.unnumbered, going.check), []).append(going)
    rungs = (rung for alike in seen.values() for rung in _rungs(alike))
    return sorted(rungs, key=lambda rung: rung[0].gust)[:MOST]


def _rungs(found: Sequence[Going]) -> list[list[Going]]:
    """Gather what goes at nearly the gust of the lowest of it."""
    rungs: list[list[Going]] = []
    for going in found:
        if rungs and going.gust <= ALIKE * rungs[-1][0].gust:
            rungs[-1].append(going)
        else:
            rungs.append([going])
    return rungs


def _rung(alike: Sequence[Going], system: str) -> Bar:
    going = alike[0]
    low, middle, high = (number(g, system) for g in (going.low, going.gust, going.high))
    what = happens(going.part, going.check, several=len(alike) > 1)
    said = f"{what} at about {middle} ({low} to {high})"
    return Bar(
        lines=tuple(wrap(said, LETTERS)),
        act_by=going.low,
        middle=going.gust,
        high=going.high,
        slip=None,
        margin=None,
    )


def _standing(at: Standing, system: str) -> Bar:
    droop = show(max(abs(at.sag.dead), abs(at.sag.still_air)), "movement", system)
    why = gone(at.sway, at.first_break, at.rack.posts.height)
    top = TOLD.get(why) or f"the top moves {show(at.sway.top, 'movement', system)}"
    told = [f"droops {droop}; in a {gust(at.sway.gust, system)} gust {top}"]
    for verb, going in (("slips", at.first_slip), ("breaks", at.first_break)):
        if going:
            told.append(f"{verb} about {number(going.gust, system)}")
    act_by, last = at.weakest.act_by, at.first_break
    return Bar(
        lines=tuple(wrap("; ".join(told), LETTERS)),
        act_by=act_by.low if act_by else None,
        middle=last.gust if last else None,
        high=last.high if last else None,
        slip=at.first_slip.gust if at.first_slip else None,
        margin=at.limit_gust if at.limit_gust < float("inf") else None,
    )
