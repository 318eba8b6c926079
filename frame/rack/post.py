"""The posts and how they are set in the ground."""

from dataclasses import dataclass

from frame.named.backfill import CONCRETE
from frame.rack.pipe import Pipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """The hole: `depth` of the post below grade, `hole` diameter [m], `backfill`, `ignored` [m].

    `backfill` is one of `BACKFILLS`; soil above `ignored` is not counted.
    `foot`: width of a plate or flat stone under the post, 0 if there is none [m]. `slab`: a rigid
    slab all round the post at grade holds it.
    """

    depth: float
    hole: float
    backfill: str
    ignored: float
    foot: float = 0.0
    slab: bool = False

    @property
    def cast(self) -> bool:
        """Whether concrete is cast round the post."""
        return self.backfill == CONCRETE


@dataclass(frozen=True, slots=True, kw_only=True)
class Posts:
    """One to four equal posts under the beam.

    `height` [m] from grade to the beam's centre line; `positions` [m] along the beam, from its
    middle, left to right.
    """

    pipe: Pipe
    height: float
    footing: Footing
    positions: tuple[float, ...] = (0.0,)
