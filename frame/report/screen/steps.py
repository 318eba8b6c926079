"""The table of the plan: what to do in which order, and what each step buys."""

import math
import textwrap

from frame.plan.decision import Decision
from frame.plan.gone import gone
from frame.plan.greedy import Plan
from frame.plan.standing import Standing
from frame.plan.steps import PlanStep
from frame.plan.worth import pays
from frame.rack.rack import Rack
from frame.report.money import amount
from frame.report.screen.phrases import WIDTH, gust, movement, number
from frame.shop.buying.sleeve_stock import rolled
from frame.units import head_unit, show_number

LEGEND = "   !: too much; margin: the code's"
LEGEND_LADEN = "   !: too much; margin!: in wind alone"
LEGEND_UNCOVERED = "   !: too much; ?: not all is checked"
ROLLED = "roll the sleeve: no listed pipe fits"
LATER = "pays later"
DOING = 39
"""Letters that the words of a step have."""
COLUMNS = "{:>6} {:>7} {:>5} {:>6} {:>6} {:>6}"


def steps(decision: Decision) -> list[str]:
    """Return the table, its head first, the rack as it is before the first step."""
    rack, plan = decision.rack, decision.plan
    priced = rack.prices is not None
    money = "cost" if priced else "steel"
    wind = gust(plan.start.sway.gust, rack.units)
    heads = COLUMNS.format("droop", "top", "slips", "breaks", "margin", money)
    speed, weight = (head_unit(kind, rack.units) for kind in ("speed", "weight"))
    units = COLUMNS.format(
        head_unit("movement", rack.units), wind, speed, speed, speed, "" if priced else weight
    )
    lines = [f"{'Do, in this order':<{DOING}}{heads}", f"{_legend(plan):<{DOING}}{units}"]
    lines.append(_row(f"   {as_now(rack)}", plan.start, rack, ""))
    for count, (step, words) in enumerate(zip(plan.steps, step_words(plan), strict=True), 1):
        lines += _step(count, step, words, rack)
    return lines


def step_words(plan: Plan) -> list[str]:
    """Return every step in words, and what is to be known of it.

    Of a post that no listed pipe goes over, that its sleeve has to be made; of a step that buys
    nothing by itself, that it pays later.
    """
    before = (plan.start, *(step.after for step in plan.steps))
    return [
        step.words + sleeve_note(was.rack, step) + ("" if pays(was, step.after) else f" ({LATER})")
        for was, step in zip(before, plan.steps, strict=False)
    ]


def sleeve_note(before: Rack, step: PlanStep) -> str:
    """Say of a step to a post or sleeve that no listed pipe makes the sleeve; else nothing."""
    after = step.after.rack
    sizes = [(r.posts.pipe.od, r.sleeve.wall, r.sleeve.length) for r in (before, after)]
    return f" ({ROLLED})" if sizes[0] != sizes[1] and rolled(after) else ""


def plan_rows(decision: Decision) -> list[tuple[str, ...]]:
    """Return the same table cell by cell, its head first, for where there is room."""
    rack, plan = decision.rack, decision.plan
    money = "cost" if rack.prices else f"steel [{head_unit('weight', rack.units)}]"
    speed, small = (head_unit(kind, rack.units) for kind in ("speed", "movement"))
    head = (
        "Do, in this order",
        f"droop [{small}]",
        f"top moves in {gust(plan.start.sway.gust, rack.units)} [{small}]",
        f"slips [{speed}]",
        f"breaks [{speed}]",
        f"code's margin [{speed}]",
        money,
    )
    made = [head, (as_now(rack), *_cells(plan.start, rack), "")]
    for count, (step, words) in enumerate(zip(plan.steps, step_words(plan), strict=True), 1):
        made.append((f"{count}) {words}", *_cells(step.after, rack), _added(step, rack)))
    return made


def _legend(plan: Plan) -> str:
    """Say what the marks mean.

    A margin marked is not kept under other loads than wind, or not known of all there is.
    """
    through = (plan.start, *(step.after for step in plan.steps))
    if any(at.uncovered for at in through):
        return LEGEND_UNCOVERED
    return LEGEND if all(at.laden.carried for at in through) else LEGEND_LADEN


def as_now(rack: Rack) -> str:
    """Return how a rack is called before the first step."""
    return "as it is" if rack.stands else "bare"


def _step(count: int, step: PlanStep, words: str, rack: Rack) -> list[str]:
    """Return a step's row, and below it what of its words the first column had no room for."""
    first = textwrap.wrap(words, DOING - 4, break_long_words=False, break_on_hyphens=False)[0]
    rest = words[len(first) :].strip()
    return [
        _row(f"{count:>2} {first}", step.after, rack, _added(step, rack)),
        *textwrap.wrap(
            rest, WIDTH, initial_indent="   ", subsequent_indent="   ", break_on_hyphens=False
        ),
    ]


def _added(step: PlanStep, rack: Rack) -> str:
    added = step.added_steel if rack.prices is None else step.added_cost
    told = amount(added) if rack.prices else show_number(added or 0.0, "weight", rack.units, 2)
    return "-" if told == "0" else told


def _row(words: str, at: Standing, rack: Rack, added: str) -> str:
    return f"{words:<{DOING}}{COLUMNS.format(*_cells(at, rack), added)}".rstrip()


def _cells(at: Standing, rack: Rack) -> tuple[str, ...]:
    sag = max(abs(at.sag.dead), abs(at.sag.still_air))
    return (
        _flag(show_number(sag, "movement", rack.units), over=at.sag.use > 1),
        _flag(top_moves(at, rack), over=at.sway.use > 1 and not why_gone(at, rack)),
        number(at.first_slip.gust if at.first_slip else None, rack.units),
        number(at.first_break.gust if at.first_break else None, rack.units),
        _flag(
            number(None if math.isinf(at.limit_gust) else at.limit_gust, rack.units),
            over=not at.laden.carried,
        )
        + ("?" if at.uncovered else ""),
    )


def _flag(text: str, *, over: bool) -> str:
    return f"{text}!" if over else text


def top_moves(at: Standing, rack: Rack) -> str:
    """Return how far the post top moves, without unit, or why that means nothing."""
    return why_gone(at, rack) or show_number(at.sway.top, "movement", rack.units, 2)


def moved_words(at: Standing, rack: Rack) -> str:
    """Return how far the post top moves with its unit, or why that means nothing."""
    told = {"topples": "the rack topples", "broken": "something has broken already"}
    why = why_gone(at, rack)
    return told[why] if why else f"the top moves {movement(at.sway.top, rack.units)}"


def why_gone(at: Standing, rack: Rack) -> str:
    """Say why a movement means nothing: the rack topples, or a part breaks at a lower gust."""
    return gone(at.sway, at.first_break, rack.posts.height)
