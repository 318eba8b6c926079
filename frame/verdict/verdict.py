"""Which bracing to weld, in a sentence."""

import math
from collections.abc import Sequence

from frame.named.aim import Key
from frame.named.load_kind import LoadKind
from frame.named.part import Part, PartKind
from frame.rack.rack import Rack
from frame.records.results import BracingResult, Move, Row, Verdict
from frame.verdict.sentences import (
    STILL,
    act_by_words,
    barely,
    first_to_go,
    mapped,
    margin,
    movements_over_limit,
    percent_of,
    speed,
)

SHORTEST = 10.0
WEIGHT = "its own weight"
LOADS = {
    None: WEIGHT,
    LoadKind.LEANING: WEIGHT,
    LoadKind.ICE: "its load of ice",
    LoadKind.ICE_AND_SNOW: "its load of ice",
    LoadKind.SNOW: "its snow load",
    LoadKind.WORKER: "a worker's weight",
}
"""What loads beside the wind are called."""
PLANNED = "What to change beside it, and in which order, the plan says (`rack compare FILE`)."
RAISED = 1.02
"""Rise of a gust worth welding for [1] (judgement)."""
HARDLY_CURED = 0.15
"""A movement within this share of the bare rack's is not called cured (judgement)."""


def best(rack: Rack, results: Sequence[BracingResult]) -> BracingResult:
    """Choose the bracing of least effort that holds the map gust, else the one nearest to it.

    One in which something goes in still air is never the nearest while another stands. Among
    equally near the one with fewest checks that no rule covers comes first, then that of least
    effort.
    """
    holding = [r for r in results if r.holds]
    sound = [r for r in holding if not r.sags and not r.sways]
    if sound or holding:
        return min(sound or holding, key=lambda r: r.effort)
    gust = rack.site.map_gust
    return min(
        results, key=lambda r: (goes_calm(r), to_mend(r, gust), len(r.not_checked), r.effort)
    )


def goes_calm(result: BracingResult) -> bool:
    """Whether some part is expected to go in still air."""
    return result.let_go_gust is not None and result.let_go_gust < STILL


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
        headline=f"{_headline(rack, chosen)}{_harm(results)}",
        act_by_words=act_by_words(rack, chosen),
        reason=f"{first_to_go(rack, chosen)}{_sets(chosen)}{_cures(results)}",
        next_cure=_next(rack, chosen, results, moves),
        first_to_go=chosen.ladder[0].part if chosen.rows else None,
        not_checked=chosen.not_checked,
    )


def _sets(chosen: BracingResult) -> str:
    """Say which part sets the margin where that is not the one that goes first."""
    limited = [r for r in chosen.rows if r.limit_gust is not None]
    if not limited or chosen.ladder[0].let_go_gust is None:
        return ""
    least = min(limited, key=lambda r: (r.limit_gust or 0.0, -r.utilisation))
    first = chosen.ladder[0]
    if least.key == first.key:
        return ""
    return (
        f" The margin is set by the {least.part} ({least.check}), which uses "
        f"{percent_of(least.utilisation)} what the code lets it take."
    )


def in_frame(part: Part) -> bool:
    """Whether a part is a post with its ground, or the beam: what a bracing is there to spare.

    Fastenings are mended alike in every bracing, and the bracing's own parts can be sized.
    """
    return part.kind in (PartKind.POST, PartKind.BEAM)


def frame_limit(result: BracingResult) -> float | None:
    """Limit gust of post, ground and beam alone [m/s]."""
    gusts = [r.limit_gust for r in result.rows if in_frame(r.part)]
    return min((g for g in gusts if g is not None), default=None)


def to_mend(result: BracingResult, map_gust: float) -> float:
    """How much is left to mend on post, ground and beam in a bracing that does not hold [1].

    The sum over their checks of log(map gust / limit gust), a tenth of the map gust at the least.
    A use without wind counts by its root, since wind goes with the square.
    """
    worst: dict[Key, float] = {}
    for row in result.rows:
        if not row.passes and in_frame(row.part):
            kind = row.part.unnumbered, row.check
            short = math.sqrt(row.utilisation)
            if row.limit_gust is not None:
                short = max(short, map_gust / max(row.limit_gust, 1e-9))
            worst[kind] = max(worst.get(kind, 0.0), math.log(min(max(short, 1.0), SHORTEST)))
    return round(sum(worst.values()), 2)


def _headline(rack: Rack, best: BracingResult) -> str:
    here = mapped(rack)
    if best.holds:
        what = f"With {best.title} it" if best.bracing else "Bare it"
        moved = movements_over_limit(best)
        but = f", but {moved}; that is a limit of movement, not of strength" if moved else ""
        told = f"{what} holds{but}: {margin(rack, best.limit_gust)}; yours is {here}."
        return f"{told}{barely(rack, best)}"
    name = best.title if best.bracing else "the bare rack"
    if best.passes:
        missing = ", ".join(best.not_checked)
        return (
            f"Nothing described can be said to hold at {here}. Nearest is {name}: of all that is "
            f"checked {margin(rack, best.limit_gust)}, but no rule covers the {missing}. {PLANNED}"
        )
    calm = not_carried(rack, best)
    if all(fails_calm(r, rack) for r in best.rows if not r.passes):
        return (
            f"Nothing described carries {calm}. Nearest is {name}: for wind alone "
            f"{margin(rack, best.limit_gust)}; yours is {here}. {PLANNED}"
        )
    alone = frame_limit(best)
    frame = "at any gust looked at" if alone is None else f"up to {speed(alone, rack)}"
    spared = (
        ""
        if alone == best.limit_gust
        else f"; post pipe, beam pipe and ground alone have it {frame}"
    )
    also = f" Nor does it carry {calm}." if calm else ""
    moved = movements_over_limit(best)
    also += f" It also {moved}." if moved else ""
    return (
        f"Nothing described holds at {here}. Nearest is {name}: "
        f"{margin(rack, best.limit_gust)}{spared}.{also} {PLANNED}"
    )


def _harm(results: Sequence[BracingResult]) -> str:
    """Name each kind of bracing that makes the rack go where bare it did not."""
    told = []
    for gone, harm in ((_goes_calm, "it lets go in still air"), (_falls, "it no longer holds")):
        harmful = {r.bracing: r.title for r in results[1:] if gone(results[0], r)}
        for kind, name in harmful.items():
            if len(kind) == 1:
                among = [r.bracing in harmful for r in results if kind[0] in r.bracing]
                alone = "" if all(among) else " alone"
                told.append(f" Do not fit {name}{alone}: {harm} then.")
    return "".join(told)


def _goes_calm(bare: BracingResult, braced: BracingResult) -> bool:
    return goes_calm(braced) and not goes_calm(bare)


def _falls(bare: BracingResult, braced: BracingResult) -> bool:
    return bare.passes and not braced.passes and not _goes_calm(bare, braced)


def fails_calm(row: Row, rack: Rack) -> bool:
    """Whether a row that fails does so by another load than wind alone at the map gust."""
    windy = _with_wind(row) and _load(row) == WEIGHT
    return not windy and (row.limit_gust is None or row.limit_gust >= rack.site.map_gust)


def not_carried(rack: Rack, best: BracingResult) -> str:
    """Name the loads other than wind alone that are not carried; empty where there is none."""
    rows = [r for r in best.rows if not r.passes and fails_calm(r, rack)]
    without = dict.fromkeys(_load(r) for r in rows if not _with_wind(r))
    if without:
        return f"{' or '.join(without)}, whatever the wind"
    beside = dict.fromkeys(_load(r) for r in rows)
    return f"{' or '.join(beside)} with wind beside it" if beside else ""


def _with_wind(row: Row) -> bool:
    """Whether wind is in the combination of a row's case."""
    return row.combination.wind > 0


def _load(row: Row) -> str:
    return LOADS[row.combination.kind]


def _cures(results: Sequence[BracingResult]) -> str:
    """Say what each kind of bracing, fitted alone, leaves of the bare rack's sag and sway."""
    bare, found = results[0], []
    for r in results[1:]:
        if len(r.bracing) > 1 or not bare.sag.dead or not bare.sway.top:
            continue
        if bare.sway.topples or r.sway.topples:
            continue
        parts = {"sag": r.sag.dead / bare.sag.dead, "sway": r.sway.top / bare.sway.top}
        left = " and ".join(_left(w, v) for w, v in parts.items() if abs(v) < 1 - HARDLY_CURED)
        found.append(f"{r.title} leave {left}" if left else f"{r.title} cure neither")
    return f" Against the bare rack, {'; '.join(found)}." if found else ""


def _left(what: str, part: float) -> str:
    """Say what is left of a movement; under nil the beam stands up by so much."""
    if part < 0:
        return f"none of the {what} (the beam then stands up by {-100 * part:.0f} % of it)"
    return f"{100 * part:.0f} % of the {what}"


def _next(
    rack: Rack, chosen: BracingResult, results: Sequence[BracingResult], moves: Sequence[Move]
) -> str:
    if chosen.holds:
        others = [r for r in results if r.holds and r.bracing != chosen.bracing]
        if others:
            other = min(others, key=lambda r: r.effort)
            gains = "" if _gains(chosen, other) else ", but it raises no gust and cures nothing"
            return f"The next cheapest that holds is {other.title}{gains}."
        return "No other bracing described holds."
    if not moves:
        return (
            "No single change helps: follow the plan, or take the panels off in wind. What is "
            f"missing: {_missing(chosen)}."
        )
    first = moves[0]
    before, after = (speed(g, rack) for g in first.let_go_gust)
    then = f"the {first.next_part} goes first, at about {after} instead of {before}"
    if after == before:
        kept, raised = (speed(g, rack) for g in first.limit_gust)
        then = (
            f"the {first.next_part} still goes first, at about {after}, and the code's margin "
            f"ends at {raised} instead of {kept}"
        )
    if math.isinf(first.let_go_gust[1]):
        then = "no gust looked at brings a part down"
    enough = any(m.limit_gust[1] >= rack.site.map_gust for m in moves)
    still = "" if enough else "No single change here makes it hold. "
    return (
        f"Cheapest first move: {first.words}. Then {then}. {still}"
        f"What is missing in all: {_missing(chosen)}."
    )


def _gains(chosen: BracingResult, other: BracingResult) -> bool:
    """Whether another bracing raises the limit gust or cures a movement over its limit."""
    before, after = (math.inf if r.limit_gust is None else r.limit_gust for r in (chosen, other))
    cures = (chosen.sags and not other.sags) or (chosen.sways and not other.sways)
    return cures or after > RAISED * before


def _missing(best: BracingResult) -> str:
    """Name the parts that fail in the order in which they go, each with its worst check."""
    failing: dict[str, Row] = {}
    for row in best.ladder:
        if not row.passes:
            failing[row.part] = max(row, failing.get(row.part, row), key=lambda r: r.utilisation)
    worst = list(failing.values())[:3]
    more = len(failing) - len(worst)
    text = "; ".join(
        f"{r.part} ({r.check}) uses {percent_of(r.utilisation)} what it can take" for r in worst
    )
    return text + (f"; and {more} more parts" if more > 0 else "")
