"""The best plan: fewest sticks bought, then fewest splices, least money, least opened.

Of the plans that are as good, the one with the weakest pipe where the least is carried, then the
longest leftover. Where something is bought anyway, the longest leftover of all goes before what is
opened: short sticks of the pile are used up, and the new one is left long.
"""

import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from frame.shop.cutting.greedy import greedy
from frame.shop.cutting.pile import CutPlan, Pile, laid
from frame.shop.cutting.program import (
    Written,
    longest_rest,
    parts_of,
    solve_program,
    write_program,
)

SECONDS = 18.0
"""Time to look for the best plan [s]."""
FIRST = 0.6
"""Share of it for the fewest splices."""
OPENED = 0.005
"""Weight of all that is opened, over all there is, beside money in hundredths."""
STRAINED = 100.0
"""Weight of what pieces use of their pipe, beside the longest leftover in m."""
SLACK = 1e-6


def best_plan(
    pile: Pile, tell: Callable[[str], None] = lambda _: None, seconds: float = SECONDS
) -> CutPlan | None:
    """Return the best plan found in the time, None where the needs cannot be made at all."""
    end = time.monotonic() + seconds
    quick = greedy(pile)
    if quick is not None and quick.bought == 0:
        tell("every piece comes from the pile without a splice; looking for the cheapest way")
        return _cheapest(pile, quick, end, spliced=False)
    tell("looking for the fewest splices")
    whole = write_program(pile, spliced=True)
    heavy = 1.0 + sum(pile.most for _ in pile.needs)
    cost = {part.is_made: 1.0 for some in whole.parts for part in some[1:]}
    for stick, column in zip(pile.sticks, whole.opened, strict=True):
        cost[column] = 0.0 if stick.at_hand else heavy
    found = solve_program(whole.program, cost, (end - time.monotonic()) * FIRST)
    if found.values is None:
        return None if found.proved or quick is None else replace(quick, proved=False)
    plan = laid(pile, parts_of(pile, whole, found.values))
    if quick is not None and (quick.bought, quick.splices) < (plan.bought, plan.splices):
        plan = quick
    if not found.proved:
        least = max(found.bound, 0.0)
        plan = replace(plan, bound=(least // heavy, least % heavy, 0.0))
        better = _cheapest(pile, plan, end, spliced=plan.splices > 0)
        return replace(better, proved=False, bound=plan.bound)
    tell("looking for the cheapest way")
    return _cheapest(pile, plan, end, spliced=plan.splices > 0)


def _cheapest(pile: Pile, plan: CutPlan, end: float, *, spliced: bool) -> CutPlan:
    """Return the cheapest plan with no more bought and no more splices than one known."""
    one = write_program(pile, spliced=spliced)
    _hold(pile, one, plan, spliced=spliced)
    money, lengths = _money(pile, one), _lengths(pile, one)
    total = sum(s.length for s in pile.sticks)
    cost = {c: money[c] + OPENED * lengths[c] / total for c in one.opened}
    found = solve_program(one.program, cost, end - time.monotonic())
    least = (plan.bought, plan.splices, max(found.bound, 0.0))
    if found.values is None:
        return replace(plan, proved=False, bound=least)
    cheaper = laid(pile, parts_of(pile, one, found.values), proved=found.proved)
    if not found.proved:
        first = cheaper if cheaper.money <= plan.money else plan
        return replace(first, proved=False, bound=(*least[:2], min(least[2], first.money)))
    opened = {c.stick for c in cheaper.cuts}
    one.program.add_row(list(money.items()), -np.inf, cheaper.money + SLACK)
    cost = _strained(pile, one)
    if cheaper.bought:
        cost |= {c: OPENED * lengths[c] / total for c in one.opened}
    else:
        length = sum(pile.sticks[s].length for s in opened)
        one.program.add_row(list(lengths.items()), -np.inf, length + SLACK)
    cost |= {longest_rest(pile, one, untouched=cheaper.bought > 0): -1.0}
    last = solve_program(one.program, cost, min(end - time.monotonic(), SECONDS / 6))
    if last.values is not None:
        cheaper = laid(pile, parts_of(pile, one, last.values), proved=True)
    return replace(cheaper, bound=(cheaper.bought, cheaper.splices, cheaper.money))


def _hold(pile: Pile, one: Written, plan: CutPlan, *, spliced: bool) -> None:
    """Hold a program to as few bought and spliced as a plan known."""
    buying = [(c, 1.0) for s, c in zip(pile.sticks, one.opened, strict=True) if not s.at_hand]
    if buying:
        one.program.add_row(buying, 0, plan.bought)
    if spliced:
        more = [(part.is_made, 1.0) for some in one.parts for part in some[1:]]
        one.program.add_row(more, 0, plan.splices)


def _strained(pile: Pile, one: Written) -> dict[int, float]:
    """Return the use of every piece by the stick that it may come from."""
    bins = pile.bins()
    return {
        column: STRAINED * need.load / pile.sticks[bins[b][0]].strength
        for need, some in zip(pile.needs, one.parts, strict=True)
        for part in some
        for b, column in part.put.items()
    }


def _money(pile: Pile, one: Written) -> dict[int, float]:
    return {c: s.cost for s, c in zip(pile.sticks, one.opened, strict=True)}


def _lengths(pile: Pile, one: Written) -> dict[int, float]:
    return {c: s.length for s, c in zip(pile.sticks, one.opened, strict=True)}
