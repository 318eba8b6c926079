"""Snow, worker, ice: shares, combinations, limits."""

import math

import numpy as np
import pytest

from frame.loads.cases import DEAD, case_table, wind_cases
from frame.loads.combinations import ASD, ASD_ICE, ASD_SNOW, ASD_WORKER, WEIGHT_ONLY
from frame.loads.ice import design_thickness, ice_weight
from frame.loads.snow import roof_snow, slope_factor, snow_cases
from frame.loads.worker import worker_cases

SNOW = tuple(f"snow, {h} {s}" for h in ("lower", "upper") for s in ("left", "right"))
PANELS = tuple(f"panels, {h} {s}" for h in ("lower", "upper") for s in ("left", "right"))
OTHERS = ("strip 1 from left", "strip 1 from right", "drag across", "drag along")
WORKER = ("worker, beam end, left", "worker, beam end, right")
NAMES = (*DEAD, *PANELS, *OTHERS, *SNOW, *WORKER)


def test_snow_slid_down_keeps_its_weight() -> None:
    whole, slid, left, right = (dict(c.factors) for c in snow_cases(1000.0))
    assert sum(whole.values()) == sum(slid.values()) == 4000
    assert all("lower" in name for name in slid)
    assert sum(left.values()) == sum(right.values()) == 2000


def test_snow_stays_on_gentle_slopes_and_falls_off_steep_ones() -> None:
    tilts = np.radians([0, 15, 45, 70, 80])
    np.testing.assert_allclose(slope_factor(tilts), [1, 1, 1, 0, 0], atol=1e-12)
    np.testing.assert_allclose(slope_factor(tilts, slides=True), [1, 1, 5 / 11, 0, 0], atol=1e-12)


def test_low_slope_has_its_least_snow() -> None:
    # pg = 20 psf: 0.7 x 1.0 x 1.2 x 20 = 16.8 psf, but at least 20 under 15 deg.
    psf = 47.880259
    assert roof_snow(20 * psf, 0.1) / psf == pytest.approx(20, rel=1e-6)
    assert roof_snow(20 * psf, math.radians(20)) / psf == pytest.approx(16.8, rel=1e-6)
    # 7.3.3: of pg no more than 30 psf; 0.84 x 33 = 27.7 is less. From 15 deg on, Eq. 7.4-1 alone.
    assert roof_snow(33 * psf, 0.1) / psf == pytest.approx(30, rel=1e-6)
    assert roof_snow(20 * psf, math.radians(14.9)) / psf == pytest.approx(20, rel=1e-6)
    assert roof_snow(20 * psf, math.radians(15.1)) / psf == pytest.approx(16.8, rel=1e-6)


def test_combinations_with_other_actions() -> None:
    # ASCE/SEI 7-22 2.4.1: 3. D + 0.7S (strength-level snow), 6. D + 0.75(0.6W) + 0.75(0.7S).
    actions = (*snow_cases(1000.0), *worker_cases(["beam end, left", "beam end, right"]))
    winds = wind_cases(0.5, ("clear",), 1)
    table = case_table(
        (WEIGHT_ONLY, *ASD, *ASD_SNOW, *ASD_WORKER, *ASD_ICE), winds, NAMES, actions
    )
    assert len(table.labels) == 1 + 16 + 16 + 4 + 16 * 4 + 2 == len(set(table.labels))
    rows = {
        label: dict(zip(NAMES, table.at(0.0)[i], strict=True))
        for i, label in enumerate(table.labels)
    }
    assert rows["D + 0.7S, snow slid down"]["snow, lower left"] == pytest.approx(1400)
    both = rows["D + 0.75(0.6W) + 0.75(0.7S), back, A, snow"]
    assert both["snow, upper right"] == pytest.approx(525)
    assert both["panels, lower left"] == 0
    assert rows["D + Lr, worker, beam end, left"]["worker, beam end, left"] == pytest.approx(
        1334.47, abs=0.01
    )  # 300 lb
    assert "a worker's weight on the beam end left (weight and a worker)" in table.words


@pytest.mark.parametrize(
    ("height", "hill", "by_hand"),
    [(3.0, 1.0, 0.8866), (275.0, 1.0, 1.3929), (400.0, 1.0, 1.3929), (10.0, 1.5, 1.1525)],
)
def test_ice_by_the_standards_powers(height: float, hill: float, by_hand: float) -> None:
    # ASCE/SEI 7-22 Eq. 10.4-4 and 10.4-5 (from memory): 0.3^0.1, 27.5^0.1 and no more, 1.5^0.35.
    assert design_thickness(0.01, height, hill) == pytest.approx(0.01 * by_hand, rel=1e-4)


def test_ice_grows_with_height_and_hill() -> None:
    assert design_thickness(0.01, 10.0) == pytest.approx(0.01)
    assert design_thickness(0.01, 3.0) < 0.01 < design_thickness(0.01, 10.0, 1.5)


def test_ice_on_a_wire_by_summing_rings() -> None:
    # Weight of 2000 thin rings of ice round a wire; 56 lb/ft3 = 8797 N/m3.
    radius, thickness = 0.004, 0.0127
    edges = np.linspace(radius, radius + thickness, 2001)
    rings = 2 * np.pi * (edges[1:] + edges[:-1]) / 2 * np.diff(edges)
    assert ice_weight(2 * radius, thickness) == pytest.approx(8796.7 * rings.sum(), rel=1e-4)
