"""What `rack check` prints: every check of one bracing, worst first, then both elevations."""

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Group, RenderableType
from rich.text import Text

from frame.errors import InputError, Problem
from frame.records.results import BracingResult, Row
from frame.report import going_words, words
from frame.report.by_hand import by_hand, steps_data
from frame.report.data.bracing import lowered_data, rung
from frame.report.data.plain import document_opening, finite, footing_data
from frame.report.data.wind_data import weights_data, wind_data
from frame.report.elevations import elevation_data, elevation_table
from frame.report.foot import counted_on, footing
from frame.report.part_forces import use_cell
from frame.report.tables import FLAG, new_table, under_title
from frame.report.wind import weights, wind_chain
from frame.units import head_unit, show
from frame.verdict.inspect import Inspection
from frame.verdict.sentences import (
    act_by_words,
    barely,
    first_to_go,
    mapped,
    margin,
    movements_over_limit,
)
from frame.verdict.verdict import not_carried

SHARES = ("", "1")
"""Units of a sum of shares, of which 1 is all there is."""
KINDS = {
    "N": "force",
    "N m": "moment",
    "m": "movement",
    "Pa": "stress",
    "rad": "angle",
    "N/m": "force along a weld",
}


def check_page(found: Inspection, system: str, *, asked_for: bool = True) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric").

    `asked_for`: whether the bracing was named, not picked.
    """
    rows = found.result.rows
    rules = {source: n for n, source in enumerate(dict.fromkeys(r.source for r in rows), 1)}
    return Group(
        _lead(found, asked_for=asked_for),
        _checks(found, rules, system),
        under_title("Rules", *(f"{n:>3}: {source}" for source, n in rules.items())),
        weights(found.rack, system),
        wind_chain(found.rack, (found.result,), system),
        under_title(
            "Solved twice: the worst case, then the weight alone, by the plane solver (anastruct) "
            "and by the space frame reduced to the same elevation"
        ),
        *(elevation_table(seen, system) for seen in found.opinions),
        f"They differ by at most {words.difference_words(found.worst)} "
        "of the largest of each kind.\n",
        counted_on(found.rack, found.result, system),
        footing(found.rack, system),
        "\n".join(words.CAUTIONS),
    )


def _lead(found: Inspection, *, asked_for: bool) -> Group:
    """Return the first lines: what is shown and why, whether it holds, what goes first."""
    rack, result = found.rack, found.result
    why = (
        "as --bracing asks; `rack compare` says which one to weld"
        if asked_for
        else "which `rack compare FILE --all` picks of those described, with nothing else changed "
        "as its plan would; --bracing NAMES shows another"
    )
    here, calm = mapped(rack), not_carried(rack, result)
    holds = "It holds" if result.holds else "It does not hold"
    if result.passes and not result.holds:
        holds = "What is checked of it holds"
    margin_kept = f"{margin(rack, result.limit_gust)}.{barely(rack, result)}"
    if calm and (result.limit_gust is None or result.limit_gust >= rack.site.map_gust):
        margin_kept = f"it does not carry {calm}; for wind alone {margin_kept}"
    lines = [
        Text(f"Shown: {words.title_in_sentence(result.title)}, {why}.", style="bold"),
        Text(f"{holds} at the mapped gust of {here}{_but(result)}: {margin_kept}"),
        Text(act_by_words(rack, result)),
        Text(first_to_go(rack, result)),
    ]
    missing = ", ".join(result.not_checked)
    if missing:
        lines.append(Text(f"No rule covers, so no check speaks for: {missing}.", style=FLAG))
    return Group(*lines, Text(""))


def _but(result: BracingResult) -> str:
    moved = movements_over_limit(result)
    return f", {'but' if result.passes else 'and'} it {moved}" if moved else ""


def _checks(found: Inspection, rules: Mapping[str, int], system: str) -> Group:
    """Return the table of every check, parts of a pair told together."""
    made = new_table(
        ">uses", "goes at about", ">margin\nup to", "part: check [rule], what is asked, when"
    )
    rows = sorted(found.result.rows, key=lambda r: not r.covered)
    for alike in words.gather_alike(rows, _told).values():
        row = alike[0]
        blows = words.own_side(row.words, row.part) if len(alike) > 1 else row.words
        named = f"{words.joined_names(sorted(r.part for r in alike))}: {row.check}"
        told = (demand_and_allowable(row, system), words.when(blows, row.tilt, row.decided_by))
        made.add_row(
            used_cell(row),
            _goes(row, system),
            _gust(row, row.limit_gust, system),
            "\n".join([f"{named} [{rules[row.source]}]", *(t for t in told if t)]),
        )
    mapped, unit = show(found.rack.site.map_gust, "speed", system), head_unit("speed", system)
    return under_title(
        f"Every check, sorted by what it uses at the map gust of {mapped}, the highest first",
        made,
        "Uses: over 100 % the code's margin is gone. Margin: the mapped gust up to which it is "
        f"there [{unit}]. Goes: the real gust at which it is expected to turn, tilt, lean or "
        "break, by middle strengths and perhaps in another wind; one in ten goes sooner than the "
        "first number in brackets, one in ten later than the second. When to act: `rack gusts`. "
        "None: no gust looked at.",
        words.LIGHT,
        words.CHORD_WALL,
        'One part step by step: add --by-hand "PART", one of a pair by its own name.',
    )


def used_cell(row: Row) -> RenderableType:
    """Return the cell of a use; in words where no number says anything any more."""
    told = going_words.beyond_numbers(row, why=False) if row.covered else ""
    return Text(told, style=FLAG) if told else use_cell(row)


def _goes(row: Row, system: str) -> str:
    """Return how and at about which gust a row is expected to go."""
    if row.going is None:
        return "none" if row.covered else "-"
    return f"{row.kind} {going_words.ranged(row.going, system)}"


def _told(row: Row) -> tuple[object, ...]:
    """Return what rows of a pair have in common."""
    going = row.going
    some = (going.gust, going.low, going.high) if going else ()
    gusts = words.rounded(*some, row.limit_gust or 0.0)
    side = words.own_side(row.words, row.part)
    kind = (row.check, row.source, row.kind, words.percent(row.utilisation))
    return (*kind, *gusts, side, row.tilt)


def _gust(row: Row, gust: float | None, system: str) -> str:
    if not row.covered:
        return "-"
    return "none" if gust is None else going_words.forecast(gust, system)


def hand_page(found: Inspection, rows: Sequence[Row], system: str) -> str:
    """Return the checks of `rows` step by step, under the bracing and gust they are for."""
    gust = show(found.rack.site.map_gust, "speed", system)
    return f"{found.result.title}, at the map gust of {gust}\n\n{by_hand(rows, system)}"


def check_data(found: Inspection, rows: Sequence[Row]) -> dict[str, Any]:
    """Return the answer of `rack check` for JSON. Every number in it is finite."""
    result = found.result
    return finite(
        {
            **document_opening(found.rack),
            "bracing": result.title,
            "fitted": list(result.bracing),
            "holds": result.holds,
            "limit_gust": result.limit_gust,
            "act_by_gust": result.act_by_gust,
            "lowered": lowered_data(result),
            "let_go_gust": result.let_go_gust,
            "first_to_go": result.ladder[0].part if result.rows else None,
            "checks": [_check_data(r) for r in rows],
            "elevations": [elevation_data(seen) for seen in found.opinions],
            "difference": found.worst,
            "weights": weights_data(found.rack),
            "wind": wind_data(found.rack, (found.result,)),
            **footing_data(found.rack),
        }
    )


def _check_data(row: Row) -> dict[str, Any]:
    """Return one check with the steps of both models; null where none is expected to go."""
    return {
        **rung(row),
        "beyond": going_words.beyond_numbers(row) or None,
        "steps": steps_data(row.hand.steps),
        "expected_steps": steps_data(row.going.hand.steps) if row.going else None,
    }


def rows_of(found: Inspection, part: str | None) -> tuple[Row, ...]:
    """Return the checks of one part, or all.

    Raises
    ------
    InputError
        For a part that has no check; the text names those that have.
    """
    rows = found.result.rows
    if part is None:
        return rows
    mine = tuple(r for r in rows if r.part.lower() == part.strip().lower())
    if not mine:
        parts = "; ".join(dict.fromkeys(r.part for r in rows))
        raise InputError(
            (Problem("--by-hand", f'"{part}" has no check', f"write one of {parts}"),)
        )
    return mine


def demand_and_allowable(row: Row, system: str) -> str:
    """Return what is asked of a part and what it is allowed to take, in the builder's unit.

    In words, with the reason, where no number says anything; "" for a sum of shares, which is its
    use.
    """
    if not row.covered:
        return "not covered by any rule"
    told = going_words.beyond_numbers(row)
    if told:
        return told
    if row.unit in SHARES:
        return ""
    allowed = with_unit(row.allowable, row, system)
    if row.demand > words.FAR * row.allowable:
        return f"over 100 times the {allowed} it is allowed"
    return f"{with_unit(row.demand, row, system)} of {allowed}"


def with_unit(value: float, row: Row, system: str) -> str:
    """Return a demand or allowable with its unit."""
    return show(value, unit_kind(row), system)


def unit_kind(row: Row) -> str:
    """Return the kind of quantity a row compares, for `show`."""
    return KINDS.get(row.unit, "number")
