"""Files that are wrong: one clear message each, all errors at once, never a traceback."""

import importlib.util
import os
import sys
import tomllib
from pathlib import Path

import pytest

from frame.casefile.read import parse_rack, read_rack
from frame.cli.main import main
from frame.errors import InputError

TABLE = tomllib.loads((Path(__file__).parent / "wrong_files.toml").read_text(encoding="utf-8"))
SOUND: str = TABLE["sound"]
SPOILT: dict[str, dict[str, str]] = TABLE["spoilt"]


def spoil(name: str) -> str:
    row = SPOILT[name]
    assert row["change"] in SOUND
    return SOUND.replace(row["change"], row["to"], 1)


def message(path: Path) -> str:
    with pytest.raises(InputError) as caught:
        read_rack(path)
    return str(caught.value)


def run(monkeypatch: pytest.MonkeyPatch, *words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["rack", *words])
    with pytest.raises(SystemExit) as left:
        main()
    return int(left.value.code or 0)


def test_the_sound_file_is_sound() -> None:
    assert not parse_rack(SOUND, "yard.toml").warnings


def test_there_are_enough_wrong_files() -> None:
    assert len(SPOILT) >= 40


@pytest.mark.parametrize("name", SPOILT)
def test_a_wrong_file_gets_its_message(name: str, tmp_path: Path) -> None:
    path = tmp_path / "yard.toml"
    path.write_text(spoil(name), encoding="utf-8")
    said, expected = message(path), SPOILT[name]["says"]
    if expected.endswith("..."):
        assert said.startswith(expected.removesuffix("..."))
        assert "\n" not in said
    else:
        assert said == expected


@pytest.mark.parametrize("name", SPOILT)
def test_messages_hold_no_library_wording(name: str, tmp_path: Path) -> None:
    path = tmp_path / "yard.toml"
    path.write_text(spoil(name), encoding="utf-8")
    said = message(path).lower()
    for word in ("pydantic", "input should", "field required", "extra inputs", "traceback"):
        assert word not in said


def test_all_errors_come_at_once() -> None:
    text = SOUND
    names = ("misspelt key", "wrong unit", "unknown pipe size", "tilt 120", "unknown soil")
    for name in (*names, "brace inside the post", "guy without wire", "no depth"):
        row = SPOILT[name]
        assert row["change"] in text
        text = text.replace(row["change"], row["to"], 1)
    with pytest.raises(InputError) as caught:
        parse_rack(text, "yard.toml")
    assert {p.where for p in caught.value.problems} == {
        "post.heigth",
        "panels.weight",
        "beam.pipe",
        "tilts[2]",
        "site.soil",
        "knees.reach",
        "guys[2].wire",
        "post.depth",
    }
    for problem in caught.value.problems:
        assert problem.what
        assert problem.right


def test_lines_that_cannot_be_read_hide_nothing_else() -> None:
    """Four lines are at fault by themselves, two others say what is wrong."""
    text = SOUND
    for old, new in (
        ('height = "6 ft 6 in"', "height = 6 ft 6 in"),
        ('tilts = ["15 deg", "35 deg"]', "tilts = [15 deg, 35 deg]"),
        ('drop = "2 ft 6 in"', "drop = \u201c2 ft 6 in\u201d"),
        ('soil = "clay"', 'soil = "clay"\nsoil = "sand"'),
        ('"49 lb"', '"49 stone"'),
        ('wire = "1/4 in EHS strand"\n', ""),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    with pytest.raises(InputError) as caught:
        parse_rack(text, "yard.toml")
    lines = text.splitlines()
    unread = ("tilts = [15", 'soil = "sand"', "height = 6", "drop = \u201c")
    numbers = [next(n for n, line in enumerate(lines, 1) if line.startswith(u)) for u in unread]
    assert [p.where.partition(", column")[0] for p in caught.value.problems] == [
        *(f"yard.toml, line {number}" for number in numbers),
        "panels.weight",
        "guys[1].wire",
    ]
    assert "curly" in caught.value.problems[3].right


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('tilts = ["15 deg", "35 deg"]', 'tilts = [15 deg,\n"35 deg"]'),
        ("[rails]", "[rails"),
        ("[rails]", "[beam]\n[rails]"),
        ('drop = "2 ft 6 in"', 'drop = """2 ft 6 in'),
    ],
)
def test_a_fault_that_spills_over_lines_makes_up_no_others(old: str, new: str) -> None:
    assert old in SOUND
    with pytest.raises(InputError) as caught:
        parse_rack(SOUND.replace(old, new, 1), "yard.toml")
    (problem,) = caught.value.problems
    assert problem.where.startswith("yard.toml, line")


def test_a_missing_file(tmp_path: Path) -> None:
    said = message(tmp_path / "no.toml")
    assert said.endswith(
        "there is no such file; check the name, or `rack new FILE` writes one to start from"
    )


def test_a_folder(tmp_path: Path) -> None:
    assert message(tmp_path) == f"{tmp_path}: is a folder; name the rack file in it"


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n"])
def test_an_empty_file(tmp_path: Path, text: str) -> None:
    path = tmp_path / "empty.toml"
    path.write_text(text, encoding="utf-8")
    right = "describe a rack in it; `rack new FILE` writes one to start from"
    assert message(path) == f"empty.toml: is empty; {right}"


@pytest.mark.parametrize("data", [b"\x7fELF\x02\x01\x00\x00", b"\xff\xfe\x00\x01", b"\x89PNG\r\n"])
def test_a_binary_file(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "picture.toml"
    path.write_bytes(data)
    assert message(path) == f"{path}: is not plain text; save it as plain text (UTF-8)"


def test_ten_megabytes(tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    path.write_bytes(b"# a line\n" * 1_111_112)
    right = "a rack file is a page of text, 1 MB at most"
    assert message(path) == f"{path}: is 10.0 MB long; {right}"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_a_named_pipe(tmp_path: Path) -> None:
    path = tmp_path / "queue.toml"
    os.mkfifo(path)
    assert message(path) == f"{path}: is not a plain file; name a rack file"


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 100_000,
        "a = " + "9" * 10_000,
        "tilts = 0x" + "f" * 10_000,
        "tilts = [1979-05-27]",
        "a = '\x01'",
        '[site]\nmap_gust = "\\u001b[2J"',
        "guys = [1, 2]",
        "site = []\npanels = 3\npost = ['a']",
        '[post]\npipe = ["4 in nominal"]',
        '[rails]\npositions = [["1 ft"], 2]',
    ],
    ids=lambda text: text[:12],
)
def test_strange_toml_is_still_only_messages(text: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_rack(text, "odd.toml")
    assert str(caught.value)
    assert all(letter.isprintable() or letter == "\n" for letter in str(caught.value))


def test_windows_line_ends_and_byte_order_mark_are_fine(tmp_path: Path) -> None:
    path = tmp_path / "yard.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SOUND.replace("\n", "\r\n").encode())
    assert read_rack(path).name == "yard rack"


@pytest.mark.skipif(
    importlib.util.find_spec("frame.cli.compare") is None, reason="needs the command"
)
def test_the_command_prints_the_messages_and_leaves_with_2(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "yard.toml"
    path.write_text(spoil("tilt 120"), encoding="utf-8")
    assert run(monkeypatch, "compare", str(path)) == 2
    said = capsys.readouterr()
    assert said.err.strip() == SPOILT["tilt 120"]["says"]
    assert not said.out
