"""What no change offered mends and keeps a plan from its site's gust or loads: told beforehand."""

from collections.abc import Callable

from frame.changes.offered import all_series
from frame.changes.stock import supply
from frame.named.aim import Key, helped
from frame.plan.standing import Standing
from frame.records.results import BracingResult, Row
from frame.verdict.verdict import fails_calm

LIFTED = 1.02
"""Limit gust over what it was from which on a plan has lifted it [1] (judgement)."""


def unmended(rack: Standing, start: BracingResult, end: BracingResult) -> Row | None:
    """Return the check of least limit gust under the site's that nothing offered for a rack helps.

    Nor have the steps between `start` and `end` lifted it. None where there is no such check.
    """
    before = {row.key: row.limit_gust for row in start.rows}
    helps = _helps(rack)
    found: list[tuple[float, Row]] = []
    for row in end.rows:
        was, limit = before.get(row.key), row.limit_gust
        if was is None or limit is None:
            continue
        stays = limit < min(rack.rack.site.map_gust, LIFTED * was)
        if stays and not helps(row.key):
            found.append((limit, row))
    return min(found, key=lambda pair: pair[0])[1] if found else None


def unmended_load(rack: Standing, end: BracingResult) -> Row | None:
    """Return the check of most use under snow, ice or people that nothing offered helps.

    Of those that fail after a plan, its `end`; None where there is no such check.
    """
    helps = _helps(rack)
    failing = (row for row in end.rows if not row.passes and fails_calm(row, rack.rack))
    found = [row for row in failing if not helps(row.key)]
    return max(found, key=lambda row: row.utilisation, default=None)


def _helps(rack: Standing) -> Callable[[Key], bool]:
    """Return whether a check is helped by anything offered for a rack with all its bracing."""
    offered = all_series(rack.rack, rack.rack.bracing_names, supply(rack.rack, rack.text))
    return lambda key: any(helped(series.helps, key) for series in offered)
