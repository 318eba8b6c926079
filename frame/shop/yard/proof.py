"""What each anchor must stand in a pull test."""

from frame.checks.guys.anchor import proof_pull
from frame.named.part import anchor
from frame.records.results import BracingResult
from frame.shop.yard.lines import GuyLine


def anchor_tests(
    result: BracingResult, lines: tuple[GuyLine, ...]
) -> dict[str, tuple[float, float]]:
    """Return pull test and largest pull in use [N] of the anchors of each group of guys.

    The test is that of the check of the anchor where there is one, else worked out as there.
    """
    group = {line.name: line.group for line in lines}
    tests = {
        r.part: float(r.hand.extra["proof_pull"])
        for r in result.rows
        if "proof_pull" in r.hand.extra
    }
    found: dict[str, tuple[float, float]] = {}
    for guy in result.guys:
        name = group[guy.name]
        test = max(
            (t for part, t in tests.items() if part == anchor(guy.name)),
            default=float(proof_pull(guy.tension, guy.pretension)),
        )
        before = found.get(name, (0.0, 0.0))
        found[name] = (max(before[0], test), max(before[1], guy.tension))
    return found
