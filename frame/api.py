"""Everything the command does, as a few functions: a rack file in, an answer out, in SI units.

    >>> from frame import decide
    >>> decide("cases/orchard_wall.toml").plan.end.bracing
    ('knees', 'guys')

Every answer prints as one line, and turns into plain data by `plain` and into rows of a table by
`table`. While an answer is worked out numpy keeps to one thread: the matrices are small, and
threads would wait for each other longer than they work.
"""

from collections.abc import Callable, Sequence
from functools import wraps
from pathlib import Path
from typing import Any, ParamSpec, TypeVar

from threadpoolctl import threadpool_limits

from frame.casefile.named import bracing_of
from frame.casefile.read import parse_rack
from frame.casefile.read import read_rack as _read_rack
from frame.casefile.syntax import read_text
from frame.diagnosis.diagnosis import Diagnosis
from frame.diagnosis.diagnosis import diagnose as _diagnose
from frame.errors import FrameError  # noqa: F401 - public, see `frame`
from frame.plan import decision
from frame.plan import gusts as laying
from frame.plan.decision import Decision
from frame.plan.gusts import Gusts
from frame.plan.second_process import processes
from frame.rack.rack import Rack
from frame.records.results import Study
from frame.report import check_page, sizes
from frame.report import gusts as gusts_page
from frame.report.data import diagnose_data, document, plan_data
from frame.report.data.plain import document_opening, finite
from frame.sizing.size import Sized
from frame.verdict.compare import chosen
from frame.verdict.inspect import Inspection, inspect

P = ParamSpec("P")
T = TypeVar("T")
ROWS: dict[type, str] = {
    Study: "bracings",
    Decision: "plan",
    Inspection: "checks",
    Sized: "steps",
    Diagnosis: "movements",
}
"""Where the rows of an answer's main table stand in its plain data."""
AnyAnswer = Study | Decision | Inspection | Gusts | Sized | Diagnosis


def _one_thread(work: Callable[P, T]) -> Callable[P, T]:
    @wraps(work)
    def alone(*args: P.args, **more: P.kwargs) -> T:
        with threadpool_limits(limits=1):
            return work(*args, **more)

    return alone


def read_rack(path: str | Path, units: str | None = None) -> Rack:
    """Read a rack file; `units` "us" or "metric" for the words in it, the file's own if None.

    >>> read_rack("cases/orchard_wall.toml").bracing_names
    ('knees', 'guys')

    Raises
    ------
    FrameError
        Where the file is wrong: every fault at once, with what would be right.
    """
    return _read_rack(Path(path), units)


@_one_thread
def decide(path: str | Path) -> Decision:
    """Say what to weld and change, in which order, and what each step buys: `rack compare`.

    >>> decide("cases/orchard_wall.toml").plan.reached
    True
    """
    where = Path(path)
    return decision.decide(read_text(where), where.name, processes=processes())


@_one_thread
def compare(path: str | Path) -> Study:
    """Set every bracing side by side: `rack compare --all`.

    >>> compare("cases/orchard_wall.toml")
    Study('orchard wall', 4 bracings, best 'knees + guys')
    """
    where = Path(path)
    return decision.side_by_side(read_text(where), where.name)


@_one_thread
def check(path: str | Path, bracing: str | None = None) -> Inspection:
    """Check one bracing in depth, that of the verdict if none is named: `rack check`.

    >>> check("cases/orchard_wall.toml", "knees").result.sags
    False
    """
    rack = read_rack(path)
    return inspect(rack, chosen(rack) if bracing is None else bracing_of(bracing, rack))


@_one_thread
def gusts(path: str | Path, bracing: str | None = None) -> Gusts:
    """Say at which forecast gust panels go low or come off: `rack gusts`.

    >>> gusts("cases/fifteen_lines.toml", "bare").curve.title
    'bare'
    """
    rack = read_rack(path)
    return laying.gusts_of(rack, None if bracing is None else bracing_of(bracing, rack))


@_one_thread
def diagnose(path: str | Path, *, plans: bool = True) -> Diagnosis:
    """Say why a standing rack droops and moves, by what the file tells was read off it.

    `rack diagnose`; without its `plans` what that changes is left out.

    >>> diagnose("cases/fifteen_lines.toml")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ...
    frame.errors.InputError: measured: no reading is told; `rack measure FILE` says ...
    """
    where = Path(path)
    text = read_text(where)
    return _diagnose(text, where.name, plans=plans, processes=processes())


@_one_thread
def size(
    path: str | Path,
    bracing: str | None = None,
    tell: Callable[[str], None] = lambda _: None,
) -> Sized:
    """Find the lightest rack that holds; `text` of the answer is its file: `rack size`.

    It takes some minutes; `tell` hears of every step.

    >>> size("cases/fifteen_lines.toml", "bare").holds  # doctest: +SKIP
    True
    """
    where = Path(path)
    text = read_text(where)
    rack = parse_rack(text, where.name)
    named = None if bracing is None else bracing_of(bracing, rack)
    return decision.size_beside_plan(text, where.name, named, tell)


def plain(answer: AnyAnswer) -> dict[str, Any]:
    """Turn an answer into plain data, as `--json` prints it: SI units, null for what is not known.

    >>> plain(decide("cases/orchard_wall.toml"))["plan_reached"]
    True
    """
    if isinstance(answer, Study):
        return document.document(answer)
    if isinstance(answer, Decision):
        return finite({**document_opening(answer.rack), **plan_data.plan_data(answer)})
    if isinstance(answer, Inspection):
        return check_page.check_data(answer, answer.result.rows)
    if isinstance(answer, Gusts):
        return gusts_page.document(answer)
    if isinstance(answer, Diagnosis):
        return diagnose_data.document(answer)
    return sizes.document(answer)


def table(answer: AnyAnswer) -> Sequence[dict[str, Any]]:
    """Turn an answer into the rows of its main table.

    Bracings, steps, checks, tilts, sizes or movements.

    >>> [row["do"] for row in table(decide("cases/orchard_wall.toml"))][-2:]
    ['weld the knees', 'fit the guys']
    """
    found = plain(answer)
    rows: Sequence[dict[str, Any]] = (
        found["curves"][0]["tilts"] if isinstance(answer, Gusts) else found[ROWS[type(answer)]]
    )
    return rows
