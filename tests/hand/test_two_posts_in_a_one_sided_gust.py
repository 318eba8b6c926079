"""How two posts share a gust that strikes one half: moments about the other post (statics).

With H the level force of the panels and drag, T its moment about the middle and s the spacing, a
post that no torque reaches takes H / 2 + T / s. The middle of a one-sided gust lies 0.2 of the
panels' spread off centre (judgement after ASCE/SEI 7-22 Fig. 29.3-1, case B).
"""

from pathlib import Path

import numpy as np
import pytest

from frame.casefile.read import parse_rack
from frame.idealize.state import MIDDLE, SOFT, STIFF
from frame.loads.cases import ACROSS, QUARTER_LOADS
from frame.rack.rack import Rack
from frame.solved.frames import solve_frames
from frame.verdict.wind_forces import wind_forces

TWO_POSTS = Path(__file__).parents[1] / "racks" / "two_posts.toml"
SPACING = 3.2


def rack(*swaps: tuple[str, str]) -> Rack:
    text = TWO_POSTS.read_text("utf-8")
    for old, new in (('flow = "obstructed"', 'flow = "clear"'), *swaps):
        assert old in text
        text = text.replace(old, new)
    return parse_rack(text, "two_posts.toml")


def shares(of: Rack, soil: str) -> tuple[float, float, float, float]:
    """Level force on the left and right post, whole force and its moment about the middle."""
    tilt = of.tilts[0]
    response = solve_frames(of, ((),), (tilt,))[(), tilt, soil].response
    wind = next(f.wind for f in wind_forces(of)[0].forces if f.wind.direction == "front")
    factors = dict(wind.coefficients)
    model, level = response.model, np.zeros(2)
    for name in (*QUARTER_LOADS, ACROSS):
        sided = 1.8 if name.endswith("left") else 0.2
        share = factors[name] * (sided if name in QUARTER_LOADS else 1.0)
        for support, force in zip(
            model.supports, response.reactions[model.load_index[name]], strict=True
        ):
            level[int(model.nodes[support.node].xyz[0] > 0)] -= share * force[1]
    square = sum(factors[name] for name in QUARTER_LOADS) / 4 * of.panels.area
    moment = square * np.sin(tilt) * 0.2 * of.panels.spread
    return level[0], level[1], level.sum(), moment


@pytest.mark.parametrize(
    ("swaps", "soil"),
    [
        ((('backfill = "concrete"', 'backfill = "earth"'),), SOFT),
        ((('backfill = "concrete"', 'backfill = "earth"'),), MIDDLE),
        ((('pin = "16 mm"', "set_bolts = 2"),), STIFF),
        ((), SOFT),
    ],
)
def test_the_post_on_the_struck_side_takes_all_of_the_couple(
    swaps: tuple[tuple[str, str], ...], soil: str
) -> None:
    """A bare pipe in tamped earth turns; set bolts hand no torque down; the low end counts none.

    Rubbing over a 4 in pipe some 3 ft deep gives a few hundred ft-lb, set bolts about as much,
    a small part of the couple of such a gust.
    """
    left, right, whole, moment = shares(rack(*swaps), soil)
    assert left == pytest.approx(whole / 2 + moment / SPACING, rel=0.01)
    assert right == pytest.approx(whole / 2 - moment / SPACING, rel=0.01)


def test_pinned_posts_in_concrete_take_some_of_it_as_torque() -> None:
    left, _, whole, moment = shares(rack(), STIFF)
    assert whole / 2 < left < 0.99 * (whole / 2 + moment / SPACING)
