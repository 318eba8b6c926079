"""Where a rack flexes: what its pipes and rails are stressed to, over what they yield at."""

from dataclasses import dataclass

import numpy as np

from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.model import Member
from frame.idealize.build import Idealized
from frame.idealize.posts import lug_height
from frame.named.part import PartKind
from frame.parts.rails.rails import CHANNEL_STEEL
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.tables.channels import Channel
from frame.tables.steels import find

STATIONS = 9
"""Places along a member where it is looked at, ends included."""
NEAR = 0.3
"""How near to grade, sleeve or knee a place is told to be at it [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flex:
    """Where one part flexes most: member, share of its length [1], stress over yield [1]."""

    part: PartKind
    where: str
    member: int
    along: float
    use: float


def fibre_use(block: Block, answer: Answer) -> Array:
    """Stress of the extreme fibre over the steel's listed yield, (members, `STATIONS`) [1].

    Of axial force and bending both ways by the members' own stiffness, so concrete round a post
    takes its part; the one case of an `answer`. Elastic: over 1 it has yielded.
    """
    members = block.frame.ideal.model.members
    at = answer.along(range(len(members)), STATIONS)
    found = np.zeros((len(members), STATIONS))
    for i, member in enumerate(members):
        across, upright, fy = fibres(block.rack, member)
        round_pipe = across == upright
        bent = [
            np.abs(at.Mz[0, i]) * across / member.Iz,
            np.abs(at.My[0, i]) * upright / member.Iy,
        ]
        bending = np.hypot(*bent) if round_pipe else bent[0] + bent[1]
        found[i] = (np.abs(at.N[0, i]) / member.A + bending) / fy
    return found


def flexes(block: Block, used: Array) -> tuple[Flex, ...]:
    """Where each kind of part flexes most, the hardest worked first."""
    members = block.frame.ideal.model.members
    best: dict[PartKind, Flex] = {}
    for i, member in enumerate(members):
        part = member.part.kind
        j = int(np.argmax(used[i]))
        if part not in best or used[i, j] > best[part].use:
            best[part] = Flex(
                part=part,
                where=where_on(block.frame.ideal, member, j / (STATIONS - 1)),
                member=i,
                along=j / (STATIONS - 1),
                use=float(used[i, j]),
            )
    return tuple(sorted(best.values(), key=lambda f: -f.use))


def seen_width(rack: Rack, kind: PartKind) -> float:
    """Width of a kind of part as it is seen: of a pipe across, of a channel its depth [m]."""
    if kind is PartKind.TIE and rack.ties and rack.ties.channel:
        return rack.ties.channel.depth
    widths = {
        PartKind.POST: rack.posts.pipe.od,
        PartKind.BEAM: rack.beam.pipe.od,
        PartKind.KNEE: rack.knees.pipe.od if rack.knees else 0.0,
        PartKind.STAY: rack.stays.pipe.od if rack.stays else 0.0,
    }
    return widths.get(kind, rack.rails.channel.depth)


def fibres(rack: Rack, member: Member) -> tuple[float, float, float]:
    """Return the extreme fibre for bending in local x-y and x-z [m], and the yield [Pa]."""
    kind = member.part.kind
    if kind in (PartKind.RAIL, PartKind.TIE):
        channel: Channel | None = rack.rails.channel if kind is PartKind.RAIL else None
        channel = channel or (rack.ties.channel if rack.ties else rack.rails.channel)
        return channel.I1 / channel.S1, channel.I2 / channel.S2, find(CHANNEL_STEEL).fy
    pipe = rack.beam.pipe
    if kind is PartKind.POST:
        pipe = rack.posts.pipe
    elif kind is PartKind.KNEE and rack.knees:
        pipe = rack.knees.pipe
    elif kind is PartKind.STAY and rack.stays:
        pipe = rack.stays.pipe
    return pipe.od / 2, pipe.od / 2, pipe.steel.fy


def where_on(ideal: Idealized, member: Member, along: float) -> str:
    """Say where on its part a share of a member's length is."""
    rack, nodes = ideal.rack, ideal.model.nodes
    ends = [np.array(nodes[n].xyz) for n in member.ends]
    x, _, z = (1 - along) * ends[0] + along * ends[1]
    kind = member.part.kind
    if kind is PartKind.POST:
        return _up_the_post(rack, float(z))
    if kind is PartKind.BEAM:
        return _along_the_beam(rack, float(x))
    return {PartKind.RAIL: "at the beam", PartKind.TIE: "between rails"}.get(kind, "")


def _up_the_post(rack: Rack, z: float) -> str:
    if z < NEAR:
        return "at grade" if z > -NEAR else "below grade"
    if z > lug_height(rack) - NEAR / 2:
        return "at the sleeve"
    if rack.knees and abs(z - rack.posts.height + rack.knees.drop) < NEAR / 2:
        return "at the knees"
    return "above grade"


def _along_the_beam(rack: Rack, x: float) -> str:
    off = min(abs(x - post) for post in rack.posts.positions)
    if off < NEAR:
        return "at the sleeve"
    if rack.knees and abs(off - rack.knees.reach) < NEAR / 2:
        return "at the knee"
    return "out on the arm" if abs(x) > abs(rack.posts.positions[-1]) else "between posts"
