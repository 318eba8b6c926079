"""The answer to a rack file, a `Decision`; beside it, if asked, a `Study` of every bracing."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from frame.bracing.second_opinion import SolverCase, agreement, governing_case, solver_case
from frame.casefile.read import parse_rack
from frame.changes.series import Rung
from frame.errors import FrameError
from frame.plan.decides import Deciding, deciding
from frame.plan.greedy import Plan, make_plan
from frame.plan.moves import moves
from frame.plan.other_racks import OtherRack, other_kinds
from frame.plan.ours import described
from frame.plan.second_process import second_process
from frame.plan.standing import Asked, Standing, holds, light, stand, stand_like
from frame.plan.unmended import unmended, unmended_load
from frame.plan.why import ground_share
from frame.rack.rack import MOST_BRACINGS, Rack
from frame.records.results import BracingResult, Move, Row, Study
from frame.search.survey import survey
from frame.search.weakest import learned_of
from frame.sizing.begun import Begun
from frame.sizing.bench import Tell
from frame.sizing.size import Sized, size
from frame.solved.blocks import Block, split
from frame.solved.frames import Bracing
from frame.solved.situation import situations
from frame.verdict.bracings import result, steel_weight
from frame.verdict.compare import compare
from frame.whatif.lowered import lowered

PLANNED = "from the plan of rack compare"
"""What is told of a rack that is sized from the end of its plan."""


@dataclass(frozen=True, kw_only=True)
class Decision:
    """Everything the first screen says.

    `rack` as in the file, with bracing of `ours` where it describes none; the `plan`, with
    everything about the rack at its `start` and its `end`; `ground`: what of the sway at the
    start comes from the ground [1]; what `decides` at the plan's end; `kinds`: what other racks
    would reach where the plan does not reach the site's gust; `some_holds`: whether any bracing
    described does; `guyed`: the plan's end with the guys it leaves out, where its post top moves
    too far.
    """

    rack: Rack
    ours: bool
    plan: Plan
    start: BracingResult
    end: BracingResult
    ground: float
    decides: tuple[Deciding, ...]
    kinds: tuple[OtherRack, ...]
    some_holds: bool
    guyed: Standing | None = None

    @property
    def unmended(self) -> Row | None:
        """Return what nothing offered mends, of a plan that falls short of its site's gust."""
        return None if self.plan.reached else unmended(self.plan.start, self.start, self.end)

    @property
    def laden_unmended(self) -> Row | None:
        """Return what nothing offered mends under snow, ice or people that it does not carry."""
        return None if self.plan.reached else unmended_load(self.plan.start, self.end)

    def __repr__(self) -> str:
        """Name the rack and the plan."""
        return f"Decision({self.rack.name!r}, {self.plan!r})"


@dataclass(frozen=True, kw_only=True)
class _Planned:
    plan: Plan
    end: tuple[BracingResult, SolverCase]
    kinds: tuple[OtherRack, ...]
    guyed: Standing | None


def decide(
    text: str,
    name: str,
    units: str | None = None,
    *,
    processes: int = 1,
    ranged: bool = True,
) -> Decision:
    """Answer a rack file's `text`, called `name` in messages; `units` to tell numbers in.

    With two `processes` the plan is made in another one. `ranged`: whether gusts of every step
    have a range, or those of the start and the end alone.

    Raises
    ------
    FrameError
        Where the file is wrong, or the two solvers disagree.
    """
    text, rack, ours = with_bracing(text, name, units)
    asked = Asked(name=name, learned=learned_of(rack), read=rack, ranged=ranged)
    with second_process(processes) as worker:
        later = worker.submit(_planned, text, as_it_is(rack), asked) if worker else None
        first = stand(text, as_it_is(rack), asked)
        start = _agreed(*_in_full(first, asked))
        some = some_holds(rack)
        made = later.result() if later else _plan_from(first, asked)
    end = _agreed(*made.end)
    return Decision(
        rack=rack,
        ours=ours,
        plan=made.plan,
        start=start,
        end=end,
        ground=ground_share(split(first.blocks)[1][0]),
        decides=deciding([row.going for row in end.ladder if row.going]),
        kinds=made.kinds,
        some_holds=some,
        guyed=made.guyed,
    )


def side_by_side(text: str, name: str, units: str | None = None) -> Study:
    """Set every bracing described side by side, or those of ours where there is none."""
    text, rack, _ = with_bracing(text, name, units)
    learned = learned_of(rack)

    def cheapest(best: BracingResult, found: Sequence[Block]) -> tuple[Move, ...]:
        return moves(text, rack, best.bracing, learned, found)

    return compare(rack, cheapest)


def decide_and_compare(
    text: str,
    name: str,
    units: str | None = None,
    *,
    processes: int = 1,
    ranged: bool = True,
) -> tuple[Decision, Study]:
    """Answer a rack file, and set every bracing side by side; with two `processes` at once.

    Raises
    ------
    FrameError
        As `decide`.
    """
    with second_process(processes) as worker:
        later = worker.submit(decide, text, name, units, ranged=ranged) if worker else None
        study = side_by_side(text, name, units)
        found = later.result() if later else decide(text, name, units, ranged=ranged)
    return found, study


def size_beside_plan(
    text: str,
    name: str,
    bracing: Bracing | None,
    tell: Tell = lambda _: None,
    *,
    catalog: bool = False,
) -> Sized:
    """Size a rack file as `frame.sizing.size.size`, and never worse than its plan ends.

    Where a `bracing` is asked for the plan is made with that and no other; where none is, and none
    described, those of ours are sized.

    Raises
    ------
    FrameError
        Where nothing described can be built from what is at hand.
    """
    if bracing is None:
        text, rack, _ = with_bracing(text, name, None)
    else:
        rack = parse_rack(text, name)
    free = bracing is None
    asked = Asked(name=name, learned=learned_of(rack), read=rack, ranged=False, fitted=free)
    tell("making the plan of rack compare")
    begun = None
    with suppress(FrameError):
        start = stand(text, as_it_is(rack) if bracing is None else bracing, asked)
        begun = begun_from(make_plan(start, asked)[0])
    return size(text, name, bracing, tell, catalog=catalog, begun=begun)


def begun_from(plan: Plan) -> Begun:
    """Return the end of a plan as a rack that a search begins from."""
    made = [one for step in plan.steps for one in step.made if one.edits]
    return Begun(
        called=PLANNED,
        bracing=plan.end.bracing,
        made=tuple(Rung(words=one.do, edits=one.edits) for one in made),
    )


def with_bracing(text: str, name: str, units: str | None) -> tuple[str, Rack, bool]:
    """Return the file with bracing of ours described where it has none, its rack, whether so."""
    rack = parse_rack(text, name, units)
    if rack.bracing_names:
        return text, rack, False
    text = described(text, rack)
    return text, parse_rack(text, name, units), True


def some_holds(rack: Rack) -> bool:
    """Whether any bracing described has the code's margin for the site's gust, bare too."""
    return any(holds(rack, bracing) for bracing in rack.bracings()[:MOST_BRACINGS])


def as_it_is(rack: Rack) -> Bracing:
    """Bracing that the rack has on: what it was read or has stood with, else none."""
    if rack.measured:
        return rack.measured.fitted
    return rack.stood.fitted if rack.stands and rack.stood else ()


def _planned(text: str, bracing: Bracing, asked: Asked) -> _Planned:
    """Make the plan of a rack file with bracing described, from some of it fitted."""
    return _plan_from(stand(text, bracing, asked), asked)


def _plan_from(start: Standing, asked: Asked) -> _Planned:
    plan, end = make_plan(start, asked)
    kinds = () if plan.reached else other_kinds(end, asked.name, ranged=asked.ranged)
    guyed = _guyed(plan, end, asked)
    return _Planned(
        plan=plan,
        end=_in_full(end, asked),
        kinds=tuple(replace(k, standing=light(k.standing)) for k in kinds),
        guyed=light(guyed) if guyed else None,
    )


def _guyed(plan: Plan, end: Standing, asked: Asked) -> Standing | None:
    """Solve the plan's end with the guys left out, where its post top moves too far."""
    names = [g.name for g in end.rack.guys_in(plan.left_out)]
    if not names or end.sway.use <= 1:
        return None
    bracing = tuple(b for b in end.rack.bracing_names if b in (*end.bracing, *names))
    try:
        return stand_like(end, end.text, bracing, asked)
    except FrameError:
        return None


def _agreed(full: BracingResult, asked: SolverCase) -> BracingResult:
    return replace(full, agreement=agreement(asked))


def _in_full(at: Standing, asked: Asked) -> tuple[BracingResult, SolverCase]:
    """Return everything about the rack of a standing, and the case for the second solver."""
    code, _ = split(at.blocks)
    learned = asked.still_learned(at.rack)
    rows = survey(at.blocks, learned)
    steel = steel_weight(code[0])
    full = result(code, rows, steel, steel)
    question_of = solver_case(*governing_case(situations(code), rows[0]))
    return replace(full, lowered=lowered(at.rack, at.bracing, learned, at.blocks)), question_of
