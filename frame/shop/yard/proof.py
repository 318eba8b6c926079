"""What each anchor must stand in a pull test."""

from frame.records.results import BracingResult
from frame.shop.yard.lines import GuyLine


def anchor_tests(
    result: BracingResult, lines: tuple[GuyLine, ...]
) -> dict[str, tuple[float, float]]:
    """Return pull test and largest pull in use [N] of the anchors of each group of guys.

    Infinite where the rack sways over in a wind looked at.
    """
    group = {line.name: line.group for line in lines}
    found: dict[str, tuple[float, float]] = {}
    for guy in result.guys:
        name = group[guy.name]
        before = found.get(name, (0.0, 0.0))
        found[name] = (max(before[0], guy.test_pull), max(before[1], guy.tension))
    return found
