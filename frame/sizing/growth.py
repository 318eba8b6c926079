"""From a choice of sizes to one that holds, and on to the lightest near it.

Grow: where a check fails, the series that help it go up, until all pass or no rung is left. Trim:
every series goes down as long as all still pass, again and again until none can. So the result
holds, and nothing in it can be one size weaker by itself; two sizes changed together are not
tried, but for the place of the knees, of which every one of a grid is.
"""

from collections.abc import Sequence

import numpy as np

from frame.changes.cost import burden
from frame.changes.tried import OneTried, Place
from frame.errors import FrameError
from frame.named.aim import Short, helped
from frame.named.limit_state import Movement
from frame.rack.rack import Rack
from frame.sizing.bench import (
    Bench,
    ChosenRungs,
    Failing,
    still_passes,
    with_rung,
    worst_movements,
)
from frame.solved.blocks import Block

ROUNDS = 40
STIFFER = 1.5
"""How much more a rack may be for moving no further than it should [1] (judgement).

How far it moves is no matter of strength.
"""
FAR = 3.0
"""Use from which a series goes up two rungs at once [1]."""


def cuttable(bench: Bench, choice: ChosenRungs) -> ChosenRungs:
    """Change pipes that the stock is too short for, until what is described can be cut.

    Raises
    ------
    FrameError
        Where no pipe at hand is long enough.
    """
    try:
        bench.rack(choice)
    except FrameError:
        for i, series in enumerate(bench.series):
            for rung in range(len(series.rungs)):
                trial = with_rung(choice, i, rung)
                try:
                    bench.rack(trial)
                except FrameError:
                    continue
                return trial
        raise
    return choice


def grow(bench: Bench, choice: ChosenRungs) -> tuple[ChosenRungs, Failing]:
    """Go up where checks fail; return what still fails when nothing helps, worst first.

    A check that no rule covers fails: use nan. Place after place is looked at, and only as far as
    the first at which something fails that is not past mending: all else is grown beside that.
    Then until it sags and sways no further than it should; that is left alone where it is out of
    reach, or makes far more of it.
    """
    shut: set[tuple[int, int]] = set()
    past: set[Short] = set()
    rack = bench.rack(choice)
    places = sorted(bench.places(rack), key=lambda place: -place.tilt)
    held: ChosenRungs = ()
    for _ in range(ROUNDS):
        bench.tell("growing where checks fail")
        bench.tally.count()
        wanted = _first_failing(bench, bench.on(rack), places, past)
        if not wanted:
            if past:
                break
            held = held or choice
            wanted = _moving(bench, rack)
            if not wanted:
                return (choice if _bearable(bench, held, choice) else held), ()
        raised, helpless = _raised(bench, choice, wanted, shut)
        if raised == choice and (held or not helpless):
            break
        past |= helpless
        choice, rack = raised, bench.rack(raised)
    if held:
        return held, ()
    failing = _failing(bench, bench.blocks(rack))
    worst = sorted(failing.items(), key=lambda item: -np.nan_to_num(item[1], nan=np.inf))
    return choice, tuple(worst)


def _first_failing(
    bench: Bench, one: OneTried, places: list[Place], past: set[Short]
) -> dict[Short, float]:
    """Find what fails at the first place where anything does, and put that place first.

    What is `past` mending is left out.
    """
    for place in tuple(places):
        found = _failing(bench, one.blocks([place]))
        failing = {short: use for short, use in found.items() if short not in past}
        if failing:
            places.remove(place)
            places.insert(0, place)
            return failing
    return {}


def _bearable(bench: Bench, held: ChosenRungs, still: ChosenRungs) -> bool:
    """Whether it is not much more of a rack that moves no further than it should."""
    least, most = (burden(bench.rack(choice), bench.bracing) for choice in (held, still))
    return most <= STIFFER * least


def _moving(bench: Bench, rack: Rack) -> dict[Short, float]:
    """Name sag and sway with how far they are over their limits, if they are [1]."""
    moved = zip((Movement.SAG, Movement.SWAY), worst_movements(bench.blocks(rack)), strict=True)
    return {name: use for name, use in moved if use > 1.0}


def _failing(bench: Bench, found: Sequence[Block]) -> dict[Short, float]:
    return {key: use for key, use in bench.uses(found).items() if not use <= 1.0}


def _raised(
    bench: Bench, choice: ChosenRungs, failing: dict[Short, float], shut: set[tuple[int, int]]
) -> tuple[ChosenRungs, set[Short]]:
    """Raise, for every failing check, the series that helps it and has climbed least.

    And name what nothing helps any more.
    """
    up: dict[int, int] = {}
    helpless: set[Short] = set()
    for short, use in failing.items():
        helping = [
            i
            for i, series in enumerate(bench.series)
            if helped(series.helps, short)
            and choice[i] + 1 < len(series.rungs)
            and (i, choice[i] + 1) not in shut
        ]
        if helping:
            least = min(helping, key=lambda i: choice[i] - bench.series[i].start)
            up[least] = max(up.get(least, 1), 2 if use > FAR else 1)
        else:
            helpless.add(short)
    for i, steps in up.items():
        trial = with_rung(choice, i, min(choice[i] + steps, len(bench.series[i].rungs) - 1))
        try:
            bench.rack(trial)
        except FrameError:
            shut.add((i, choice[i] + 1))
            continue
        choice = trial
    return choice, helpless


def trim(bench: Bench, choice: ChosenRungs) -> ChosenRungs:
    """Go down every series while all checks pass, until no series can; whole ones only once."""
    settled: ChosenRungs = ()
    while settled != choice:
        first, settled = not settled, choice
        for i, series in enumerate(bench.series):
            if series.whole and first:
                choice = _lightest(bench, choice, i)
            while choice[i] > 0 and not series.whole:
                bench.tell(f"trimming: {series.name}")
                if not still_passes(bench, with_rung(choice, i, choice[i] - 1)):
                    break
                choice = with_rung(choice, i, choice[i] - 1)
    return choice


def _lightest(bench: Bench, choice: ChosenRungs, i: int) -> ChosenRungs:
    """Try every rung of one series under the present one, from the lightest."""
    for rung in range(choice[i]):
        bench.tell(f"trimming: {bench.series[i].name}")
        if still_passes(bench, with_rung(choice, i, rung)):
            return with_rung(choice, i, rung)
    return choice
