"""The whole answer to a rack file: bracings side by side, the plan, what decides it."""

from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.plan.decides import Deciding, deciding
from frame.plan.greedy import Plan, make_plan
from frame.plan.kinds import Kind, other_kinds
from frame.plan.ours import described
from frame.plan.standing import Standing, stand
from frame.rack.rack import Rack
from frame.study.checkers import CHECKERS
from frame.study.compare import compare
from frame.study.frames import Bracing, split
from frame.study.gusts import survey
from frame.study.lowered import lowered
from frame.study.results import BracingResult, Study
from frame.study.share import result, steel_weight
from frame.study.weakest import learned_of


@dataclass(frozen=True, kw_only=True)
class Decision:
    """Everything the first screen says.

    `study`: every bracing described, or of our own where the file describes none (`ours`); the
    `plan`, with everything about the rack at its `start` and its `end`; what `decides`; `kinds`:
    what other racks would reach where the plan does not reach the site's gust.
    """

    study: Study
    ours: bool
    plan: Plan
    start: BracingResult
    end: BracingResult
    decides: tuple[Deciding, ...]
    kinds: tuple[Kind, ...]

    @property
    def rack(self) -> Rack:
        """The rack as the file has it, with bracing of ours where that is compared."""
        return self.study.rack


def decide(text: str, name: str, units: str | None = None, *, processes: int = 1) -> Decision:
    """Answer a rack file's `text`, called `name` in messages; `units` to tell numbers in.

    Raises
    ------
    FrameError
        Where the file is wrong, or the two solvers disagree.
    """
    rack = parse_rack(text, name, units)
    ours = not rack.bracing_names
    if ours:
        text = described(text, rack)
        rack = parse_rack(text, name, units)
    study = compare(rack, processes=processes)
    learned = learned_of(rack, CHECKERS)
    plan = make_plan(stand(text, name, as_it_is(rack), learned), name, learned)
    end = _in_full(plan.end, rack)
    ladder = [row.going for row in end.ladder if row.going]
    return Decision(
        study=study,
        ours=ours,
        plan=plan,
        start=next(r for r in study.results if r.bracing == plan.start.bracing),
        end=end,
        decides=deciding(ladder),
        kinds=() if plan.reached else other_kinds(plan.end, name),
    )


def as_it_is(rack: Rack) -> Bracing:
    """Bracing that the rack has on: what it stood with where it stands, else none."""
    return rack.stood.fitted if rack.stands and rack.stood else ()


def _in_full(at: Standing, rack: Rack) -> BracingResult:
    """Return everything about the rack of a standing."""
    code, _ = split(at.blocks)
    learned = learned_of(rack, CHECKERS)
    rows = survey(at.blocks, CHECKERS, learned)
    steel = steel_weight(code[0])
    full = result(code, rows, steel, steel)
    low = lowered(at.rack, at.bracing, at.blocks)
    return replace(full, lowered=low)
