"""Which bracing to weld, in a sentence."""

import math
from collections.abc import Sequence

from frame.rack.rack import Rack
from frame.study.results import BracingResult, Move, Row, Verdict
from frame.units import show

TOO_FAR = 10.0
SHORTEST = 10.0
JOINTS = ("wall", "pin", "splice")
"""Words in the names of places on post and beam that are joints."""
SAME = 0.15
"""A movement within this share of the bare rack's is not called cured (judgement)."""


def best(rack: Rack, results: Sequence[BracingResult]) -> BracingResult:
    """Choose the bracing of least effort that holds the map gust, else the one nearest to it."""
    holding = [r for r in results if r.holds]
    sound = [r for r in holding if not r.sags and not r.sways]
    if sound or holding:
        return min(sound or holding, key=lambda r: r.effort)
    gust = rack.site.map_gust
    return min(results, key=lambda r: (to_mend(r, gust), r.effort))


def verdict(
    rack: Rack,
    chosen: BracingResult,
    results: Sequence[BracingResult],
    moves: Sequence[Move] = (),
) -> Verdict:
    """Put the choice among `results` in plain words, with the cheapest `moves` that improve it.

    Checks that do not cover the case are named in `not_checked`.
    """
    return Verdict(
        bracing=chosen.bracing,
        holds=chosen.holds,
        headline=_headline(rack, chosen),
        reason=f"{_reason(rack, chosen)}{_cures(results)}",
        next_cure=_next(rack, chosen, results, moves),
        first_to_go=chosen.ladder[0].part if chosen.rows else None,
        not_checked=tuple(f"{r.part} ({r.check})" for r in chosen.rows if not r.covered),
    )


def in_frame(part: str) -> bool:
    """Whether a part is a post with its ground, or the beam: what a bracing is there to spare.

    Joints are mended alike in every bracing, and the bracing's own parts can be sized.
    """
    return part.startswith(("post", "beam")) and not any(word in part for word in JOINTS)


def frame_limit(result: BracingResult) -> float | None:
    """Limit gust of post, ground and beam alone [m/s]."""
    gusts = [r.limit_gust for r in result.rows if in_frame(r.part)]
    return min((g for g in gusts if g is not None), default=None)


def to_mend(result: BracingResult, map_gust: float) -> float:
    """How much is left to mend on post, ground and beam in a bracing that does not hold [1].

    The sum over their checks of log(map gust / limit gust), a tenth of the map gust at the least.
    A use without wind counts by its root, since wind goes with the square.
    """
    worst: dict[tuple[str, str], float] = {}
    for row in result.rows:
        if not row.in_order and in_frame(row.part):
            kind = (row.part.split(",")[0].rstrip(" 0123456789"), row.check)
            short = math.sqrt(row.utilisation)
            if row.limit_gust is not None:
                short = max(short, map_gust / max(row.limit_gust, 1e-9))
            worst[kind] = max(worst.get(kind, 0.0), math.log(min(max(short, 1.0), SHORTEST)))
    return round(sum(worst.values()), 2)


def percent(use: float) -> str:
    """Put a use as a builder reads it."""
    return "more than ten times" if use > TOO_FAR else f"{100 * use:.0f} % of"


def _headline(rack: Rack, best: BracingResult) -> str:
    gust = show(rack.site.map_gust, "speed", rack.units)
    if best.holds:
        but = _but(best)
        what = "Leave it as it is" if not best.bracing else f"Weld this: {best.title}"
        return f"{what}. It has the code's margin for a site mapped at {gust}{but}."
    weakest = show(best.limit_gust or 0.0, "speed", rack.units)
    alone = show(frame_limit(best) or 0.0, "speed", rack.units)
    return (
        f"Nothing described holds at {gust}. Nearest is {best.title}: with it post, beam and "
        f"ground have the code's margin for a site mapped at {alone}, the weakest part at "
        f"{weakest}."
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


def _cures(results: Sequence[BracingResult]) -> str:
    """Say what each kind of bracing, fitted alone, leaves of the bare rack's sag and sway."""
    bare, found = results[0], []
    for r in results[1:]:
        if len(r.bracing) > 1 or not bare.sag.dead or not bare.sway.top:
            continue
        parts = {"sag": abs(r.sag.dead / bare.sag.dead), "sway": r.sway.top / bare.sway.top}
        left = " and ".join(
            f"{100 * v:.0f} % of the {w}" for w, v in parts.items() if v < 1 - SAME
        )
        found.append(f"{r.title} leave {left}" if left else f"{r.title} cure neither")
    return f" Against the bare rack, {'; '.join(found)}." if found else ""


def _next(
    rack: Rack, chosen: BracingResult, results: Sequence[BracingResult], moves: Sequence[Move]
) -> str:
    if chosen.holds:
        others = [r for r in results if r.holds and r is not chosen]
        if others:
            other = min(others, key=lambda r: r.effort)
            return f"The next cheapest that holds is {other.title}."
        return "No other bracing described holds."
    if not moves:
        return f"What is missing: {_missing(chosen)}. No single change helps: mend them together."
    first = moves[0]
    gusts = [show(g, "speed", rack.units) for g in first.let_go_gust]
    return (
        f"Cheapest first move: {first.words}. Then the {first.next_part} goes first, at about "
        f"{gusts[1]} instead of {gusts[0]}. What is missing in all: {_missing(chosen)}."
    )


def _missing(best: BracingResult) -> str:
    failing: dict[str, Row] = {}
    for row in best.ladder:
        if not row.in_order:
            failing.setdefault(row.part, row)
    worst = list(failing.values())[:3]
    more = len(failing) - len(worst)
    text = "; ".join(f"{r.part} uses {percent(r.utilisation)} what it can take" for r in worst)
    return text + (f"; and {more} more parts" if more > 0 else "")
