"""What of a rack is there already, where it stands: pieces that want new marks at most."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from frame.changes.cost import concrete_volume
from frame.named.part import PartKind
from frame.rack.rack import Rack
from frame.shop.ground import Ground
from frame.shop.steel.cut_list import cut_list
from frame.shop.steel.pieces import Piece

SAME = 1e-3
"""Lengths and sizes that differ by less are the same [m]."""


@dataclass(frozen=True, kw_only=True)
class StandingRack:
    """A rack that stands, and the bracing that is on it."""

    rack: Rack
    bracing: tuple[str, ...]


def standing_of(rack: Rack, bracing: tuple[str, ...]) -> StandingRack | None:
    """Return a rack that stands, with the bracing on it; None where it is not yet built."""
    return StandingRack(rack=rack, bracing=bracing) if rack.stands else None


@dataclass(frozen=True, kw_only=True)
class There:
    """What is there: how many of each piece, by letter, and `concrete` that stays [m3].

    `posts_come_out`: a rack stands, and its posts are replaced. `standing`: that rack, its
    `pieces`, and the parts of which all that stand are `kept`.
    """

    count: Mapping[str, int] = field(default_factory=dict)
    concrete: float = 0.0
    posts_come_out: bool = False
    standing: StandingRack | None = None
    pieces: tuple[Piece, ...] = ()
    ground: Ground = field(default_factory=Ground)
    kept: frozenset[PartKind] = frozenset()

    def count_of(self, piece: Piece) -> int:
        """Return how many of a piece are there."""
        return self.count.get(piece.letter, 0)

    def to_cut(self, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        """Return the pieces that one rack still wants, with how many of each."""
        left = (replace(p, count=p.count - self.count_of(p)) for p in pieces)
        return tuple(p for p in left if p.count)


def there_already(
    rack: Rack,
    pieces: tuple[Piece, ...],
    standing: StandingRack | None,
    tilt: float,
    ground: Ground,
) -> There:
    """Return what of a rack the standing one has; nothing where none stands.

    A post that is replaced comes out with its pier: none of that concrete is there.
    """
    if standing is None:
        return There()
    has = cut_list(standing.rack, standing.bracing, tilt, ground)
    found = {}
    renewed = _other_steel(standing.rack, rack)
    for piece in (p for p in pieces if p.of not in renewed):
        alike = sum(one.count for one in has if _alike(one, piece))
        if alike:
            found[piece.letter] = min(alike, piece.count)
    posts = [p for p in pieces if p.of is PartKind.POST]
    left = sum(found.get(p.letter, 0) for p in posts) / sum(p.count for p in posts)
    stood, stay = Counter[PartKind](), Counter[PartKind]()
    for piece in has:
        stood[piece.of] += piece.count
    for piece in pieces:
        stay[piece.of] += found.get(piece.letter, 0)
    return There(
        count=found,
        concrete=left * concrete_volume(standing.rack),
        posts_come_out=left < 1,
        standing=standing,
        pieces=has,
        ground=ground,
        kept=frozenset(of for of, count in stood.items() if stay[of] >= count),
    )


def _other_steel(was: Rack, now: Rack) -> set[PartKind]:
    """Return the parts whose steel is another: of the same size, they are new with papers."""

    def steels(rack: Rack) -> dict[PartKind, str]:
        found = {PartKind.POST: rack.posts.pipe, PartKind.BEAM: rack.beam.pipe}
        found |= {PartKind.KNEE: rack.knees.pipe} if rack.knees else {}
        found |= {PartKind.STAY: rack.stays.pipe} if rack.stays else {}
        named = {of: pipe.steel.name for of, pipe in found.items()}
        return {**named, PartKind.SLEEVE: rack.sleeve.steel.name}

    before, after = steels(was), steels(now)
    return {of for of in before.keys() & after.keys() if before[of] != after[of]}


def _alike(one: Piece, other: Piece) -> bool:
    """Whether two pieces are cut alike; holes can be drilled where it hangs."""
    sizes = zip((one.od, one.wall, one.length), (other.od, other.wall, other.length), strict=True)
    kinds = (one.name, one.kind, one.stock) == (other.name, other.kind, other.stock)
    ends = [e.kind for e in one.ends] == [e.kind for e in other.ends]
    return kinds and ends and all(abs(a - b) < SAME for a, b in sizes)


NOTHING_THERE = There()
