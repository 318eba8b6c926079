"""Guys: tension-only lines from the rack to ground anchors."""

from dataclasses import dataclass

from frame.tables.wires import Wire

POST_TOP, BEAM_ENDS, RAIL_CORNERS = "post top", "beam ends", "rail corners"
ATTACHMENTS = (POST_TOP, BEAM_ENDS, RAIL_CORNERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guys:
    """A group of equal guys, one towards each corner of the compass of the rack.

    From the "post top" (of each end post, just under the sleeve), the "beam ends" or the "rail
    corners". Each anchor stands at grade (`rise` [m] above it on sloping ground), `out` [m] across
    the beam and `along` [m] along it, measured from the attachment, away from the post.
    `pretension` [N] is read in the finished rack in still air.
    """

    name: str
    attach: str
    wire: Wire
    out: float
    along: float
    pretension: float
    anchor: str
    rise: float = 0.0
