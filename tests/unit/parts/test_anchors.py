"""Anchors by kind, wet and dry, by hand and in their steps."""

from dataclasses import replace
from math import atan, cos, hypot, radians, sin

import numpy as np
import pytest

from frame.checks.guys.deadman import Earth, Log, wedge
from frame.loads.combinations import ASD
from frame.parts.guys.anchor_ground import earth, middle_earth
from frame.parts.guys.anchors import anchor_checks
from frame.parts.guys.guys import fitted_guys
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK, SCREW, Anchor
from frame.search.governing import pick
from frame.solved.blocks import median_blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import at_gusts, whole_table
from frame.tables import soils
from frame.tables.expected import MEDIANS, Variant, variants
from frame.units import PCF, PSF
from tests.step_check import assert_steps
from tests.unit.parts.racks import FOOT, INCH, MPH, ONE_POST, POUND, first_order, solved

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


def median(kind: str, ground: str = "clay", out: float = 66 * INCH, **hold: object):
    """The same in the median model: each wind at the medians, then at either end of `anchor`."""
    rack = now(kind, ground=ground, out=out, **hold).rack
    one = median_blocks(solve_frames(rack, [("guys",)], [TILT]), ("guys",), [TILT])[0]
    table = whole_table(one)
    winds = np.arange(len(table.labels))
    ends = [MEDIANS, *(variants().index(Variant("anchor", high=h)) for h in (False, True))]
    return at_gusts(
        one,
        table,
        np.tile(winds, 3),
        np.full(3 * len(winds), 80 * MPH),
        np.repeat(ends, len(winds)),
    )


def strengths(*args: object, **more: object) -> list[float]:
    """Strength [lb] at the median, low and high."""
    there = median(*args, **more)
    check = next(iter(anchor_checks(there)))[1]
    found = np.broadcast_to(check.nominal, len(there.case)).reshape(3, -1)
    return [float(f.max()) / POUND for f in found]


def allowable(*args: object, **more: object) -> float:
    (check, *_) = [c for _, c in anchor_checks(now(*args, **more))]
    return float(np.max(check.allowable)) / POUND


def test_deadman_by_hand() -> None:
    """TM 5-5420-278-10 Table 9 at 4 ft: 1750 psf at 1 in 1, 2200 at 2 in 1; 1.373 in 1 here.

    2 square feet of face, a factor of two; half of it in wet ground. In wet sand, 55 pcf and 28
    deg, the wedge has less: level (2.770 - 0.361) 55 x 4.333^2 / 2 x 3 ft + 953 lb on its ends,
    4685 lb; up 403 lb of earth and 765 lb on its sides, 1168 lb; at 36.07 deg 1794 lb.
    """
    holding = 1750 + (1 / (68 / hypot(66, 66)) - 1) * (2200 - 1750)
    assert allowable(DEADMAN, "stiff") == pytest.approx(holding * 2 / 2, rel=2e-3)
    assert allowable(DEADMAN, "soft") == pytest.approx(holding * 2 / 4, rel=2e-3)
    assert allowable(DEADMAN, "stiff", "sand") == pytest.approx(holding * 2 / 4, rel=2e-3)
    assert allowable(DEADMAN, "soft", "sand") == pytest.approx(1794 / 2, rel=2e-3)


def test_screw_and_tested_by_hand() -> None:
    """Kt = 9 per ft (ICC-ES AC358): 200 ft lb hold 1800 lb; a tested pull counts over 1.5."""
    assert allowable(SCREW, "stiff") == pytest.approx(900, rel=1e-6)
    assert allowable(SCREW, "soft") == pytest.approx(450, rel=1e-6)
    assert allowable("tested", "stiff") == pytest.approx(2000, rel=1e-6)
    assert allowable("tested", "soft") == pytest.approx(1000, rel=1e-6)
    assert allowable("tested", "soft", tested_wet=True) == pytest.approx(2000, rel=1e-6)


def test_no_ground_before_a_log_counts_as_firmer_than_stiff_clay() -> None:
    """1000 to 2000 psf undrained (Terzaghi and Peck, from memory), whatever the rock holds."""
    rock = replace(soils.find("sedimentary rock"), cu_soft=5000 * PSF, cu_stiff=9000 * PSF)
    found = earth(rock, np.array([True, False]))
    assert np.asarray(found.cohesion) / PSF == pytest.approx([2000, 2000])
    assert middle_earth(replace(rock, cu_expected=7000 * PSF)).cohesion == 2000 * PSF
    clay = earth(soils.find("clay"), np.array([True, False]))
    assert np.asarray(clay.cohesion) / PSF == pytest.approx([500, 2000])


def test_rock_by_hand() -> None:
    """100 psi over pi x 2 in x 24 in."""
    assert allowable(ROCK) == pytest.approx(100 * np.pi * 2 * 24, rel=1e-6)


@pytest.mark.parametrize(
    ("soil", "weight"), [("stiff", 600.0), ("soft", 600.0 * (1 - 62.4 / 145))]
)
def test_block_by_hand(soil: str, weight: float) -> None:
    """Statics: mu (0.6 W - V) resists H, so V + H / mu uses 0.6 W; mu 0.25 on clay."""
    shed = now(BLOCK, soil)
    pull = next(fitted_guys(shed)).pull
    sliding, tipping = [c for part, c in anchor_checks(shed) if part == "guy anchor, front left"]
    drag, lift = pull * cos(SLOPE), pull * sin(SLOPE)
    use = (lift + drag / 0.25) / (0.6 * weight * POUND)
    assert sliding.utilisation == pytest.approx(use, rel=1e-3)
    use = (drag * 0.5 + lift * 0.25) / (0.6 * weight * POUND * 0.25)
    assert tipping.utilisation == pytest.approx(use, rel=1e-3)


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


def test_expected_screw_picket_tested_and_rock_by_hand() -> None:
    """Kt 9 per ft; 4000 lb for 3-2-1 in loam, half of it in sand, wet or dry (FM 5-125).

    Of a pull stood in dry ground 0.7 and a quarter more, never less than stood; the bond twice its
    allowable. Spread 0.5 to 1.8 about each.
    """
    assert strengths(SCREW) == pytest.approx([1800, 900, 3240], rel=1e-6)
    assert strengths(PICKETS, "sand", 3.0) == pytest.approx([2000, 1000, 3600], rel=1e-6)
    held = [3000 * 0.7 * f for f in (1.25, 1.0, 2.25)]
    assert strengths("tested") == pytest.approx(held, rel=1e-6)
    wet = [3000 * f for f in (1.25, 1.0, 2.25)]
    assert strengths("tested", tested_wet=True) == pytest.approx(wet, rel=1e-6)
    bond = 200 * np.pi * 2 * 24
    assert strengths(ROCK) == pytest.approx([bond, 0.5 * bond, 1.8 * bond], rel=1e-6)


def test_expected_log_by_hand() -> None:
    """Between the wedge in clay of 1000 psf and 77.5 pcf, and the table at 1.373 in 1."""
    holding = 1750 + (1 / (68 / hypot(66, 66)) - 1) * (2200 - 1750)
    log = Log(depth=4 * FOOT, height=8 * INCH, length=3 * FOOT)
    own = wedge(SLOPE, log, Earth(unit_weight=77.5 * PCF, cohesion=1000 * PSF))[0] / POUND
    middle = float(np.sqrt(own * holding * 2 * np.sqrt(0.5)))
    assert strengths(DEADMAN) == pytest.approx([middle, 0.5 * middle, 1.8 * middle], rel=2e-3)


def test_a_deep_or_long_log_is_worked_out() -> None:
    for more in ({"depth": 9 * FOOT}, {"depth": 2 * FOOT}, {"length": 8 * FOOT}):
        for soil in ("soft", "stiff"):
            check = next(iter(anchor_checks(now(DEADMAN, soil, **more))))[1]
            assert np.all(check.covered)
    assert allowable(DEADMAN, "stiff", length=8 * FOOT) >= allowable(DEADMAN, "stiff")
    assert allowable(DEADMAN, "stiff", depth=2 * FOOT) < allowable(DEADMAN, "stiff")


def test_expected_block_slides_on_its_friction_and_tips_by_its_weight() -> None:
    """mu 0.32 on clay, half and 1.8 times that; the whole of 600 lb."""
    there = median(BLOCK)
    sliding, tipping = [c for part, c in anchor_checks(there) if part.endswith("front left")]
    pull = next(fitted_guys(there)).pull
    mu = np.repeat([0.32, 0.16, 0.576], len(there.case) // 3)
    holds = pull * cos(SLOPE) <= mu * (600 * POUND - pull * sin(SLOPE))
    assert (holds == (sliding.let_go <= 1)).all()
    assert np.max(tipping.nominal) == pytest.approx(600 * POUND * 0.25)


@pytest.mark.parametrize("kind", ANCHORS)
def test_expected_strength_is_allowable_and_nominal_at_once_with_steps(kind: str) -> None:
    there = median(kind, out=3.0)
    for _, check in anchor_checks(there):
        assert np.array_equal(check.utilisation, check.let_go, equal_nan=True)
        assert check.kind == "breaks"
        for case in (0, len(there.case) - 1):
            assert_steps(pick(check, case, len(there.case)))


@pytest.mark.parametrize("kind", ANCHORS)
def test_expected_is_more_than_the_code_counts_on_in_wet_ground(kind: str) -> None:
    coded = next(iter(anchor_checks(now(kind, "soft", out=3.0))))[1]
    assert strengths(kind, out=3.0)[0] >= 0.999 * np.max(coded.nominal) / POUND
