"""Wind against numbers printed in ASCE/SEI 7 and national codes copied from it."""

import math

import pytest

from frame.loads import wind

FOOT, MPH, PSF = 0.3048, 0.44704, 47.880259


@pytest.mark.parametrize(
    ("exposure", "printed"),
    [
        ("B", {15: 0.57, 20: 0.62, 25: 0.66, 30: 0.70}),
        ("C", {15: 0.85, 20: 0.90, 25: 0.94, 30: 0.98}),
        ("D", {15: 1.03, 20: 1.08, 25: 1.12, 30: 1.16}),
    ],
)
def test_kz_table_26_10_1(exposure: str, printed: dict[int, float]) -> None:
    # ASCE/SEI 7-16 Table 26.10-1, two printed decimals; the profile of 2022 moved by up to 0.011.
    for feet, kz in printed.items():
        assert wind.exposure_factor(feet * FOOT, exposure) == pytest.approx(kz, abs=0.012)


def test_kz_is_constant_under_15_feet() -> None:
    assert wind.exposure_factor(0.5, "C") == wind.exposure_factor(4.5, "C")


@pytest.mark.parametrize(
    ("mph", "psf"), [(50, 5.43), (90, 17.60), (105, 23.96), (115, 28.74), (150, 48.90)]
)
def test_velocity_pressure_at_15_feet_exposure_c(mph: float, psf: float) -> None:
    # 0.00256 Kz V^2 with the printed Kz = 0.85 (ASCE/SEI 7-16 Eq. 26.10-1), worked in US units;
    # the profile itself gives 0.851 there, and the SI constant 0.613 adds 0.1 %.
    assert wind.velocity_pressure(mph * MPH, 15 * FOOT, "C") / PSF == pytest.approx(psf, rel=0.004)


@pytest.mark.parametrize(
    ("feet", "ke"), [(0, 1.00), (1000, 0.96), (2000, 0.93), (3000, 0.90), (6000, 0.80)]
)
def test_ground_elevation_table_26_9_1(feet: float, ke: float) -> None:
    # ASCE/SEI 7-22 Table 26.9-1 as printed.
    assert wind.elevation_factor(feet * FOOT) == pytest.approx(ke, abs=0.006)


@pytest.mark.parametrize(
    ("degrees", "direction", "case", "flow", "printed"),
    [
        (0, "back", "A", "clear", (1.2, 0.3)),
        (0, "front", "B", "obstructed", (-1.1, -0.6)),
        (7.5, "back", "A", "clear", (-0.6, -1.0)),
        (7.5, "front", "B", "obstructed", (0.8, -0.3)),
        (15, "back", "A", "clear", (-0.9, -1.3)),
        (22.5, "back", "B", "obstructed", (-2.3, -0.9)),
        (30, "front", "B", "clear", (2.6, 1.0)),
        (30, "back", "B", "clear", (-2.5, -0.5)),
        (45, "front", "A", "clear", (2.2, 2.5)),
        (45, "back", "B", "obstructed", (-1.9, -1.2)),
        (45, "front", "B", "obstructed", (2.1, 0.4)),
    ],
)
def test_monoslope_figure_27_3_4(
    degrees: float, direction: str, case: str, flow: str, printed: tuple[float, float]
) -> None:
    # ASCE/SEI 7-22 Fig. 27.3-4: corners of the table and cells where printings differ.
    found = wind.monoslope_coefficients(math.radians(degrees), direction, case, flow)
    assert found == pytest.approx(printed)


RESULTANTS = {  # direction, case: {tilt: (mean CN, couple / (q G L^2))}, worked apart by hand
    ("back", "A"): {7.5: (-0.80, 0.050), 22.5: (-1.55, 0.0125), 45: (-1.70, 0.025)},
    ("back", "B"): {7.5: (-0.70, -0.175), 15: (-0.95, -0.2375), 30: (-1.50, -0.250)},
    ("front", "A"): {15: (1.45, -0.0375), 37.5: (2.15, -0.0125), 45: (2.35, -0.0375)},
    ("front", "B"): {7.5: (0.95, 0.1625), 22.5: (1.45, 0.1875), 45: (2.00, 0.150)},
}


@pytest.mark.parametrize(("direction", "case"), RESULTANTS)
def test_resultant_and_couple_by_summing_strips(direction: str, case: str) -> None:
    # Sums 1000 strips of the chord; arm measured from mid-chord towards the windward edge.
    for degrees, (mean, couple) in RESULTANTS[direction, case].items():
        pair = wind.monoslope_coefficients(math.radians(degrees), direction, case, "clear")
        arms = [0.5 - (i + 0.5) / 1000 for i in range(1000)]
        loads = [pair[0] if arm > 0 else pair[1] for arm in arms]
        assert sum(loads) / 1000 == pytest.approx(mean, abs=1e-9)
        moment = sum(p * a for p, a in zip(loads, arms, strict=True)) / 1000
        assert moment == pytest.approx(couple, abs=1e-6)


def test_sign_of_the_figure_agrees_with_the_european_canopy_rule() -> None:
    # EN 1991-1-4 Table 7.6, 30 deg, from memory: overall cf down to -1.8 with nothing under the
    # canopy, on qp (gust in it); ASCE mean CN times G at 30 deg is within a fifth of it.
    mean = sum(wind.monoslope_coefficients(math.radians(30), "back", "A", "clear")) / 2
    assert mean * 0.85 == pytest.approx(-1.8, rel=0.2)


def test_along_beam_figure_27_3_7() -> None:
    assert wind.along_beam_coefficients("A", "clear") == (-0.8, -0.6, -0.3)
    assert wind.along_beam_coefficients("A", "obstructed") == (-1.2, -0.9, -0.6)
    assert wind.along_beam_coefficients("B", "clear") == (0.8, 0.5, 0.3)
    assert wind.along_beam_coefficients("B", "obstructed") == (0.5, 0.5, 0.3)


def test_rack_pipe_stays_on_the_rough_side_of_the_drag_table() -> None:
    # ASCE/SEI 7-22 Fig. 29.4-1: D sqrt(qz) <= 2.5 (ft, psf) gives Cf up to 1.2. 4-1/2 in pipe at
    # 25 psf: 0.375 x 5 = 1.9.
    assert 4.5 / 12 * math.sqrt(25) < 2.5
    assert wind.PIPE_DRAG == 1.2


@pytest.mark.parametrize(
    ("degrees", "zone", "area", "flow", "printed"),
    [
        (0, "corner", 0.5, "clear", (2.4, -3.3)),
        (15, "edge", 0.5, "clear", (2.7, -2.9)),
        (30, "corner", 0.5, "clear", (5.2, -5.0)),
        (30, "corner", 0.80, "clear", (5.2, -5.0)),
        (30, "corner", 0.82, "clear", (3.9, -3.8)),
        (30, "corner", 3.20, "clear", (3.9, -3.8)),
        (30, "corner", 3.30, "clear", (2.6, -2.5)),
        (30, "corner", 9.0, "clear", (2.6, -2.5)),
        (45, "interior", 0.5, "obstructed", (2.1, -1.9)),
    ],
)
def test_components_figure_30_5_1(
    degrees: float, zone: str, area: float, flow: str, printed: tuple[float, float]
) -> None:
    # ASCE/SEI 7-16 Fig. 30.7-1; a = 0.9 m: sizes change at 0.81 and 3.24 m2.
    found = wind.component_coefficients(math.radians(degrees), zone, area, 0.9, flow)
    assert found == pytest.approx(printed)
