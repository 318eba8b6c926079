"""One bracing in depth: every check, and both elevations solved by both solvers."""

from collections.abc import Sequence
from dataclasses import dataclass

from frame.errors import DisagreementError
from frame.loads.cases import ASD, WEIGHT_ONLY, CaseTable
from frame.rack.rack import Rack
from frame.study.compare import _result, _steel_weight
from frame.study.frames import Block, blocks, solve_frames
from frame.study.results import BracingResult, Row
from frame.study.second_opinion import VIEWS, WORST, Opinion, opinion
from frame.study.situation import Situation, situation


@dataclass(frozen=True, kw_only=True)
class Inspection:
    """A bracing with its rows worst first.

    `opinions`: front and side at the case that governs, then under the weights alone.
    """

    rack: Rack
    result: BracingResult
    opinions: tuple[Opinion, ...]

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
    result = _result(found, _steel_weight(found[0]), _steel_weight(bare[0]))
    now, case = _governing(found, result.rows[0], rack.site.map_gust)
    still = situation(now.block, now.block.frame.cases((WEIGHT_ONLY,)), [0.0])
    opinions = tuple(opinion(s, i, view) for s, i in ((now, case), (still, 0)) for view in VIEWS)
    for seen in opinions:
        if not seen.worst <= WORST:
            raise DisagreementError(
                f"the space frame and the plane solver differ by {100 * seen.worst:.2g} % on the "
                f"{seen.view} elevation, {seen.words}; no answer is given"
            )
    return Inspection(rack=rack, result=result, opinions=opinions)


def _governing(found: Sequence[Block], row: Row, gust: float) -> tuple[Situation, int]:
    """Find the block and case of a row."""
    block = next(b for b in found if (b.frame.ideal.tilt, b.state) == (row.tilt, row.state))
    tables: tuple[tuple[CaseTable, float], ...] = (
        (block.frame.cases(tuple(c for c in ASD if c.wind)), gust),
        (block.frame.fixed_cases(), 0.0),
    )
    table, speed = next((t, v) for t, v in tables if row.case in t.labels)
    return situation(block, table, [speed]), table.labels.index(row.case)
