"""What to find out first: each unknown alone, and what knowing it would lift the gusts by."""

import math

from rich.console import Group

from frame.report import words
from frame.report.document import Data
from frame.report.tables import section, table
from frame.study.bands import Bands, Known

LIFTS = 1.005
"""Least rise of a gust that is told [1]."""
HOW_FAR = (
    "Each alone, everything else at its worst. What can turn out better can stay as bad: change "
    "nothing before you know."
)


def page(title: str, found: Bands, system: str) -> Group:
    """Return the table of the unknowns that matter, the rest in a line."""
    made = table("Not known", "if it turns out", ">margin up to", "how to find out")
    told = [k for k in found.known if lifts(k, found.worst)]
    for known in told:
        gust = _gust(known.limit_gust, system)
        made.add_row(known.name, known.end, gust, known.find_out)
    lines = [f"Everything at its worst: margin up to {_gust(found.worst, system)}."]
    if told:
        best = _gust(found.best, system)
        lines.append(f"Every unknown at its better end at once: margin up to {best}.")
    rest = "; ".join(k.name for k in found.known if k not in told)
    if rest:
        lines.append(f"Knowing one of these alone lifts nothing: {rest}.")
    parts = [made, *lines, HOW_FAR] if told else lines
    return section(f"Find this out first: {title}", *parts)


def lifts(known: Known, worst: float) -> bool:
    """Whether knowing it raises the limit gust [m/s] by enough to tell."""
    return known.limit_gust > LIFTS * worst


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
                **_gusts(k.limit_gust),
                "first_to_go": None,
            }
            for k in found.known
        ],
    }


def _gusts(limit: float) -> Data:
    """Return the limit gust; what lets go has its own ranges, so those keys stay null."""
    finite = limit if math.isfinite(limit) else None
    return {"limit_gust": finite, "act_by_gust": None, "let_go_gust": None}


def _gust(speed: float, system: str) -> str:
    return words.gust(None if math.isinf(speed) else speed, system)
