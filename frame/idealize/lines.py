"""Guys: which lines go where, how stiff they are, and how their pull may stray."""

from dataclasses import dataclass

import numpy as np

from frame.fem.model import Guy
from frame.idealize.braces import attachments
from frame.idealize.draft import Draft
from frame.idealize.state import State, between
from frame.named.part import FOUR_WAYS, Part, guy
from frame.rack.guy import Guys
from frame.rack.rack import Rack
from frame.tables.reader import rows
from frame.tables.steels import material

SEASON = 17.0
"""Swing of temperature either way from that of the day of tensioning [K] (judgement, 30 F)."""
BEDDING = 0.1
"""Part of the pretension lost as terminations bed in (judgement)."""
LEAST_KEPT = 0.25
"""Part of the pretension that is left at worst before somebody tightens the guy (judgement)."""


@dataclass(frozen=True, slots=True)
class Give:
    """What gives in series with a wire [N/m], soft and stiff end of the band."""

    soft: float
    stiff: float


def anchor_give(kind: str) -> Give:
    """Stiffness of an anchor in its ground, from the table of judgements."""
    for row in rows("anchor_stiffness"):
        if row["kind"] == kind:
            return Give(*(1e6 * float(row[f"{end}_kn_per_mm"]) for end in ("soft", "stiff")))
    raise ValueError(f"no anchor stiffness for {kind!r}")


def effective_stiffness(guys: Guys, length: float, where: str) -> float:
    """EA [N] of wire and anchor in series over `length` [m]; `where` soft, middle or stiff."""
    wire = guys.wire.area * between(guys.wire.E_low, guys.wire.E_high, where)
    give = anchor_give(guys.anchor)
    anchor = between(give.soft, give.stiff, where)
    return length / (length / wire + 1 / anchor)


def pretension(guys: Guys, stiffness: float, where: str) -> float:
    """Pull in still air [N]: as the file says, or at the slack (hot) or tight (cold) end.

    `stiffness` is the effective EA [N].
    """
    drift = stiffness * material().alpha * SEASON
    given = guys.pretension
    if where == "low":
        return max(LEAST_KEPT * given, (1 - BEDDING) * given - drift)
    return given + drift if where == "high" else given


def guy_names(guys: Guys) -> tuple[Part, ...]:
    """Return the four guys of a group as parts."""
    return tuple(guy(guys.name, edge, side) for edge, side in FOUR_WAYS)


def add_guys(draft: Draft, rack: Rack, names: tuple[str, ...], state: State) -> None:
    """Add the guys of the named groups."""
    for guys in rack.guys:
        if guys.name not in names:
            continue
        places = attachments(draft, rack, guys.attach)
        for name, (_, _, node, (sx, sy)) in zip(guy_names(guys), places, strict=True):
            x, y, z = draft.xyz(node)
            anchor = (x + sx * guys.along, y + sy * guys.out, guys.rise)
            length = float(np.linalg.norm(np.array(anchor) - (x, y, z)))
            stiffness = effective_stiffness(guys, length, state.guys)
            draft.guys.append(
                Guy(
                    name=name,
                    node=node,
                    anchor=anchor,
                    EA=stiffness,
                    pretension=pretension(guys, stiffness, state.pretension),
                )
            )
