"""Everything a shop needs for one rack or several, as records."""

from dataclasses import dataclass

from frame.rack.rack import Rack
from frame.shop.assembly import joints
from frame.shop.cut_list import cut_list
from frame.shop.pieces import Joint, Piece
from frame.shop.templates import Template, templates


@dataclass(frozen=True, kw_only=True)
class Job:
    """`racks` equal racks with a `bracing`, set out at a `tilt` [rad]; pieces are of one rack."""

    rack: Rack
    bracing: tuple[str, ...]
    tilt: float
    racks: int
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]
    templates: tuple[Template, ...]


def make_job(rack: Rack, bracing: tuple[str, ...], racks: int = 1) -> Job:
    """Work out the job.

    Raises
    ------
    InputError
        Where a piece cannot be cut as described.
    """
    tilt = min(rack.tilts)
    pieces = cut_list(rack, bracing, tilt)
    return Job(
        rack=rack,
        bracing=bracing,
        tilt=tilt,
        racks=racks,
        pieces=pieces,
        joints=joints(rack, pieces),
        templates=templates(pieces),
    )
