"""Bracings of a rack solved, and everything about each."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from frame.bracing.forces import brace_forces, guy_forces
from frame.bracing.movement import worst_sag, worst_sway, worst_swing
from frame.bracing.second_opinion import SolverCase, governing_case, solver_case
from frame.bracing.shaking import shaking, stability
from frame.changes.cost import cost
from frame.fem.assembly import load_matrix
from frame.fem.model import BEFORE, Model
from frame.idealize.actions import STEEL_WEIGHT
from frame.idealize.build import build
from frame.idealize.state import State
from frame.rack.rack import Rack, bracing_title
from frame.records.results import BracingResult, Row
from frame.search.survey import surveys
from frame.search.weakest import learned_of
from frame.solved.blocks import Block, both_models, split
from frame.solved.frames import Bracing, solve_frames, stiff_part
from frame.solved.situation import situations

GUY_EFFORT = 45.0
"""Steel [N] that a guy with its fittings and anchor is taken to be worth (judgement, 10 lb)."""


def blocks_of_bracings(
    rack: Rack, bracings: Sequence[Bracing]
) -> dict[Bracing, tuple[Block, ...]]:
    """Blocks of every bracing, of both models; bracings that differ in guys share frames."""
    frames = solve_frames(rack, bracings, rack.tilts)
    return {b: both_models(frames, b, rack.tilts) for b in bracings}


def results(
    rack: Rack, found: Mapping[Bracing, tuple[Block, ...]]
) -> dict[Bracing, tuple[BracingResult, SolverCase]]:
    """Everything about every bracing but the second opinion, and what that is asked."""
    groups: dict[Bracing, list[Block]] = defaultdict(list)
    for bracing, blocks in found.items():
        groups[stiff_part(bracing)].extend(blocks)
    told = learned_of(rack)
    rows = {b: r for some in groups.values() for b, r in surveys(some, told).items()}
    bare = steel_of(build(rack, rack.tilts[0], (), State()).model)
    made = {}
    for bracing, blocks in found.items():
        code, _ = split(blocks)
        one = result(code, rows[bracing], steel_weight(code[0]), bare)
        made[bracing] = one, solver_case(*governing_case(situations(code), rows[bracing][0]))
    return made


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
    down = load_matrix(model, BEFORE)[2::6, model.load_index[STEEL_WEIGHT]]
    return -float(down.sum())
