"""What a part of a rack is, as an id to decide by: its kind, post, side, and what meets there."""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache


class PartKind(StrEnum):
    """Kind of a part; its value is its word."""

    RACK = "rack"
    POST = "post"
    BEAM = "beam"
    KNEE = "knee"
    STAY = "stay"
    TIE = "tie"
    RAIL = "rail"
    SLEEVE = "sleeve"
    SET_BOLT = "set bolt"
    PIN = "through pin"
    U_BOLT = "U-bolt"
    STRAP = "strap"
    STOP = "tilt stop"
    CLAMP = "panel clamp"
    PANEL = "panel"
    GUY = "guy"
    ANCHOR = "anchor"
    LUG = "lug"
    RAIL_END = "rail end"
    TAB = "tab"
    FOOT = "foot"
    WELD = "weld"
    WALL = "wall"
    HOLE = "pin hole"
    SPLICE = "splice"


BRACES = (PartKind.KNEE, PartKind.STAY, PartKind.TIE)
"""Kinds of stiff bracing."""


class Side(StrEnum):
    """Side of the rack, seen from the front of the low edge."""

    LEFT = "left"
    RIGHT = "right"


class Edge(StrEnum):
    """Where across the beam: towards the low edge or the high one; of a tie, on which."""

    FRONT = "front"
    BACK = "back"
    LOWER = "lower"
    UPPER = "upper"


class Spot(StrEnum):
    """Place on a pipe's wall that no part of its own stands for."""

    SLEEVE_FOOT = "foot of sleeve"
    TOP = "its top"
    FOOT = "its foot"
    PIN = "pin"


FOUR_WAYS = tuple((edge, side) for edge in (Edge.FRONT, Edge.BACK) for side in Side)
"""The four ways in which guys and stays go, in order."""


@dataclass(frozen=True, eq=False, repr=False)
class Part(str):
    """A part by its ids; as text it is what is printed of it, and no two parts print alike.

    `number` counts posts, sleeves or rails from the left, None where there is one or all are
    meant; `group` names the guys it belongs to. A wall, weld, lug, hole or splice is `on` a pipe,
    `at` what meets it there.
    """

    kind: PartKind
    number: int | None = None
    edge: Edge | None = None
    side: Side | None = None
    group: str = ""
    on: PartKind | None = None
    at: "Part | Spot | None" = None

    def __new__(
        cls,
        kind: PartKind,
        number: int | None = None,
        edge: Edge | None = None,
        side: Side | None = None,
        group: str = "",
        on: PartKind | None = None,
        at: "Part | Spot | None" = None,
    ) -> "Part":
        """Put the part in words, once."""
        told = "" if at is None else str(at)
        if kind is PartKind.WELD:
            words = _of_weld(told, on, at)
        elif kind is PartKind.WALL:
            words = f"{on} wall at {told}"
        elif kind in (PartKind.HOLE, PartKind.SPLICE):
            words = f"{on} at {kind}"
        elif kind in (PartKind.LUG, PartKind.RAIL_END):
            words = f"{kind}, {told}" if at else f"{kind}s of {group}"
        else:
            words = _plain(kind, number, edge, side, group)
        return super().__new__(cls, words)

    def __getnewargs__(self) -> tuple[object, ...]:  # type: ignore[override]
        """Return what it is made of, so that a copy is made anew."""
        return self.kind, self.number, self.edge, self.side, self.group, self.on, self.at

    @property
    def met(self) -> PartKind | Spot | None:
        """Kind of what meets it at its place."""
        return self.at.kind if isinstance(self.at, Part) else self.at

    @property
    def unnumbered(self) -> "Part":
        """The same part of whichever post: equal posts are sized and told together."""
        at = self.at.unnumbered if isinstance(self.at, Part) else self.at
        return replace(self, number=None, at=at)

    @property
    def unsided(self) -> "Part":
        """The same part of whichever side: its mirror image is no other kind of part."""
        at = self.at.unsided if isinstance(self.at, Part) else self.at
        return replace(self, side=None, at=at)


def one_of(group: str) -> str:
    """Name one of a group of guys: "beam-end guy" of "beam-end guys"."""
    return group.removesuffix("s")


def _plain(
    kind: PartKind, number: int | None, edge: Edge | None, side: Side | None, group: str
) -> str:
    """Put a part that stands for itself in words: "knee 2, left", "post-top guy, front left"."""
    one = one_of(group)
    head = {PartKind.GUY: one, PartKind.ANCHOR: f"{one} anchor"}.get(kind, str(kind))
    head = f"{head} {number}" if number else head
    which = " ".join(w for w in (edge, side) if w)
    return f"{head}, {which}" if which else head


def _of_weld(told: str, on: PartKind | None, at: "Part | Spot | None") -> str:
    if isinstance(at, Part) and at.kind is PartKind.SLEEVE:
        return f"weld, {on} to {told}"
    return f"weld, {told} at {on}" if on else f"weld, {told}"


@cache
def post(number: int | None = None) -> Part:
    """Return a post: the only one, or the one of this number from the left."""
    return Part(PartKind.POST, number)


@cache
def sleeve(number: int | None = None) -> Part:
    """Return the sleeve on that post."""
    return Part(PartKind.SLEEVE, number)


@cache
def knee(number: int | None, side: Side) -> Part:
    """Return the knee on one side of that post."""
    return Part(PartKind.KNEE, number, side=side)


@cache
def stay(edge: Edge, side: Side) -> Part:
    """Return the stay that goes that way."""
    return Part(PartKind.STAY, edge=edge, side=side)


@cache
def tie(edge: Edge) -> Part:
    """Return the tie along the lower or the upper ends of the rails."""
    return Part(PartKind.TIE, edge=edge)


@cache
def rail(number: int) -> Part:
    """Return a rail, from the left."""
    return Part(PartKind.RAIL, number)


@cache
def guy(group: str, edge: Edge, side: Side) -> Part:
    """Return the guy of a group that goes that way."""
    return Part(PartKind.GUY, edge=edge, side=side, group=group)


@cache
def anchor(line: Part) -> Part:
    """Return the anchor of a guy."""
    return replace(line, kind=PartKind.ANCHOR)


@cache
def wall(on: PartKind, at: Part | Spot) -> Part:
    """Return the wall of a pipe where something meets it."""
    return Part(PartKind.WALL, on=on, at=at)


@cache
def weld(at: Part, on: PartKind | None = None) -> Part:
    """Return the weld of a part, to the pipe it stands on where it has several."""
    return Part(PartKind.WELD, on=on, at=at)


@cache
def lug(of: Part) -> Part:
    """Return the worse lug of a brace."""
    return Part(PartKind.LUG, at=of)


@cache
def lugs(group: str) -> Part:
    """Return the lugs that a group of guys pulls on."""
    return Part(PartKind.LUG, group=group)


@cache
def rail_end(of: Part) -> Part:
    """Return the end of a rail that a stay is bolted to."""
    return Part(PartKind.RAIL_END, at=of)


@cache
def rail_ends(group: str) -> Part:
    """Return the ends of rails that a group of guys pulls on."""
    return Part(PartKind.RAIL_END, group=group)


RACK, BEAM, RAILS = Part(PartKind.RACK), Part(PartKind.BEAM), Part(PartKind.RAIL)
SET_BOLT, THROUGH_PIN = Part(PartKind.SET_BOLT), Part(PartKind.PIN)
U_BOLT, TILT_STOP = Part(PartKind.U_BOLT), Part(PartKind.STOP)
CLAMP, PANEL = Part(PartKind.CLAMP), Part(PartKind.PANEL)
PIN_HOLE = Part(PartKind.HOLE, on=PartKind.POST)
SPLICE = Part(PartKind.SPLICE, on=PartKind.BEAM)
"""Parts of which the worst of all is told."""
