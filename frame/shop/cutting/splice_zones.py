"""Where post and beam may be spliced: lightly bent, and away from everything welded or clamped."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from frame.checks.steel.pipe import Forces, interaction
from frame.idealize.posts import post_name
from frame.named.part import BEAM, Part, PartKind
from frame.parts.steel.pipes import beam_length, round_pipe
from frame.rack.rack import Rack
from frame.shop.cutting.pile import NEARLY, Stretch
from frame.shop.steel.pieces import Piece
from frame.solved.blocks import blocks
from frame.solved.frames import Bracing, FloatArray, solve_frames
from frame.solved.situation import Situation, situations

SHARE = 0.5
"""Part of a splice's strength that may be used where one is put (judgement)."""
KEEP = 1.5
"""Clear of anything welded or clamped on, in diameters of the pipe (judgement)."""
STATIONS = 5


@dataclass(frozen=True, kw_only=True)
class Bent:
    """How much of a splice's strength a piece would use, `use` (n,) at places `at` (n,) [m].

    The worst over every case of the code's combinations at the site's gust, tilt and corner of
    the bands, and over all equal pieces; infinite where the rack sways over.
    """

    at: FloatArray
    use: FloatArray


def splice_use(rack: Rack, bracing: Bracing, efficiency: float) -> dict[PartKind, Bent]:
    """Find how much of a splice of an `efficiency` [1] is used along "post" and "beam"."""
    found = blocks(solve_frames(rack, (bracing,), rack.tilts), bracing, rack.tilts)
    nows = situations(found)
    posts = [post_name(rack, i) for i in range(len(rack.posts.positions))]
    start = {
        PartKind.POST: (2, -rack.posts.footing.depth),
        PartKind.BEAM: (0, -rack.beam.length / 2),
    }
    told = {}
    for piece, parts in ((PartKind.POST, posts), (PartKind.BEAM, [BEAM])):
        uses = [_use(now, part, efficiency, piece) for now in nows for part in parts]
        axis, origin = start[piece]
        told[piece] = Bent(at=_places(nows[0], parts[0], axis) - origin, use=np.max(uses, axis=0))
    return told


def _places(now: Situation, part: Part, axis: int) -> FloatArray:
    """Places of all stations of a part along its axis, global [m]."""
    model = now.block.frame.ideal.model
    shares = np.linspace(0, 1, STATIONS)
    found = []
    for m in model.members_of(part):
        first, second = (model.nodes[n].xyz[axis] for n in model.members[m].ends)
        found.append(first + shares * (second - first))
    return np.concatenate(found)


def _use(now: Situation, part: Part, efficiency: float, piece: PartKind) -> FloatArray:
    rack = now.rack
    at = now.answer.along(now.block.frame.ideal.model.members_of(part), STATIONS)
    forces = Forces(N=at.N, My=at.My, Mz=at.Mz, Vy=at.Vy, Vz=at.Vz, T=at.T)
    pipe = rack.posts.pipe if piece is PartKind.POST else rack.beam.pipe
    length = rack.posts.height if piece is PartKind.POST else beam_length(now)
    check = interaction(round_pipe(pipe).spliced(efficiency), forces, length)
    use = np.asarray(check.demand).reshape(len(now.case), -1)
    use = np.where(now.topples[:, None], np.inf, use)
    worst: FloatArray = use.max(axis=0)
    return worst


def zones(piece: Piece, along: Bent, share: float = SHARE) -> tuple[Stretch, ...]:
    """Return the stretches of a piece where a splice may be put [m]."""
    order = np.argsort(along.at, kind="stable")
    at, light = along.at[order], along.use[order] <= share
    free = [
        (float(a), float(b))
        for (a, b), (first, second) in zip(pairwise(at), pairwise(light), strict=True)
        if first and second and b > a
    ]
    return cut_out(merged(free), kept_clear(piece))


def kept_clear(piece: Piece) -> tuple[Stretch, ...]:
    """Return the stretches of a piece that are kept clear of splices [m].

    Both ends, and round every mark but those of panels and splices that are there already.
    """
    clear = KEEP * piece.od
    found = [(0.0, clear), (piece.length - clear, piece.length)]
    for mark in piece.marks:
        found.append((mark.at - clear, mark.at + clear))
        if mark.name == "foot of the sleeve":
            found.append((mark.at - clear, piece.length))
    return tuple(sorted(found))


def merged(stretches: list[Stretch]) -> tuple[Stretch, ...]:
    """Join stretches that touch."""
    found: list[Stretch] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1] + NEARLY:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return tuple(found)


def cut_out(stretches: tuple[Stretch, ...], holes: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Take holes out of stretches."""
    left = list(stretches)
    for low, high in holes:
        left = [
            part
            for a, b in left
            for part in ((a, min(b, low)), (max(a, high), b))
            if part[1] - part[0] > NEARLY
        ]
    return merged(left)
