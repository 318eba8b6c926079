"""`rack page` as a reader has it: in a browser, on paper, with keys and without sight."""

import io
import re
import unicodedata
from pathlib import Path

import pytest
from pypdf import PdfReader

from frame.page.first_words import paragraphs
from frame.plan.phrases import gust
from frame.report.data.plan_data import plan_data
from frame.units import show
from tests.browser.chromium import needs_chromium, opened
from tests.odd_page import NAME, odd_decision, odd_page

pytestmark = [needs_chromium, pytest.mark.xdist_group("odd page")]
WIDTHS = (1280, 768, 390)
A4 = {"width": "210mm", "height": "297mm"}
A4_WIDE, LETTER_WIDE = int((210 - 30) / 25.4 * 96), int((215.9 - 30) / 25.4 * 96)
"""What margins of 15 mm leave of either paper, in the 96 dots to the inch of style sheets."""
SOON = 1.0
"""Time in which a page should be read and drawn [s], on a machine that has nothing else to do."""
PATIENCE = 4.0
"""How many times that a busy machine may take."""


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("page") / "odd.html"
    made.write_text(odd_page(), "utf-8")
    return made


def bare(text: str) -> str:
    """Letters alone: printed ones are set in ligatures and broken into lines."""
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text))


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_it_opens_quietly_and_asks_for_nothing(file, started, width: int, scheme: str) -> None:
    page, heard = opened(
        started, file, viewport={"width": width, "height": 900}, color_scheme=scheme
    )
    assert not heard.errors
    assert [a for a in heard.asked if not a.startswith("data:")] == [file.as_uri()]
    took = page.evaluate("performance.timing.loadEventEnd - performance.timing.navigationStart")
    assert took / 1000 < PATIENCE * SOON
    # Nothing sticks out sideways, and every picture is there.
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate("[...document.images].every((i) => i.complete && i.naturalWidth > 0)")
    page.close()


def test_its_words_are_those_of_the_json(file, started) -> None:
    page, _ = opened(started, file)
    said = plain(page.inner_text("main"))
    data, system = plan_data(odd_decision()), odd_decision().rack.units
    for block in paragraphs(odd_decision()):
        assert plain(block.text) in said
    for key in ("droop", "sway"):
        assert show(data["start"][key], "movement", system) in said
    assert page.inner_text("h1") == NAME
    # As it opens, the view shows what the first screen tells of the rack as it is.
    rows = dict(
        page.evaluate(
            "[...document.querySelectorAll('#turned tbody tr')]"
            ".map((r) => [r.dataset.name, r.children[1].textContent])"
        )
    )
    assert rows["sway"] == show(data["start"]["sway"], "movement", system)
    assert f"in a gust of {gust(odd_decision().rack.site.service_gust, system)}" in (
        page.inner_text("#turned-caption")
    )
    page.close()


def test_on_paper_every_table_is_whole_and_every_fold_that_is_open(file, started) -> None:
    page, _ = opened(started, file)
    page.get_by_role("button", name="Open all").click()
    printed = PdfReader(io.BytesIO(page.pdf(**A4)))
    said = bare("".join(p.extract_text() for p in printed.pages))
    cells = page.evaluate(
        "[...document.querySelectorAll('td, th, pre')].map((c) => c.textContent)"
        ".filter((text) => text.trim())"
    )
    assert len(cells) > 200
    lost = [c for c in cells if bare(c) not in said]
    assert not lost, lost[:5]
    page.close()


@pytest.mark.parametrize("wide", [A4_WIDE, LETTER_WIDE], ids=["A4", "Letter"])
def test_on_paper_nothing_is_cut_at_the_side(file, started, wide: int) -> None:
    page, _ = opened(started, file, viewport={"width": wide, "height": 900})
    page.emulate_media(media="print")
    cut = page.evaluate(
        "[...document.querySelectorAll('table, pre, svg, img')]"
        ".filter((t) => t.getBoundingClientRect().right > innerWidth + 1)"
        ".map((t) => t.textContent.slice(0, 60))"
    )
    assert not cut
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_keeps_a_reader_out(file, started, scheme: str) -> None:
    """By axe-core: no fault that it calls serious or critical."""
    from axe_playwright_python.base import AXE_FILE_PATH

    page, _ = opened(started, file, viewport={"width": 390, "height": 900}, color_scheme=scheme)
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    page.evaluate(AXE_FILE_PATH.read_text("utf-8"))
    found = page.evaluate("axe.run(document, { resultTypes: ['violations'] })")
    grave = [
        (v["id"], v["nodes"][0]["html"][:120], len(v["nodes"]))
        for v in found["violations"]
        if v["impact"] in ("serious", "critical")
    ]
    assert not grave
    page.close()


def test_the_view_is_turned_by_keys_by_hand_and_by_finger(file, started) -> None:
    page, heard = opened(started, file)
    stage = page.locator("#turned .stage")
    seen = stage.locator("svg")
    before = seen.inner_html()
    stage.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    turned = [page.locator(f"[data-set={n}]").input_value() for n in ("turn", "dip")]
    assert turned == ["-27", "25"]
    after = seen.inner_html()
    assert after != before
    box = stage.bounding_box()
    page.mouse.move(box["x"] + 100, box["y"] + 100)
    page.mouse.down()
    page.mouse.move(box["x"] + 200, box["y"] + 130)
    page.mouse.up()
    assert seen.inner_html() != after
    page.get_by_role("button", name="From above").click()
    assert page.locator("[data-set=dip]").input_value() == "90"
    # What is seen is said, once the hand rests.
    page.locator("[data-set=gust]").focus()
    page.keyboard.press("Home")
    page.wait_for_timeout(400)
    assert "still air" in page.locator("[data-out=aloud]").text_content()
    assert not heard.errors
    page.close()
