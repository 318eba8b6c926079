"""Anchors by kind, wet and dry, by hand and in their steps."""

from dataclasses import replace
from math import atan, cos, hypot, radians, sin

import numpy as np
import pytest

from frame.loads.cases import ASD
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK, SCREW, Anchor
from frame.study.governing import pick
from frame.study.parts.anchors import anchor_checks
from frame.study.parts.guys import guy_lines
from frame.tables import soils
from tests.step_check import assert_steps
from tests.unit.study.parts.racks import FOOT, INCH, MPH, ONE_POST, POUND, first_order, solved

TILT = radians(15)
SLOPE = atan(68 / hypot(66, 66))
ANCHORS = {
    DEADMAN: Anchor(depth=4 * FOOT, height=8 * INCH, length=3 * FOOT),
    BLOCK: Anchor(weight=600 * POUND, height=0.5, length=0.5),
    SCREW: Anchor(
        torque=200 * 0.3048 * POUND, shaft="round, to 2-7/8 in", depth=3 * FOOT, size=6 * INCH
    ),
    PICKETS: Anchor(holdfast="3-2-1"),
    ROCK: Anchor(size=2 * INCH, length=24 * INCH),
    "tested": Anchor(tested=3000 * POUND),
}


def now(
    kind: str, soil: str = "soft", ground: str = "clay", out: float = 66 * INCH, **hold: object
):
    known = replace(ANCHORS[kind], **hold)
    group = replace(
        ONE_POST.guys[0],
        anchor=SCREW if kind == "tested" else kind,
        hold=known,
        out=out,
        along=out,
    )
    site = replace(ONE_POST.site, soil=soils.find(ground))
    rack = replace(ONE_POST, guys=(group,), site=site)
    return first_order(solved(rack, ("guys",), TILT, ASD, 80 * MPH, soil=soil))


def allowable(*args: object, **more: object) -> float:
    (check, *_) = [c for _, c in anchor_checks(now(*args, **more))]
    return float(np.max(check.allowable)) / POUND


def test_deadman_by_hand() -> None:
    """TM 5-5420-278-10 Table 9 at 4 ft: 1750 psf at 1 in 1, 2200 at 2 in 1; 1.373 in 1 here.

    2 square feet of face, a factor of two; half of it in wet ground.
    """
    holding = 1750 + (1 / (68 / hypot(66, 66)) - 1) * (2200 - 1750)
    assert allowable(DEADMAN, "stiff") == pytest.approx(holding * 2 / 2, rel=2e-3)
    assert allowable(DEADMAN, "soft") == pytest.approx(holding * 2 / 4, rel=2e-3)
    assert allowable(DEADMAN, "stiff", "sand") == allowable(DEADMAN, "soft", "sand")


def test_screw_and_tested_by_hand() -> None:
    """Kt = 9 per ft (ICC-ES AC358): 200 ft lb hold 1800 lb; a tested pull counts over 1.5."""
    assert allowable(SCREW, "stiff") == pytest.approx(900, rel=1e-6)
    assert allowable(SCREW, "soft") == pytest.approx(450, rel=1e-6)
    assert allowable("tested", "stiff") == pytest.approx(2000, rel=1e-6)
    assert allowable("tested", "soft") == pytest.approx(1000, rel=1e-6)
    assert allowable("tested", "soft", tested_wet=True) == pytest.approx(2000, rel=1e-6)


def test_rock_by_hand() -> None:
    """100 psi over pi x 2 in x 24 in."""
    assert allowable(ROCK) == pytest.approx(100 * np.pi * 2 * 24, rel=1e-6)


@pytest.mark.parametrize(
    ("soil", "weight"), [("stiff", 600.0), ("soft", 600.0 * (1 - 62.4 / 145))]
)
def test_block_by_hand(soil: str, weight: float) -> None:
    """Statics: mu (0.6 W - V) resists H, with mu 0.25 on clay."""
    shed = now(BLOCK, soil)
    pull = next(guy_lines(shed)).pull
    sliding, tipping = [c for part, c in anchor_checks(shed) if part == "guy anchor, front left"]
    drag, lift = pull * cos(SLOPE), pull * sin(SLOPE)
    holds = drag <= 0.25 * (0.6 * weight * POUND - lift)
    assert (holds == (sliding.utilisation <= 1)).all()
    stands = drag * 0.5 + lift * 0.25 <= 0.6 * weight * POUND * 0.25
    assert (stands == (tipping.utilisation <= 1)).all()


def test_pickets_are_not_for_steep_guys() -> None:
    assert not np.any([c.covered for _, c in anchor_checks(now(PICKETS))])
    flat = [c for _, c in anchor_checks(now(PICKETS, out=3.0))]
    assert np.all([c.covered for c in flat])
    assert np.max(flat[0].nominal) == pytest.approx(2000 * POUND)


@pytest.mark.parametrize("kind", ANCHORS)
def test_every_step_can_be_worked_out_again(kind: str) -> None:
    shed = now(kind, out=3.0)
    found = list(anchor_checks(shed))
    assert {part for part, _ in found} == {
        f"guy anchor, {d} {s}" for d in ("front", "back") for s in ("left", "right")
    }
    for _, check in found:
        use = np.broadcast_to(check.utilisation, shed.case.shape)
        assert_steps(pick(check, int(use.argmax()), len(shed.case)))


@pytest.mark.parametrize("kind", ANCHORS)
def test_drier_ground_never_holds_less(kind: str) -> None:
    wet, dry = (list(anchor_checks(now(kind, s, out=3.0))) for s in ("soft", "stiff"))
    for (_, one), (_, other) in zip(wet, dry, strict=True):
        assert np.max(other.nominal) >= np.max(one.nominal)


def test_the_proof_pull_is_half_as_much_again_as_the_pull() -> None:
    """24 CFR 3285.402: tested to 1.5 times the working load; never less than the pretension's."""
    shed = now(DEADMAN)
    for line, (_, check) in zip(guy_lines(shed), anchor_checks(shed), strict=True):
        expected = 1.5 * np.maximum(line.pull, line.pretension)
        assert check.extra["proof_pull"] == pytest.approx(expected)
