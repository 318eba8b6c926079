"""The whole answer to a rack file: bracings side by side, the plan, what decides it."""

import multiprocessing
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

from frame.casefile.read import parse_rack
from frame.plan.decides import Deciding, deciding
from frame.plan.greedy import Plan, make_plan
from frame.plan.kinds import Kind, other_kinds
from frame.plan.ours import described
from frame.plan.standing import Standing, stand
from frame.plan.why import ground_share
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
class Planned:
    """The plan, everything about its `end`, and what else there is to say beside it.

    `ground`: what of the sway at the start comes from the ground [1]; `kinds`: what other racks
    would reach where the plan does not reach the site's gust.
    """

    plan: Plan
    end: BracingResult
    decides: tuple[Deciding, ...]
    kinds: tuple[Kind, ...]
    ground: float


@dataclass(frozen=True, kw_only=True)
class Decision:
    """Everything the first screen says.

    `study`: every bracing described, or of our own where the file describes none (`ours`).
    """

    study: Study
    ours: bool
    planned: Planned

    @property
    def rack(self) -> Rack:
        """The rack as the file has it, with bracing of ours where that is compared."""
        return self.study.rack

    @property
    def plan(self) -> Plan:
        """The steps from the rack as it is."""
        return self.planned.plan

    @property
    def start(self) -> BracingResult:
        """Everything about the rack as it is."""
        return next(r for r in self.study.results if r.bracing == self.plan.start.bracing)

    @property
    def end(self) -> BracingResult:
        """Everything about the rack after the plan."""
        return self.planned.end


def decide(
    text: str,
    name: str,
    units: str | None = None,
    *,
    processes: int = 1,
    asides: bool = True,
) -> Decision:
    """Answer a rack file's `text`, called `name` in messages; `units` to tell numbers in.

    With two `processes` the plan is made in another one beside the comparison. `asides`: as in
    `compare`.

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
    if processes < 2:
        study = compare(rack, asides=asides)
        return Decision(study=study, ours=ours, planned=planned(text, name, units))
    forked = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(1, mp_context=forked) as beside:
        later = beside.submit(planned, text, name, units)
        study = compare(rack, asides=asides)
        return Decision(study=study, ours=ours, planned=later.result())


def planned(text: str, name: str, units: str | None = None) -> Planned:
    """Make the plan of a rack file with bracing described."""
    rack = parse_rack(text, name, units)
    learned = learned_of(rack, CHECKERS)
    start = stand(text, name, as_it_is(rack), learned)
    plan = make_plan(start, name, learned)
    end = _in_full(plan.end, rack)
    ladder = [row.going for row in end.ladder if row.going]
    kinds = () if plan.reached else other_kinds(plan.end, name)
    return Planned(
        plan=replace(
            plan,
            start=_light(plan.start),
            steps=tuple(replace(s, after=_light(s.after)) for s in plan.steps),
        ),
        end=end,
        decides=deciding(ladder),
        kinds=tuple(replace(k, standing=_light(k.standing)) for k in kinds),
        ground=ground_share(split(start.blocks)[1][0]),
    )


def as_it_is(rack: Rack) -> Bracing:
    """Bracing that the rack has on: what it stood with where it stands, else none."""
    return rack.stood.fitted if rack.stands and rack.stood else ()


def _light(at: Standing) -> Standing:
    """Return a standing without the blocks it was solved on, which are large."""
    limit = replace(at.weakest.limit, block=None)
    return replace(at, blocks=(), weakest=replace(at.weakest, limit=limit))


def _in_full(at: Standing, rack: Rack) -> BracingResult:
    """Return everything about the rack of a standing."""
    code, _ = split(at.blocks)
    rows = survey(at.blocks, CHECKERS, learned_of(rack, CHECKERS))
    steel = steel_weight(code[0])
    full = result(code, rows, steel, steel)
    return replace(full, lowered=lowered(at.rack, at.bracing, at.blocks))
