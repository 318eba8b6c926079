"""anastruct behind its fence: closed forms from a handbook.

Closed forms: AISC Steel Construction Manual, 15th ed., Table 3-23, cases named in each test; the
propped portal by statics.
"""

from math import sqrt

import numpy as np
import pytest

from frame.fem.plane.model import RIGID, TRUSS, PlaneGuy
from frame.fem.plane.planar import solve_plane
from tests.unit.fem.plane import CLAMP, EA, EI, close, frame, one, pinned, roller


def test_simple_beam_uniform_load():
    """Table 3-23 case 1."""
    L, w = 6.0, 1500.0
    f = frame([(0, 2), (L / 2, 2), (L, 2)], [(0, 1), (1, 2)], {0: pinned(), 2: roller()},
              [("after", (), ((0, (0, -w)), (1, (0, -w))))])  # fmt: skip
    a = one(f)
    close(a.displacements[1, 1], -5 * w * L**4 / (384 * EI))
    close(a.diagrams[0].M[-1], w * L**2 / 8)
    close(a.diagrams[0].V[0], w * L / 2)
    close(a.diagrams[1].V[-1], -w * L / 2)
    x = a.diagrams[0].s
    close(a.diagrams[0].M, w * x / 2 * (L - x), scale=w * L**2 / 8)
    dip = -w * x / (24 * EI) * (L**3 - 2 * L * x**2 + x**3)
    close(a.diagrams[0].shape[:, 1], dip, scale=1e-3)


def test_beam_overhanging_one_support_uniform_load():
    """Table 3-23 case 24, deflection at the end of the overhang and moments."""
    L, h, w = 4.0, 1.5, 900.0
    f = frame([(0, 0), (L, 0), (L + h, 0)], [(0, 1), (1, 2)], {0: pinned(), 1: roller()},
              [("after", (), ((0, (0, -w)), (1, (0, -w))))])  # fmt: skip
    a = one(f)
    close(a.diagrams[0].M[-1], -w * h**2 / 2)
    close(a.diagrams[0].V[0], w / (2 * L) * (L**2 - h**2))
    close(a.displacements[2, 1], -w * h / (24 * EI) * (4 * h**2 * L - L**3 + 3 * h**3))


def test_beam_overhanging_one_support_load_at_its_end():
    """Table 3-23 case 26."""
    L, h, P = 4.0, 1.5, 2500.0
    f = frame([(0, 0), (L, 0), (L + h, 0)], [(0, 1), (1, 2)], {0: pinned(), 1: roller()},
              [("after", ((2, (0, -P, 0)),), ())])  # fmt: skip
    a = one(f)
    close(a.displacements[2, 1], -P * h**2 * (L + h) / (3 * EI))
    close(a.diagrams[0].M[-1], -P * h)
    assert a.diagrams[0].shape[6, 1] > 0  # the span rises


def test_propped_cantilever_uniform_load():
    """Table 3-23 case 12: fixed at one end, supported at the other."""
    L, w = 5.0, 800.0
    f = frame([(0, 0), (L, 0)], [(1, 0)], {1: CLAMP, 0: roller()},
              [("after", (), ((0, (0, -w)),))])  # fmt: skip
    a = one(f)
    close(a.diagrams[0].M[0], w * L**2 / 8)  # drawn right to left, n points down: hogging is +
    close(abs(a.diagrams[0].V[-1]), 3 * w * L / 8)
    close(a.diagrams[0].M[6], -w * L**2 / 16)


@pytest.mark.parametrize(("turn", "sense"), [(1, -1.0), (-1, 1.0)])
def test_cantilever_post_and_the_sense_of_rotation(turn, sense):
    """Table 3-23 case 22: push the top of a post to the right and it turns clockwise.

    Clockwise is positive about +y in front (x to the right, y into the page) and negative about +x
    from the side (y to the right, x out of the page).
    """
    h, P = 3.0, 1000.0
    f = frame([(1, 0), (1, h)], [(0, 1)], {0: CLAMP}, [("after", ((1, (P, 0, 0)),), ())], turn)
    a = one(f)
    close(a.displacements[1, 0], P * h**3 / (3 * EI))
    close(a.displacements[1, 2], sense * P * h**2 / (2 * EI))
    close(a.diagrams[0].M[0], -P * h)  # the left side, where n points, is stretched


@pytest.mark.parametrize("turn", [1, -1])
def test_moment_load_turns_in_the_sense_of_the_rotation(turn):
    """Cantilever with end moment, slope M L / E I (Table 3-23 case 18 integrated)."""
    f = frame([(0, 0), (2, 0)], [(0, 1)], {0: CLAMP}, [("after", ((1, (0, 0, 700.0)),), ())], turn)
    a = one(f)
    close(a.displacements[1, 2], 700.0 * 2 / EI)
    close(a.displacements[1, 1], turn * 700.0 * 4 / (2 * EI))


@pytest.mark.parametrize("ends", [(0, 1), (1, 0)])
def test_sloping_member_under_vertical_load(ends):
    """A 3-4-5 cantilever: axial and cross parts of a uniform and an end load, by statics."""
    w, P = 100.0, 50.0
    f = frame([(0, 0), (4, 3)], [ends], {0: CLAMP},
              [("after", ((1, (0, -P, 0)),), ((0, (0, -w)),))])  # fmt: skip
    d = one(f).diagrams[0]
    root = 0 if ends == (0, 1) else -1
    sign = 1 if ends == (0, 1) else -1
    close(d.N[root], -(5 * w + P) * 0.6)
    close(d.M[root], -sign * (5 * w * 2 + P * 4))
    close(d.V[root], (5 * w + P) * 0.8)
    tip = (5 * w * 0.8) * 5**3 / (8 * EI) + P * 0.8 * 5**3 / (3 * EI)
    bent = d.shape[-1 - root if root == 0 else 0] @ (-0.6, 0.8)
    close(bent, -tip)


def test_two_bars_carry_their_share():
    """Two-bar truss by statics: bars at 45 degrees under a hanging load P pull P / sqrt 2."""
    P = 1000.0
    f = frame([(-1, 1), (1, 1), (0, 0), (3, 0), (4, 0)],
              [(0, 2, TRUSS), (1, 2, TRUSS), (3, 4)], {0: CLAMP, 1: CLAMP, 3: CLAMP},
              [("after", ((2, (0, -P, 0)),), ())])  # fmt: skip
    a = one(f)
    close([a.axial("bar 0"), a.axial("bar 1")], P / sqrt(2))
    close(a.displacements[2, 1], -P * sqrt(2) / EA)


def guyed(share=1.0, give=1e-6):
    """A clamped post with a guy either way from its top, at 45 degrees."""
    guys = tuple(
        PlaneGuy(name=n, node=1, anchor=(a, 0.0), share=share, give=give)
        for n, a in (("left", -3.0), ("right", 3.0))
    )
    return frame([(0, 0), (0, 3)], [(0, 1)], {0: CLAMP},
                 [("after", ((1, (2000.0, 0, 0)),), ()), ("before", ((1, (0, -500.0, 0)),), ())],
                 guys=guys)  # fmt: skip


def test_guy_takes_its_share_of_a_push():
    """One guy beside a post, stiffness method: k post 3EI/h3, k guy share^2 / give / 2.

    The dead load presses the top down, but the guys are tensioned under it.
    """
    share, give, P, T0 = 0.8, 1e-6, 2000.0, 300.0
    f = guyed(share, give)
    taut = np.array([True, False])
    a = solve_plane(f, np.array([1.0, 1.0]), np.array([T0, T0]), taut)
    bend, press = 27 / (3 * EI), 3 / EA
    # Unknown: change c of the left guy; the right one loses T0. Pulls at 45 degrees, in plane.
    pull = share / sqrt(2)

    def stretch(c):
        right = P - pull * c - pull * T0
        up = -pull * c + pull * T0
        return pull * (bend * right + press * up)

    c = stretch(0.0) / (give - (stretch(1.0) - stretch(0.0)))
    close(a.tensions, [T0 + c, 0.0], rel=1e-5)
    closer = pull * (bend * (P - pull * (c + T0)) + press * pull * (c - T0))
    close(a.slack[1], closer - give * T0, rel=1e-4)
    top = bend * (P - pull * (T0 + c))
    close(a.displacements[1, 0], top, rel=1e-5)


def test_still_air_keeps_the_pretension():
    a = solve_plane(guyed(), np.array([0.0, 1.0]), np.array([400.0, 400.0]))
    close(a.tensions, [400.0, 400.0])
    close(a.displacements[1, 1], -(500 + 2 * 400 / sqrt(2)) * 3 / EA)


def test_a_wrong_taut_set_shows_as_negative_slack():
    a = solve_plane(guyed(), np.array([1.0, 0.0]), np.zeros(2), np.array([False, True]))
    assert a.slack[0] < 0
    assert a.tensions[1] < 0


def test_guy_not_fitted():
    a = solve_plane(
        guyed(), np.array([1.0, 0.0]), np.array([9.0, 9.0]), fitted=np.array([True, False])
    )
    assert a.tensions[1] == 0
    assert np.isnan(a.slack[1])


def test_brace_fitted_after_takes_no_dead_load():
    """The dead load bends the bare cantilever; the push afterwards finds the brace."""
    bars = [(0, 1), (1, 2), (3, 1, TRUSS, 1e7, "after")]
    loads = [("before", ((2, (0, -300.0, 0)),), ()), ("after", ((2, (0, -300.0, 0)),), ())]
    f = frame([(0, 0), (1, 0), (2, 0), (1, -1)], bars, {0: CLAMP, 3: CLAMP}, loads)
    dead = solve_plane(f, np.array([1.0, 0.0]))
    close(dead.displacements[2, 1], -300 * 8 / (3 * EI))
    assert dead.axial("bar 2") == 0
    late = solve_plane(f, np.array([0.0, 1.0]))
    assert late.axial("bar 2") < -100
    both = solve_plane(f, np.array([1.0, 1.0]))
    close(both.displacements, dead.displacements + late.displacements)


def test_two_nodes_in_one_place_are_refused():
    f = frame([(0, 0), (1, 0), (0, 1), (1, 0)], [(0, 1), (2, 3)], {0: CLAMP, 2: CLAMP},
              [("after", ((1, (0, 1.0, 0)),), ())])  # fmt: skip
    with pytest.raises(ValueError, match="one place: node 1, node 3"):
        one(f)


@pytest.mark.parametrize("arm", [0.01, 0.05, 0.4])
@pytest.mark.parametrize("length", [2.0, 22.0])
def test_a_rigid_arm_is_rigid_however_short_and_however_long_the_frame(length, arm):
    """A load hung beside a post's top: the post bends by its moment alone (AISC Table 3-23)."""
    P = 700.0
    f = frame([(0, 0), (0, length), (arm, length)], [(0, 1), (1, 2, RIGID)], {0: CLAMP},
              [("after", ((2, (50.0, -P, 0)),), ())])  # fmt: skip
    top, tip = one(f).displacements[1:]
    turn = 50 * length**2 / (2 * EI) + P * arm * length / EI
    close(top[:2], [50 * length**3 / (3 * EI) + P * arm * length**2 / (2 * EI), -P * length / EA])
    close([top[2], tip[2]], -turn)
    close(tip[1], top[1] - turn * arm)
