"""`rack draw`: what it draws, writes and says, and what it refuses."""

from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from frame.casefile.read import read_rack
from frame.cli.draw import command
from frame.draw import figures
from frame.draw.rack_sheet import rack_sheet
from frame.errors import InputError
from frame.units import FT_LB, MPH
from frame.verdict.pictured import braced_choice, pair

CASES = Path(__file__).parents[2] / "cases"
ONE_POST = CASES / "boat_shed.toml"
BRACED = ("knees", "guys")
MOST_BYTES = 300_000


def draw(*words: str | Path) -> Result:
    return CliRunner().invoke(command, [str(w) for w in words])


@pytest.fixture(scope="module")
def shown():
    rack = read_rack(ONE_POST)
    return pair(rack, BRACED, rack.site.service_gust)


@pytest.fixture(scope="module")
def written(shown) -> str:
    sheet = rack_sheet(shown, "us")
    texts = [*sheet.texts, *(t for ax in sheet.axes for t in ax.texts)]
    return " ".join(" ".join(t.get_text().split()) for t in texts)


def test_it_writes_beside_the_file_and_says_so(tmp_path: Path) -> None:
    file = tmp_path / "boat_shed.toml"
    file.write_text(ONE_POST.read_text(encoding="utf-8"), encoding="utf-8")
    for _ in range(2):  # a picture is drawn over again without asking
        done = draw(file, "--bracing", "knees")
        assert done.exit_code == 0, done.output
    target = tmp_path / "boat_shed.png"
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


def test_without_bracing_still_air_stands_beside_the_gust(tmp_path: Path) -> None:
    done = draw(CASES / "fifteen_lines.toml", "-o", tmp_path / "bare.png")
    assert done.exit_code == 0, done.output
    assert "bare, still air beside bare, in the gust" in done.output
    assert "No bracing shown" in done.output


def test_a_tilt_the_wind_tables_do_not_cover_is_said(tmp_path: Path) -> None:
    done = draw(ONE_POST, "--bracing", "knees", "--tilt", "50", "-o", tmp_path / "a.png")
    assert "not covered by the wind tables" in done.output


def test_the_tilt_and_gust_asked_for_are_the_ones_drawn() -> None:
    rack = read_rack(ONE_POST)
    assert pair(rack, ("knees",), 30.0).tilt in rack.tilts
    done = draw(ONE_POST, "--bracing", "bare", "--tilt", "22", "--gust", "9000 mph")
    assert isinstance(done.exception, InputError)


def test_both_columns_are_of_one_wind_tilt_and_ground(shown) -> None:
    left, right = shown.left.block, shown.right.block
    assert left.frame.ideal.tilt == right.frame.ideal.tilt == shown.tilt
    assert left.state == right.state
    assert (left.bracing, right.bracing) == ((), BRACED)
    assert not left.fitted.any()
    assert right.fitted.all()


def test_the_sheet_says_which_wind_gust_tilt_and_exaggeration(shown, written: str) -> None:
    assert shown.words.lower() in written.lower()
    # 71 mph: sqrt(0.42) of 110 mph, IBC Table 1604.3 note f; and (110 / 71.3)^2 = 2.4.
    assert "in a gust of 71 mph, the service gust" in written
    assert "110 mph, pushes 2.4 times as hard as shown" in written
    assert "tilt 15 deg" in written or "tilt 35 deg" in written
    assert written.count("drawn at its true size") + written.count("times larger") == 3
    assert "licensed engineer" in written


def test_the_plane_solvers_largest_moments_are_written(shown, written: str) -> None:
    for one in (shown.left, shown.right):
        for plane in one.planes:
            most = max(float(np.abs(d.M).max()) for d in plane.diagrams) / FT_LB
            assert f"{float(f'{most:.3g}'):,.0f} ft-lb" in written


def test_the_pulls_of_the_whole_racks_guys_are_written(shown, written: str) -> None:
    tensions = shown.right.tensions
    most = float(tensions.max()) / 4.4482216152605
    assert f"guy {float(f'{most:.3g}'):,.0f} lb" in written
    assert written.count("guy slack") >= int((tensions <= 0).sum())


def test_sway_is_measured_from_still_air(shown) -> None:
    rack = shown.rack
    nothing = pair(rack, BRACED, 1.0 * MPH)
    assert nothing.right.sway < 1e-2 * shown.right.sway
    assert nothing.right.sag == shown.right.sag


def test_the_default_bracing_is_the_verdicts_or_all_that_is_described() -> None:
    rack = read_rack(CASES / "boat_shed.toml")
    assert braced_choice(rack)
    assert set(braced_choice(rack)) <= set(rack.bracing_names)
    assert braced_choice(read_rack(CASES / "fifteen_lines.toml")) == ()


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("-o", "picture.jpg"), '"picture.jpg" does not end in the kind of picture'),
        (("-o", "picture"), "end it in .png, .svg, .pdf"),
        (("-o", "no such folder/a.png", "--bracing", "bare"), "cannot be written"),
        (("--bracing", "knes"), '"knes" is not described'),
        (("--tilt", "120"), "--tilt: 120 deg is out of range"),
        (("--gust", "70"), '--gust: "70" has no unit'),
    ],
)
def test_what_cannot_be_is_one_clear_message(words: tuple[str, ...], message: str) -> None:
    done = draw(ONE_POST, *words)
    assert isinstance(done.exception, InputError), done.output
    assert message in str(done.exception)


def test_figures_are_made_of_every_case(tmp_path: Path) -> None:
    cases = tmp_path / "cases"
    cases.mkdir()
    (cases / "a.toml").write_text((CASES / "fifteen_lines.toml").read_text(encoding="utf-8"))
    made = figures.make(cases, tmp_path / "figures")
    assert made == (tmp_path / "figures" / "a.png",)
    assert made[0].stat().st_size < MOST_BYTES


def test_every_case_has_its_figure_small_enough_to_keep() -> None:
    kept = {p.stem: p for p in (CASES.parent / "figures").glob("*.png")}
    assert {p.stem for p in CASES.glob("*.toml")} <= set(kept)
    assert all(p.stat().st_size < MOST_BYTES for p in kept.values())
