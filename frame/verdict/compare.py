"""Every bracing of a rack solved and set side by side."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from frame.bracing.second_opinion import agreement
from frame.rack.rack import MOST_BRACINGS, Rack, bracing_title
from frame.records.results import BracingResult, Move, Study
from frame.search.weakest import learned_of
from frame.solved.blocks import Block
from frame.solved.frames import Bracing
from frame.verdict.bracings import blocks_of_bracings, results
from frame.verdict.verdict import best, verdict
from frame.verdict.wind_notes import wind_notes
from frame.whatif.knee_card import knee_card
from frame.whatif.lowered import lowered

Cheapest = Callable[[BracingResult, Sequence[Block]], tuple[Move, ...]]


def no_moves(_: BracingResult, __: Sequence[Block]) -> tuple[Move, ...]:
    """Work out no changes."""
    return ()


def compare(rack: Rack, cheapest: Cheapest = no_moves, *, knees: bool = True) -> Study:
    """Solve and check every combination of the bracing described, bare first.

    At most 32 combinations, the ones with fewest kinds kept; the dropped ones are named.
    `cheapest` finds the changes that better the bracing of the verdict most cheaply; without
    `knees` no other reaches of theirs are worked out.
    """
    found = blocks_of_bracings(rack, rack.bracings()[:MOST_BRACINGS])
    told = [replace(one, agreement=agreement(q)) for one, q in results(rack, found).values()]
    first = best(rack, told)
    at = told.index(first)
    low = lowered(rack, first.bracing, learned_of(rack), found[first.bracing])
    told[at] = first = replace(first, lowered=low)
    better = cheapest(first, found[first.bracing])
    card = knee_card(rack, told[0].sag.dead, [max(rack.tilts)]) if knees else ()
    return Study(
        rack=rack,
        results=tuple(told),
        dropped=tuple(bracing_title(b) for b in rack.bracings()[MOST_BRACINGS:]),
        knee_card=card,
        verdict=verdict(rack, first, told, better),
        moves=better,
        notes=wind_notes(rack),
    )


def chosen(rack: Rack) -> Bracing:
    """Bracing of the verdict, without what `compare` tells beside it."""
    found = results(rack, blocks_of_bracings(rack, rack.bracings()[:MOST_BRACINGS]))
    return best(rack, [one for one, _ in found.values()]).bracing
