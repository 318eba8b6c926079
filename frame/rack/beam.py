"""The beam, the rails across it and what ties the rails together."""

from dataclasses import dataclass

from frame.rack.pipe import Pipe
from frame.tables.channels import Channel


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """The crossbeam: one pipe, `length` [m], its middle over the middle of the posts.

    `splices` are the places [m] from its middle where lengths are welded end to end;
    `splice_efficiency` [1] is the share of the pipe's strength their welds have. `bow`: how far
    its ends hang for good, built in crooked or bent [m].
    """

    pipe: Pipe
    length: float
    splices: tuple[float, ...]
    splice_efficiency: float
    bow: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class UBolts:
    """The U-bolts that hold each rail to the beam: rod `diameter` [m], nut `torque` [N m]."""

    diameter: float
    torque: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Rails:
    """Channel rails across the beam: `positions` along it, `length` up the slope [m].

    `stops` of the rails are kept from turning on the beam by a welded stop. `marked`: they and
    the rails that tie them bear their maker's mark.
    """

    channel: Channel
    positions: tuple[float, ...]
    length: float
    u_bolts: UBolts
    stops: int = 0
    marked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TieRails:
    """Rails along the lower and upper rail ends: `at` holds "lower" and/or "upper"."""

    channel: Channel
    at: tuple[str, ...]
    fitted: str
