"""What each part uses, and the forces in braces and guys, bracing by bracing."""

import math
from collections.abc import Iterator

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from frame.named.limit_state import PIPE_CHECKS, LimitState
from frame.named.part import PartKind
from frame.records.results import BraceForce, BracingResult, GuyForce, Row, Study
from frame.report import words
from frame.report.tables import OVER, flagged, new_table, once, under_title
from frame.units import show

MOST_IN_DEPTH = 8
"""Bracings shown in depth; the overview has them all."""
PIPES = (PartKind.POST, PartKind.BEAM, PartKind.KNEE, PartKind.STAY)
REST = "rest"
DECIDES = "DECIDES"
SWAYS_OVER = "no end: sways over"
Line = list[RenderableType]


def part_forces(study: Study, system: str) -> Group:
    """Return the tables of uses, brace forces and guy tensions."""
    deep = in_depth(study)
    parts = [_uses(study, deep, system)]
    if any(r.braces for r in deep):
        parts.append(_braces(deep, system))
    if any(r.guys for r in deep):
        parts.append(_guys(deep, system))
    return Group(*parts)


def in_depth(study: Study) -> tuple[BracingResult, ...]:
    """Bracings to show in depth: all of a few, else bare, the verdict's and the least used."""
    if len(study.results) <= MOST_IN_DEPTH:
        return study.results
    first = [r for r in study.results if r.bracing in ((), study.verdict.bracing)]
    rest = sorted((r for r in study.results if r not in first), key=lambda r: worst_use(r.rows))
    kept = [*first, *rest][:MOST_IN_DEPTH]
    return tuple(r for r in study.results if r in kept)


def pipe_checked(row: Row) -> str:
    """Return which pipe a row checks along its length; `REST` where it checks something else."""
    along = row.part.kind in PIPES and row.check in PIPE_CHECKS
    return row.part.kind if along else REST


def worst_row(rows: tuple[Row, ...], *kinds: str) -> Row | None:
    """Return the row of these kinds that uses most; None if there is none."""
    found = [r for r in rows if pipe_checked(r) in kinds]
    return max(found, key=lambda r: r.utilisation, default=None)


def worst_use(rows: tuple[Row, ...]) -> float:
    """Return the highest use of all."""
    return max((r.utilisation for r in rows), default=0.0)


def use_cell(row: Row | None, word: str = OVER) -> RenderableType:
    """Return a cell with a use, flagged over 100 %."""
    if row is None:
        return "-"
    if row.covered:
        return share_cell(row.utilisation, word)
    if row.passes:
        return flagged("not covered", over=True, word="")
    told = f"{share_cell(row.utilisation, word)}, and not covered in full"
    return flagged(told, over=True, word="")


def share_cell(part: float, word: str = OVER) -> Text:
    """Return a cell with a share of what is allowed, flagged over 100 %."""
    text = words.percent(part)
    return flagged(text, over=part > 1, word=word if "%" in text else "")


def _uses(study: Study, deep: tuple[BracingResult, ...], system: str) -> Group:
    made = new_table("Bracing", "part: check", ">uses", "when")
    lines = [(r.title, row) for r in deep for row in _told(r)]
    for title, (_, row) in zip(once([t for t, _ in lines]), lines, strict=True):
        told = words.when(row.words, row.tilt, row.decided_by)
        made.add_row(title, f"{row.part}: {row.check}", use_cell(row), told)
    others = len(study.results) - len(deep)
    gust = show(study.rack.site.map_gust, "speed", system)
    return under_title(
        f"What each part uses of what it can take, worst case, at the map gust of {gust}",
        made,
        f"{words.LIGHT} Every check: rack check FILE --bracing NAMES.",
        _uncovered(study),
        f"{others} other bracings are in the overview only." if others else "",
    )


def _braces(deep: tuple[BracingResult, ...], system: str) -> Group:
    made = new_table("Bracing", "brace", ">at most", "in")
    _fill(made, [(r.title, line) for r in deep for line in _brace_lines(r, system)])
    return under_title(
        "Forces in the braces",
        made,
        f'At the map gust, growth by sway in it. "{DECIDES}": this brace, pulled or pushed so, is '
        "the one used most.",
    )


def _brace_lines(result: BracingResult, system: str) -> Iterator[Line]:
    row = worst_row(result.rows, PartKind.KNEE, PartKind.STAY)

    def told(b: BraceForce) -> tuple[object, ...]:
        blows = (words.own_side(w, b.name) for w in (b.tension_words, b.compression_words))
        return (*words.rounded(b.tension, b.compression), *map(words.wind, blows))

    for (_, _, pulls, pushes), alike in words.gather_alike(result.braces, told).items():
        b, names = alike[0], [x.name for x in alike]
        here = row is not None and row.part in names
        pushed = row is not None and pushing(row)
        pull, push = (force_words(v, system) for v in (b.tension, b.compression))
        yield [
            words.joined_names(names),
            flagged(f"pull {pull}", over=here and not pushed, word=DECIDES),
            str(pulls) if b.tension else "-",
        ]
        yield [
            "",
            flagged(f"push {push}", over=here and pushed, word=DECIDES),
            str(pushes) if b.compression else "-",
        ]


def _uncovered(study: Study) -> str:
    """Name checks of the verdict's bracing that lie outside the limits of their rules."""
    best = next(r for r in study.results if r.bracing == study.verdict.bracing)
    names = [f"{row.part}: {row.check}" for row in best.rows_uncovered]
    told = f"Not covered, outside the limits of the rules, so not checked: {'; '.join(names)}."
    return told if names else ""


def _told(result: BracingResult) -> Iterator[Row]:
    """Worst row of each kind of pipe, and of all the rest."""
    found = (worst_row(result.rows, k) for k in (*PIPES, REST))
    return (row for row in found if row)


def pushing(row: Row) -> bool:
    """Tell whether a brace is pushed, not pulled, in the case of a row."""
    force = next((s.value for s in row.hand.steps if s.symbol == "N"), None)
    return row.check is not LimitState.PULL if force is None else float(force) <= 0


def _guys(deep: tuple[BracingResult, ...], system: str) -> Group:
    made = new_table("Bracing", "guy", ">still air", ">most pull", "in, and where it hangs slack")
    _fill(made, [(r.title, line) for r in deep for line in _guy_lines(r, system)])
    return under_title(
        "Pull in the guys",
        made,
        "Most pull: at the map gust, growth by sway in it; wire, fittings and anchors are checked "
        "for it. Slack: in some case of that wind at the map gust. A guy that hangs slack is no "
        "fault by itself; the others carry.",
    )


def _guy_lines(result: BracingResult, system: str) -> Iterator[Line]:
    def told(g: GuyForce) -> tuple[object, ...]:
        slack = words.slack_winds(g.slack_winds, g.name)
        blows = words.wind(words.own_side(g.words, g.name))
        return (*words.rounded(g.tension, g.pretension), blows, slack)

    for (_, _, blows, slack), alike in words.gather_alike(result.guys, told).items():
        pull, still = (force_words(v, system) for v in (alike[0].tension, alike[0].pretension))
        yield [
            words.joined_names([g.name for g in alike]),
            still,
            pull,
            f"{blows}\nslack in wind: {slack}",
        ]


def force_words(value: float, system: str) -> str:
    """Return a force [N]; an infinite one is that of a rack that sways over."""
    return show(value, "force", system) if math.isfinite(value) else SWAYS_OVER


def _fill(made: Table, lines: list[tuple[str, Line]]) -> None:
    """Add lines to a table, the bracing named once."""
    for title, (_, line) in zip(once([t for t, _ in lines]), lines, strict=True):
        made.add_row(title, *line)
