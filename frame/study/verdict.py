"""Which bracing to weld, in a sentence."""

from collections.abc import Sequence

from frame.rack.rack import Rack
from frame.study.results import BracingResult, Row, Verdict

NOT_CHECKED = ("bolts", "welds", "soil", "anchors")


def over(result: BracingResult) -> float:
    """Worst of a bracing's uses and of its sag over the limit [1]; at most 1 is in order."""
    sag = max(abs(result.sag.dead), abs(result.sag.still_air)) / result.sag.limit
    return max(sag, *(r.utilisation for r in result.rows))


def verdict(rack: Rack, results: Sequence[BracingResult]) -> Verdict:
    """Choose the bracing with the least added steel that is in order, else the nearest to it."""
    ranked = sorted(results, key=lambda r: (max(1.0, over(r)), r.added_steel))
    best = ranked[0]
    worst = best.rows[0]
    return Verdict(
        bracing=best.bracing,
        holds=None,
        headline=_headline(best),
        reason=_reason(best, worst),
        next_cure=_next(ranked),
        first_to_go=worst.part,
        not_checked=NOT_CHECKED,
    )


def _headline(best: BracingResult) -> str:
    if not best.bracing:
        return "Leave it as it is: no bracing described does better against sag and bending."
    return f"Weld this: {best.title}. Best against sag and bending; not a yes for wind."


def _reason(best: BracingResult, worst: Row) -> str:
    sag = max(abs(best.sag.dead), abs(best.sag.still_air)) / best.sag.limit
    return (
        f"With it the {worst.part} uses {100 * worst.utilisation:.0f} % of what it can take "
        f"({worst.words}), and the beam sags {100 * sag:.0f} % of its limit."
    )


def _next(ranked: Sequence[BracingResult]) -> str:
    if len(ranked) < 2:
        return "No other bracing is described in the file."
    other = ranked[1]
    return f"Next: {other.title}, whose {other.rows[0].part} uses {100 * over(other):.0f} %."
