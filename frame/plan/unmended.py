"""What no change offered mends, and holds a plan below its site's gust: told before money goes."""

from frame.changes.offered import all_series
from frame.changes.stock import supply
from frame.named.aim import helped
from frame.plan.standing import Standing
from frame.records.results import BracingResult, Row

LIFTED = 1.02
"""Limit gust over what it was from which on a plan has lifted it [1] (judgement)."""


def unmended(rack: Standing, start: BracingResult, end: BracingResult) -> Row | None:
    """Return the check of least limit gust under the site's that nothing offered for a rack helps.

    Nor have the steps between `start` and `end` lifted it. None where there is no such check.
    """
    before = {row.key: row.limit_gust for row in start.rows}
    offered = all_series(rack.rack, rack.rack.bracing_names, supply(rack.rack, rack.text))
    found: list[tuple[float, Row]] = []
    for row in end.rows:
        was, limit = before.get(row.key), row.limit_gust
        if was is None or limit is None:
            continue
        stays = limit < min(rack.rack.site.map_gust, LIFTED * was)
        if stays and not any(helped(series.helps, row.key) for series in offered):
            found.append((limit, row))
    return min(found, key=lambda pair: pair[0])[1] if found else None
