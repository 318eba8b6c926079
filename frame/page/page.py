"""Everything that is known of a rack, gathered and set as one HTML page."""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from frame.draw.ladders import ladder_sheet, plan_sheet
from frame.draw.rack_sheet import force_sheet, space_sheet
from frame.draw.sheet import as_svg
from frame.draw.two_panes import two_panes
from frame.page.first_words import paragraphs, plan_passage
from frame.page.passages import Passage, passages, table_passage
from frame.page.view import as_script, view_data
from frame.pictured.beside import Beside, of_plan, of_step
from frame.pictured.choices import choices
from frame.plan.decision import Decision, decide_and_compare
from frame.plan.second_process import processes
from frame.records.going import Going
from frame.records.results import BracingResult
from frame.report import compare_page, words
from frame.report.by_hand import by_hand
from frame.report.foot import counted_on, footing
from frame.report.ladder import ladder_table
from frame.report.shop.data import csv_tables
from frame.shop.buying.there import standing_of
from frame.shop.job import Wanted, make_job

TEMPLATE = "page.html.jinja"
SHOP = {
    "cut_list.csv": "What to cut",
    "stakes.csv": "Stakes and tapes",
    "shopping.csv": "What to buy",
}
MOST_BYTES = 2_950_000
"""Size of a page up to which racks are added to the view that a reader turns."""
TRIMMED = ("length_m", "tape_m", "level_m", "weight_kg")
"""Columns of the shop's tables that are for programs."""
PLAIN = " !$&'()*+,-./:;=?@[]_~{}|^`"
"""Letters, beside those and digits, that may stand in a data URL as they are."""
MOVED = "the numbers on it are those of the words and tables of this page"


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePicture:
    """A picture inside the page: its `source` as a data URL, its `words` for who cannot see it."""

    source: str
    words: str
    title: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """A check folded away: its name, what it uses, and its steps."""

    head: str
    uses: str
    steps: str


def html_page(text: str, name: str, units: str | None = None) -> str:
    """Return the whole page of a rack file's `text`, called `name` in messages.

    Raises
    ------
    FrameError
        Where the file is wrong, or the two solvers disagree.
    """
    found, study = decide_and_compare(text, name, units, processes=processes())
    system = units or found.rack.units
    shown = of_plan(found)
    end = found.plan.end.rack
    filled: dict[str, Any] = {
        "rack": found.rack,
        "words": tuple(paragraphs(found)),
        "plan": plan_passage(found),
        "cautions": words.CAUTIONS,
        "first": _first(shown, system),
        "bought": _picture(
            plan_sheet(found, system), "What each step buys", "gusts of every step"
        ),
        "steps": tuple(_steps(found, shown.gust, system)),
        "ladders": _ladders(found, system),
        "ladder_picture": _ladder_picture(found, shown, system),
        "forces": _forces(shown, system),
        "comparison": tuple(passages(compare_page.page(study, system, cautions=False))),
        "shop": tuple(_shop(found)),
        "counted": tuple(passages(counted_on(end, found.end, system))),
        "assumed": tuple(passages(footing(end, system))),
        "by_hand": tuple(_by_hand(found.end, system)),
        "sources": sorted({row.source for row in found.end.rows}),
    }
    template = page_templates().get_template(TEMPLATE)
    room = MOST_BYTES - len(template.render(filled, responses="", left_out=True).encode())
    worst = shown.racks[0].wind.block.frame.ideal.tilt
    turned = view_data(choices(found, study), shown.gust, worst, system, room)
    responses = Markup(as_script(turned))
    return template.render(filled, responses=responses, left_out=turned["left_out"])


def page_templates() -> Environment:
    """Return the templates of the page; what is put into them is text, and escaped."""
    return Environment(
        loader=PackageLoader("frame.page", ""),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _first(shown: Beside, system: str) -> PagePicture:
    titles = " beside ".join(one.title for one in shown.racks)
    return _picture(
        two_panes(shown, system), f"Where it flexes: {titles}", "by weight and in a gust"
    )


def _picture(figure: Any, title: str, what: str) -> PagePicture:
    lean = re.sub(r"\s+", " ", as_svg(figure)).replace("> <", "><")
    return PagePicture(
        source=f"data:image/svg+xml,{quote(lean, safe=PLAIN)}",
        words=f"{title}: {what}; {MOVED}",
        title=title,
    )


def _steps(found: Decision, gust: float, system: str) -> Iterator[PagePicture]:
    for count, step in enumerate(found.plan.steps, 1):
        shown = replace(of_step(found, count, gust), done="")
        title = f"Step {count}: {step.words}"
        yield _picture(two_panes(shown, system), title, "the rack after it")


def _ladder_picture(found: Decision, shown: Beside, system: str) -> PagePicture:
    sheet = ladder_sheet(found.rack, _goings(found, shown), system)
    return _picture(sheet, "What goes first", "ranges of gusts")


def _goings(found: Decision, shown: Beside) -> list[tuple[str, list[Going]]]:
    titles = [one.title for one in shown.racks]
    results = (found.start, found.end)[: len(titles)]
    return [
        (title, [row.going for row in result.ladder if row.going])
        for title, result in zip(titles, results, strict=True)
    ]


def _ladders(found: Decision, system: str) -> tuple[Passage, ...]:
    steps = len(found.plan.steps)
    if not steps:
        return tuple(passages(ladder_table(found.start, system)))
    told = (("Before the plan", found.start), (f"After step {steps}", found.end))
    return tuple(
        block
        for head, result in told
        for block in (Passage(head=head), *passages(ladder_table(result, system)))
    )


def _forces(shown: Beside, system: str) -> tuple[PagePicture, ...]:
    draw = partial(force_sheet, shown)
    return (
        _picture(draw("moments", system), "Bending moments", "front and side"),
        _picture(draw("axial", system), "Axial forces", "front and side"),
        _picture(space_sheet(shown, system), "The whole rack, moved", "in space"),
    )


def _shop(found: Decision) -> Iterator[Passage]:
    """Yield what to cut, stake out and buy for the rack that the plan ends with."""
    rack = replace(found.plan.end.rack, units=found.rack.units)
    start = found.plan.start
    wanted = Wanted(standing=standing_of(start.rack, start.bracing))
    made = csv_tables(make_job(rack, found.end.bracing, wanted, found.end))
    for file, title in SHOP.items():
        if file not in made:
            continue
        head, *rows = list(csv.reader(io.StringIO(made[file])))
        kept = [i for i, column in enumerate(head) if column not in TRIMMED]
        yield Passage(head=title)
        yield table_passage(
            [head[i].replace("_", " ") for i in kept], [_some(row, kept) for row in rows]
        )


def _some(row: Sequence[str], kept: Sequence[int]) -> list[str]:
    return [row[i] for i in kept]


def _by_hand(result: BracingResult, system: str) -> Iterator[ByHand]:
    for row in sorted(result.rows, key=lambda r: -r.utilisation):
        uses = words.use_words(row.utilisation)
        yield ByHand(head=f"{row.part}: {row.check}", uses=uses, steps=by_hand([row], system))
