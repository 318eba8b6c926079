"""One bracing in depth: every check, and both elevations solved by both solvers."""

from dataclasses import dataclass, replace

from frame.bracing.second_opinion import Opinion, governing_case, opinions, solver_case
from frame.loads.combinations import WEIGHT_ONLY
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.search.survey import survey
from frame.search.weakest import learned_of
from frame.solved.blocks import blocks, median_blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import situation, situations
from frame.verdict.bracings import result as solve_result
from frame.verdict.bracings import steel_weight
from frame.whatif.lowered import lowered


@dataclass(frozen=True, kw_only=True)
class Inspection:
    """A bracing with its rows worst first.

    `opinions`: front and side at the case that governs, then under the weights alone.
    """

    rack: Rack
    result: BracingResult
    opinions: tuple[Opinion, ...]

    def __repr__(self) -> str:
        """Name the rack and its bracing."""
        return f"Inspection({self.rack.name!r}, {self.result!r})"

    @property
    def worst(self) -> float:
        """Largest relative difference of the two solvers [1]."""
        return max(o.worst for o in self.opinions)


def inspect(rack: Rack, bracing: tuple[str, ...]) -> Inspection:
    """Solve and check one bracing over every tilt, corner of the bands and wind.

    Raises
    ------
    DisagreementError
        Where the two solvers differ by more than 0.5 % on any elevation shown.
    """
    frames = solve_frames(rack, ((), bracing), rack.tilts)
    bare, found = (blocks(frames, b, rack.tilts) for b in ((), bracing))
    median = median_blocks(frames, bracing, rack.tilts)
    learned = learned_of(rack)
    rows = survey((*found, *median), learned)
    result = solve_result(found, rows, steel_weight(found[0]), steel_weight(bare[0]))
    result = replace(result, lowered=lowered(rack, bracing, learned, (*found, *median)))
    now, case = governing_case(situations(found), result.rows[0])
    still = situation(now.block, now.block.frame.cases((WEIGHT_ONLY,)), [0.0])
    refused = "no answer is given"
    both = (*opinions(solver_case(now, case), refused), *opinions(solver_case(still, 0), refused))
    return Inspection(rack=rack, result=result, opinions=both)
