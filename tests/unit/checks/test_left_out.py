"""What a check is not told of is not there: no load, nothing lost, the whole share (statics)."""

from collections.abc import Callable

import numpy as np
import pytest

from frame.checks.check import Check
from frame.checks.fasteners.clamp import hold_down
from frame.checks.fasteners.set_bolt import Grip, expected_set_bolt_grip, set_bolt_grip
from frame.checks.fasteners.sleeve import BearingWall, Couple, expected_wall_bearing, wall_bearing
from frame.checks.fasteners.tilt_stop import stop_wall
from frame.checks.fasteners.u_bolt import expected_u_bolt_tension
from frame.checks.ground.post_lateral import presumptive_free
from frame.checks.ground.post_turning import expected_turning, turning
from frame.checks.ground.post_ultimate import (
    ExpectedSand,
    expected_clay,
    expected_sand,
    ultimate_clay,
    ultimate_sand,
)
from frame.checks.ground.post_vertical import bearing, expected_uplift, uplift
from frame.checks.guys.anchor import pickets, proved, screw
from frame.checks.guys.guy import hardware
from frame.checks.steel import brace, pipe
from frame.checks.steel.slotted import SlottedEnd
from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.lug_wall import lug_wall
from frame.checks.welds.round_joint import BranchLoads
from tests.unit.checks.test_any_unit import bolt, forces, grip, joint, tube
from tests.unit.checks.test_limits import LUG, PULL, STOP

NO_SLOT = SlottedEnd(length=1e9, width=0.0, plate=0.0)
"""A plate so long that all of the pipe pulls on it, in slots of no width."""
POST = 2e3, 3e3, 1.5, 0.2
SAND = ExpectedSand(17e3, 0.6)
WALL = BearingWall(od=0.1143, wall=0.0056, yield_stress=240e6)
PUSHED = {"moment": 900.0, "shear": 400.0, "length": 0.2}
BRANCH = {"axial": 9e3, "in_plane": 200.0, "out_of_plane": 90.0}

PAIRS: dict[str, tuple[Callable[..., Check], tuple[object, ...], dict[str, object]]] = {
    "top left out, clay": (ultimate_clay, (*POST, 4e4), {"ignored": 0.0}),
    "top left out, clay expected": (expected_clay, (*POST, 4e4), {"ignored": 0.0}),
    "top left out, sand": (ultimate_sand, (*POST, 17e3, 0.6), {"ignored": 0.0}),
    "top left out, sand expected": (expected_sand, (*POST, SAND), {"ignored": 0.0}),
    "top left out, code": (presumptive_free, (*POST, 3e4), {"ignored": 0.0}),
    "turned": (turning, (90.0, 8e3, 0.3, 1.5), {"ignored": 0.0, "share": 1.0, "foot": 0.0}),
    "turned, expected": (
        expected_turning,
        (90.0, 8e3, 0.3, 1.5),
        {"ignored": 0.0, "share": 1.0, "foot": 0.0},
    ),
    "top left out, lifted": (uplift, (900.0, 700.0, 0.3, 1.5, 5e3), {"ignored": 0.0}),
    "lifted, expected": (expected_uplift, (900.0, 700.0, 0.3, 1.5, 5e3), {"ignored": 0.0}),
    "pressed down": (bearing, (900.0, 0.1, 7e4), {"sides": 0.0, "friction": 0.0}),
    "pickets": (pickets, (900.0, 0.3, "1"), {"soil_share": 1.0}),
    "screw": (screw, (900.0, 900.0, 30.0, 2.0, 0.2), {"off_line": 0.0, "soil_share": 1.0}),
    "proved": (proved, (900.0, 2e3), {"soil_share": 1.0}),
    "hardware": (hardware, (900.0, 2e3), {"share": 1.0}),
    "pull of a pipe": (pipe.tension, (tube(1, 1), 9e3), {"slotted": NO_SLOT}),
    "pull of a brace": (brace.pull, (tube(1, 1), 9e3), {"slotted": NO_SLOT}),
    "brace": (brace.bent, (tube(1, 1), forces(1, 1), 2.0), {"offset": 0.0}),
    "set bolts": (set_bolt_grip, (90.0, grip(1)), {"lift": 0.0, "weight": 0.0}),
    "set bolts expected": (
        expected_set_bolt_grip,
        (90.0, grip(1), 0.5),
        {"lift": 0.0, "weight": 0.0},
    ),
    "sleeve": (wall_bearing, (Couple(**PUSHED), WALL), {"stress": 0.0}),
    "sleeve expected": (expected_wall_bearing, (Couple(**PUSHED), WALL), {"stress": 0.0}),
    "beam at a stop": (stop_wall, (90.0, STOP), {"chord_stress": 0.0}),
    "wall at a lug": (lug_wall, (PULL, LUG), {"chord_stress": 0.0}),
    "U-bolt": (expected_u_bolt_tension, (90.0, 10.0, bolt(1, 1), 0.3), {"share": 1.0}),
    "clamp": (hold_down, (90.0, 1.5, 5e-5, 3e8), {"nut_rating": np.inf}),
}


@pytest.mark.parametrize("name", PAIRS)
def test_what_a_check_is_not_told_of_is_not_there(name: str) -> None:
    make, given, neutral = PAIRS[name]
    plain, told = make(*given), make(*given, **neutral)
    assert plain.utilisation > 0
    assert plain.utilisation == told.utilisation
    assert plain.let_go == told.let_go


def test_nor_what_its_parts_are_not_told_of() -> None:
    still, beside = (
        wall_bearing(Couple(**PUSHED, **more), WALL).utilisation for more in ({}, {"beside": 0.0})
    )
    assert still == beside
    alone, stressed = (
        chord_wall(BranchLoads(**BRANCH, **more), joint(1)).utilisation
        for more in ({}, {"chord_stress": 0.0})
    )
    assert alone == stressed
    assert SAND.share == 1.0
    new = Grip(**{f: getattr(grip(1), f) for f in Grip.__slots__ if f != "kept"})
    assert new.kept == 1.0
