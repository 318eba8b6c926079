"""The chain from gust to force: by hand from the printed factors, and against the solved frame."""

import math
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from frame.casefile.read import parse_rack, read_rack
from frame.idealize.state import SOFT
from frame.loads.cases import QUARTER_LOADS
from frame.rack.rack import Rack
from frame.report.data.wind_data import wind_data
from frame.solved.frames import solve_frames
from frame.verdict.wind_forces import wind_forces

RACKS = Path(__file__).parents[2] / "racks"
TWO_POSTS = RACKS / "two_posts.toml"


@pytest.fixture(scope="module")
def two_posts() -> Rack:
    return read_rack(TWO_POSTS)


def test_factors_and_forces_by_hand() -> None:
    """One post, 30 deg, exposure C, open country: ASCE/SEI 7-22 in its US units.

    q = 0.00256 Kz Kzt Ke V2 [psf, mph] (Eq. 26.10-1), Kz 0.85 to 15 ft (Table 26.10-1), Ke of
    1,000 ft 0.96 (rounded, Table 26.9-1), Kd 0.85, G 0.85; CN 2.1 on both halves for the wind on
    the low edge at 30 deg, case A, clear (Fig. 27.3-4): all from memory of the standard.
    """
    file = (
        'name = "x"\ntilts = ["30 deg"]\n[site]\nmap_gust = "100 mph"\nelevation = "1000 ft"\n'
        '[panels]\nacross = 4\nup = 1\nsize = "40 in x 66 in"\nweight = "45 lb"\ngap = "1/2 in"\n'
        '[post]\npipe = "4 in nominal"\nheight = "6 ft"\ndepth = "5 ft"\n'
        '[beam]\npipe = "3 in nominal"\nlength = "13 ft"\n'
    )
    one = wind_forces(parse_rack(file, "by hand"))[0]
    q = 0.00256 * 0.85 * 0.96 * 100**2
    area = 4 * 40 * 66 / 144
    force = q * 0.85 * 0.85 * 2.1 * area
    front = one.forces[0]
    assert one.pressure / 47.880 == pytest.approx(q, rel=0.01)
    assert (front.low, front.high) == pytest.approx((2.1, 2.1))
    assert front.square / 4.44822 == pytest.approx(force, rel=0.01)
    assert front.at_grade / 1.355818 == pytest.approx(force * 0.5 * 6, rel=0.01)
    off = 0.2 * (4 * 40 + 3 * 0.5) / 12
    assert front.swing / 1.355818 == pytest.approx(force * 0.5 * off, rel=0.01)


def test_the_moment_of_wind_in_free_air_is_told() -> None:
    """From behind, case B at 30 deg, air free below: CN -0.5 on the low half, -2.5 on the high.

    Fig. 27.3-4 (from memory of the standard). It lifts less than with the air blocked, but farther
    off the middle, so it asks most of the post at grade: by hand from the table as printed.
    """
    text = TWO_POSTS.read_text().replace('flow = "obstructed"', 'flow = "both"')
    text = text.replace('tilts = ["20 deg", "40 deg"]', 'tilts = ["30 deg"]')
    rack = parse_rack(text, "free air")
    (chain,) = wind_forces(rack)
    assert len(chain.forces) == 8, "front and back, cases A and B, free and blocked"
    free, blocked = (f for f in chain.forces if (f.wind.direction, f.wind.case) == ("back", "B"))
    assert (free.low, free.high) == pytest.approx((-0.5, -2.5))
    assert abs(free.square) < abs(blocked.square)
    assert max(chain.forces, key=lambda f: abs(f.at_grade)) is free
    pushed = chain.pressure * 0.85 * 0.85 * rack.panels.area
    about = pushed * (-0.5 + 2.5) / 2 * rack.panels.chord / 4
    assert free.about_beam == pytest.approx(about)
    level = pushed * (-0.5 - 2.5) / 2 * math.sin(math.radians(30))
    assert free.at_grade == pytest.approx(level * rack.posts.height - about)


@pytest.mark.parametrize("at", [0, 1])
def test_the_solved_frame_meets_the_same_forces(two_posts: Rack, at: int) -> None:
    """Reactions balance the panels' forces (statics), moments about grade under the beam."""
    tilt = two_posts.tilts[at]
    response = solve_frames(two_posts, ((),), (tilt,))[(), tilt, SOFT].response
    chain = wind_forces(two_posts)[at]
    for one in chain.forces:
        factors = dict(one.wind.coefficients)
        force, moment = np.zeros(3), np.zeros(3)
        for name in QUARTER_LOADS:
            reaction = response.reactions[response.model.load_index[name]]
            places = np.array([response.model.nodes[s.node].xyz for s in response.model.supports])
            share = factors[name] * chain.pressure
            force -= share * reaction[:, :3].sum(axis=0)
            about = reaction[:, 3:] + np.cross(places, reaction[:, :3])
            moment -= share * about.sum(axis=0)
        assert force[1] == pytest.approx(one.level, rel=1e-6)
        assert -force[2] == pytest.approx(one.down, rel=1e-6)
        assert -moment[0] == pytest.approx(one.at_grade, rel=1e-6, abs=1.0)


def test_the_hardest_wind_of_either_sense_is_the_pressure_given() -> None:
    """F = p A, at either tilt."""
    text = TWO_POSTS.read_text().replace("[site]", '[site]\npressure = "1.4 kPa"')
    text = text.replace('flow = "obstructed"', 'flow = "both"')
    area = 5 * 1.05 * 2.05
    for chain in wind_forces(parse_rack(text, "given")):
        square = [f.square for f in chain.forces]
        assert (max(square), min(square)) == pytest.approx((1400 * area, -1400 * area))


def test_data_is_plain_and_in_si(two_posts: Rack) -> None:
    quick, slow = (SimpleNamespace(gust_effect=g) for g in (0.85, 0.97))
    told = wind_data(two_posts, (quick,))
    assert told[0]["gust_effect_slow"] is None
    assert wind_data(two_posts, (quick, slow))[1]["gust_effect_slow"] == 0.97
    assert wind_data(two_posts, (quick, slow))[1]["gust_effect"] == 0.85
    assert [round(t["tilt_deg"]) for t in told] == [20, 40]
    first = told[0]["forces"][0]
    assert first["level"] == pytest.approx(first["square"] * math.sin(math.radians(20)))
