"""The heads of stays: welds and walls of their lugs, or the ends of rails they are bolted to."""

import math

import numpy as np
import pytest

from frame.parts.rails.rail_ends import rail_end_checks
from frame.parts.welds.lugs import lug_checks
from frame.parts.welds.stay_heads import stay_head_checks
from frame.parts.welds.welds import weld_checks
from tests.step_check import assert_steps, printed
from tests.unit.parts.solved import (
    INCH,
    ONE_POST_30,
    POUND,
    assert_one_strength,
    expected,
    found,
    solved,
    worst,
)

STAY = "stay, front left"


def stays(place: str) -> tuple[tuple[str, str], ...]:
    keys = f'from = "{place}"\npipe = "1-1/4 in nominal"\nout = "3 ft"\nalong = "3 ft"'
    return (*ONE_POST_30, ("[stays] from", keys))


def head(now) -> tuple[np.ndarray, float, float]:
    """Force along a stay [N], and sine and cosine of its rise above level."""
    model = now.block.frame.ideal.model
    (number,) = model.members_of(STAY)
    foot, top = (np.array(model.nodes[n].xyz) for n in model.members[number].ends)
    line = (top - foot) / np.linalg.norm(top - foot)
    force = np.abs(now.answer.on_members([number])[:, 0, 6])
    return force, float(line[2]), math.sqrt(1 - float(line[2]) ** 2)


def test_stays_hang_on_lugs_with_a_weld_and_a_wall_each() -> None:
    now = solved("one_post", ("stays",), stays("post top"))
    checks = found(stay_head_checks, now)
    assert sum(part.startswith("weld, stay") for part, _ in checks) == 8
    assert sum(part.startswith("post wall at stay") for part, _ in checks) == 4
    assert len(checks) == 12
    assert np.isfinite(worst(checks[f"weld, {STAY}", "weld metal"]))
    assert not any(part.startswith("weld, stay") for part, _ in found(weld_checks, now))


def test_the_wall_of_the_post_under_a_stay_by_hand() -> None:
    """5.563 x 0.258 in, 0.93 of that wall and 30 ksi counted, a 3 in lug: AISC 360-22 Table K2.1
    (from memory of the standard) P = 5.5 Fy t^2 (1 + 0.25 l/D) and 0.8 l P, factor 1.67. What the
    stay itself weighs is left out.
    """
    now = solved("one_post", ("stays",), stays("post top"))
    check = found(stay_head_checks, now)[f"post wall at {STAY}", "chord wall"]
    N, sine, cosine = head(now)
    P = 5.5 * 30e3 * (0.93 * 0.258) ** 2 * (1 + 0.25 * 3 / 5.563) * POUND
    assert printed(check.steps, "P1") == pytest.approx(P, rel=1e-3)
    U = printed(check.steps, "fc") / (18e3 * POUND / INCH**2)
    left = 1 - 0.3 * U * (1 + U)
    by_hand = N * (cosine + sine * 1.5 / (0.8 * 3)) / P * 1.67 / left
    large = (N > 3e3) & (left > 0)
    assert large.any()
    assert check.utilisation[large] == pytest.approx(by_hand[large], rel=0.05)
    assert_steps(check, 3)


def test_at_the_open_end_of_the_beam_half_the_wall_is_left() -> None:
    """AISC 360-22 K halves a connection at an uncapped end (from memory of the standard)."""
    now = solved("one_post", ("stays",), stays("beam ends"))
    check = found(stay_head_checks, now)[f"beam wall at {STAY}", "chord wall"]
    P = 5.5 * 30e3 * (0.93 * 0.226) ** 2 * (1 + 0.25 * 3 / 4) * POUND
    assert printed(check.steps, "P1") == pytest.approx(P / 2, rel=1e-3)
    assert_steps(check, 3)


def test_at_a_corner_of_the_rails_there_is_a_bolt_and_no_weld() -> None:
    """The back of the rail, 0.105 in of 33 ksi, bears 1.8 x 33 x 0.5 x 0.105 / 2 = 1559 lb on 1/2
    in of bolt (AISC 360-22 J7, from memory of the standard). The lug left is that of the foot.
    """
    now = solved("one_post", ("stays",), stays("rail corners"))
    checks = found(rail_end_checks, now)
    assert not found(stay_head_checks, now)
    assert {name for _, name in checks} == {"rail end and its bolt"}
    assert len(checks) == 4
    end = checks[f"rail end, {STAY}", "rail end and its bolt"]
    N, _, _ = head(now)
    large = N > 2e3
    assert large.any()
    assert end.demand[large] == pytest.approx(N[large], rel=0.05)
    assert end.allowable == pytest.approx(1559 * POUND, rel=1e-3)
    assert (f"lug, {STAY}", "lug and its bolt") in found(lug_checks, now)
    assert not any(part.startswith("weld, stay") for part, _ in found(weld_checks, now))
    assert_steps(end, 3)


@pytest.mark.parametrize("place", ["post top", "beam ends", "rail corners"])
def test_what_is_expected_of_a_head_is_one_strength(place: str) -> None:
    assert_one_strength(
        expected("one_post", ("stays",), stays(place)), (stay_head_checks, rail_end_checks)
    )


def test_a_bigger_bolt_and_doubled_rails_lower_the_use_of_a_rail_end() -> None:
    key = (f"rail end, {STAY}", "rail end and its bolt")
    plain = stays("rail corners")
    before = found(rail_end_checks, solved("one_post", ("stays",), plain))[key]
    for change in (
        ("[welds] lug_bolt", 'lug_bolt = "5/8 in"'),
        ("[rails] channel", 'channel = "1-5/8 x 1-5/8 in 12 ga back to back"'),
    ):
        after = found(rail_end_checks, solved("one_post", ("stays",), (*plain, change)))[key]
        assert np.all(after.allowable > 1.2 * before.allowable)
