"""README.md and DEVELOPERS.md say what is so: commands, answers, paths, and the Python in them."""

import pkgutil
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.casefile.read import parse_rack
from frame.cli.draw import WHATS
from frame.cli.main import COMMANDS, rack

ROOT = Path(__file__).parents[1]
DOCUMENTS = {name: (ROOT / name).read_text("utf-8") for name in ("README.md", "DEVELOPERS.md")}
README = DOCUMENTS["README.md"]
SET_UP = "python3 -m venv .venv && .venv/bin/pip install"
LEAST_QUOTED = 5


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def plain(text: str) -> str:
    """Text with every number as 0 and every gap as one space."""
    return " ".join(re.sub(r"\d[\d.,]*", "0", re.sub("─+", "─", text)).split())


@pytest.mark.parametrize("command", COMMANDS)
def test_readme_names_every_command(command: str) -> None:
    assert f"rack {command}" in README


@pytest.mark.parametrize("what", WHATS[1:])
def test_readme_names_every_picture(what: str) -> None:
    (told,) = re.findall(r"`--what` draws more: ([^.]*)", README)
    assert what in re.findall(r"\w+", told)


@pytest.mark.xdist_group("boat_shed")
@pytest.mark.usefixtures("decided_once")
@pytest.mark.filterwarnings("error")
def test_the_python_of_the_readme_runs(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (program,) = blocks("python")
    monkeypatch.chdir(ROOT)
    exec(program, {})
    assert "lets go at" in capsys.readouterr().out
    assert len(program.strip().splitlines()) <= 12


def test_the_rack_of_the_readme_is_the_case_and_the_bracing_fits_it() -> None:
    least, bracing = blocks("toml")
    assert least == (ROOT / "cases/fifteen_lines.toml").read_text("utf-8")
    braced = parse_rack(least + bracing, "readme.toml")
    assert braced.bracing_names == ("knees", "guys")


@pytest.mark.xdist_group("orchard_wall")
@pytest.mark.usefixtures("decided_once")
@pytest.mark.parametrize("quoted", blocks("text"), ids=lambda q: q.splitlines()[0])
def test_the_answers_quoted_are_those_given(quoted: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Words and order; figures may differ from one machine or change to the next."""
    head, *lines = quoted.splitlines()
    words = re.findall(r'"[^"]+"|\S+', head.removeprefix("$ rack "))
    monkeypatch.chdir(ROOT)
    given = plain(CliRunner().invoke(rack, [word.strip('"') for word in words]).stdout)
    told = [
        plain(piece) for piece in re.split(r"^ *\.\.\.$", "\n".join(lines), flags=re.MULTILINE)
    ]
    assert len(lines) >= LEAST_QUOTED
    stale = [piece for piece in told if piece not in given]
    assert not stale, f"quote the answer of `{head}` anew"


@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_path_and_name_in_the_documents_exists(name: str) -> None:
    text = DOCUMENTS[name]
    paths = re.findall(r"(?<![\w./-])(?:frame|tests|cases|figures|\.ci)/[\w./-]*\w", text)
    paths += re.findall(r"\]\(([^)#:]+)\)", text)
    paths += re.findall(r"`(LICENSE|pyproject\.toml|README\.md|DEVELOPERS\.md)`", text)
    assert paths
    assert not [path for path in paths if not (ROOT / path).exists()]
    for dotted in re.findall(r"`(frame(?:\.\w+)+)`", text):
        assert pkgutil.resolve_name(dotted)


def test_what_is_said_to_stand_in_a_file_does() -> None:
    """Every "`name` in `frame/....py`" of DEVELOPERS.md is defined there."""
    pairs = re.findall(r"`([\w.]+)` in `(frame/[\w/]+\.py)`", DOCUMENTS["DEVELOPERS.md"])
    assert len(pairs) > 10
    for name, path in pairs:
        last = name.rpartition(".")[2]
        text = (ROOT / path).read_text("utf-8")
        assert re.search(
            rf"^ *((def|class) {last}\b|(\w+, )*{last}\b.*[:=])", text, re.MULTILINE
        ), name


@pytest.mark.parametrize(("name", "most"), [("README.md", 255), ("DEVELOPERS.md", 330)])
def test_the_documents_stay_short(name: str, most: int) -> None:
    assert len(DOCUMENTS[name].splitlines()) < most


def test_the_gate_runs_what_the_documents_name() -> None:
    gate = (ROOT / ".ci" / "run").read_text("utf-8")
    (tests,) = (line.strip() for line in README.splitlines() if "-m pytest" in line)
    (all_four,) = (
        ln.strip() for ln in DOCUMENTS["DEVELOPERS.md"].splitlines() if "ruff check" in ln
    )
    assert tests in gate.splitlines()
    assert " && ".join(all_four.split(" && ")[:3]) in gate.splitlines()
