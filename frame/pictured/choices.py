"""The racks that a reader may turn to in the page's view, each at all its tilts."""

from collections.abc import Iterator
from dataclasses import dataclass

from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.state import SOFT, State
from frame.pictured.responses import Bare, Held
from frame.plan.decision import Decision, as_it_is
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.records.motion import Sag
from frame.records.results import Study
from frame.solved.blocks import Block, corners
from frame.solved.frames import Bracing, Frame, stiff_part


@dataclass(frozen=True, kw_only=True)
class ViewChoice:
    """A rack with a bracing as `title`; what goes first; `held` at every tilt, in turn.

    On the softest ground counted with: there it moves most.
    """

    title: str
    rack: Rack
    bracing: Bracing
    sag: Sag
    first_slip: Going | None
    first_break: Going | None
    held: tuple[Held, ...]


def choices(found: Decision, study: Study) -> Iterator[ViewChoice]:
    """Yield the rack as it is, after the plan, with every bracing compared, after each step."""
    start, plan = found.start, found.plan
    bares: dict[tuple[Bracing, float], Bare] = {}
    first = "as it is" if found.rack.stands else "bare"
    yield ViewChoice(
        title=first,
        rack=plan.start.rack,
        bracing=plan.start.bracing,
        sag=start.sag,
        first_slip=start.first_slip,
        first_break=start.first_break,
        held=at_tilts(plan.start.rack, plan.start.bracing, bares),
    )
    last = len(plan.steps)
    if last:
        yield _after(found, last)
    for result in study.results:
        if result.bracing != as_it_is(found.rack):
            yield ViewChoice(
                title=result.title,
                rack=found.rack,
                bracing=result.bracing,
                sag=result.sag,
                first_slip=result.first_slip,
                first_break=result.first_break,
                held=at_tilts(found.rack, result.bracing, bares),
            )
    for step in range(1, last):
        yield _after(found, step)


def _after(found: Decision, step: int) -> ViewChoice:
    """Return the rack after a step of the plan, counted from 1."""
    at = found.plan.steps[step - 1].after
    return ViewChoice(
        title=f"after step {step}",
        rack=at.rack,
        bracing=at.bracing,
        sag=at.sag,
        first_slip=at.first_slip,
        first_break=at.first_break,
        held=at_tilts(at.rack, at.bracing, {}),
    )


def at_tilts(
    rack: Rack, bracing: Bracing, bares: dict[tuple[Bracing, float], Bare]
) -> tuple[Held, ...]:
    """Solve a rack at all its tilts; frames of one stiff bracing are solved once, in `bares`."""
    stiff, guys = stiff_part(bracing), tuple(g.name for g in rack.guys)
    found = []
    for tilt in rack.tilts:
        if (stiff, tilt) not in bares:
            ideal = build(rack, tilt, (*stiff, *guys), State(soil=SOFT))
            bares[stiff, tilt] = Bare.of(Frame(ideal=ideal, response=respond(ideal.model)))
        bare = bares[stiff, tilt]
        ends = [s for s in corners(bracing) if s.soil == SOFT]
        blocks = tuple(Block(frame=bare.frame, bracing=bracing, state=s) for s in ends)
        found.append(Held.of(bare, blocks))
    return tuple(found)
