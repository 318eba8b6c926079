"""The one-post rack solved, for the tests of parts."""

from dataclasses import replace
from pathlib import Path

import numpy as np

from frame.casefile.read import read_rack
from frame.idealize.state import State
from frame.loads.combinations import Combination
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.solved.frames import solve_frames, stiff_part
from frame.solved.situation import Situation, situation

FOLDER = Path(__file__).parents[2] / "racks"
ONE_POST = read_rack(FOLDER / "one_post.toml")
INCH, FOOT, POUND, MPH = 0.0254, 0.3048, 4.4482216152605, 0.44704  # NIST SP 811, appendix B


def block(rack: Rack, bracing: tuple[str, ...], tilt: float, **state: str) -> Block:
    """One block of one tilt; soft soil, guys as the file says, unless told."""
    corner = State(**{"soil": "soft", **state})
    frames = solve_frames(rack, [bracing], [tilt])
    return Block(
        frame=frames[stiff_part(bracing), tilt, corner.soil], bracing=bracing, state=corner
    )


def solved(
    rack: Rack,
    bracing: tuple[str, ...],
    tilt: float,
    combinations: tuple[Combination, ...],
    gust: float,
    **state: str,
) -> Situation:
    """Every wind of the combinations at one gust [m/s]."""
    one = block(rack, bracing, tilt, **state)
    return situation(one, one.frame.cases(combinations), [gust])


def first_order(now: Situation) -> Situation:
    """Leave the second order out: for statics by hand."""
    plain = replace(now)
    standing = np.zeros(len(now.case), dtype=bool)
    plain.__dict__["grown"] = replace(now.solved, topples=standing, told=Unpressed())
    return plain


class Unpressed:
    """Tells that nothing is near to buckling."""

    def factors(self, factors: np.ndarray, *_: np.ndarray) -> np.ndarray:
        return np.full(len(factors), np.inf)


def at(now: Situation, label: str) -> int:
    """Position of a case by its label."""
    return now.table.labels.index(label)
