"""What of a rack is there already, where it stands: pieces that want new marks at most."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from frame.changes.cost import concrete_volume
from frame.rack.rack import Rack
from frame.shop.ground import Ground
from frame.shop.steel.cut_list import cut_list
from frame.shop.steel.pieces import Piece

SAME = 1e-3
"""Lengths and sizes that differ by less are the same [m]."""


@dataclass(frozen=True, kw_only=True)
class Standing:
    """A rack that stands, and the bracing that is on it."""

    rack: Rack
    bracing: tuple[str, ...]


def there_already(
    pieces: tuple[Piece, ...], standing: Standing | None, tilt: float, ground: Ground
) -> dict[str, int]:
    """Count by letter how many of each piece the standing rack has, none where none stands."""
    if standing is None:
        return {}
    has = cut_list(standing.rack, standing.bracing, tilt, ground)
    found = {}
    for piece in pieces:
        alike = sum(one.count for one in has if _alike(one, piece))
        if alike:
            found[piece.letter] = min(alike, piece.count)
    return found


def _alike(one: Piece, other: Piece) -> bool:
    """Whether two pieces are cut alike; holes can be drilled where it hangs."""
    sizes = zip((one.od, one.wall, one.length), (other.od, other.wall, other.length), strict=True)
    kinds = (one.name, one.kind, one.stock) == (other.name, other.kind, other.stock)
    ends = [e.kind for e in one.ends] == [e.kind for e in other.ends]
    return kinds and ends and all(abs(a - b) < SAME for a, b in sizes)


def to_cut(pieces: tuple[Piece, ...], there: Mapping[str, int]) -> tuple[Piece, ...]:
    """Return the pieces that one rack still wants, with how many of each."""
    left = (replace(p, count=p.count - there.get(p.letter, 0)) for p in pieces)
    return tuple(p for p in left if p.count)


def concrete_there(standing: Standing | None) -> float:
    """Concrete round the posts of the standing rack [m3]."""
    return concrete_volume(standing.rack) if standing else 0.0
