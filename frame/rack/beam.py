"""The beam, the rails across it and what ties the rails together."""

from dataclasses import dataclass

from frame.rack.pipe import Pipe
from frame.tables.channels import Channel


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """The crossbeam: one pipe, `length` [m], its middle over the middle of the posts."""

    pipe: Pipe
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UBolts:
    """The U-bolt that holds a rail to the beam: rod `diameter` [m], nut `torque` [N m]."""

    diameter: float
    torque: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rails:
    """Channel rails across the beam: `positions` along it, `length` up the slope [m]."""

    channel: Channel
    positions: tuple[float, ...]
    length: float
    u_bolts: UBolts


@dataclass(frozen=True, slots=True, kw_only=True)
class TieRails:
    """Rails along the lower and upper rail ends: `at` holds "lower" and/or "upper"."""

    channel: Channel
    at: tuple[str, ...]
    fitted: str
