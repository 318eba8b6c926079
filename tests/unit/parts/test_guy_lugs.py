"""Welds of the lugs of guys: the pull resolved by the geometry of the line, weld by hand."""

import numpy as np
import pytest

from frame.loads.combinations import ASD_WINDY
from frame.parts.guys.guys import fitted_guys
from frame.parts.welds.guy_lugs import guy_lug_checks
from frame.solved.situation import situation
from frame.units import INCH
from tests.builders import MPH, case_blocks


def checks(name, bracing):
    block = case_blocks(name, bracing)[-1]
    now = situation(block, block.frame.cases(ASD_WINDY), [60 * MPH])
    return now, {(part, c.name): c for part, c in guy_lug_checks(now)}


def test_a_post_top_lug_takes_the_pull_along_and_square_to_the_post():
    """Boat shed: guys run 5.5 ft out and along; fall from the lug to grade, H / N = fall / run.

    Two lines of 3 in., hole 1.5 in. off: f = sqrt((N/6 + 3 H 1.5/9)^2 + (H/6)^2) lb/in (elastic
    line method by hand, inches).
    """
    now, found = checks("boat_shed", ("guys",))
    (weld, metal) = found.values()
    lines = list(fitted_guys(now))
    pull = np.stack([line.pull for line in lines], axis=1)
    model = now.block.frame.ideal.model
    fall = model.nodes[model.guys[0].node].xyz[2] - model.guys[0].anchor[2]
    run = np.hypot(66, 66) * INCH
    steep = fall / np.hypot(fall, run)
    H, N = pull * steep, pull * np.sqrt(1 - steep**2)
    by_hand = np.sqrt((N / 6 + 3 * H * 1.5 / 9) ** 2 + (H / 6) ** 2) / INCH
    force = next(s for s in weld.steps if s.symbol == "f").value
    assert force == pytest.approx(by_hand, rel=1e-9)
    assert {key[0] for key in found} == {"weld, lugs of guys"}
    assert metal.covered is True or np.all(metal.covered)


def test_guys_on_rail_corners_have_no_lug_and_those_on_the_beam_run_along_it():
    _, found = checks("salvage_yard", ("beam-end guys", "corner guys"))
    assert {part for part, _ in found} == {"weld, lugs of beam-end guys"}


def test_without_guys_there_is_nothing_to_check():
    assert not checks("boat_shed", ("knees",))[1]
