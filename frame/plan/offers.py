"""What may be changed next: bracing to fit, things to make stronger, each an edit of the file."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from frame.casefile.write import Edits
from frame.changes.offered import all_series
from frame.changes.series import Series, Thing
from frame.changes.stock import supply
from frame.named.aim import Helps, Key, helps_any
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.solved.frames import Bracing
from frame.tables.reader import rows
from frame.units import LB

BRACING, MOVE = "bracing", "move"
AHEAD = (1, 2, 3, 5, 8)
"""Rungs of a series tried, from the one it stands on."""
STIFF = (KNEES, TIES, STAYS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One change: what to `do`, the `edits` of the file, the bracing it `fits`.

    `work` [N] is its trouble as a weight of steel; `digs` in the ground, `unloads` the rack: both
    cost dear where it stands already. `helps`: the checks it strengthens, all where empty.
    `again`: how it is told right after another change of the same part, where that is shorter.
    """

    do: str
    kind: str
    fits: tuple[str, ...] = ()
    edits: Edits = field(default_factory=dict)
    work: float = 0.0
    digs: bool = False
    unloads: bool = False
    helps: Helps = ()
    again: str = ""

    def answers(self, weak: Sequence[Key]) -> bool:
        """Whether it strengthens any of the checks."""
        return not self.helps or helps_any(self.helps, weak)


Changes = tuple[Offer, ...]
"""What is done in one step."""


def offers(
    rack: Rack, bracing: Bracing, text: str, *, every: bool = False
) -> Iterator[tuple[Offer, ...]]:
    """Everything that can be changed in the file's rack as it is, with its bracing.

    One thing after the other: its sizes, some of them or `every` one, the weakest first.
    """
    for name in rack.bracing_names:
        if name not in bracing:
            yield (_fit(name),)
    for series in all_series(rack, bracing, supply(rack, text)):
        yield tuple(_rungs(series, every=every))


def guys_by_section(rack: Rack) -> dict[str, str]:
    """Name the group of guys of each section of the rack file: the first with a number or without.

    As `Offer.edits` has sections.
    """
    found = {f"guys {i}": g.name for i, g in enumerate(rack.guys, 1)}
    return {"guys": found["guys 1"], **found} if found else {}


def _fit(name: str) -> Offer:
    do = f"weld the {name}" if name in STIFF else f"fit the {name}"
    offer = Offer(do=do, kind=BRACING, fits=(name,))
    return _troubled(offer, f"fit {name}" if name in STIFF else "fit guys")


def _rungs(series: Series, *, every: bool) -> Iterator[Offer]:
    # Bolts and pins of a lock are tried in every size.
    all_of_them = range(1, len(series.rungs) - series.start)
    for ahead in all_of_them if every or series.thing is Thing.LOCK else AHEAD:
        at = series.start + ahead
        if at < len(series.rungs):
            rung = series.rungs[at]
            offer = Offer(
                do=rung.words, kind=MOVE, edits=rung.edits, helps=series.helps, again=rung.again
            )
            yield _troubled(offer, series.thing)


def _troubled(offer: Offer, change: str) -> Offer:
    """Return the offer with the work of such a change, and whether it digs or unloads."""
    row = next(r for r in rows("plan_work") if r["change"] == change)
    return replace(
        offer,
        work=float(row["work_lb"]) * LB,
        digs=row["digs"] == "yes",
        unloads=row["unloads"] == "yes",
    )
