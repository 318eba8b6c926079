"""What to find out first: each unknown alone, and what knowing it would lift the gusts by."""

import math

from rich.console import Group

from frame.report import words
from frame.report.document import Data
from frame.report.tables import section, table
from frame.study.bands import Bands, Known
from frame.study.weakest import Weakest

LIFTS = 1.005
"""Least rise of a gust that is told [1]."""
HOW_FAR = (
    "Each alone, everything else at its worst. What can turn out better can stay as bad: change "
    "nothing before you know."
)


def page(title: str, found: Bands, system: str) -> Group:
    """Return the table of the unknowns that matter, the rest in a line."""
    made = table(
        "Not known", "if it turns out", ">margin up to", ">lets go\nat about", "how to find out"
    )
    told = [k for k in found.known if lifts(k, found.worst)]
    for known in told:
        gusts = (_gust(g, system) for g in (known.limit_gust, known.let_go_gust))
        made.add_row(known.name, known.end, *gusts, known.find_out)
    limit, let_go = (_gust(g, system) for g in (found.worst.limit_gust, found.worst.let_go_gust))
    lines = [f"Everything at its worst: margin up to {limit}, lets go at about {let_go}."]
    if told:
        limit, let_go = (_gust(g, system) for g in (found.best.limit_gust, found.best.let_go_gust))
        lines.append(
            f"Every unknown at its better end at once: margin up to {limit}, lets go at about "
            f"{let_go}."
        )
    rest = "; ".join(k.name for k in found.known if k not in told)
    if rest:
        lines.append(f"Knowing one of these alone lifts neither gust: {rest}.")
    parts = [made, *lines, HOW_FAR] if told else lines
    return section(f"Find this out first: {title}", *parts)


def lifts(known: Known, worst: Weakest) -> bool:
    """Whether knowing it raises a gust by enough to tell."""
    return (
        known.limit_gust > LIFTS * worst.limit_gust
        or known.let_go_gust > LIFTS * worst.let_go_gust
    )


def document(found: Bands) -> Data:
    """Return the same for JSON, every unknown ranked: null where no gust reaches anything."""
    return {
        "worst": _gusts(found.worst),
        "best": _gusts(found.best),
        "unknowns": [
            {
                "name": k.name,
                "turns_out": k.end,
                "find_out": k.find_out,
                **_gusts(k),
                "first_to_go": k.first or None,
            }
            for k in found.known
        ],
    }


def _gusts(found: Weakest | Known) -> Data:
    three = {
        "limit_gust": found.limit_gust,
        "act_by_gust": found.act_by_gust,
        "let_go_gust": found.let_go_gust,
    }
    return {key: g if math.isfinite(g) else None for key, g in three.items()}


def _gust(speed: float, system: str) -> str:
    return words.gust(None if math.isinf(speed) else speed, system)
