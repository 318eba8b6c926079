"""What `rack check` prints: every check of one bracing, worst first, then both elevations."""

from collections.abc import Sequence
from typing import Any

from rich.console import Group

from frame.errors import InputError, Problem
from frame.report import words
from frame.report.by_hand import steps_data
from frame.report.compare_page import counted, footing
from frame.report.document import finite, footing_data, heading, rung
from frame.report.elevations import elevation_data, elevation_table
from frame.report.part_forces import use
from frame.report.tables import section, table
from frame.study.inspect import Inspection
from frame.study.results import Row
from frame.units import show

KINDS = {
    "N": "force",
    "N m": "moment",
    "m": "movement",
    "Pa": "stress",
    "rad": "angle",
    "N/m": "stiffness",
}


def check_page(found: Inspection, system: str) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    gust = show(found.rack.site.map_gust, "speed", system)
    rows = found.result.rows
    rules = {source: n for n, source in enumerate(dict.fromkeys(r.source for r in rows), 1)}
    made = table("Part: check", ">asked", ">allowed", ">uses", "when", ">rule")
    for row in rows:
        made.add_row(
            f"{row.part}: {row.check}",
            asked(row, system),
            allowed(row, system),
            use(row),
            words.when(row.words, row.tilt, row.decided_by),
            str(rules[row.source]),
        )
    return Group(
        section(
            f"{found.result.title}: every check at the map gust of {gust}, worst first",
            made,
            words.LIGHT,
            "One part step by step: add --by-hand PART.",
        ),
        section("Rules", *(f"{n:>3}: {source}" for source, n in rules.items())),
        section(
            "Solved twice: the worst case, then the weight alone, by the plane solver (anastruct) "
            "and by the space frame reduced to the same elevation"
        ),
        *(elevation_table(seen, system) for seen in found.opinions),
        f"They differ by at most {words.difference(found.worst)} of the largest of each kind.\n",
        counted(found.rack, found.result, system),
        footing(found.rack),
        "\n".join(words.CAUTIONS),
    )


def check_data(found: Inspection, rows: Sequence[Row]) -> dict[str, Any]:
    """Return the answer of `rack check` for JSON. Every number in it is finite."""
    result = found.result
    return finite(
        {
            **heading(found.rack),
            "bracing": result.title,
            "fitted": list(result.bracing),
            "checks": [{**rung(r), "steps": steps_data(r.hand.steps)} for r in rows],
            "elevations": [elevation_data(seen) for seen in found.opinions],
            "difference": found.worst,
            **footing_data(found.rack),
        }
    )


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


def asked(row: Row, system: str) -> str:
    """Return what is asked of a part in the builder's unit; words where past all measure."""
    hopeless = row.demand > words.HOPELESS * row.allowable > 0
    return "far too much" if hopeless else show(row.demand, unit_kind(row), system)


def allowed(row: Row, system: str) -> str:
    """Return what a part is allowed to take, in the builder's unit."""
    return show(row.allowable, unit_kind(row), system) if row.covered else "not covered"


def unit_kind(row: Row) -> str:
    """Return the kind of quantity a row compares, for `show`."""
    return KINDS.get(row.unit, "number")
