"""Every bracing of a rack solved and set side by side."""

from frame.idealize.actions import STEEL
from frame.rack.rack import MOST_BRACINGS, Rack, bracing_title
from frame.study.checkers import CHECKERS
from frame.study.cost import cost
from frame.study.dynamics import shaking, stability
from frame.study.forces import brace_forces, guy_forces
from frame.study.frames import Block, blocks, solve_frames
from frame.study.gusts import survey
from frame.study.knee_card import knee_card
from frame.study.movement import worst_sag, worst_sway, worst_swing
from frame.study.moves import moves
from frame.study.results import BracingResult, Study
from frame.study.second_opinion import agreement
from frame.study.situation import situations
from frame.study.verdict import best, verdict
from frame.study.wind_notes import wind_notes

GUY_EFFORT = 45.0
"""Steel [N] that a guy with its fittings and anchor is taken to be worth (judgement, 10 lb)."""


def compare(rack: Rack) -> Study:
    """Solve and check every combination of the bracing described, bare first.

    At most 32 combinations, the ones with fewest kinds kept; the dropped ones are named.
    """
    results = solved_bracings(rack)
    first = best(rack, results)
    better = moves(rack, first, CHECKERS)
    return Study(
        rack=rack,
        results=results,
        dropped=tuple(bracing_title(b) for b in rack.bracings()[MOST_BRACINGS:]),
        knee_card=knee_card(rack, results[0].sag.dead, rack.tilts[:1]),
        verdict=verdict(rack, first, results, better),
        moves=better,
        notes=wind_notes(rack),
    )


def chosen(rack: Rack) -> tuple[str, ...]:
    """Bracing of the verdict, without what `compare` tells beside it."""
    return best(rack, solved_bracings(rack)).bracing


def solved_bracings(rack: Rack) -> tuple[BracingResult, ...]:
    """Everything about every bracing kept, bare first."""
    kept = rack.bracings()[:MOST_BRACINGS]
    frames = solve_frames(rack, kept, rack.tilts)
    found = [blocks(frames, bracing, rack.tilts) for bracing in kept]
    bare = steel_weight(found[0][0])
    return tuple(result(some, steel_weight(some[0]), bare) for some in found)


def result(found: tuple[Block, ...], steel: float, bare_steel: float) -> BracingResult:
    """Find everything about one bracing; `steel`, `bare_steel`: its and the bare rack's [N]."""
    bracing = found[0].bracing
    nows = situations(found)
    rows = survey(found, CHECKERS)
    priced, bare = (cost(found[0].frame.rack, b) for b in (bracing, ()))
    added = None if priced is None or bare is None else priced - bare
    by_weight = steel - bare_steel + GUY_EFFORT * int(found[0].fitted.sum())
    return BracingResult(
        bracing=bracing,
        title=bracing_title(bracing),
        sag=worst_sag(found),
        sway=worst_sway(found),
        swing=worst_swing(found, rows),
        rows=rows,
        braces=brace_forces(nows),
        guys=guy_forces(nows),
        steel=steel,
        added_steel=steel - bare_steel,
        effort=by_weight if added is None else added,
        agreement=agreement(nows, rows),
        shaking=shaking(found),
        stability=stability(nows),
        cost=priced,
        added_cost=added,
    )


def steel_weight(block: Block) -> float:
    """Weight of the steel [N], from what the frame puts into the ground."""
    response = block.frame.response
    return float(response.reactions[response.model.load_index[STEEL], :, 2].sum())
