"""The pages as a printer makes them: no words over one another, none off the sheet."""

import math
from itertools import combinations

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from frame.draw.shop.book import sheet_pages, template_pages
from frame.shop.ground import Ground
from frame.shop.job import Wanted, make_job
from frame.shop.words import CAUTION
from frame.verdict.inspect import inspect
from tests.builders import CASES, SOME_CASES, STAYS, case, changed
from tests.decided import studied

PRINTED, TOUCHING = 200, 1.5
FALLS = Ground(math.radians(5), "left")
PILE = """
[[sticks]]
pipe = "5 in nominal"
steel = "A53 B"
length = "13 ft"
[[sticks]]
pipe = "3-1/2 in nominal"
steel = "A53 B"
length = "9 ft"
count = 4
bad = ["3 ft to 3 ft 6 in"]
[[sticks]]
pipe = "3-1/2 in nominal"
steel = "A53 B"
length = "11 ft"
count = 3
[[sticks]]
pipe = "2 in nominal"
length = "7 ft"
"""
RACKS = {name: case(name) for name in SOME_CASES}
PINNED = ('ends = "welded"', 'ends = "pinned"')
RACKS["hay barn, pinned, with stays"] = changed("hay_barn", PINNED, more=STAYS)
RACKS["orchard wall, from a pile"] = changed("orchard_wall", more=PILE)


@pytest.mark.parametrize("name", RACKS)
def test_no_words_lie_over_one_another_or_off_the_page(name: str) -> None:
    rack = RACKS[name]
    result = (
        next(r for r in studied(name).results if r.bracing == rack.bracing_names)
        if name in CASES
        else inspect(rack, rack.bracing_names).result
    )
    job = make_job(
        rack, rack.bracing_names, Wanted(racks=2, apart=(5.0, 0.0), ground=FALLS), result
    )
    size = "a4" if rack.units == "metric" else "letter"
    pages = [*sheet_pages(job, size), *template_pages(job, size)]
    for number, page in enumerate(pages, 1):
        page.set_dpi(PRINTED)
        renderer = FigureCanvasAgg(page).get_renderer()
        words = [*page.texts, *(t for ax in page.axes for t in ax.texts)]
        boxes = [(t.get_text(), t.get_window_extent(renderer)) for t in words if t.get_text()]
        width, height = page.get_size_inches() * PRINTED
        for text, box in boxes:
            assert box.x0 > 0, (number, text)
            assert box.y0 > 0, (number, text)
            assert box.x1 < width, (number, text)
            assert box.y1 < height, (number, text)
        for (first, a), (second, b) in combinations(boxes, 2):
            across = min(a.x1, b.x1) - max(a.x0, b.x0)
            down = min(a.y1, b.y1) - max(a.y0, b.y0)
            assert across <= TOUCHING or down <= TOUCHING, (number, first, second)
        said = " ".join(t.get_text() for t in page.texts)
        assert " ".join(CAUTION.split())[:60] in said
