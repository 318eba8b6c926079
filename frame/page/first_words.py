"""The first screen's words: the same paragraphs, unwrapped, and the plan as a table."""

import re
from collections.abc import Iterator

from frame.page.passages import Passage, table_passage
from frame.plan.decision import Decision
from frame.report.screen.first import GROUPS, PARAGRAPHS
from frame.report.screen.steps import plan_rows

SET_APART = "steps"
"""The table of the plan, which has a place of its own."""
BROKEN = re.compile(r"(?<=[a-z]-) (?=[a-z])")
"""Where a line was broken in a word with a hyphen: "one- sided"."""
HEADED = re.compile(r"(\S.*?)\s{2,}(\S.*)", re.DOTALL)


def paragraphs(decision: Decision) -> Iterator[Passage]:
    """Yield every paragraph of the first screen, whole, none left out for want of room."""
    for name in (name for group in GROUPS for name in group if name != SET_APART):
        lines = PARAGRAPHS[name](decision)
        if not lines:
            continue
        first, *rest = lines
        found = HEADED.fullmatch(first)
        if first.startswith(" "):
            yield Passage(text=_joined(lines))
        elif found:
            yield Passage(head=found[1], text=_joined([found[2], *rest]))
        elif rest:
            yield Passage(head=first.strip(), text=_joined(rest))
        else:
            yield Passage(text=first.strip())


def plan_passage(decision: Decision) -> Passage:
    """Return the table of the plan: what to do, and what is left to move, slip and break."""
    head, *made = plan_rows(decision)
    return table_passage(head, made, right=1)


def _joined(lines: list[str]) -> str:
    return BROKEN.sub("", " ".join(line.strip() for line in lines))
