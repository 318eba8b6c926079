"""Was any pipe bent past yield, under what the rack carries or in the gust it has stood?"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from frame.diagnosis.stiffness import tube_of
from frame.fem.response import respond
from frame.geometry.tube import Tube
from frame.idealize.build import build
from frame.idealize.posts import post_name
from frame.idealize.state import State
from frame.loads.expected_winds import ONE_SIDED, WIND
from frame.named.part import BEAM, Part, PartKind
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.solved.frames import Frame
from frame.solved.situation import Situation, blown
from frame.tables.expected import spreads
from frame.tables.fitted import TENTH, fitted_ranges

WEIGHT, STORM = "weight", "storm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Yielding:
    """How near a `part` came to yield under its "weight" or in the "storm" it stood.

    `use`: stress at the outermost fibre over the yield expected [1]; `chance` that it is over 1.
    """

    part: Part
    under: str
    use: float
    chance: float


def yieldings(rack: Rack, walls: dict[PartKind, float]) -> tuple[Yielding, ...]:
    """Look at beam and posts, worst first, bare or with what was on; see `Yielding`.

    `walls`: of "beam" and "post" over their listed or measured wall [1]. Elastic stress
    M / S + N / A of the median model, AISC 360-22 Commentary F8 (from memory): a tube carries
    1.3 times that before it folds, and keeps a bend from 1 on.
    """
    found = sorted(_all(rack, walls), key=lambda y: -y.use)
    return tuple(found)


def _all(rack: Rack, walls: dict[PartKind, float]) -> Iterator[Yielding]:
    fitted = rack.measured.fitted if rack.measured else ()
    tilt = rack.measured.tilt if rack.measured else rack.tilts[0]
    for part, pipe in _parts(rack):
        tube = tube_of(pipe, walls[part.kind])
        use = _stress(_weighed(_block(rack, tilt, fitted)), part, tube) / pipe.steel.expected_fy
        yield _told(part, WEIGHT, use, _spread(pipe, storm=False))
    stood = rack.stood
    if stood is None or not stood.panels_on:
        return
    now = blown(_block(rack, stood.tilt, stood.fitted), stood.gust)
    for part, pipe in _parts(rack):
        tube = tube_of(pipe, walls[part.kind])
        use = _stress(now, part, tube) / pipe.steel.expected_fy
        yield _told(part, STORM, use, _spread(pipe, storm=True))


def _parts(rack: Rack) -> Iterator[tuple[Part, Pipe]]:
    yield BEAM, rack.beam.pipe
    for i in range(len(rack.posts.positions)):
        yield post_name(rack, i), rack.posts.pipe


def _block(rack: Rack, tilt: float, fitted: tuple[str, ...]) -> Block:
    ideal = build(rack, tilt, fitted, State())
    frame = Frame(ideal=ideal, response=respond(ideal.model))
    return Block(frame=frame, bracing=fitted, state=State(), median=True)


def _weighed(block: Block) -> Situation:
    """Return the weights alone, as a storm of no wind."""
    return blown(block, 0.0)


def _stress(now: Situation, part: Part, tube: Tube) -> float:
    """Largest stress at the outermost fibre of a part over all cases [Pa]."""
    at = now.along(part)
    bending = np.hypot(at.My, at.Mz) / tube.elastic_modulus
    return float((bending + np.abs(at.N) / tube.area).max())


def _spread(pipe: Pipe, *, storm: bool) -> float:
    """Return the standard deviation of ln(use)."""
    known = spreads()
    steel = known["yield_papers" if pipe.steel.identified else "yield_unmarked"]
    ranges = [steel.high / steel.low]
    wall = fitted_ranges()[f"wall_{pipe.basis}"]
    ranges.append(wall.high / wall.low)
    if storm:
        wind, side = known[WIND], known[ONE_SIDED]
        ranges.append(wind.high / wind.low)
        ranges.append((1 + side.high) / (1 + side.low))
    return math.hypot(*(math.log(r) / (2 * TENTH) for r in ranges))


def _told(part: Part, under: str, use: float, spread: float) -> Yielding:
    chance = NormalDist().cdf(math.log(max(use, 1e-9)) / spread)
    return Yielding(part=part, under=under, use=use, chance=chance)
