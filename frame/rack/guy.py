"""Guys: tension-only lines from the rack to ground anchors."""

from dataclasses import dataclass

from frame.tables.wires import Wire

POST_TOP, BEAM_ENDS, RAIL_CORNERS = "post top", "beam ends", "rail corners"
ATTACHMENTS = (POST_TOP, BEAM_ENDS, RAIL_CORNERS)
NO_FITTING = "none"
DEADMAN, BLOCK, SCREW, PICKETS, ROCK = (
    "deadman",
    "concrete block",
    "screw anchor",
    "pickets",
    "rock",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """What holds a guy in the ground; only what its kind needs is more than zero.

    Deadman: `depth` to the middle of the face, `height` and `length` of the face [m]. Concrete
    block: `weight` [N], `height` of the eye above the base and `length` of the base along the guy
    [m]. Screw anchor: `torque` [N m] over the last turns, `shaft`, `depth` and `size` of the top
    helix [m]. Pickets: `holdfast`, "1" to "3-2-1". Rock: `size` of the hole, grouted `length` [m].
    `tested`: pull one of them stood [N], 0 if none was tested; `tested_wet` with the ground wet.
    """

    depth: float = 0.0
    height: float = 0.0
    length: float = 0.0
    weight: float = 0.0
    torque: float = 0.0
    shaft: str = ""
    size: float = 0.0
    holdfast: str = ""
    tested: float = 0.0
    tested_wet: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Guys:
    """A group of equal guys, one towards each corner of the compass of the rack.

    From the "post top" (of each end post, just under the sleeve), the "beam ends" or the "rail
    corners". Each anchor stands at grade (`rise` [m] above it on sloping ground), `out` [m] across
    the beam and `along` [m] along it, measured from the attachment, away from the post.
    `pretension` [N] is read in the finished rack in still air. `anchor` is the kind of anchor,
    `hold` what is known of it. `termination` of the wire at both ends; `fitting`, the weakest in
    the line ("none" if there is none), and its `fitting_size` [m].
    """

    name: str
    attach: str
    wire: Wire
    out: float
    along: float
    pretension: float
    anchor: str
    hold: Anchor = Anchor()
    termination: str = "forged clips"
    fitting: str = NO_FITTING
    fitting_size: float = 0.0
    rise: float = 0.0
