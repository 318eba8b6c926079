"""Nothing is decided by what a name begins or ends with, or holds: parts and checks have ids.

Above the reading of files no text is cut up or matched by its ends, but in the files listed, each
with its reason: there a text is made for print, or is none of the program's own making.
"""

import ast
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from frame.named.limit_state import LimitState, Movement
from tests.architecture.sources import tree_of

pytestmark = pytest.mark.xdist_group("architecture")
PACKAGE = Path(__file__).parents[2] / "frame"
BELOW = {"casefile", "units", "tables", "errors.py"}
"""What reads texts that people have written: rack files, quantities, names in catalogs."""
CUTTING = {
    "startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition", "split",
    "rsplit",
}  # fmt: skip
NO_TEXT = {"np", "self", "re"}
"""What has a `split` of its own, of arrays or by an expression."""
PRINTED = "trims a number that is printed, or its unit"
WRAPPED = "breaks a printed text into lines"
ALLOWED = {
    "named/part.py": "the singular of a group of guys, for its words",
    "cli/main.py": "what was typed at the prompt",
    "diagnosis/unknowns.py": "a key of the rack file",
    "draw/bars.py": WRAPPED,
    "draw/gusts.py": PRINTED,
    "draw/pulls.py": "leaves a word out of a label",
    "draw/shop/paper.py": WRAPPED,
    "draw/shop/stop_template.py": PRINTED,
    "draw/two_panes.py": WRAPPED,
    "page/passages.py": "style of a printed text",
    "page/first_words.py": "indent of a printed line",
    "plan/second_process.py": "name of the operating system",
    "report/by_hand.py": "sets a printed negative number in brackets",
    "report/catalog.py": "what was asked of the catalog",
    "report/ladder.py": PRINTED,
    "report/money.py": PRINTED,
    "report/headed.py": "the text of a rack file",
    "report/readings/screen.py": PRINTED,
    "report/screen/doubts.py": "puts a full stop after a printed sentence",
    "report/screen/first.py": "shortens a printed command",
    "report/screen/phrases.py": PRINTED,
    "changes/series.py": "joins the words of one step",
    "plan/steps.py": "joins the words of one step",
    "report/side_by_side.py": PRINTED,
    "report/tables.py": "mark of a column set to the right",
    "report/unknowns.py": PRINTED,
    "report/words.py": "joins the printed names of a pair",
    "shop/steel/assembly.py": "words of a joint",
    "shop/buying/shopping.py": "leaves a word out of what is bought",
    "shop/steel/crowded.py": "leaves a word out of a sentence",
    "shop/words.py": PRINTED,
    "verdict/sentences.py": PRINTED,
}
FILES = sorted(PACKAGE.rglob("*.py"))
TOLD = {str(s) for s in (*LimitState, *Movement) if " " in s}
"""Printed names of checks that are no words of anything else."""


def where(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


@cache
def cuts(path: Path) -> tuple[int, ...]:
    """Lines in which a text is cut up or matched by its ends."""
    found = []
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            owner = node.func.value
            own = isinstance(owner, ast.Name) and owner.id in NO_TEXT
            if node.func.attr in CUTTING and not own:
                found.append(node.lineno)
    return tuple(found)


def above(path: Path) -> bool:
    return path.relative_to(PACKAGE).parts[0] not in BELOW


@pytest.mark.parametrize("path", [p for p in FILES if above(p)], ids=where)
def test_no_text_is_cut_up_to_decide(path: Path) -> None:
    found = () if where(path) in ALLOWED else cuts(path)
    assert not found, f"{path}: lines {found}"


def test_what_is_allowed_still_cuts() -> None:
    found = Counter(where(p) for p in FILES for _ in cuts(p))
    assert not [name for name in ALLOWED if not found[name]]


@pytest.mark.parametrize("path", FILES, ids=where)
def test_printed_names_of_checks_stand_once(path: Path) -> None:
    """A check's name is typed in its enum alone: a text like it elsewhere would decide by it."""
    if where(path) == "named/limit_state.py":
        return
    texts = [
        node.value
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]
    assert not TOLD & set(texts)
