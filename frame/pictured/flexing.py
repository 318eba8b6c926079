"""Where a rack flexes: what its pipes and rails are stressed to, over what they yield at."""

from dataclasses import dataclass

import numpy as np

from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.model import Member
from frame.idealize.build import Idealized
from frame.idealize.posts import lug_height
from frame.parts.rails.rails import STEEL
from frame.rack.rack import Rack
from frame.solved.frames import Block
from frame.tables.channels import Channel
from frame.tables.steels import find

STATIONS = 9
"""Places along a member where it is looked at, ends included."""
NEAR = 0.3
"""How near to grade, sleeve or knee a place is told to be at it [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flex:
    """Where one part flexes most: member, share of its length [1], stress over yield [1]."""

    part: str
    where: str
    member: int
    along: float
    use: float


def work(block: Block, answer: Answer) -> Array:
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
    best: dict[str, Flex] = {}
    for i, member in enumerate(members):
        part = kind_of(member.part)
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


def width_of(rack: Rack, part: str) -> float:
    """Width of a part as it is seen, a pipe's outside diameter or a channel's depth [m]."""
    kind = kind_of(part)
    if kind == "tie" and rack.ties and rack.ties.channel:
        return rack.ties.channel.depth
    widths = {
        "post": rack.posts.pipe.od,
        "beam": rack.beam.pipe.od,
        "knee": rack.knees.pipe.od if rack.knees else 0.0,
        "stay": rack.stays.pipe.od if rack.stays else 0.0,
    }
    return widths.get(kind, rack.rails.channel.depth)


def fibres(rack: Rack, member: Member) -> tuple[float, float, float]:
    """Return the extreme fibre for bending in local x-y and x-z [m], and the yield [Pa]."""
    kind = kind_of(member.part)
    if kind in ("rail", "tie"):
        channel: Channel | None = rack.rails.channel if kind == "rail" else None
        channel = channel or (rack.ties.channel if rack.ties else rack.rails.channel)
        return channel.I1 / channel.S1, channel.I2 / channel.S2, find(STEEL).fy
    pipe = rack.beam.pipe
    if kind == "post":
        pipe = rack.posts.pipe
    elif kind == "knee" and rack.knees:
        pipe = rack.knees.pipe
    elif kind == "stay" and rack.stays:
        pipe = rack.stays.pipe
    return pipe.od / 2, pipe.od / 2, pipe.steel.fy


def kind_of(part: str) -> str:
    """Return the kind of a part: "post", "beam", "rail", "tie", "knee" or "stay"."""
    return part.replace(",", " ").split(maxsplit=1)[0]


def where_on(ideal: Idealized, member: Member, along: float) -> str:
    """Say where on its part a share of a member's length is."""
    rack, nodes = ideal.rack, ideal.model.nodes
    ends = [np.array(nodes[n].xyz) for n in member.ends]
    x, _, z = (1 - along) * ends[0] + along * ends[1]
    kind = kind_of(member.part)
    if kind == "post":
        return _up_the_post(rack, float(z))
    if kind == "beam":
        return _along_the_beam(rack, float(x))
    return {"rail": "at the beam", "tie": "between rails"}.get(kind, "")


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
