"""Where else a search may begin: from a rack found before. And sizes of a rack that has grown."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from frame.casefile.write import Edits, Where, edited
from frame.changes.offered import all_series
from frame.changes.series import Rung, Series
from frame.changes.stock import Supply
from frame.sizing.bench import Bench, ChosenRungs


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A rack found before, `called` so: its `bracing`, and what was `made` of the rack described.

    Later changes of a thing take the place of earlier ones.
    """

    called: str
    bracing: tuple[str, ...]
    made: tuple[Rung, ...]


def taken_up(
    bench: Bench, begun: Begun, stock: Supply
) -> tuple[Bench, ChosenRungs, tuple[Rung, ...]]:
    """Return the bench with the sizes of a rack found before, and their choice.

    And the changes of what has no sizes on the bench: they are made in its file.

    Raises
    ------
    FrameError
        Where such a rack cannot be built, or cut from stock.
    """
    made: dict[int, Rung] = {}
    beside: list[Rung] = []
    for rung in begun.made:
        at = _of_keys(bench.series, rung.edits)
        if at is None:
            beside.append(rung)
        else:
            before = made[at].edits if at in made else {}
            made[at] = replace(rung, edits={**before, **rung.edits})
    series, choice = list(bench.series), list(bench.start)
    for at, rung in made.items():
        one = series[at]
        known = [n for n, other in enumerate(one.rungs) if dict(other.edits) == dict(rung.edits)]
        if not known:
            series[at] = replace(one, rungs=(*one.rungs[: one.start + 1], rung))
        choice[at] = known[0] if known else one.start + 1
    text = edited(bench.text, {where: v for rung in beside for where, v in rung.edits.items()})
    taken = replace(bench, text=text, series=tuple(series))
    return (*widened(taken, tuple(choice), stock), tuple(beside))


def widened(bench: Bench, choice: ChosenRungs, stock: Supply) -> tuple[Bench, ChosenRungs]:
    """Return the bench with the sizes that the rack as chosen is offered, and the same choice.

    A bigger post takes a bigger pin, more rails more stops: beyond the rung chosen of a thing
    come those offered now.

    Raises
    ------
    FrameError
        Where such a rack cannot be built, or cut from stock.
    """
    offered = list(all_series(bench.rack(choice), bench.bracing, stock))
    series: list[Series] = []
    for one, rung in zip(bench.series, choice, strict=True):
        now = [o for o in offered if o.name == one.name] or [
            o for o in offered if _keys(o) & _keys(one)
        ]
        offered = [o for o in offered if o not in now]
        further = tuple(_further(one.rungs[rung], now[0])) if now else ()
        series.append(replace(one, rungs=(*one.rungs[: rung + 1], *further)))
    wider = replace(bench, series=(*series, *offered))
    return wider, (*choice, *(one.start for one in offered))


def _further(at: Rung, now: Series) -> Iterator[Rung]:
    for rung in now.rungs[now.start + 1 :]:
        yield replace(rung, edits={**at.edits, **rung.edits})


def _keys(series: Series) -> set[Where]:
    return {where for rung in series.rungs for where in rung.edits}


def _of_keys(series: Sequence[Series], edits: Edits) -> int | None:
    """Find the series that sets what a change sets, of several the one that sets least else."""
    shared = [len(_keys(one) & set(edits)) for one in series]
    most = max(shared, default=0)
    found = [i for i, many in enumerate(shared) if many == most > 0]
    return min(found, key=lambda i: len(_keys(series[i])), default=None)
