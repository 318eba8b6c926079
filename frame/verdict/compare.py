"""Every bracing of a rack solved and set side by side."""

from collections.abc import Sequence
from dataclasses import replace
from threading import Thread

from frame.bracing.second_opinion import Question, agreement, prepare
from frame.rack.rack import MOST_BRACINGS, Rack, bracing_title
from frame.records.results import BracingResult, Study
from frame.solved.frames import Bracing
from frame.verdict.beside import Here, beside
from frame.verdict.share import Share, shares
from frame.verdict.verdict import best, verdict
from frame.verdict.wind_notes import wind_notes
from frame.whatif.knee_card import knee_parts


def compare(rack: Rack, *, processes: int = 1, asides: bool = True) -> Study:
    """Solve and check every combination of the bracing described, bare first.

    At most 32 combinations, the ones with fewest kinds kept; the dropped ones are named. With two
    `processes` half of the work is done by a forked one. Without `asides` no cheapest moves and
    no other reaches of the knees are worked out.
    """
    kept = rack.bracings()[:MOST_BRACINGS]
    mine, others = shares(rack, kept)
    with beside(others, processes) as far:
        later = far.ask(Share.results)
        found = mine.results()
        Thread(target=prepare).start()
        results, questions = _in_order(kept, found | later())
        first = best(rack, results)
        changed = far.ask(Share.moves, first) if asides else tuple
        holder = Here(mine) if first.bracing in mine.bracings else far
        low = holder.ask(Share.lowered, first.bracing)
        knees = [(part, results[0].sag.dead) for part in knee_parts(rack) if asides]
        begun = [far.ask(Share.knees, one) for one in knees[:1]]
        second = tuple(agreement(one) for one in questions)
        rest = far.each(Share.knees, knees[1:])
        better, flat = changed(), low()
        card = (*(answer() for answer in begun), *rest)
    told = tuple(replace(r, agreement=a) for r, a in zip(results, second, strict=True))
    told = tuple(replace(r, lowered=flat) if r.bracing == first.bracing else r for r in told)
    first = next(r for r in told if r.bracing == first.bracing)
    return Study(
        rack=rack,
        results=told,
        dropped=tuple(bracing_title(b) for b in rack.bracings()[MOST_BRACINGS:]),
        knee_card=tuple(knee for some in card for knee in some),
        verdict=verdict(rack, first, told, better),
        moves=better,
        notes=wind_notes(rack),
    )


def chosen(rack: Rack, *, processes: int = 1) -> Bracing:
    """Bracing of the verdict, without what `compare` tells beside it."""
    kept = rack.bracings()[:MOST_BRACINGS]
    mine, others = shares(rack, kept)
    with beside(others, processes) as far:
        later = far.ask(Share.results)
        results, _ = _in_order(kept, mine.results() | later())
    return best(rack, results).bracing


def _in_order(
    kept: Sequence[Bracing], found: dict[Bracing, tuple[BracingResult, Question]]
) -> tuple[tuple[BracingResult, ...], tuple[Question, ...]]:
    """Everything about every bracing, bare first, and the case of each for the second solver."""
    return tuple(found[b][0] for b in kept), tuple(found[b][1] for b in kept)
