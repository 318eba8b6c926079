"""Guys as lines: balance with the post at grade, steps, and laws."""

from dataclasses import replace
from math import atan, cos, hypot, radians, sin

import numpy as np
import pytest

from frame.loads.combinations import ASD, WHOLE_WIND
from frame.parts.ground.posts import at_grade
from frame.parts.guys.guys import fitted_guys, guy_checks
from frame.rack.guy import NO_FITTING
from frame.rack.rack import Rack
from frame.search.governing import pick
from frame.tables import wires
from tests.step_check import assert_steps
from tests.unit.parts.racks import INCH, MPH, ONE_POST, POUND, at, first_order, solved

TILT = radians(15)
RISE, OUT = 78.0 - 2.0 - 8.0, 66.0
"""Under the sleeve: 6 ft 6 in less half the 4 in beam and the 8 in sleeve; 5 ft 6 in out [in]."""
SLOPE = atan(RISE / hypot(OUT, OUT))


def guyed(rack: Rack = ONE_POST, gust: float = 60 * MPH, **state: str):
    return first_order(solved(rack, ("guys",), TILT, WHOLE_WIND, gust, **state))


def with_guys(**change: object) -> Rack:
    return replace(ONE_POST, guys=(replace(ONE_POST.guys[0], **change),))


def test_guys_and_post_carry_what_the_bare_post_carries() -> None:
    """Statics: cut at grade and at the anchors, the level parts of post and guys add up to the
    wind, the post's push is the weight and the wind with the guys' pull downwards on top.
    """
    bare = first_order(solved(ONE_POST, (), TILT, WHOLE_WIND, 60 * MPH))
    now = guyed()
    case = at(now, "D + W, front, A")
    pulls = {line.name: line.pull[case] for line in fitted_guys(now)}
    assert set(pulls) == {f"guy, {d} {s}" for d in ("front", "back") for s in ("left", "right")}
    windward = pulls["guy, front left"] + pulls["guy, front right"]
    leeward = pulls["guy, back left"] + pulls["guy, back right"]
    alone, helped = at_grade(bare, 0), at_grade(now, 0)
    level = (windward - leeward) * cos(SLOPE) * OUT / hypot(OUT, OUT)
    assert level > 0
    assert abs(alone.shear[case] - level) == pytest.approx(helped.shear[case], rel=1e-6)
    down = (windward + leeward) * sin(SLOPE)
    assert helped.down[case] == pytest.approx(alone.down[case] + down, rel=1e-9)
    lift = RISE * INCH * level
    assert abs(alone.moment[case] - lift) == pytest.approx(helped.moment[case], rel=1e-6)


def test_slope_and_still_air_pull() -> None:
    now = guyed(pretension="middle", guys="middle")
    assert now.block.band[1] == pytest.approx(250 * POUND, rel=1e-9)
    for line in fitted_guys(now):
        assert line.slope == pytest.approx(SLOPE, rel=1e-9)


def test_a_guy_holds_more_as_the_rack_sways_into_it() -> None:
    """Stretch times E A / L of the sway by which the rack grows, from the frame's own movement."""
    now = solved(ONE_POST, ("guys",), TILT, WHOLE_WIND, 60 * MPH)
    plain = first_order(now)
    model, slackness = now.block.frame.ideal.model, now.block.response.slackness
    moved = now.grown.displacements - plain.grown.displacements
    for i, (line, was) in enumerate(zip(fitted_guys(now), fitted_guys(plain), strict=True)):
        guy = model.guys[i]
        hook = np.array(model.nodes[guy.node].xyz) + guy.setback
        away = (hook - guy.anchor) / np.linalg.norm(hook - guy.anchor)
        hooks = moved[:, guy.node, :3] + np.cross(moved[:, guy.node, 3:], guy.setback)
        taut = was.pull > 0
        grown = np.maximum(was.pull + hooks @ away / slackness[i], 0.0)
        assert line.pull[taut] == pytest.approx(grown[taut], rel=1e-6, abs=1e-3)
        assert not line.pull[~taut].any()
    assert any((line.pull > now.block.band[1][0]).any() for line in fitted_guys(now))


def test_wire_and_fitting_by_hand() -> None:
    """1/4 in EHS breaks at 6650 lb (ASTM A475), clips on strand pass on 0.6 of it at most, safety
    factor 3; a 3/8 in hook turnbuckle works at 1000 lb (FF-T-791).
    """
    now = guyed()
    found = {c.name: c for part, c in guy_checks(now) if part == "guy, front left"}
    assert found["guy wire"].allowable == pytest.approx(6650 * 0.6 / 3 * POUND, rel=1e-6)
    assert found["guy hardware"].allowable == pytest.approx(1000 * POUND, rel=1e-6)
    assert found["guy hardware"].nominal == pytest.approx(3000 * POUND, rel=1e-6)


def test_wire_without_a_mark_keeps_a_quarter() -> None:
    """1900 lb of 1/4 in common strand (ASTM A475, from memory), 0.6 of it past the clips, safety
    factor 4: a third more than of marked wire (judgement).
    """
    now = guyed(with_guys(wire=wires.find("1/4 in unmarked cable")))
    check = next(c for _, c in guy_checks(now) if c.name == "guy wire")
    assert check.allowable == pytest.approx(1900 * 0.6 / 4 * POUND, rel=1e-6)
    assert check.nominal == pytest.approx(1900 * 0.6 * POUND, rel=1e-6)


def test_no_fitting_no_check() -> None:
    names = {c.name for _, c in guy_checks(guyed(with_guys(fitting=NO_FITTING)))}
    assert names == {"guy wire"}


def test_an_eye_bolt_pulled_at_a_slant_keeps_a_quarter() -> None:
    """Slope 36 deg: 15 to 45 deg off its axis leaves a quarter (ASME B30.26 practice)."""
    now = guyed(with_guys(fitting="eye bolt, forged", fitting_size=0.0127))
    check = next(c for _, c in guy_checks(now) if c.name == "guy hardware")
    assert check.allowable == pytest.approx(2200 * POUND / 4, rel=1e-6)
    # Unmarked goods are taken to break at three times what they are listed for (judgement).
    assert check.nominal == pytest.approx(3 * 2200 * POUND / 4, rel=1e-6)


@pytest.mark.parametrize("termination", ["helical grip", "forged clips", "cast clips"])
def test_every_step_can_be_worked_out_again(termination: str) -> None:
    rack = with_guys(termination=termination, wire=wires.find("3/16 in 7x19 rope"))
    now = solved(rack, ("guys",), TILT, ASD, 80 * MPH)
    for _, check in guy_checks(now):
        use = np.broadcast_to(check.utilisation, now.case.shape)
        assert_steps(pick(check, int(use.argmax()), len(now.case)))


@pytest.mark.parametrize("soil", ["soft", "stiff"])
def test_a_thicker_wire_never_raises_the_use_of_the_wire(soil: str) -> None:
    last = np.inf
    for size in ("3/16", "1/4", "5/16", "3/8"):
        rack = with_guys(wire=wires.find(f"{size} in EHS strand"))
        now = guyed(rack, 90 * MPH, soil=soil)
        use = max(float(c.utilisation.max()) for _, c in guy_checks(now) if c.name == "guy wire")
        assert use < last
        last = use


def test_a_bare_rack_has_no_guys_to_check() -> None:
    bare = solved(ONE_POST, (), TILT, WHOLE_WIND, 60 * MPH)
    assert list(fitted_guys(bare)) == []
    assert list(guy_checks(bare)) == []
