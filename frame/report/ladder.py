"""The ladder: what lets go first."""

from rich.console import Group

from frame.report import words
from frame.report.tables import section, table
from frame.study.results import BracingResult, Row

MOST_RUNGS = 10


def ladder(result: BracingResult, system: str) -> Group:
    """Return the ladder of one bracing; parts of a pair stand on one rung."""
    made = table(
        "What lets go first", ">margin up to\n(mapped gust)", ">act by\n(forecast)",
        ">lets go\nat about", "in",
    )  # fmt: skip

    def told(row: Row) -> tuple[object, ...]:
        gust = row.let_go_gust or 0.0
        return (row.check, *words.rounded(gust, row.limit_gust or 0.0), row.decided_by)

    going = [row for row in result.ladder if row.let_go_gust is not None]
    rungs = list(words.gather(going, told).values())
    for alike in rungs[:MOST_RUNGS]:
        row, names = alike[0], [r.part for r in alike]
        blows = row.going.words if row.going else row.words
        angle = row.going.tilt if row.going else row.tilt
        if len(alike) > 1:
            blows = words.own_side(blows, row.part)
        made.add_row(
            f"{words.joined(sorted(names))}: {row.check}"
            f"{'' if row.covered else ' (not covered in full)'}",
            words.gust(row.limit_gust, system),
            words.gust(row.act_by_gust, system),
            words.gust(row.let_go_gust, system),
            words.when(blows, angle, row.decided_by),
        )
    more = len(rungs) - MOST_RUNGS
    return section(
        f"What lets go first, as the gusts rise: {words.named(result.title)}",
        made,
        f"And {more} more that go later." if more > 0 else "",
        "Lets go: the whole gust reaches the strength itself. Act by: the forecast gust at which "
        "the safety factor is used up: panels off or lowered before. Margin: compare with the "
        "code's map.",
        words.NOT_ALIKE,
        words.CHORD_WALL if any("chord wall" in told[0].check for told in rungs) else "",
    )
