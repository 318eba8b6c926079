"""Which bracing to weld, in a sentence."""

from collections.abc import Sequence

from frame.rack.rack import Rack, bracing_title
from frame.study.results import BracingResult, Row, Verdict
from frame.units import show

TOO_FAR = 10.0


def verdict(
    rack: Rack, results: Sequence[BracingResult], not_checked: tuple[str, ...] = ()
) -> Verdict:
    """Choose the bracing of least effort that holds the map gust, else the one nearest to it.

    `not_checked` names kinds of check that do not exist: with any of them no bracing holds for
    sure, and `holds` is None.
    """
    holding = [r for r in results if r.holds]
    sound = [r for r in holding if not r.sags and not r.sways]
    pool = sound or holding
    best = min(pool, key=lambda r: r.effort) if pool else max(results, key=nearness)
    return Verdict(
        bracing=best.bracing,
        holds=None if not_checked else best.holds,
        headline=_headline(rack, best),
        reason=_reason(rack, best),
        next_cure=_next(rack, best, results),
        first_to_go=best.ladder[0].part if best.rows else None,
        not_checked=not_checked,
    )


def nearness(result: BracingResult) -> tuple[float, float]:
    """How near a bracing comes to holding: by its limit gust, then by least effort."""
    limit = result.limit_gust
    return (float("inf") if limit is None else round(limit, 1), -result.effort)


def percent(use: float) -> str:
    """Put a use as a builder reads it."""
    return "more than ten times" if use > TOO_FAR else f"{100 * use:.0f} % of"


def _headline(rack: Rack, best: BracingResult) -> str:
    gust = show(rack.site.map_gust, "speed", rack.units)
    if best.holds:
        but = _but(best)
        what = "Leave it as it is" if not best.bracing else f"Weld this: {best.title}"
        return f"{what}. It has the code's margin for a site mapped at {gust}{but}."
    limit = show(best.limit_gust or 0.0, "speed", rack.units)
    return (
        f"Do not trust it at {gust}: nothing described holds. "
        f"Nearest is {bracing_title(best.bracing)}, good for a site mapped at {limit}."
    )


def _but(best: BracingResult) -> str:
    flags = [word for word, on in (("sags", best.sags), ("sways", best.sways)) if on]
    return f", but it {' and '.join(flags)} more than its limit" if flags else ""


def _reason(rack: Rack, best: BracingResult) -> str:
    first = best.ladder[0]
    if first.let_go_gust is None:
        return f"No part is expected to go in any gust up to the highest looked at ({first.part})."
    gust = show(first.let_go_gust, "speed", rack.units)
    return (
        f"In a real gust of about {gust} the {first.part} is expected to go first "
        f"({first.check}; {first.let_go_words})."
    )


def _next(rack: Rack, best: BracingResult, results: Sequence[BracingResult]) -> str:
    if best.holds:
        others = [r for r in results if r.holds and r is not best]
        if others:
            other = min(others, key=lambda r: r.effort)
            return f"The next cheapest that holds is {other.title}."
        return "No other bracing described holds."
    return f"What is missing: {_missing(best)}."


def _missing(best: BracingResult) -> str:
    failing: dict[str, Row] = {}
    for row in best.rows:
        if row.covered and not row.in_order:
            failing.setdefault(row.part, row)
    worst = list(failing.values())[:3]
    more = len(failing) - len(worst)
    text = "; ".join(f"{r.part} uses {percent(r.utilisation)} what it can take" for r in worst)
    return text + (f"; and {more} more parts" if more > 0 else "")
