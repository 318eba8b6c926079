"""What trying every combination tells of the plan: lines for the screen, and plain data."""

import math
from typing import Any

from frame.plan.exhaustive import ChangedRack, Exhausted
from frame.plan.space import Space
from frame.rack.rack import Rack
from frame.report.money import money
from frame.report.screen.phrases import gust, paragraph
from frame.units import show

TELLING = 0.01
"""Part by which a gust or a price must differ to be told [1]."""
INDENT = 10


def exhausted_lines(found: Exhausted) -> list[str]:
    """Say of which changes every combination was tried, and how far off the plan is."""
    space, rack = found.space, found.space.start.rack
    said = f"{found.tried} racks solved: every combination that can be built of {_things(space)}."
    if space.done:
        said += f" Taken as done in all of them, for want of room: {_words(space.done)}."
    if space.beside:
        said += f" {space.beside} more that might matter were left as they are."
    return [*paragraph("Every", said, INDENT), *_breaks(found, rack), *_price(found, rack)]


def _things(space: Space) -> str:
    things = [o.do for o in space.fitting]
    things += [" or ".join(o.do for o in thing) for thing in space.things]
    return "; ".join(things) or "nothing, for nothing helps"


def _words(made: tuple[Any, ...]) -> str:
    return "; ".join(o.do for o in made)


def _breaks(found: Exhausted, rack: Rack) -> list[str]:
    best, mine = found.best, found.plan
    among = " that holds and is no dearer" if found.reached else ""
    first = gust(_of(mine), rack.units)
    if found.behind < TELLING:
        said = f"at about {first}: none{among} breaks later than the plan."
    else:
        latest = f"the latest one{among}, {gust(_of(best), rack.units)}"
        said = (
            f"at about {first} by the plan, {100 * found.behind:.0f} % before {latest}: "
            f"{_words(best.made)}."
        )
    if found.some_holds and not found.reached:
        said += " The plan misses one that has the code's margin for the site."
    return paragraph("Breaks", said, INDENT)


def _price(found: Exhausted, rack: Rack) -> list[str]:
    cheapest, mine = found.cheapest, found.plan
    good = "that has the code's margin too" if found.reached else "as good in every gust"
    if cheapest.price >= (1 - TELLING) * mine.price:
        return paragraph("Price", f"none {good} costs less than the plan.", INDENT)
    said = (
        f"{_told(mine, rack)} by the plan, {_told(cheapest, rack)} for one {good}: "
        f"{_words(cheapest.made)}."
    )
    return paragraph("Price", said, INDENT)


def _told(one: ChangedRack, rack: Rack) -> str:
    if rack.prices is None:
        return f"{show(one.price, 'weight', rack.units, 2)} of steel and trouble"
    return money(one.price, rack)


def _of(one: ChangedRack) -> float:
    return one.found.first_break


def exhausted_data(found: Exhausted) -> dict[str, Any]:
    """Return the same as plain data, SI; a gust that nothing reaches is null."""
    return {
        "tried": found.tried,
        "space": [o.do for o in found.space.fitting]
        + [o.do for thing in found.space.things for o in thing],
        "taken_as_done": [o.do for o in found.space.done],
        "left_as_they_are": found.space.beside,
        "plan": _data(found.plan),
        "best": _data(found.best),
        "cheapest_as_good": _data(found.cheapest),
        "first_break_behind": found.behind,
        "price_over_cheapest": found.dearer,
        "some_holds": found.some_holds,
    }


def _data(one: ChangedRack) -> dict[str, Any]:
    gusts = {"first_break": one.found.first_break, "first_slip": one.found.slip}
    gusts["limit_gust"] = one.found.limit
    return {
        "do": list(one.do),
        "bracing": list(one.bracing),
        **{key: value if math.isfinite(value) else None for key, value in gusts.items()},
        "price": one.price,
        "holds": one.holds,
    }
