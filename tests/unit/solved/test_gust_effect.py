"""The code's wind on racks that sway under and over 1 Hz, against ASCE/SEI 7-22 26.11 by hand."""

from dataclasses import dataclass
from math import exp, log, pi, sin, sqrt

import numpy as np
import pytest

from frame.bracing.shaking import shaking
from frame.idealize.posts import beam_mark
from frame.named.limit_state import LimitState
from frame.parts.ground.posts import ground_checks
from frame.parts.rails.clamps import clamp_checks
from frame.parts.rails.local_rails import local_rail_checks
from frame.plan.standing import FirstOrder
from frame.rack.rack import Rack
from frame.search.weakest import lowest_limit
from frame.solved.blocks import Block
from frame.solved.situation import blown, fixed, windy, wintry
from tests.builders import (
    DEGREE,
    FOOT,
    INCH,
    MPH,
    blocks_of,
    by_no_checks_but,
    case_blocks,
    changed,
    models_of,
)

G = 9.80665  # BIPM, The International System of Units, 9th ed., appendix 4
TILT = 30 * DEGREE
WEIGHT = '"47 lb"'


def hay_barn(weight: str = WEIGHT, *swaps: tuple[str, str], more: str = "") -> Rack:
    """The hay barn's rack, slow on soft ground, with panels of another weight."""
    return changed("hay_barn", (WEIGHT, weight), *swaps, more=more)


def soft(rack: Rack, bracing: tuple[str, ...] = ()) -> Block:
    """At 30 deg on soft ground, guys soft."""
    return blocks_of(rack, bracing, [TILT])[0]


@dataclass(frozen=True, kw_only=True)
class Rigid(FirstOrder):
    """A block at first order that is taken for rigid, however slow."""

    @property
    def gust_effect(self) -> float:
        return 0.85


@dataclass(frozen=True, kw_only=True)
class Flexible(FirstOrder):
    """The same, with the factor of its own."""


def as_kind(kind: type[Block], block: Block) -> Block:
    return kind(frame=block.frame, bracing=block.bracing, state=block.state)


def by_hand(rate: float, h: float, B: float, L: float, beta: float, V: float) -> float:
    """Gf of 26.11.5 in feet and miles an hour, exposure C (from memory of the standard)."""
    z = max(0.6 * h, 15)
    wind = 0.66 * (z / 33) ** (1 / 6.4) * 88 / 60 * V
    Lz, Iz = 500 * (z / 33) ** (1 / 5), 0.20 * (33 / z) ** (1 / 6)
    N = rate * Lz / wind

    def R(eta: float) -> float:
        return 1 / eta - (1 - exp(-2 * eta)) / (2 * eta**2)

    Rn = 7.47 * N / (1 + 10.3 * N) ** (5 / 3)
    Rh, RB, RL = (R(c * rate * d / wind) for c, d in ((4.6, h), (4.6, B), (15.4, L)))
    R2 = Rn * Rh * RB * (0.53 + 0.47 * RL) / beta
    gR = sqrt(2 * log(3600 * rate)) + 0.577 / sqrt(2 * log(3600 * rate))
    Q2 = 1 / (1 + 0.63 * ((B + h) / Lz) ** 0.63)
    peak = sqrt(3.4**2 * Q2 + gR**2 * R2)
    return 0.925 * (1 + 1.7 * Iz * peak) / (1 + 1.7 * 3.4 * Iz)


@pytest.mark.parametrize("pounds", [47, 80])
def test_a_mass_on_a_post(pounds: int) -> None:
    """Sway across the beam as of one mass at the beam, on the post's give under a level push.

    Panels, rails and beam all go along; of the post a quarter does (Rayleigh, 33/140). Damped by
    1 % and by the air, rho CN A sin(tilt) V / (2 m omega), CN 1.5 (Fig. 27.3-4, least mean).
    """
    block = soft(hay_barn(f'"{pounds} lb"'))
    response, ideal = block.frame.response, block.frame.ideal
    at = ideal.marks[beam_mark(block.rack, 0)]
    give = response.displacements[response.model.load_index["push across"], at, 1]
    xyz = np.array([n.xyz for n in ideal.model.nodes])
    mass, high = (
        block.frame.free_sway.node_mass[:, 0, 0],
        xyz[:, 2] > block.rack.posts.height - 0.9,
    )
    moving = mass[high].sum() + 33 / 140 * mass[~high & (xyz[:, 2] > 0)].sum()
    rate = 1 / (2 * pi * sqrt(give * moving))
    # Panels of 40 x 62 in, 4 by 2, half an inch apart.
    area, B, slope = 8 * 40 * 62 * INCH**2, 4 * 40 + 3 * 0.5, 2 * 62 + 0.5
    V = 0.66 * (4.57 / 10) ** 0.156 * 100 * MPH
    air = 1.226 * 1.5 * area * sin(TILT) * V / (2 * moving * 2 * pi * rate)
    h, wide, deep = block.frame.free_sway.outlines()[0].height / FOOT, B / 12, slope * 0.866 / 12
    both = (by_hand(rate, h, b, d, 0.01 + air, 100) for b, d in ((wide, deep), (deep, wide)))
    assert block.gust_effect == pytest.approx(max(both), rel=0.025)


def test_the_slower_the_more() -> None:
    found = [soft(hay_barn(f'"{w} lb"')).gust_effect for w in (34, 40, 47, 60, 80, 110)]
    assert found == sorted(found)
    assert 0.95 < found[0] < found[-1] < 1.1


def test_nothing_changes_just_above_1_hz() -> None:
    lowest = {}
    for pounds, counted in ((29, False), (32, True)):
        block = soft(hay_barn(f'"{pounds} lb"'))
        lowest[pounds] = block.frame.free_sway.body.frequencies([], np.zeros(0), 1)[0]
        now = windy(block, 40.0)
        as_standard = now.table.at(block.frame.pressure(40.0))
        assert (block.gust_effect > 0.85) is counted
        assert np.array_equal(now.factors, as_standard) is not counted
    assert 1.0 < lowest[29] < 1.03
    assert 0.97 < lowest[32] < 1.0


@pytest.mark.parametrize("name", ["boat_shed", "orchard_wall"])
def test_quick_racks_keep_the_factor_of_the_standard(name: str) -> None:
    blocks = case_blocks(name)
    assert {b.gust_effect for b in blocks} == {0.85}
    assert shaking(blocks).gust_effect is None


def test_guys_that_the_map_gust_leaves_taut_hold_a_slow_rack() -> None:
    """From the beam's ends they hold sway and swing, of which one pair is taut in any wind."""
    ends = ('from = "post top"', 'from = "beam ends"')
    held = blocks_of(hay_barn(WEIGHT, ends), ("guys",), [TILT])[1]
    assert (held.state.soil, held.state.guys) == ("soft", "stiff")
    assert not held.frame.free_sway.quick
    assert held.gust_effect == 0.85
    # From the post's top they leave the swing as slow as it is, and one of them taut in some wind.
    bare, top = soft(hay_barn()), soft(hay_barn(), ("guys",))
    assert 0.85 < top.gust_effect < 1.01 * bare.gust_effect


def test_what_is_told_is_what_is_counted() -> None:
    blocks = blocks_of(hay_barn())
    assert shaking(blocks).gust_effect == max(b.gust_effect for b in blocks)
    # Stiff ground holds the same rack quicker than 1 Hz.
    assert {b.gust_effect for b in blocks if b.state.soil == "stiff"} == {0.85}


def test_wind_alone_lets_the_limit_fall_by_the_root() -> None:
    """Turning in the ground is by wind alone; where nothing sways further, in its proportion."""
    block = soft(hay_barn())
    with by_no_checks_but(ground_turning):
        rigid, flexible = (lowest_limit([as_kind(k, block)]).gust for k in (Rigid, Flexible))
    assert np.isfinite(rigid)
    assert flexible == pytest.approx(rigid * sqrt(0.85 / block.gust_effect), rel=1e-5)


def ground_turning(now):
    """The post turning in the ground, alone."""
    return ((part, c) for part, c in ground_checks(now) if c.name is LimitState.POST_TURNING)


def test_local_gusts_and_the_least_pressure_stay() -> None:
    block = soft(hay_barn())
    rigid, flexible = (as_kind(kind, block) for kind in (Rigid, Flexible))
    for checker in (clamp_checks, local_rail_checks):
        for (_, a), (_, b) in zip(
            checker(windy(rigid, 40.0)), checker(windy(flexible, 40.0)), strict=True
        ):
            assert np.array_equal(a.utilisation, b.utilisation)
    assert np.array_equal(fixed(rigid).factors, fixed(flexible).factors)


def test_the_median_model_stays() -> None:
    (median,) = (b for b in models_of(hay_barn(), (), [TILT]) if b.median)
    assert median.gust_effect == 0.85


def test_wind_with_snow_and_with_ice_takes_it_too() -> None:
    more = ('map_gust = "100 mph"', 'map_gust = "100 mph"\nsnow = "20 psf"\nice = "1/2 in"')
    block = soft(hay_barn(WEIGHT, more))
    assert len(wintry(block)) == 2
    for now in (*wintry(block), blown(block, 30.0)):
        factor = now.per_pressure[now.per_pressure != 0]
        plain = now.table.per_pressure[now.case]
        assert factor == pytest.approx(plain[plain != 0] * block.gust_effect / 0.85)


def test_a_given_pressure_has_its_own() -> None:
    more = ('map_gust = "100 mph"', 'map_gust = "100 mph"\npressure = "25 psf"')
    assert soft(hay_barn(WEIGHT, more)).gust_effect == 0.85
