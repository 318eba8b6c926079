from dataclasses import replace

import numpy as np
import pytest

from frame.checks.guys.anchor import (
    holding_kept,
    pickets,
    proof_pull,
    proved,
    rock_eye,
    screw,
    torque_factor,
)
from frame.checks.guys.anchor_block import block_sliding, tipping
from frame.checks.guys.deadman import Earth, Log, deadman, deadman_holding
from frame.errors import CatalogError
from tests.step_check import assert_steps

SAND = Earth(unit_weight=8600.0, phi=0.49)
LOG = Log(depth=1.3, height=0.2, length=0.9)
PULL, SHARE = np.array([0.0, 3e3]), np.array([1.0, 0.5])


@pytest.mark.parametrize(
    "check",
    [
        deadman(PULL, 0.7, LOG, SAND, SHARE),
        pickets(PULL, 0.3, "3-2-1", SHARE),
        screw(PULL, 500.0, 33.0, 1.2, 0.1, 0.1, SHARE),
        rock_eye(PULL, 0.03, 0.4, 7e5),
        proved(PULL, 9e3, SHARE),
        block_sliding(PULL, PULL, 2e4, 0.25),
        tipping(PULL, PULL, 2e4, 0.6, 0.9),
        block_sliding(PULL, PULL, 2e4, 0.25, water=np.array([0.0, 0.43])),
        tipping(PULL, PULL, 2e4, 0.6, 0.9, water=np.array([0.0, 0.43])),
    ],
    ids=lambda c: c.name,
)
def test_steps_and_no_pull_no_use(check):
    assert_steps(check, (0,))
    assert_steps(check, (1,))
    assert check.utilisation[0] == 0
    assert 0 < check.let_go[1] < check.utilisation[1]


def test_a_block_under_water_says_what_it_weighs_in_air_and_what_the_water_takes_off():
    """1,200 lb of concrete at 145 pcf displace 1,200 x 62.4 / 145 = 516.4 lb: 683.6 are left."""
    pound = 4.4482216
    for check in (
        block_sliding(1.0, 1.0, 1200 * pound, 0.25, water=62.4 / 145),
        tipping(1.0, 1.0, 1200 * pound, 0.5, 0.5, water=62.4 / 145),
    ):
        steps = {s.symbol: s for s in check.steps}
        assert float(steps["Wa"].value) / pound == pytest.approx(1200)
        assert float(steps["W"].value) / pound == pytest.approx(683.6, abs=0.05)
        assert "in air" in steps["Wa"].meaning
        assert "less the water" in steps["W"].meaning
        assert steps["W"].formula == "Wa * (1 - wc)"


def test_outside_the_limits_there_is_no_answer():
    for check in (
        deadman(1e3, 0.7, replace(LOG, depth=0.05), SAND),
        pickets(1e3, 0.5, "1"),
        screw(1e3, 0.0, 33.0, 1.2, 0.1),
        screw(1e3, 500.0, 33.0, 0.4, 0.1),
        screw(1e3, 500.0, 33.0, 1.2, 0.1, 0.3),
        rock_eye(1e3, 0.03, 0.3, 7e5),
        proved(1e3, 0.0),
    ):
        assert np.isnan(check.utilisation), check.name


def test_flat_pull_counts_as_one_in_four():
    assert deadman_holding(1.3, 0.0) == pytest.approx(float(deadman_holding(1.3, np.arctan(0.25))))


def test_names():
    assert holding_kept("deadman", "fine wet or sandy") == 0.5
    for call in (
        lambda: holding_kept("deadman", "moon"),
        lambda: torque_factor("rope"),
        lambda: pickets(1.0, 0.0, "9"),
    ):
        with pytest.raises(CatalogError, match="write one of"):
            call()


def test_pretension_is_tested_for_too():
    assert proof_pull(np.array([1e3, 3e3]), 2e3) == pytest.approx([3e3, 4.5e3])
