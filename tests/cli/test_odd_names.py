"""Names with markup, quotes, emoji and letters from right to left are text wherever they go."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from frame.cli.main import rack
from tests.builders import path_of
from tests.odd_page import NAME

GUYS = "<i>a&b</i> שמאל 😀"
FILE = '<i>R&D "x" $y$ 😀 שלום'
TEXT = (
    path_of("orchard_wall")
    .read_text("utf-8")
    .replace('name = "orchard wall"', f"name = '{NAME}'")
    .replace("[[guys]]\n", f"[[guys]]\nname = '{GUYS}'\n")
)
MARKUP = {"b", "i"}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / f"{FILE}.toml"
    made.write_text(TEXT, "utf-8")
    return made


def run(*words: str | Path) -> str:
    done = CliRunner().invoke(rack, [str(w) for w in words], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    return done.output


def printed(path: Path) -> str:
    return "".join(page.extract_text() for page in PdfReader(path).pages)


def tags(path: Path) -> set[str]:
    return {element.tag.rpartition("}")[2] for element in ET.parse(path).iter()}


@pytest.mark.parametrize("kind", ["svg", "pdf", "png"])
def test_in_a_picture_and_in_its_files_name(file: Path, kind: str) -> None:
    target = file.with_suffix(f".{kind}")
    assert target.name in run("draw", file, "--bracing", "bare", "-o", target)
    assert target.exists()
    if kind == "pdf":
        assert NAME in printed(target)
    if kind == "svg":
        assert not tags(target) & MARKUP
        # Letters are drawn as shapes there, and named in a comment before them.
        assert NAME.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;") in (
            target.read_text("utf-8")
        )


def test_on_the_sheets_and_in_the_data_of_the_shop(file: Path, tmp_path: Path) -> None:
    out = tmp_path / "shop <b> 😀"
    run("shop", file, "--bracing", GUYS, "--out", out)
    assert NAME in printed(out / "shop_sheet.pdf")
    assert GUYS in printed(out / "shop_sheet.pdf")
    assert GUYS in (out / "stakes.csv").read_text("utf-8")
    assert GUYS in json.loads((out / "shop.json").read_text("utf-8"))["bracing"]
    # No name of the rack file gets into the name of a file.
    assert all(p.name.replace("_", "").replace(".", "").isalnum() for p in out.iterdir())
    assert all(p.name.isascii() for p in out.iterdir())
    for drawing in out.glob("*.svg"):
        assert not tags(drawing) & MARKUP
