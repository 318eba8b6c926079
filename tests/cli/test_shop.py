"""`rack shop`: what it writes, that it is whole or not there, and what it refuses."""

import csv
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from frame.cli import whole_set
from frame.cli.shop import command
from frame.draw.shop import book
from frame.errors import InputError

CASES = Path(__file__).parents[2] / "cases"
FILE = CASES / "boat_shed.toml"
LEAST = {"shop.json", "shop_sheet.pdf", "cut_list.csv", "marks.csv"}
POUND = 4.4482216152605  # NIST SP 811, appendix B
pytestmark = pytest.mark.usefixtures("solved_once")


def shop(*words: str | Path) -> Result:
    return CliRunner().invoke(command, [str(w) for w in words])


@pytest.fixture(scope="module")
def folder(solved_once: None, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("shop") / "set"
    done = shop(FILE, "--out", out, "--bracing", "knees,guys", "--racks", "2")
    assert done.exit_code == 0, done.output
    return out


@pytest.fixture
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(book, "drawn", lambda *_: {})


def test_it_writes_the_set_and_nothing_else(folder: Path) -> None:
    assert {p.name for p in folder.iterdir()} >= LEAST
    assert [p.name for p in folder.parent.iterdir()] == ["set"]
    assert (folder / "shop_sheet.pdf").read_bytes().startswith(b"%PDF-")


def test_the_csv_and_the_json_say_the_same(folder: Path) -> None:
    document = json.loads((folder / "shop.json").read_text("utf-8"))
    rows = list(csv.DictReader((folder / "cut_list.csv").read_text("utf-8").splitlines()))
    pieces = {p["letter"]: p for p in document["pieces"]}
    assert [r["letter"] for r in rows] == list(pieces)
    for row in rows:
        assert float(row["length_m"]) == pytest.approx(pieces[row["letter"]]["length"], abs=1e-5)
        assert int(row["count"]) == 2 * pieces[row["letter"]]["count"]
    assert "engineer" in document["caution"]


def test_it_is_the_same_set_twice(folder: Path, tmp_path: Path) -> None:
    again = tmp_path / "again"
    shop(FILE, "--out", again, "--bracing", "knees,guys", "--racks", "2")
    for file in folder.iterdir():
        assert (again / file.name).read_bytes() == file.read_bytes()


def test_nothing_is_overwritten_unless_asked_and_other_files_stay(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(book, "drawn", lambda *_: {"shop_sheet.pdf": b"%PDF-new"})
    (tmp_path / "photo.txt").write_text("my photo")
    kept = tmp_path / "shop_sheet.pdf"
    kept.write_text("mine")
    with pytest.raises(InputError, match="--overwrite"):
        shop_or_raise(FILE, "--out", tmp_path, "--bracing", "bare")
    assert kept.read_text() == "mine"
    assert {p.name for p in tmp_path.iterdir()} == {"photo.txt", "shop_sheet.pdf"}
    assert shop(FILE, "--out", tmp_path, "--bracing", "bare", "--overwrite").exit_code == 0
    assert kept.read_bytes() == b"%PDF-new"
    assert (tmp_path / "photo.txt").read_text() == "my photo"


def test_a_set_that_fails_half_way_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a").write_text("old a")
    rename, calls = Path.rename, []

    def failing(self: Path, target: Path) -> Path:
        calls.append(target)
        if Path(target).name == "b" and "new" in str(self):
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(InputError, match="No space"):
        whole_set.write_set(tmp_path, {"a": b"new a", "b": b"new b"}, overwrite=True)
    assert calls
    assert {p.name: p.read_text() for p in tmp_path.iterdir()} == {"a": "old a"}


def test_a_file_in_the_place_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("")
    with pytest.raises(InputError, match="is a file"):
        shop_or_raise(FILE, "--out", tmp_path / "out", "--bracing", "bare")


def shop_or_raise(*words: str | Path) -> None:
    CliRunner().invoke(command, [str(w) for w in words], catch_exceptions=False)


def test_options_that_make_no_sense_are_refused_before_anything_is_solved(tmp_path: Path) -> None:
    for option, value, said in (
        ("--kerf", "3 in", "is no cut"),
        ("--slope", "steep", "--slope"),
        ("--apart", "40 lb", "--apart"),
    ):
        with pytest.raises(InputError, match=said):
            shop_or_raise(FILE, "--out", tmp_path / "set", option, value)
    assert not list(tmp_path.iterdir())


@pytest.mark.usefixtures("undrawn")
def test_the_sheet_is_told_in_the_units_asked_for(tmp_path: Path) -> None:
    words = (FILE, "--out", tmp_path / "set", "--bracing", "bare", "--units", "metric")
    assert shop(*words).exit_code == 0
    text = (tmp_path / "set" / "cut_list.csv").read_text("utf-8")
    assert " mm" in text
    assert "'-" not in text


@pytest.mark.xdist_group("wash_house")
@pytest.mark.usefixtures("undrawn")
def test_posts_on_a_slope_along_the_beam_are_told_and_cut_apart(tmp_path: Path) -> None:
    """3.2 m apart on 5 deg: 3.2 tan 5 deg = 280 mm between the two grades."""
    words = (CASES / "wash_house.toml", "--out", tmp_path / "set", "--bracing", "knees,ties")
    done = shop(*words, "--slope", "5 deg", "--falls", "right")
    assert done.exit_code == 0
    assert "280 mm lower at post 2" in done.output
    text = (tmp_path / "set" / "cut_list.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    posts = {r["piece"]: float(r["length_m"]) for r in rows if r["piece"].startswith("post")}
    assert posts["post 2"] - posts["post 1"] == pytest.approx(0.280, abs=1e-9)
