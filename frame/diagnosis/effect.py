"""What the readings do to the plan: which step no longer buys, which now does."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from frame.checks.check import Kind
from frame.diagnosis.fit import Fit
from frame.diagnosis.unknowns import BEAM_WALL, GROUND, GUY_PULL, POST_WALL, SLEEVE
from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.state import State
from frame.plan.decision import as_it_is, with_bracing
from frame.plan.greedy import Plan, make_plan
from frame.plan.offers import Offer
from frame.plan.second_process import second_process
from frame.plan.standing import Asked, stand
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.search.expected_going import first_going
from frame.search.weakest import learned_of
from frame.solved.blocks import Block
from frame.solved.frames import Frame
from frame.tables.soils import on_site

FloatArray = npt.NDArray[np.float64]
NUDGE = 0.5
"""Step of an unknown, in standard deviations, to see what it does to the first break."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """Plan `before` and `after` the readings: what to do, by the words of its steps."""

    before: Plan
    after: Plan

    @property
    def dropped(self) -> tuple[str, ...]:
        """What no longer buys."""
        return _only(self.before, self.after)

    @property
    def added(self) -> tuple[str, ...]:
        """What now does."""
        return _only(self.after, self.before)

    @property
    def changed(self) -> tuple[str, ...]:
        """What now takes another size."""
        known = {_what(one): one for one in _made(self.before)}
        both = ((known.get(_what(one)), one) for one in _made(self.after))
        return tuple(one.do for was, one in both if was and was.edits != one.edits)


def _made(plan: Plan) -> tuple[Offer, ...]:
    return tuple(one for step in plan.steps for one in step.made)


def _only(here: Plan, there: Plan) -> tuple[str, ...]:
    """Return what is done in one plan and, in whatever size or by whatever edits, not in another.

    The same deed may edit more where a reading has added a key, as a new beam undoes a bow read.
    """
    sets, done = {_what(one) for one in _made(there)}, {one.do for one in _made(there)}
    return tuple(one.do for one in _made(here) if _what(one) not in sets and one.do not in done)


def _what(one: Offer) -> frozenset[object]:
    """Return what a change sets and fits, whatever its size."""
    return frozenset(one.edits) | frozenset(one.fits)


def effect(before: str, after: str, name: str, processes: int = 1) -> Effect:
    """Plan a rack file's text before and after the readings; once where they are the same.

    With two `processes` one of the plans is made in another one.
    """
    if after == before:
        same = planned(after, name)
        return Effect(before=same, after=same)
    with second_process(processes) as worker:
        later = worker.submit(planned, before, name) if worker else None
        second = planned(after, name)
        first = later.result() if later else planned(before, name)
    return Effect(before=first, after=second)


def planned(text: str, name: str) -> Plan:
    """Make the plan of a rack file, with bracing of ours where it describes none."""
    text, rack, _ = with_bracing(text, name, None)
    asked = Asked(name=name, learned=learned_of(rack), read=rack, ranged=False)
    plan, _ = make_plan(stand(text, as_it_is(rack), asked), asked)
    return plan


def break_slopes(found: Fit, rack: Rack, bracing: tuple[str, ...]) -> FloatArray:
    """Slope (k,) of ln(first break) by every unknown, per standard deviation.

    Of a rack that a plan ends with, or of the one read; of the median model. What the plan
    replaces no longer counts.
    """
    here = found.values
    base = first_break_gust(_with(rack, found, here), bracing)
    slopes = np.zeros(len(found.unknowns))
    if not math.isfinite(base):
        return slopes
    for i, unknown in enumerate(found.unknowns):
        if unknown.key not in (GROUND, BEAM_WALL, POST_WALL, SLEEVE, GUY_PULL):
            continue
        there = {**here, unknown.key: here[unknown.key] * math.exp(NUDGE * unknown.spread)}
        gust = first_break_gust(_with(rack, found, there), bracing)
        slopes[i] = math.log(min(gust, 1e3) / base) / NUDGE if base > 0 else 0.0
    return slopes


def first_break_gust(rack: Rack, bracing: tuple[str, ...]) -> float:
    """Gust [m/s] at which something is expected to break first, infinite where nothing does."""
    going = first_going(tuple(_median(rack, bracing)), ranged=False)
    return min((g.gust for g in going if g.kind is Kind.BREAKS), default=math.inf)


def _median(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Block]:
    for tilt in rack.tilts:
        names = (*bracing, *(g.name for g in rack.guys if g.name not in bracing))
        ideal = build(rack, tilt, names, State())
        frame = Frame(ideal=ideal, response=respond(ideal.model))
        yield Block(frame=frame, bracing=bracing, state=State(), median=True)


def _with(rack: Rack, found: Fit, values: dict[str, float]) -> Rack:
    """Return a rack of the plan with the unknowns at some values, where it still has them."""
    was = found.forward.rack
    soil = was.site.soil
    if rack.site.soil.name == soil.name:
        soil = on_site(replace(soil, stiffness_middle=0.0), values[GROUND])
    beam = _fitted(rack.beam.pipe, was.beam.pipe, values[BEAM_WALL])
    post = _fitted(rack.posts.pipe, was.posts.pipe, values[POST_WALL])
    pull = values.get(GUY_PULL, 1.0)
    known = {g.name: g.pretension for g in was.guys}
    return replace(
        rack,
        site=replace(rack.site, soil=soil),
        beam=replace(rack.beam, pipe=beam),
        posts=replace(rack.posts, pipe=post),
        sleeve=replace(rack.sleeve, stiffness=values[SLEEVE]),
        guys=tuple(
            replace(g, pretension=known[g.name] * pull)
            if g.name in found.forward.measured.fitted and g.name in known
            else g
            for g in rack.guys
        ),
    )


def _fitted(now: Pipe, was: Pipe, wall: float) -> Pipe:
    same = now.od == was.od and now.wall == was.wall
    return replace(now, fitted=was.wall * wall) if same else now
