"""Strand, steel, channel, soil and thread tables against second readings and other routes."""

import math

import pytest

from frame.tables import bolts, channels, soils, steels, wires

INCH, LB, KSI, PSF, FT = 0.0254, 4.4482216, 6894757.3, 47.880259, 0.3048
G = 9.80665

# Second readings of ASTM A475 in metric lists: kilograms of breaking force (1/4 and 3/8 high
# strength), kilonewtons (A475 SI column, from memory of the standard), GO 95 rule 56.2's 3,200 lb.
A475 = [
    ("1/4 in high strength strand", 2154 * G),
    ("3/8 in high strength strand", 4898 * G),
    ("3/16 in EHS strand", 17.75e3),
    ("1/4 in EHS strand", 29.58e3),
    ("5/16 in EHS strand", 49.82e3),
    ("3/8 in EHS strand", 68.50e3),
    ("1/2 in EHS strand", 119.66e3),
    ("5/16 in common strand", 3200 * LB),
    ("5/16 in Siemens-Martin strand", 23.80e3),
    ("5/16 in high strength strand", 35.59e3),
]
# ASTM A475: diameter of each of the seven wires, inches.
A475_WIRES = [
    ("1/8", 0.041), ("3/16", 0.062), ("7/32", 0.072), ("1/4", 0.080), ("9/32", 0.093),
    ("5/16", 0.104), ("3/8", 0.120), ("7/16", 0.145), ("1/2", 0.165),
]  # fmt: skip
# Yield and tensile strength in MPa as printed beside the ksi values in the ASTM and API standards.
STEELS_MPA = [
    ("A53 B", 240, 415), ("A53 A", 205, 330), ("A500 B round", 290, 400),
    ("A500 C round", 315, 425),
    ("API 5L B", 241, 414), ("H-40", 276, 414), ("J-55", 379, 517), ("K-55", 379, 655),
    ("L-80", 552, 655), ("N-80", 552, 689), ("A36", 250, 400),
]  # fmt: skip
# IBC 2021 Table 1806.2, as printed: vertical psf, lateral psf/ft, friction, cohesion psf.
IBC = [
    ("bedrock", 1, 12000, 1200, 0.70, 0),
    ("sedimentary rock", 2, 4000, 400, 0.35, 0),
    ("sandy gravel", 3, 3000, 200, 0.35, 0),
    ("sand", 4, 2000, 150, 0.25, 0),
    ("clay", 5, 1500, 100, 0, 130),
]


@pytest.mark.parametrize(("name", "newtons"), A475)
def test_strand_breaking_strength_has_a_second_reading(name: str, newtons: float) -> None:
    assert wires.find(name).breaking == pytest.approx(newtons, rel=0.003)


@pytest.mark.parametrize(("size", "wire"), A475_WIRES)
def test_strand_is_seven_wires(size: str, wire: float) -> None:
    strand = wires.find(f"{size} in EHS strand")
    assert strand.area / INCH**2 == pytest.approx(7 * math.pi / 4 * wire**2, rel=0.006)


def test_strand_area_and_weight_in_metric_lists() -> None:
    """22.65 and 51.08 mm2, 0.407 kg/m: metric lists of galvanized strand, from memory."""
    quarter, three_eighths = (wires.find(f"{s} in EHS strand") for s in ("1/4", "3/8"))
    assert quarter.area * 1e6 == pytest.approx(22.65, rel=0.005)
    assert three_eighths.area * 1e6 == pytest.approx(51.08, rel=0.005)
    assert three_eighths.weight / G == pytest.approx(0.407, rel=0.005)


def test_strand_modulus_brackets_both_published_ones() -> None:
    """Initial 147.1 and final 156.9 GPa of 1x7 strand, conductor and messenger wire data."""
    strand = wires.find("1/4 in EHS strand")
    assert strand.E_low < 147.1e9
    assert strand.E_high > 156.9e9


@pytest.mark.parametrize("size", [size for size, _ in A475_WIRES])
def test_strand_grades_are_in_order(size: str) -> None:
    grades = ("common", "Siemens-Martin", "high strength", "EHS")
    breaking = [wires.find(f"{size} in {grade} strand").breaking for grade in grades]
    assert breaking == sorted(set(breaking))


@pytest.mark.parametrize(("name", "fy", "fu"), STEELS_MPA)
def test_steel_in_the_metric_values_of_its_standard(name: str, fy: float, fu: float) -> None:
    """The standards round to 5 MPa."""
    steel = steels.find(name)
    assert (steel.fy / 1e6, steel.fu / 1e6) == pytest.approx((fy, fu), abs=5)


def test_steel_as_a_material() -> None:
    """EN 1993-1-1 3.2.6: E 210, G 81 GPa, alpha 12e-6; AISC is 5 % softer, 7850 kg/m3 both."""
    steel = steels.material()
    assert pytest.approx(200e9, rel=0.001) == steel.E
    assert pytest.approx(steel.G, rel=0.01) == steel.E / (2 * (1 + 0.3))
    assert steel.unit_weight == pytest.approx(7850 * G, rel=0.002)
    assert steel.alpha == pytest.approx(12e-6, rel=0.03)


def sharp_cornered_channel(wall: float, depth: float) -> tuple[float, float, float]:
    """Area, I1 and I2 [in] of a sharp-cornered strut channel, summed over its rectangles.

    Outline of MFMA-4: 1-5/8 in wide, lips 3/8 in, their edges turned in 9/32 in from the face.
    """
    width, lip, turn = 1.625, 0.375, 0.28125
    parts = [  # breadth, height, x and y of the centre
        (width, wall, 0.0, wall / 2),
        *((wall, depth - wall, side * (width - wall) / 2, (depth + wall) / 2) for side in (-1, 1)),
        *(
            (lip - wall, wall, side * (width - lip - wall) / 2, depth - wall / 2)
            for side in (-1, 1)
        ),
        *(
            (wall, turn - wall, side * (width / 2 - lip + wall / 2), depth - (turn + wall) / 2)
            for side in (-1, 1)
        ),
    ]
    area = sum(b * h for b, h, _, _ in parts)
    middle = sum(b * h * y for b, h, _, y in parts) / area
    strong = sum(b * h**3 / 12 + b * h * (y - middle) ** 2 for b, h, _, y in parts)
    weak = sum(h * b**3 / 12 + b * h * x**2 for b, h, x, _ in parts)
    return area, strong, weak


@pytest.mark.parametrize(
    ("name", "wall", "depth"),
    [
        ("1-5/8 x 1-5/8 in 12 ga", 0.105, 1.625),
        ("1-5/8 x 1-5/8 in 14 ga", 0.075, 1.625),
        ("1-5/8 x 13/16 in 12 ga", 0.105, 0.8125),
        ("1-5/8 x 13/16 in 14 ga", 0.075, 0.8125),
    ],
)
def test_channel_is_a_little_less_than_its_sharp_cornered_outline(
    name: str, wall: float, depth: float
) -> None:
    """Bent corners take 3 to 20 % off; a listed value above the outline would be unsafe."""
    channel = channels.find(name)
    area, strong, weak = sharp_cornered_channel(wall, depth)
    assert 0.90 < channel.area / INCH**2 / area < 1.0
    assert 0.80 < channel.I1 / INCH**4 / strong < 1.0
    assert 0.85 < channel.I2 / INCH**4 / weak < 1.0


def test_channel_carries_the_trade_tables_uniform_load() -> None:
    """Trade beam tables: 1-5/8 in 12 ga, 24 in span, 1,690 lb in all at 25 ksi; not more here."""
    channel = channels.find("1-5/8 x 1-5/8 in 12 ga")
    load = 8 * channel.S1 * 25 * KSI / (24 * INCH) / LB
    assert 0.97 * 1690 < load <= 1690


@pytest.mark.parametrize(("name", "number", "vertical", "lateral", "friction", "cohesion"), IBC)
def test_soil_is_the_building_codes(
    name: str, number: int, vertical: float, lateral: float, friction: float, cohesion: float
) -> None:
    soil = soils.find(name)
    assert soil.ibc_class == number
    assert soil.vertical / PSF == pytest.approx(vertical)
    assert soil.lateral / PSF * FT == pytest.approx(lateral)
    assert soil.friction == friction
    assert soil.cohesion / PSF == pytest.approx(cohesion)


def test_sand_stiffness_brackets_the_published_ones() -> None:
    """n: FHWA-HI-97-013 Table 9-11, 1.1 to 17.6 MN/m3 in its metric column; medium wet 5.43."""
    sand = soils.find("sand")
    assert sand.stiffness_soft / 1e6 == pytest.approx(1.09, abs=0.02)
    assert sand.stiffness_soft < 5.43e6 < sand.stiffness_stiff
    assert sand.stiffness_stiff / 1e6 == pytest.approx(17.6, abs=0.1)


def test_clay_stiffness_is_davissons() -> None:
    """67 cu: 233 psi for cu 500 psf, 930 psi for 2,000 psf (Davisson 1970)."""
    clay = soils.find("clay")
    psi = KSI / 1000
    assert clay.stiffness_soft / psi == pytest.approx(233, rel=0.003)
    assert clay.stiffness_stiff / psi == pytest.approx(930, rel=0.003)


@pytest.mark.parametrize("thread", bolts.threads(), ids=lambda t: t.name)
def test_stress_area_by_the_formula_of_the_thread_standard(thread: bolts.Thread) -> None:
    """ASME B1.1: 0.7854 (d - 0.9743 / n)^2; ISO 898-1: 0.7854 (d - 0.9382 p)^2."""
    pitches = {"M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M16": 2.0, "M20": 2.5}
    if thread.name in pitches:
        core = thread.diameter * 1e3 - 0.9382 * pitches[thread.name]
        assert thread.stress_area * 1e6 == pytest.approx(0.7854 * core**2, rel=0.005)
    else:
        per_inch = int(thread.name.split()[0].rsplit("-", 1)[1])
        core = thread.diameter / INCH - 0.9743 / per_inch
        assert thread.stress_area / INCH**2 == pytest.approx(0.7854 * core**2, rel=0.005)


def test_set_screws_use_the_lower_chart() -> None:
    """Shigley Table 7-4, cup point, from memory: 1/2 in holds 3,000 lb; half is counted on."""
    screw = bolts.set_screw(0.5 * INCH)
    assert screw.hold_textbook / LB == pytest.approx(3000, rel=1e-6)
    assert screw.torque == pytest.approx(70.05, rel=1e-3)
    for one in bolts.set_screws():
        assert 0.3 * one.hold_textbook < one.hold < 0.55 * one.hold_textbook
