"""What the readings are fitted with, each with what is thought of it before they are taken."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from frame.rack.measured import Measured
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.rack.stood import LEANED, NOTHING, TURNED
from frame.tables.fitted import TENTH, Range, fitted_ranges

GROUND, BEAM_WALL, POST_WALL, SLEEVE = "ground", "beam_wall", "post_wall", "sleeve"
PLAY, REST, REST_UNLOADED, TURN = "play", "rest", "rest_unloaded", "turn"
BOW, SKEW = "bow", "skew"
"""How far both beam ends hang for good [m], and how much further the left, less the right."""
MOVED = 2.0
"""How much further a rack is out whose post leaned, or beam turned, in a storm (judgement)."""
UNEVEN = 1 / 3
"""Spread of that over that of the bow (judgement)."""
LEAN_ALONG, LEAN_ACROSS = "lean_along", "lean_across"
GUY_PULL, GUY_GIVE = "guy_pull", "guy_give"
SCALE_PULL, SCALE_PUSH, SCALE_PRESS = "scale_pull", "scale_push", "scale_press"
SCALES = (SCALE_PULL, SCALE_PUSH, SCALE_PRESS)


@dataclass(frozen=True, slots=True)
class FitUnknown:
    """One unknown, normally distributed before the readings.

    `middle`, `spread` (standard deviation): of its logarithm where it is a `factor`, else of
    itself [SI]. `least`: no value is below it.
    """

    key: str
    middle: float
    spread: float
    factor: bool
    least: float = -math.inf

    def value(self, at: float) -> float:
        """Return the value [1 or SI] at a place on its own scale."""
        return math.exp(at) if self.factor else at


def fit_unknowns(rack: Rack, measured: Measured, *, bent: bool = False) -> tuple[FitUnknown, ...]:
    """List the unknowns of a rack, with the guys that it had on when it was read.

    `bent`: a pipe may have been bent past yield, so that the beam may hang much lower for good.
    The ground's range is that of its kind; a clearance that the file gives is trusted to about
    two fifths.
    """
    return tuple(_list(rack, measured, bent=bent))


def _list(rack: Rack, measured: Measured, *, bent: bool) -> Iterator[FitUnknown]:
    known, soil, sleeve = fitted_ranges(), rack.site.soil, rack.sleeve
    band = math.log(soil.stiffness_stiff / soil.stiffness_soft) / (2 * TENTH)
    yield FitUnknown(GROUND, 0.0, band, factor=True)
    yield _factor(BEAM_WALL, _wall(rack.beam.pipe))
    yield _factor(POST_WALL, _wall(rack.posts.pipe))
    yield _factor(SLEEVE, known["sleeve"])
    assumed = any(a.key == "sleeve.clearance" for a in rack.assumptions)
    play = known["play_assumed"] if assumed else known["play_given"]
    middle = play.median if assumed else play.median * sleeve.as_built
    spread = play.spread if assumed else play.spread * sleeve.as_built
    yield FitUnknown(PLAY, middle, spread, factor=False, least=0.0)
    slop = math.hypot(middle, spread) / sleeve.length
    yield FitUnknown(REST, 0.0, slop, factor=False)
    yield FitUnknown(REST_UNLOADED, 0.0, slop, factor=False)
    bow = known["bent"] if bent else known["bow"]
    yield _plain(BOW, bow)
    yield FitUnknown(SKEW, 0.0, UNEVEN * bow.spread, factor=False)
    moved = rack.stood.moved if rack.stood else NOTHING
    lean = known["lean"].spread * (MOVED if moved == LEANED else 1.0)
    yield FitUnknown(LEAN_ALONG, 0.0, lean, factor=False)
    yield FitUnknown(LEAN_ACROSS, 0.0, lean, factor=False)
    turn = known["turn"].spread * (MOVED if moved == TURNED else 1.0)
    yield FitUnknown(TURN, 0.0, turn, factor=False, least=0.0)
    if rack.guys_in(measured.fitted):
        given = not any(a.key.endswith("pretension") for a in rack.assumptions)
        yield _factor(GUY_PULL, known["guy_given" if given else "guy_assumed"])
        yield _factor(GUY_GIVE, known["guy_give"])
    for scale in SCALES:
        yield FitUnknown(scale, 0.0, measured.scale_within, factor=True)


def _wall(pipe: Pipe) -> Range:
    return fitted_ranges()[f"wall_{pipe.basis}"]


def _factor(key: str, known: Range) -> FitUnknown:
    return FitUnknown(key, math.log(known.median), known.log_spread, factor=True)


def _plain(key: str, known: Range) -> FitUnknown:
    return FitUnknown(key, known.median, known.spread, factor=False)
