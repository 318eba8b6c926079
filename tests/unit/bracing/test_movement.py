"""Sag, sway and swing told from displacements, against hand numbers and brute force."""

import numpy as np
import pytest
from hypothesis import given

from frame.bracing.movement import (
    sags_of_beam,
    still_air,
    weighed,
    worst_sag,
    worst_sway,
    worst_swing,
)
from frame.fem.second_order.buckling import buckling_factors
from frame.loads.combinations import WHOLE_WIND
from tests.builders import CASES, INCH, POUND, blocks_of, case, case_blocks, racks

ENDS = {"beam end, left": -1, "beam end, right": 1}


@given(racks())
def test_pipe_sleeve_and_post_add_up_to_the_dead_sag(rack):
    for sag in sags_of_beam(blocks_of(rack, rack.bracing_names)[0]):
        assert sag.pipe + sag.sleeve + sag.post == pytest.approx(sag.dead, abs=1e-12)


@given(racks(guyed=False))
def test_without_guys_still_air_is_the_dead_sag_and_both_ends_sag_alike(rack):
    """Places closer than 1 mm are one node at the first of them, which need not be symmetric."""
    found = {str(s.where): s for s in sags_of_beam(blocks_of(rack, rack.bracing_names)[0])}
    for sag in found.values():
        assert sag.still_air == pytest.approx(sag.dead, abs=1e-12)
    left, right = (found[end].dead for end in ENDS)
    assert left == pytest.approx(right, rel=1e-2, abs=1e-9)


def test_limits_and_play_are_those_of_the_file():
    """Boat shed: arm 85.25 in. over 180; play 1/8 in. in 8 in. of sleeve either way."""
    for sag in sags_of_beam(case_blocks("boat")[0]):
        assert sag.limit == pytest.approx(85.25 / 180 * INCH)
        assert sag.slop == pytest.approx(85.25 * (1 / 8) / 8 * INCH)


def test_a_span_between_posts_is_judged_from_the_chord():
    """Wash house: the middle of the 3.2 m span against the mean of the two posts, 1/240."""
    block = case_blocks("wash_house")[0]
    (middle,) = (s for s in sags_of_beam(block) if s.where.span)
    marks, u = block.frame.ideal.marks, still_air(block)[0][:, 2]
    ends = [u[marks[f"beam at post {i}"]] for i in (1, 2)]
    assert middle.dead == pytest.approx(np.mean(ends) - u[marks["beam midspan 1"]])
    assert middle.limit == pytest.approx(3.2 / 240)
    assert middle.slop == 0


@pytest.mark.parametrize("name", CASES)
def test_the_worst_sag_is_nearest_its_limit(name):
    blocks = case_blocks(name)
    uses = [max(abs(s.dead), abs(s.still_air)) / s.limit for b in blocks for s in sags_of_beam(b)]
    worst = worst_sag(blocks)
    assert max(abs(worst.dead), abs(worst.still_air)) / worst.limit == pytest.approx(
        max(uses), rel=1e-8
    )


@pytest.mark.parametrize("name", CASES)
def test_sway_is_the_largest_level_movement_of_a_post_top_from_still_air(name):
    """Case by case and post by post, the pull of the guys taken off first, then second order."""
    bracing = case(name).bracing_names
    blocks = case_blocks(name, bracing)
    largest = 0.0
    for block in blocks:
        table = block.frame.cases(WHOLE_WIND[:1])
        q = block.frame.pressure(case(name).site.service_gust)
        tops = [at for mark, at in block.frame.ideal.marks.items() if mark.endswith(" top")]
        rest = block.shapes.grown(weighed(block), 1.0).displacements[0]
        for row in table.at(q):
            answer = block.shapes.grown(block.answer(row[None]), 1.0)
            u = answer.displacements[0] - rest
            largest = max(largest, *(float(np.hypot(*u[top, :2])) for top in tops))
    sway = worst_sway(blocks)
    assert sway.top == pytest.approx(largest)
    assert sway.limit == pytest.approx(case(name).posts.height / 80)
    assert sway.words.startswith("wind")


def test_sway_grows_by_the_exact_buckling_factor():
    """As AISC 360-22 Eq. A-8-6, with alpha 1 and lambda of the whole frame by eigenvalues.

    Each block of the bare boat shed alone. The formula takes all the sway for the lowest
    shape, and knows no lift that straightens.
    """
    for block in case_blocks("boat"):
        sway = worst_sway([block])
        table = block.frame.cases(WHOLE_WIND[:1])
        at = [w.words for w in table.winds].index(sway.words)
        answer = block.answer(table.at(block.frame.pressure(sway.gust))[[at]])
        (factor,) = buckling_factors(answer, [0])
        moved = answer.displacements[0] - still_air(block)[1]
        plain = float(np.hypot(*moved[block.frame.ideal.marks["post top"], :2]))
        by_code = plain / (1 - 1 / factor)
        assert sway.top == pytest.approx(by_code, rel=0.06)


def test_sway_of_a_bare_post_by_hand():
    """Boat shed, 35 degrees, stiff ground: bending above grade by P h3 / 3 E I and more.

    The post's own share of the movement between grade and top, ground rotation taken off;
    wind enters at the beam but for the drag on the post, q Kd G Cf D h4 / 8 E I.
    """
    block = case_blocks("boat")[-1]
    table, marks = block.frame.cases(WHOLE_WIND[:1]), block.frame.ideal.marks
    q = block.frame.pressure(30.0)
    at = table.labels.index("D + W, front, A")
    wind = block.answer(table.at(q)[[at]]).displacements[0] - still_air(block)[1]
    h, EI = 78 * INCH, 199.948e9 * case("boat").posts.pipe.design.second_moment
    top, grade = wind[marks["post top"]], wind[marks["post at grade"]]
    bent = top[1] - grade[1] + h * grade[3]
    quarters = dict(table.winds[at].coefficients)
    halves = [quarters[f"panels, {half} left"] for half in ("lower", "upper")]
    area, T = 8 * 41 * 69 * INCH**2, np.radians(35)
    push = q * area * np.mean(halves) * np.sin(T) + q * 0.7225 * 1.2 * 170.5 * 4.0 * INCH**2
    line = q * 0.7225 * 1.2 * 5.563 * INCH
    # Lower and upper half differ: their couple, half the area 34.75 in. either side, bends too.
    couple = q * area / 2 * 34.75 * INCH * (halves[0] - halves[1])
    by_hand = push * h**3 / (3 * EI) + line * h**4 / (8 * EI) - couple * h**2 / (2 * EI)
    assert bent == pytest.approx(by_hand, rel=2e-3)


def test_swing_is_the_largest_torque_in_the_sleeve_and_none_on_two_posts():
    """Grip and torque of the file; the gust is a one-sided one."""
    swing = worst_swing(case_blocks("boat"))
    assert "half" in swing.words
    assert 0 < swing.grip_low < swing.grip_high
    assert swing.torque > 100 * POUND * INCH
    assert worst_swing(case_blocks("wash_house")) is None
