"""Pipe walls at knees and sleeve."""

import math

import numpy as np
import pytest

from frame.parts.welds.joints import joint_checks
from frame.parts.welds.welds import weld_checks
from tests.unit.parts.solved import (
    FACE_B,
    GUST_LEFT,
    IN_LB,
    INCH,
    ONE_POST_30,
    POUND,
    found,
    solved,
    value,
    worst,
)

KNEE = ("post wall at knee, left", "chord wall")
WASH = "two_posts"


def test_a_sleeve_wider_than_the_beam_counts_as_one_saddle_line_at_most():
    """Sleeve 6.168 in over 5 in pipe, on a beam 4.000 x 0.2102 in, 30 ksi: by hand, in kip and in.

    Gamma 9.515, beta 1: 30 x 0.2102^2 x 18.7 x 9.515^0.2 = 38.9 kip as a T joint, one line of full
    width 30 x 0.2102^2 x 5.5 / 0.19 = 38.4 kip. Out of plane 0.5 x 4 x 38.4 = 76.7 kip in, in
    plane 5.39 x 30 x 0.2102^2 x sqrt(9.515) x 4 = 88.1 kip in.
    """
    now = solved("one_post", (), ONE_POST_30)
    check = found(joint_checks, now)["beam wall at sleeve", KNEE[1]]
    assert np.all(check.covered)
    assert now.rack.beam.pipe.od < next(s.value for s in check.steps if s.symbol == "Ds")
    strengths = {s.symbol: s.value for s in check.steps}
    assert strengths["P1"] == pytest.approx(38.37 * 4448.22, rel=0.002)
    assert strengths["O1"] == pytest.approx(76.7 * 112.985, rel=0.002)
    assert strengths["I1"] == pytest.approx(88.1 * 112.985, rel=0.002)


def test_a_swing_shears_the_wall_of_the_beam_and_does_not_bend_it():
    """By statics in pounds (pressures: see test_sleeve): swing 1.6 x 802 lb x 41.5 in.

    About the beam's axis, case B: 8 rails of 6312 in-lb each, whichever half is struck harder. The
    twist is shear round the foot of the sleeve, T R over the polar moment of the saddle's line,
    97.5 + 26.0 in3 on 3.084 in.
    """
    now = solved("one_post", (), ONE_POST_30)
    wall = found(joint_checks, now)["beam wall at sleeve", KNEE[1]]
    assert value(now, wall, "Mo", GUST_LEFT)[0] == pytest.approx(8 * 6312 * IN_LB, rel=0.01)
    beside = found(weld_checks, now)["weld, beam to sleeve", "base metal at weld"]
    assert value(now, beside, "T", GUST_LEFT)[0] == pytest.approx(
        802 * 1.6 * 41.5 * IN_LB, rel=0.01
    )
    shear = value(now, beside, "fs", GUST_LEFT)[0] - value(now, beside, "fs")[0]
    assert shear == pytest.approx(802 * 1.6 * 41.5 * 3.084 / 123.5 * POUND / INCH, rel=0.01)


def test_plastification_of_the_post_by_hand():
    """1.9 in at 45 degrees on 5.563 x 0.2399 in, 30 ksi: beta 0.3415, gamma 11.59.

    AISC 360-22 Table K3.1:
    30 x 0.2399^2 x (3.1 + 15.6 x 0.3415^2) x 11.59^0.2 / sin 45 = 19.6 kip as a T joint; the
    other knee makes it a cross joint, 5.7 / (1 - 0.81 x 0.3415) instead, 19.2 kip.
    """
    now = solved("one_post", ("knees",), ONE_POST_30)
    check = found(joint_checks, now)[KNEE]
    beta = 1.9 / 5.563
    kip = 30 * 0.2399**2 * 5.7 / (1 - 0.81 * beta) / math.sin(math.pi / 4)
    P1 = next(s.value for s in check.steps if s.symbol == "P1")
    assert kip == pytest.approx(19.2, abs=0.1)
    assert pytest.approx(kip * 4448.22, rel=0.002) == P1
    assert np.all(check.covered)


def test_both_knees_under_an_even_wind_load_their_walls_alike():
    now = solved("one_post", ("knees",), ONE_POST_30)
    checks = found(joint_checks, now)
    for where in ("post", "beam"):
        left, right = (
            value(now, checks[f"{where} wall at knee, {side}", KNEE[1]], "P")[0]
            for side in ("left", "right")
        )
        assert left == pytest.approx(right, rel=1e-6)
    assert FACE_B in now.table.labels


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_knee_bends_its_joints_about_y_in_their_plane(side):
    """Knee, post and beam lie in x-z: what bends in their plane is the moment about global y.

    The rest of the moment, square to that, is the torque and what bends out of the plane: out of
    it counts M + T cot(angle), at 45 degrees the sum (statics, see `out_of_plane`).
    """
    now = solved("one_post", ("knees",), ONE_POST_30)
    checks = {str(part): check for part, check in joint_checks(now)}
    model = now.block.frame.ideal.model
    i = next(i for i, m in enumerate(model.members) if str(m.part) == f"knee, {side}")
    m, forces = model.members[i], now.answer.on_members([i])[:, 0]
    ends = np.array([model.nodes[n].xyz for n in m.ends]) + np.array(m.setback)
    x = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    axes = np.stack([x, m.y_axis, np.cross(x, m.y_axis)])
    for where, six in (("post", forces[:, :6]), ("beam", forces[:, 6:])):
        check = checks[f"{where} wall at knee, {side}"]
        moment = six[:, 3:] @ axes
        in_plane, out = (next(s.value for s in check.steps if s.symbol == n) for n in ("Mi", "Mo"))
        assert in_plane == pytest.approx(np.abs(moment[:, 1]), rel=1e-9)
        square = np.abs(moment @ np.cross(x, (0.0, 1.0, 0.0)))
        assert out == pytest.approx(square + np.abs(moment @ x), rel=1e-3)
        assert np.abs(in_plane - out).max() > 1.0


def test_a_thicker_post_wall_lowers_the_use():
    thick = ('pipe = { od = "114.3 mm"', 'pipe = { od = "114.3 mm", wall = "8 mm" }')
    before = found(joint_checks, solved(WASH, ("knees",)))
    after = found(joint_checks, solved(WASH, ("knees",), (thick,)))
    part = ("post wall at knee 1, left", KNEE[1])
    assert worst(after[part]) < worst(before[part])


def test_the_wall_under_a_lug_by_hand():
    """Lug 3 in long on 5.563 x 0.2399 in, 30 ksi, AISC 360-22 Table K2.1, longitudinal plate:

    5.5 x 30 x 0.2399^2 x (1 + 0.25 x 3 / 5.563) = 10.78 kip, and 0.8 x 3 of that in its plane;
    a knee at 45 degrees pulls as much along the post as square to it, 1.5 in off the wall.
    """
    change = ("ends", 'ends = "pinned"')
    now = solved("one_post", ("knees",), (*ONE_POST_30, change))
    check = found(joint_checks, now)[KNEE]
    assert np.all(check.covered)
    strengths = {s.symbol: s.value for s in check.steps}
    assert strengths["P1"] == pytest.approx(10.78 * 4448.22, rel=0.002)
    assert strengths["I1"] == pytest.approx(2.4 * 10.78 * 112.985, rel=0.003)
    assert value(now, check, "P") == pytest.approx(value(now, check, "V"), rel=0.02)
    assert strengths["e"] == pytest.approx(1.5 * 0.0254)


def test_no_knees_no_joints():
    assert len(found(joint_checks, solved("one_post", (), ONE_POST_30))) == 1
