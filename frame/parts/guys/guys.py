"""Guys as lines: wire, terminations and fittings. Their anchors have a file of their own."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.guys.guy import (
    CLIPS_ON_STRAND,
    PROOF_RATIO_UNMARKED,
    SAFETY,
    SAFETY_UNMARKED,
    eye_bolt_share,
    hardware,
    termination_efficiency,
    wire,
    working_load,
)
from frame.idealize.bands import guy_groups
from frame.named.part import Part
from frame.parts.checker import PartCheck
from frame.rack.guy import NO_FITTING, Guys
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.fittings import EYE_BOLT, kind_of
from frame.tables.wires import UNMARKED

BITES_POORLY = "clips bite poorly on stiff strand: helical grips hold all of it"


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedGuy:
    """A fitted guy: its `name`, its `group`, and case by case, (n,) each, its whole `pull` [N].

    `slope` is its angle above level [rad].
    """

    name: Part
    group: Guys
    pull: FloatArray
    slope: FloatArray


def fitted_guys(now: Situation) -> Iterator[FittedGuy]:
    """Every guy that is fitted; its pull grows with the sway it holds."""
    block = now.block
    if not block.fitted.any():
        return
    ideal = block.frame.ideal
    groups = {g.name: g for g in now.rack.guys}
    pull = now.answer.tensions
    slope = np.arcsin(-now.each(lambda b: b.frame.guy_directions[:, 2]))
    for i, (guy, name) in enumerate(zip(ideal.model.guys, guy_groups(ideal), strict=True)):
        if block.fitted[i]:
            yield FittedGuy(
                name=guy.name,
                group=groups[name],
                pull=pull[:, i],
                slope=slope[:, i],
            )


def guy_checks(now: Situation) -> Iterator[PartCheck]:
    """Wire against its breaking strength through its terminations, and the fitting in the line."""
    for line in fitted_guys(now):
        yield line.name, _wire(now, line)
        if line.group.fitting != NO_FITTING:
            yield line.name, _fitting(now, line)


def _wire(now: Situation, line: FittedGuy) -> Check:
    made, termination = line.group.wire, line.group.termination
    strand = made.strand or made.construction == UNMARKED
    efficiency = termination_efficiency(termination, strand=strand)
    safety = SAFETY_UNMARKED if made.construction == UNMARKED else SAFETY
    breaking: Numbers = made.breaking
    if now.median:
        breaking, safety = made.breaking * now.expected("guy"), 1.0
    check = wire(line.pull, breaking, efficiency, safety)
    return replace(check, note=BITES_POORLY if efficiency == CLIPS_ON_STRAND and strand else "")


def _fitting(now: Situation, line: FittedGuy) -> Check:
    """Check the weakest fitting of the line, taken as unmarked goods.

    An eye bolt is taken to lie level (judgement), so that the guy pulls on it at its own slope.
    """
    group = line.group
    share = eye_bolt_share(line.slope) if kind_of(group.fitting) == EYE_BOLT else 1.0
    limit = working_load(group.fitting, group.fitting_size)
    check = hardware(line.pull, limit, share, PROOF_RATIO_UNMARKED)
    if now.median:
        broken = limit * PROOF_RATIO_UNMARKED * now.expected("guy")
        check = hardware(line.pull, broken, share, 1.0)
    return replace(check, note="taken as unmarked: three times the working load breaks it")
