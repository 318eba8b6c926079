"""`rack draw`: what it draws, writes and says, and what it refuses."""

import re
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from frame.cli.draw import command
from frame.draw import figures, moving
from frame.draw.moving import swung
from frame.draw.rack_sheet import force_sheet
from frame.draw.space import space_picture
from frame.errors import InputError
from frame.pictured.pulls import pulls
from frame.units import FT_LB, LB
from tests.builders import case
from tests.decided import diagrams_once, set_beside
from tests.drawn import said

CASES = Path(__file__).parents[2] / "cases"
ONE_POST = CASES / "boat_shed.toml"
BRACED = ("knees", "guys")
pytestmark = pytest.mark.usefixtures("solved_once")
MOST_BYTES = 300_000
MOST_MOVING = 1_000_000


def draw(*words: str | Path) -> Result:
    return CliRunner().invoke(command, [str(w) for w in words])


@pytest.fixture(scope="module")
def shown():
    return set_beside(case("boat_shed"), BRACED)


@pytest.fixture(scope="module")
def written(solved_once: None, shown) -> str:
    return said(force_sheet(shown, "moments", "us"))


def test_it_writes_beside_the_file_and_says_so(tmp_path: Path) -> None:
    file = tmp_path / "orchard_wall.toml"
    file.write_text((CASES / file.name).read_text("utf-8"), "utf-8")
    target = tmp_path / "orchard_wall.png"
    target.write_text("old")  # a picture is drawn over without asking
    done = draw(file, "--bracing", "knees")
    assert done.exit_code == 0, done.output
    assert done.output == f"Wrote {target}: bare beside knees.\n"
    assert target.stat().st_size < MOST_BYTES
    with Image.open(target) as picture:
        assert picture.size[0] > 1000


@pytest.mark.parametrize(("kind", "start"), [("svg", b"<?xml"), ("pdf", b"%PDF")])
def test_it_writes_other_kinds_by_their_ending(tmp_path: Path, kind: str, start: bytes) -> None:
    target = tmp_path / f"picture.{kind}"
    done = draw(CASES / "salvage_yard.toml", "--bracing", "corner guys", "--output", target)
    assert done.exit_code == 0, done.output
    assert target.read_bytes().startswith(start)


@pytest.mark.xdist_group("orchard_wall")
def test_beside_the_rack_as_it_is_stands_what_the_plan_ends_with(tmp_path: Path) -> None:
    done = draw(CASES / "orchard_wall.toml", "-o", tmp_path / "plan.png")
    assert done.exit_code == 0, done.output
    assert re.search(r"bare beside after (step \d+|the step)\.", done.output)


def test_a_tilt_the_wind_tables_do_not_cover_is_said(tmp_path: Path) -> None:
    done = draw(ONE_POST, "--bracing", "knees", "--tilt", "50", "-o", tmp_path / "a.png")
    assert "not covered by the wind tables" in done.output


def test_a_gust_no_storm_has_is_refused() -> None:
    done = draw(ONE_POST, "--bracing", "bare", "--tilt", "22", "--gust", "9000 mph")
    assert isinstance(done.exception, InputError)


def test_diagrams_are_of_one_wind_tilt_and_ground(shown) -> None:
    found = diagrams_once(shown)
    left, right = found.left.block, found.right.block
    assert left.frame.ideal.tilt == right.frame.ideal.tilt == found.tilt
    assert left.state == right.state
    assert (left.bracing, right.bracing) == ((), BRACED)
    assert not left.fitted.any()
    assert right.fitted.all()


def test_the_sheet_says_which_wind_gust_and_tilt(shown, written: str) -> None:
    found = diagrams_once(shown)
    assert found.words.lower() in written.lower()
    # 71 mph: sqrt(0.42) of 110 mph, IBC Table 1604.3 note f.
    assert "in a gust of 71 mph, the service gust" in written
    assert "tilt 15 deg" in written or "tilt 35 deg" in written
    assert "licensed engineer" in written


def test_the_plane_solvers_largest_moments_are_written(shown, written: str) -> None:
    found = diagrams_once(shown)
    for one in (found.left, found.right):
        for plane in one.planes:
            most = max(float(np.abs(d.M).max()) for d in plane.diagrams) / FT_LB
            assert f"{float(f'{most:.3g}'):,.0f} ft-lb" in written


@pytest.mark.parametrize(("what", "name"), [("shear", "V"), ("axial", "N")])
def test_shears_and_axial_forces_are_the_plane_solvers(shown, what: str, name: str) -> None:
    words, found = said(force_sheet(shown, what, "us")), diagrams_once(shown)
    for plane in found.left.planes:
        most = max(float(np.abs(getattr(d, name)).max()) for d in plane.diagrams) / LB
        assert f"{float(f'{most:.3g}'):,.0f} lb" in words


def test_the_dot_of_a_guys_pull_lies_on_its_wire_as_drawn() -> None:
    one = set_beside(case("orchard_wall"), ("guys",)).racks[-1]
    model = one.wind.block.frame.ideal.model
    picture = space_picture(model, one.wind.moved, one.wind.pulls, "us")
    for times in (1.0, 50.0):
        for line, mark in zip(picture.lines, picture.movements[1:], strict=True):
            (a, b), dot = line.ends + times * line.shape, mark.at + times * mark.offset
            way = (b - a) / np.hypot(*(b - a))
            off = (dot - a)[0] * way[1] - (dot - a)[1] * way[0]
            assert abs(off) < 1e-9


def test_pulls_rise_from_the_pretension_and_a_slack_guy_pulls_nothing() -> None:
    shown = set_beside(case("orchard_wall"), ("guys",))
    found = pulls(shown)
    assert found is not None
    assert len(found.names) == 4
    block = found.shown.wind.block
    # In still air every guy has the pull it was set to, slackened by the season and bedding in.
    assert np.allclose(found.pulls[0], block.band[1][block.fitted], rtol=0.05)
    # At the gust shown, what the picture shows.
    at = float(np.interp(shown.gust, found.gusts, found.pulls.max(axis=1)))
    assert at == pytest.approx(found.shown.wind.pulls.max(), rel=0.02)
    for i in range(4):
        for low, high in found.slack(i):
            inside = (found.gusts > low) & (found.gusts <= high)
            assert (found.pulls[inside, i] == 0).all()


def test_a_struck_mass_goes_to_its_farthest_and_settles() -> None:
    """A step on a lightly damped mass: nearly twice its rest, half a period after (textbooks)."""
    beat = 2.5
    times = np.linspace(0.0, 8.0, 4001)
    moved = np.array([swung(float(t), beat) for t in times])
    assert moved[0] == 0.0
    assert moved.max() == pytest.approx(1.0, abs=1e-3)
    assert times[moved.argmax()] == pytest.approx(0.5 / beat, rel=0.01)
    rest = moved[-1]
    assert rest == pytest.approx(1 / (1 + np.exp(-0.05 * np.pi)), abs=5e-3)
    beyond = moved[times > 1 / beat]
    assert beyond.max() < moved.max()


def test_the_moving_picture_moves_and_starts_again(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(moving, "FRAMES", 5)
    target = tmp_path / "moves.gif"
    done = draw(CASES / "wash_house.toml", "--bracing", "knees", "--what", "moving", "-o", target)
    assert done.exit_code == 0, done.output
    with Image.open(target) as picture:
        assert picture.n_frames == 5
        assert picture.info["loop"] == 0


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("-o", "picture.jpg"), '"picture.jpg" does not end in the kind of picture'),
        (("-o", "picture"), "end it in .png, .svg, .pdf"),
        (("--what", "moving", "-o", "picture.png"), "end it in .gif"),
        (("-o", "no such folder/a.png", "--bracing", "bare"), "cannot be written"),
        (("--bracing", "knes"), '"knes" is not described'),
        (("--bracing", "bare", "--what", "guys"), "the rack has no guys"),
        (("--tilt", "120"), "--tilt: 120 deg is out of range"),
        (("--gust", "70"), '--gust: "70" has no unit'),
    ],
)
def test_what_cannot_be_is_one_clear_message(words: tuple[str, ...], message: str) -> None:
    done = draw(ONE_POST, *words)
    assert isinstance(done.exception, InputError), done.output
    assert message in str(done.exception)


@pytest.mark.xdist_group("wash_house")
def test_figures_are_made_of_every_case(tmp_path: Path) -> None:
    cases = tmp_path / "cases"
    cases.mkdir()
    name = "wash_house"
    (cases / f"{name}.toml").write_text((CASES / f"{name}.toml").read_text(encoding="utf-8"))
    made = figures.make(cases, tmp_path / "figures")
    assert made == (tmp_path / "figures" / f"{name}.png",)
    assert made[0].stat().st_size < MOST_BYTES


def test_every_case_has_its_figure_small_enough_to_keep() -> None:
    kept = {p.stem: p for p in (CASES.parent / "figures").glob("*.png")}
    assert {p.stem for p in CASES.glob("*.toml")} <= set(kept)
    assert all(p.stat().st_size < MOST_BYTES for p in kept.values())
    moving = (CASES.parent / "figures").glob("*.gif")
    assert all(p.stat().st_size < MOST_MOVING for p in moving)
