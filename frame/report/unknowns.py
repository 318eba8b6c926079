"""What to find out first: what decides when it goes, and what would lift the code's margin."""

import math
from collections.abc import Sequence

from rich.console import Group

from frame.plan.decides import Deciding
from frame.report import words
from frame.report.data.plain import Data
from frame.report.screen.phrases import happens, number
from frame.report.tables import new_table, under_title
from frame.units import head_unit
from frame.whatif.known_better import Known, KnownBetter

LIFTS = 1.005
"""Least rise of a gust that is told [1]."""
GOOD_ONLY = (
    "Each alone, everything else as likely as not. It can turn out as much worse: the low end of "
    "the range counts on that. Change nothing before you know."
)
HOW_FAR = (
    "Each alone, everything else at its worst. What can turn out better can stay as bad: change "
    "nothing before you know."
)


def decisive(title: str, decides: Sequence[Deciding], system: str) -> Group:
    """Return what moves most when it goes, the answer if it turns out well, how to find out."""
    if not decides:
        return Group()
    made = new_table("Unknown", "if it turns out well", "how to find out")
    for one in decides:
        well, now = (number(g, system) for g in (one.gust_if_well, one.going.gust))
        what = happens(one.going.part, one.going.check)
        at = well.replace(">", "over ") if well.startswith(">") else f"about {well}"
        then = f"{what} at {at}, not {now} {head_unit('speed', system)}"
        made.add_row(one.unknown, then, one.find_out)
    return under_title(
        f"What decides when it goes: {words.title_in_sentence(title)}", made, GOOD_ONLY
    )


def deciding_data(one: Deciding) -> Data:
    """Return an unknown that decides for JSON."""
    return {
        "key": one.key,
        "unknown": one.unknown,
        "assumed": one.assumed,
        "find_out": one.find_out,
        "part": one.going.part,
        "check": one.going.check,
        "kind": one.going.kind,
        "gust": one.going.gust,
        "gust_if_well": one.gust_if_well,
    }


def page(title: str, found: KnownBetter, system: str) -> Group:
    """Return the table of the unknowns that matter, the rest in a line."""
    made = new_table("Not known", "if it turns out", ">margin up to", "how to find out")
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
    return under_title(
        f"What would lift the code's margin: {words.title_in_sentence(title)}", *parts
    )


def lifts(known: Known, worst: float) -> bool:
    """Whether knowing it raises the limit gust [m/s] by enough to tell."""
    return known.limit_gust > LIFTS * worst


def document(found: KnownBetter) -> Data:
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
    return words.gust_rounded_down(None if math.isinf(speed) else speed, system)
