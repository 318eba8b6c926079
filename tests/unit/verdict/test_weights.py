"""What weighs on a rack beside the wind: by hand, and against the solved frame."""

import math
from pathlib import Path

import pytest

from frame.casefile.read import parse_rack
from frame.idealize.state import SOFT
from frame.loads.snow import QUARTERS
from frame.rack.rack import Rack
from frame.report.data.wind_data import weights_data
from frame.solved.frames import solve_frames
from frame.verdict.weights import Lying, lying

PSF, LBF, INCH = 47.880, 4.44822, 0.0254
SNOWY = """
name = "snowy"
tilts = ["30 deg"]
[site]
map_gust = "100 mph"
snow = "25 psf"
ice = "1/2 in"
ice_gust = "40 mph"
[panels]
across = 3
up = 2
size = "40 in x 66 in"
gap = "0 in"
weight = "46 lb"
[post]
pipe = "5 in nominal"
height = "6 ft 4 in"
depth = "5 ft"
[beam]
pipe = "4 in nominal"
length = "10 ft"
"""


@pytest.fixture(scope="module")
def rack() -> Rack:
    return parse_rack(SNOWY, Path(__file__).name)


def of(rack: Rack, words: str) -> Lying:
    """The one load of so many words."""
    (found,) = (one for one in lying(rack) if one.words == words)
    return found


def test_snow_is_told_in_psf_and_in_all(rack: Rack) -> None:
    """ps = 0.7 Ce Ct Cs pg, ASCE/SEI 7-22 Eq. 7.3-1: 0.7 x 1 x 1.2 x 1 x 25 psf at 30 deg.

    Six panels of 40 x 66 in. cover 110 sq ft, seen from above cos 30 deg of that.
    """
    snow = of(rack, "snow")
    assert snow.tilt == pytest.approx(math.radians(30))
    assert snow.pressure == pytest.approx(21.0 * PSF, rel=1e-4)
    assert snow.total == pytest.approx(21.0 * 110 * math.cos(math.radians(30)) * LBF, rel=1e-4)
    assert of(rack, "panels").total == pytest.approx(6 * 46 * LBF, rel=1e-5)
    assert of(rack, "a worker at a beam end").total == pytest.approx(300 * LBF, rel=1e-5)


def test_the_solved_frame_carries_the_same_weights(rack: Rack) -> None:
    """Upward reactions of unit loads (statics); ice on the panels without that on the steel.

    Ice weighs 56 lb/cu ft, 0.6 pi t thick on a plate (ASCE/SEI 7-22 10.4.1, from memory of the
    standard), its 1/2 in. at 33 ft (10 m) less by the tenth root of the height.
    """
    tilt = rack.tilts[0]
    response = solve_frames(rack, ((),), (tilt,))[(), tilt, SOFT].response

    def up(name: str) -> float:
        return float(response.reactions[response.model.load_index[name]][:, 2].sum())

    snow, ice = of(rack, "snow"), of(rack, "ice on the panels")
    assert snow.pressure is not None
    solved = sum(snow.pressure * up(f"snow, {half} {side}") for half, side in QUARTERS)
    assert snow.total == pytest.approx(solved, rel=1e-6)
    assert of(rack, "panels").total == pytest.approx(up("panel weight"), rel=1e-6)
    steel = of(rack, "steel, bare, post to its foot").total
    assert steel == pytest.approx(up("steel weight"), rel=1e-6)
    thick = 0.5 * INCH * (rack.posts.height / 10) ** 0.1
    by_hand = 0.6 * math.pi * thick * 56 * LBF / 0.3048**3 * 110 * 0.3048**2
    assert ice.total == pytest.approx(by_hand, rel=0.01)
    assert ice.total < up("ice")


def test_what_does_not_lie_there_is_not_told(rack: Rack) -> None:
    calm = parse_rack(
        "".join(
            line
            for line in SNOWY.splitlines(keepends=True)
            if not line.startswith(("snow", "ice"))
        ),
        "calm",
    )
    told = [one["load"] for one in weights_data(calm)]
    assert told == ["panels", "steel, bare, post to its foot", "a worker at a beam end"]
    assert [one["load"] for one in weights_data(rack)][2:4] == ["snow", "ice on the panels"]
