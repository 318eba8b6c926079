"""`rack page`: one file, all of it there, text as text, nothing from outside."""

import re
import xml.etree.ElementTree as ET
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest
from click.testing import CliRunner

from frame.cli.main import rack
from frame.page.first_words import _joined, paragraphs
from frame.report.screen.first import first_screen
from frame.report.screen.steps import plan_rows
from frame.report.words import CAUTIONS
from tests.odd_page import NAME, odd_decision, odd_page

CASES = Path(__file__).parents[2] / "cases"
MOST_BYTES = 3_000_000
pytestmark = pytest.mark.xdist_group("odd page")
OPEN = {"meta", "img", "br", "hr", "link", "input"}


class Read(HTMLParser):
    """The page taken apart: its words, attributes, tags, and whether every tag is closed."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.given: list[tuple[str, str, str]] = []
        self.tags: list[str] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.given += [(tag, key, value or "") for key, value in attrs]
        if tag not in OPEN:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] not in ("style", "script"):
            self.words.append(data)


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture(scope="module")
def made() -> str:
    return odd_page()


@pytest.fixture(scope="module")
def read(made: str) -> Read:
    found = Read()
    found.feed(made)
    found.close()
    assert not found.open
    return found


@pytest.fixture(scope="module")
def decision():
    return odd_decision()


def test_it_is_small_and_needs_nothing_from_outside(made: str, read: Read) -> None:
    assert len(made.encode()) < MOST_BYTES
    for tag, key, value in read.given:
        if key in ("src", "href", "data", "action"):
            assert value.startswith(("data:image/svg+xml,", "#")), (tag, key, value[:40])
    assert "@import" not in made
    assert not re.search(r"url\((?!#|%23)", made)
    assert ("meta", "content") in [(tag, key) for tag, key, _ in read.given]
    assert "default-src 'none'" in made


def test_a_name_is_text_wherever_it_stands(made: str, read: Read) -> None:
    assert NAME in read.words
    assert "b" not in read.tags
    assert made.count("<script>") == made.count("</script>") - 1 == 2
    assert "42" not in plain(" ".join(read.words)).split(NAME)[0]
    pictures = [v for tag, key, v in read.given if (tag, key) == ("img", "src")]
    assert len(pictures) >= 6
    for picture in pictures:
        root = ET.fromstring(unquote(picture.partition(",")[2]))
        said = [t.text or "" for t in root.iter("{http://www.w3.org/2000/svg}text")]
        assert any(NAME.split(" $", maxsplit=1)[0] in text for text in said)


def test_the_first_screens_words_stand_first_and_whole(read: Read, decision) -> None:
    said = plain(" ".join(read.words))
    places = [said.index(plain(block.text)) for block in paragraphs(decision)]
    assert places == sorted(places)
    assert places[-1] < said.index("What to do, in this order")
    # Nothing of the screen is lost, but the commands that lead on.
    for line in first_screen(decision, "FILE"):
        if not line.startswith(("More:", "      rack", "Do, in", "   !:", "   bare", "OR", "<B>")):
            assert plain(line.removeprefix("  ")) in said or plain(line[10:]) in said, line


def test_the_caution_stands_after_the_first_words_and_at_the_foot_and_in_no_table(
    read: Read,
) -> None:
    """Told too often it is read over: each line twice, beside what every picture carries."""
    said = plain(" ".join(read.words))
    for line in CAUTIONS:
        assert said.count(line) == 2
        first, last = said.index(line), said.rindex(line)
        assert first < said.index("What to do, in this order")
        assert last > said.index("Every check of the rack after the plan, step by step")


def test_every_cell_of_the_plan_check_and_assumption_is_there(read: Read, decision) -> None:
    cells = {plain(word) for word in read.words}
    for row in plan_rows(decision):
        assert {plain(cell) for cell in row if cell} <= cells
    checks = [w for w in cells if ": " in w]
    for row in decision.end.rows:
        assert f"{row.part}: {row.check}" in checks
        assert row.source in cells
    assert read.tags.count("details") == len(decision.end.rows)
    for assumed in decision.plan.end.rack.assumptions:
        assert plain(assumed.value) in cells


def test_pictures_have_words_and_tables_have_heads(read: Read) -> None:
    alts = [v for tag, key, v in read.given if (tag, key) == ("img", "alt")]
    assert len(alts) == read.tags.count("img")
    assert all(len(alt) > 20 for alt in alts)
    assert read.tags.count("thead") == read.tags.count("table") > 5
    assert ("html", "lang", "en") in read.given
    levels = [int(tag[1]) for tag in read.tags if re.fullmatch(r"h\d", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1


def test_a_folder_is_no_page(tmp_path: Path) -> None:
    done = CliRunner().invoke(rack, ["page", str(CASES / "wash_house.toml"), "-o", str(tmp_path)])
    assert "is a folder" in str(done.exception)


def test_a_word_broken_at_its_hyphen_is_whole_again_on_the_page() -> None:
    assert (
        _joined(["A one-", "  sided gust", "turns it;", "1 - 2"])
        == "A one-sided gust turns it; 1 - 2"
    )
