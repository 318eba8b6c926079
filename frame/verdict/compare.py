"""Every bracing of a rack solved and set side by side."""

from dataclasses import replace

from frame.bracing.second_opinion import agreement
from frame.changes.moves import moves
from frame.parts.checkers import CHECKERS
from frame.rack.rack import MOST_BRACINGS, Rack, bracing_title
from frame.records.results import Study
from frame.solved.frames import Bracing
from frame.verdict.bracings import results, solved
from frame.verdict.verdict import best, verdict
from frame.verdict.wind_notes import wind_notes
from frame.whatif.knee_card import knee_card
from frame.whatif.lowered import lowered


def compare(rack: Rack, *, asides: bool = True) -> Study:
    """Solve and check every combination of the bracing described, bare first.

    At most 32 combinations, the ones with fewest kinds kept; the dropped ones are named. Without
    `asides` no cheapest moves and no other reaches of the knees are worked out.
    """
    found = solved(rack, rack.bracings()[:MOST_BRACINGS])
    told = [replace(one, agreement=agreement(q)) for one, q in results(rack, found).values()]
    first = best(rack, told)
    at = told.index(first)
    low = lowered(rack, first.bracing, found[first.bracing])
    told[at] = first = replace(first, lowered=low)
    better = moves(rack, first, CHECKERS, found=found[first.bracing]) if asides else ()
    knees = knee_card(rack, told[0].sag.dead, [max(rack.tilts)]) if asides else ()
    return Study(
        rack=rack,
        results=tuple(told),
        dropped=tuple(bracing_title(b) for b in rack.bracings()[MOST_BRACINGS:]),
        knee_card=knees,
        verdict=verdict(rack, first, told, better),
        moves=better,
        notes=wind_notes(rack),
    )


def chosen(rack: Rack) -> Bracing:
    """Bracing of the verdict, without what `compare` tells beside it."""
    found = results(rack, solved(rack, rack.bracings()[:MOST_BRACINGS]))
    return best(rack, [one for one, _ in found.values()]).bracing
