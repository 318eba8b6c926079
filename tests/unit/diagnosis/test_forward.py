"""What a rack would read, against PyNite's frame of the same rack, cut up otherwise."""

from dataclasses import replace
from pathlib import Path

import pytest

from frame.casefile.read import read_rack
from frame.diagnosis.forward import Forward
from frame.diagnosis.predict import PREDICTED, Yard
from frame.diagnosis.stiffness import PARTS, Stiffness
from tests.unit.diagnosis.twin import INCH, E, Truth, Twin

CASES = Path(__file__).parents[3] / "cases"
NAMES = ("hay_barn", "boat_shed", "orchard_wall")
TRUTH = Truth(
    ground=0.7,
    beam_wall=0.9,
    post_wall=0.95,
    sleeve=0.8,
    play=0.003,
    rest=0.01,
    rest_unloaded=-0.004,
    bow_left=0.004,
    bow_right=0.002,
    lean_along=0.002,
    lean_across=-0.001,
    turn=0.003,
)
STATIC, PACE = 0.02, 0.04
"""How far apart the two may be: second order, soil springs and masses are lumped otherwise."""
FINE = INCH / 64


def yard(twin: Twin, truth: Truth) -> Yard:
    values = {name: getattr(truth, name) for name in Truth.__dataclass_fields__}
    values["bow"] = (truth.bow_left + truth.bow_right) / 2
    values["skew"] = (truth.bow_left - truth.bow_right) / 2
    scales = dict.fromkeys(("scale_pull", "scale_push", "scale_press"), 1.0)
    return Yard(Forward(twin.rack, twin.conditions(twin.rack)), {**values, **scales})


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("truth", [Truth(), TRUTH], ids=["as filed", "otherwise"])
def test_every_reading_is_what_the_other_program_says(name: str, truth: Truth) -> None:
    rack = read_rack(CASES / f"{name}.toml")
    twin = Twin(rack, truth, rack.tilts[0])
    at = yard(twin, truth)
    for key, other in twin.exact.items():
        ours = PREDICTED[key](at)
        if key == "shakes":
            assert ours == pytest.approx(other, rel=PACE)
        else:
            assert ours == pytest.approx(other, rel=STATIC, abs=FINE), key


def test_stiffer_parts_move_less_and_shares_add_up() -> None:
    """A movement is homogeneous of degree -1 in the stiffnesses (Euler's theorem)."""
    rack = read_rack(CASES / "hay_barn.toml")
    forward = Forward(rack, Twin.conditions(rack))
    whole = forward.moved(Stiffness())
    doubled = forward.moved(Stiffness(more=tuple((part, 2.0) for part in PARTS)))
    assert doubled.pulled == pytest.approx(whole.pulled / 2, rel=0.04)
    assert doubled.droop[0] == pytest.approx(whole.droop[0] / 2, rel=0.01)
    for part in PARTS[:-1]:
        assert forward.moved(Stiffness(more=((part, 2.0),))).pushed <= whole.pushed
    assert forward.moved(Stiffness(ground=2.0)).shakes > whole.shakes


def test_a_pull_lower_down_moves_the_top_as_a_cantilever_bends() -> None:
    """Above grade the post is a cantilever: u(H) of a force at z is z2 (3 H - z) / 6 E I.

    What the ground adds is linear in z, and gone from the second difference.
    """
    rack = read_rack(CASES / "boat_shed.toml")
    measured = Twin.conditions(rack)
    H, EI = rack.posts.height, E * rack.posts.pipe.nominal.second_moment
    heights = [0.2 * H, 0.5 * H, 0.8 * H]
    low, middle, high = (
        Forward(rack, replace(measured, pull_height=z)).moved(Stiffness(ground=20.0)).pulled
        for z in heights
    )
    bent = [z**2 * (3 * H - z) / (6 * EI) for z in heights]
    expected = bent[0] - 2 * bent[1] + bent[2]
    assert low - 2 * middle + high == pytest.approx(expected, rel=0.03)
