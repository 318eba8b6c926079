"""The ladder: what goes first as the gusts rise, and how: it turns, tilts, leans or breaks."""

from rich.console import Group

from frame.named.limit_state import LimitState
from frame.records.going import Going
from frame.records.results import BracingResult, Row
from frame.report import words
from frame.report.screen.phrases import number
from frame.report.tables import new_table, under_title
from frame.units import head_unit

MOST_RUNGS = 10


def gust_with_range(going: Going | None, system: str) -> str:
    """Return the gust at which something is expected to go, with its range in brackets."""
    if going is None:
        return words.gust_rounded_down(None, system)
    middle, *ends = (_told(g, system) for g in (going.gust, going.low, going.high))
    unit = f" {head_unit('speed', system)}"
    low, high = (end.removesuffix(unit) for end in ends)
    return middle if low == high else f"{middle} ({low} to {high})"


def _told(gust: float, system: str) -> str:
    """Return a gust [m/s], or that it is beyond the highest that any screen tells."""
    beyond = number(gust, system)
    if beyond.startswith(">"):
        return f"{beyond} {head_unit('speed', system)}"
    return words.gust_rounded_down(gust, system)


def ladder_table(result: BracingResult, system: str) -> Group:
    """Return the ladder of one bracing; parts of a pair stand on one rung."""
    made = new_table(
        "What goes", "how", ">at about", ">margin up to\n(mapped gust)", "in",
    )  # fmt: skip

    def told(row: Row) -> tuple[object, ...]:
        gust = row.let_go_gust or 0.0
        return (row.check, *words.rounded(gust, row.limit_gust or 0.0))

    going = [row for row in result.ladder if row.let_go_gust is not None]
    rungs = list(words.gather_alike(going, told).values())
    shown = rungs[:MOST_RUNGS]
    for alike in shown:
        row, names = alike[0], [r.part for r in alike]
        blows = row.going.words if row.going else row.words
        angle = row.going.tilt if row.going else row.tilt
        if len(alike) > 1:
            blows = words.own_side(blows, row.part)
        made.add_row(
            f"{words.joined_names(sorted(names))}: {row.check}"
            f"{'' if row.covered else ' (not covered in full)'}",
            str(row.kind),
            gust_with_range(row.going, system),
            words.gust_rounded_down(row.limit_gust, system),
            words.when(blows, angle),
        )
    more = len(rungs) - MOST_RUNGS
    return under_title(
        f"What goes first, as the gusts rise: {words.title_in_sentence(result.title)}",
        made,
        f"And {more} more that go later." if more > 0 else "",
        words.ABOUT,
        words.NOT_ALIKE,
        words.CHORD_WALL if any(told[0].check is LimitState.CHORD_WALL for told in shown) else "",
    )
