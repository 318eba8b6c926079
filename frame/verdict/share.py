"""A share of the bracings of a rack: its frames, and what is asked of them in turn."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from frame.bracing.forces import brace_forces, guy_forces
from frame.bracing.movement import worst_sag, worst_sway, worst_swing
from frame.bracing.second_opinion import Question, governing_case, question
from frame.bracing.shaking import shaking, stability
from frame.changes.cost import cost
from frame.changes.moves import moves
from frame.fem.assembly import load_matrix
from frame.fem.model import BEFORE, Model
from frame.gusts.survey import surveys
from frame.gusts.weakest import learned_of
from frame.idealize.actions import STEEL
from frame.idealize.build import build
from frame.idealize.state import State
from frame.parts.checkers import CHECKERS
from frame.rack.rack import Rack, bracing_title
from frame.records.results import BracingResult, Move, Row
from frame.records.what_if import KneeChoice, Lowered
from frame.solved.frames import Block, Bracing, both_models, solve_frames, split, stiff_part
from frame.solved.situation import situations
from frame.whatif.knee_card import knee_card
from frame.whatif.lowered import lowered

GUY_EFFORT = 45.0
"""Steel [N] that a guy with its fittings and anchor is taken to be worth (judgement, 10 lb)."""
BARE: Bracing = ()
MORE = 0.3
"""Time that the joints of knees, ties or stays add to that of a bracing (measured)."""


@dataclass(frozen=True)
class Share:
    """Some bracings of a rack, solved when first asked for; nothing that it returns holds them."""

    rack: Rack
    bracings: tuple[Bracing, ...]
    bare_steel: float

    @cached_property
    def found(self) -> dict[Bracing, tuple[Block, ...]]:
        """Blocks of every bracing, of both models."""
        frames = solve_frames(self.rack, self.bracings, self.rack.tilts)
        return {b: both_models(frames, b, self.rack.tilts) for b in self.bracings}

    def results(self) -> dict[Bracing, tuple[BracingResult, Question]]:
        """Everything about every bracing but the second opinion, and what that is asked."""
        groups: dict[Bracing, list[Block]] = defaultdict(list)
        for bracing, found in self.found.items():
            groups[stiff_part(bracing)].extend(found)
        told = learned_of(self.rack, CHECKERS)
        rows = {b: r for some in groups.values() for b, r in surveys(some, CHECKERS, told).items()}
        return {b: self._result(split(found)[0], rows[b]) for b, found in self.found.items()}

    def _result(
        self, found: tuple[Block, ...], rows: tuple[Row, ...]
    ) -> tuple[BracingResult, Question]:
        made = result(found, rows, steel_weight(found[0]), self.bare_steel)
        return made, question(*governing_case(situations(found), rows[0]))

    def moves(self, made: BracingResult) -> tuple[Move, ...]:
        """Cheapest changes that better a bracing of any share."""
        return moves(self.rack, made, CHECKERS, found=self.found.get(made.bracing, ()))

    def knees(self, asked: tuple[float, float]) -> tuple[KneeChoice, ...]:
        """Work out the knee card's line for a part of the arm [1] and the bare sag [m]."""
        part, bare_sag = asked
        return knee_card(self.rack, bare_sag, [max(self.rack.tilts)], [part])

    def lowered(self, bracing: Bracing) -> Lowered | None:
        """Find what a bracing of any share stands with its panels lowered."""
        return lowered(self.rack, bracing, self.found.get(bracing, ()))


def shares(rack: Rack, bracings: Sequence[Bracing]) -> tuple[Share, Share]:
    """Split the bracings in two of about the same work, one frame's together, bare in the first.

    A guyed bracing has twice the corners of the bands, a stiff one more joints.
    """
    work = {
        b: (1 + (len(stiff_part(b)) < len(b))) * (1 + MORE * len(stiff_part(b))) for b in bracings
    }
    groups: dict[Bracing, list[Bracing]] = {}
    for bracing in bracings:
        groups.setdefault(stiff_part(bracing), []).append(bracing)
    parts = list(groups.values()) if len(groups) > 1 else [[b] for b in bracings]
    halves: tuple[list[Bracing], list[Bracing]] = ([], [])
    for part in sorted(parts, key=lambda part: -sum(work[b] for b in part)):
        min(halves, key=lambda half: sum(work[b] for b in half)).extend(part)
    bare = steel_of(build(rack, rack.tilts[0], (), State()).model)
    first, other = sorted(halves, key=lambda half: BARE not in half)
    return Share(rack, tuple(first), bare), Share(rack, tuple(other), bare)


def result(
    found: tuple[Block, ...], rows: tuple[Row, ...], steel: float, bare_steel: float
) -> BracingResult:
    """Find everything about one bracing from its blocks and their checks, worst first.

    `steel`, `bare_steel`: its and the bare rack's [N].
    """
    bracing = found[0].bracing
    nows = situations(found)
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
        agreement=None,
        shaking=shaking(found),
        stability=stability(nows),
        cost=priced,
        added_cost=added,
    )


def steel_weight(block: Block) -> float:
    """Weight of the steel of a block [N]."""
    return steel_of(block.frame.ideal.model)


def steel_of(model: Model) -> float:
    """Weight of the steel in a model [N]: what its unit load brings down."""
    down = load_matrix(model, BEFORE)[2::6, model.load_index[STEEL]]
    return -float(down.sum())
