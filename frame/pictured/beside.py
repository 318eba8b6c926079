"""What a picture shows: the rack as it is beside what the plan ends with, by weight and in wind.

The cases are those of the first screen: the droop, the sway and the swing it tells are the ones
drawn, each at the tilt, ground and wind where it is worst.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.bracing.movement import Blown, most_sag, most_sway, still_air, weighed, worst_swing
from frame.fem.element import Array
from frame.idealize.posts import beam_mark, post_name
from frame.pictured.flexing import fibre_use
from frame.plan.decision import Decision, as_it_is
from frame.plan.gone import gone
from frame.plan.why import ground_share
from frame.rack.rack import STAYS, Rack, bracing_title
from frame.records.going import Going
from frame.records.motion import Sag, Sway, Swing
from frame.search.weakest import learned_of, weakest
from frame.solved.alpha import MEDIAN_ALPHA
from frame.solved.blocks import Block, solved_models, split
from frame.solved.frames import Bracing
from frame.units import MPH, US

STANDS = 0.9
"""Share of the first break up to which a rack is drawn standing [1]."""
FEWER, TRIES = 0.9, 30
"""By how much the gust is lowered where a rack would sway over in it, and how often at most."""


@dataclass(frozen=True, kw_only=True)
class Loaded:
    """A rack under one load.

    `moved` (nodes, 6) [m, rad]: from the rack unloaded, in wind from still air; `pulls` (guys,)
    [N]; `used` (members, stations): stress over yield, see `frame.pictured.flexing`.
    """

    block: Block
    moved: Array
    pulls: Array
    used: Array


@dataclass(frozen=True, kw_only=True)
class RackToDraw:
    """A rack with a bracing, and what is known of it before it is drawn."""

    title: str
    rack: Rack
    bracing: Bracing
    first_slip: Going | None
    first_break: Going | None
    blocks: tuple[Block, ...]

    def sway(self, gust: float) -> Blown:
        """Return the worst sway at a `gust` [m/s]."""
        return most_sway(split(self.blocks)[0], gust)

    def gone(self, sway: Sway) -> str:
        """Say why its sway means nothing, if so."""
        return gone(sway, self.first_break, self.rack.posts.height)


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One rack of a picture.

    `gone` in the wind: "topples", "broken" or empty; `ground`: what of the sway comes from the
    ground [1], None where guys hold the post too; `top`: the node of the post top that moves
    most; `blocks`: all of it, solved.
    """

    title: str
    rack: Rack
    bracing: Bracing
    sag: Sag
    weight: Loaded
    sway: Sway
    direction: str
    wind: Loaded
    gone: str
    swing: Swing | None
    ground: float | None
    first_slip: Going | None
    first_break: Going | None
    top: int
    blocks: tuple[Block, ...]

    @property
    def slipped(self) -> Going | None:
        """What has slipped in that gust already, so that it moves on from there."""
        slip = self.first_slip
        return slip if slip and slip.gust <= self.sway.gust else None


@dataclass(frozen=True, kw_only=True)
class Beside:
    """Racks to set side by side, one or two, in one `gust` [m/s], and `why` in that.

    `done`: what was done to the last of them, in words; empty where nothing was.
    """

    rack: Rack
    racks: tuple[Shown, ...]
    gust: float
    why: str
    done: str = ""


def of_plan(found: Decision, gust: float | None = None, tilts: tuple[float, ...] = ()) -> Beside:
    """Set the rack as it is beside what the plan ends with; alone where the plan has no step.

    At some `tilts` [rad], else all of the file's.
    """
    plan = found.plan
    first = "as it is" if found.rack.stands else "bare"
    last = f"after step {len(plan.steps)}" if len(plan.steps) > 1 else "after the step"
    ends = [(first, plan.start), (last, plan.end)][: 2 if plan.steps else 1]
    if tilts:
        standings = [
            looked_at(title, replace(at.rack, tilts=tilts), at.bracing) for title, at in ends
        ]
    else:
        standings = [
            RackToDraw(
                title=title,
                rack=at.rack,
                bracing=at.bracing,
                first_slip=at.first_slip,
                first_break=at.first_break,
                blocks=solved_models(at.rack, at.bracing),
            )
            for title, at in ends
        ]
    steps = (f"{i}) {s.words}" for i, s in enumerate(plan.steps, 1))
    done = f"{last[0].upper()}{last[1:]}: {'; '.join(steps)}." if plan.steps else ""
    return replace(beside(found.rack, standings, gust), done=done)


def of_step(found: Decision, step: int, gust: float) -> Beside:
    """Show the rack after a step of the plan, counted from 1, alone in a `gust` [m/s]."""
    at = found.plan.steps[step - 1].after
    standing = RackToDraw(
        title=f"after step {step}",
        rack=at.rack,
        bracing=at.bracing,
        first_slip=at.first_slip,
        first_break=at.first_break,
        blocks=solved_models(at.rack, at.bracing),
    )
    one = beside(found.rack, [standing], gust)
    return replace(one, why=_why(found.rack, gust))


def of_bracing(
    rack: Rack, bracing: Bracing, gust: float | None = None, tilts: tuple[float, ...] = ()
) -> Beside:
    """Set the rack as it is beside one with a bracing of the file's; alone where it has it."""
    rack = replace(rack, tilts=tilts or rack.tilts)
    both = dict.fromkeys((as_it_is(rack), bracing))
    return beside(rack, [looked_at(bracing_title(one), rack, one) for one in both], gust)


def looked_at(title: str, rack: Rack, bracing: Bracing) -> RackToDraw:
    """Solve a rack with a bracing, and find what goes first."""
    blocks = solved_models(rack, bracing)
    found = weakest(blocks, learned_of(rack))
    return RackToDraw(
        title=title,
        rack=rack,
        bracing=bracing,
        first_slip=found.first_slip,
        first_break=found.first_break,
        blocks=blocks,
    )


def beside(rack: Rack, standings: Sequence[RackToDraw], gust: float | None) -> Beside:
    """Draw some racks in a `gust` [m/s], else in one that all of them still stand."""
    asked = gust is not None
    speed = gust if gust is not None else stood_gust(rack, standings)
    why = "asked for" if asked else _why(rack, speed)
    return Beside(
        rack=rack, racks=tuple(_shown(at, speed) for at in standings), gust=speed, why=why
    )


def stood_gust(rack: Rack, standings: Sequence[RackToDraw]) -> float:
    """Lower of the service gust and nine tenths of the first break [m/s], in whole mph or m/s.

    Lower yet where a rack sways over in it on the softest ground.
    """
    breaks = [s.first_break.gust for s in standings if s.first_break]
    speed = rack.site.service_gust
    if STANDS * min(breaks, default=math.inf) < speed:
        speed = _whole(STANDS * min(breaks), rack.units)
    for _ in range(TRIES):
        if not any(s.gone(s.sway(speed).sway) for s in standings):
            break
        speed = _whole(FEWER * speed, rack.units)
    return speed


def _whole(speed: float, units: str) -> float:
    unit = MPH if units == US else 1.0
    return math.floor(speed / unit + 1e-6) * unit


def _why(rack: Rack, speed: float) -> str:
    if speed == rack.site.service_gust:
        return "the service gust"
    return "a gust that it is likely to stand"


def _shown(at: RackToDraw, gust: float) -> Shown:
    code, median = split(at.blocks)
    blown = at.sway(gust)
    sag, sagged = most_sag(code)
    guyed = bool(at.rack.guys_in(at.bracing)) or STAYS in at.bracing
    ideal = blown.block.frame.ideal
    tops = [
        ideal.marks[f"{post_name(at.rack, i)} top"] for i in range(len(at.rack.posts.positions))
    ]
    wind = _blown(blown)
    return Shown(
        title=at.title,
        rack=at.rack,
        bracing=at.bracing,
        sag=sag,
        weight=_weighed(sagged, sag),
        sway=blown.sway,
        direction=blown.wind.direction,
        wind=wind,
        gone=at.gone(blown.sway),
        swing=worst_swing(code, gust=gust),
        ground=None if guyed else ground_share(median[0]),
        first_slip=at.first_slip,
        first_break=at.first_break,
        blocks=at.blocks,
        top=max(tops, key=lambda n: math.hypot(*wind.moved[n, :2])),
    )


def _weighed(block: Block, sag: Sag) -> Loaded:
    """Under the weights, with or without the guys' pull, whichever droops more.

    Without what the posts sink: the droop is told against the beam at its posts.
    """
    answer = weighed(block)
    dead, still = still_air(block)
    moved = (still if abs(sag.still_air) > abs(sag.dead) else dead).copy()
    marks, posts = block.frame.ideal.marks, range(len(block.rack.posts.positions))
    moved[:, 2] -= np.mean([moved[marks[beam_mark(block.rack, i)], 2] for i in posts])
    return Loaded(
        block=block,
        moved=moved,
        pulls=answer.tensions[0],
        used=fibre_use(block, answer),
    )


def _blown(blown: Blown) -> Loaded:
    block, answer = blown.block, blown.answer
    rest = block.grown(weighed(block), MEDIAN_ALPHA).displacements[0]
    return Loaded(
        block=block,
        moved=answer.displacements[0] - rest,
        pulls=answer.tensions[0],
        used=fibre_use(block, answer),
    )
