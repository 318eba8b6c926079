"""Knees and stays as pieces: coped where they are welded, tabbed where they are pinned."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.errors import InputError, Problem
from frame.geometry.cope import long_point
from frame.idealize.posts import post_name
from frame.named.part import PartKind
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.shop.ground import Ground
from frame.shop.steel.eyes import Eye, eyes, lug_arm, tab_reach
from frame.shop.steel.pieces import COPE, HOLE, TAB, Mark, Piece, PieceEnd, on_tape, pipe_piece
from frame.units import INCH

SHORTEST = 4 * INCH
"""Shortest piece of a brace that can be made [m] (judgement)."""
SIDES = (("left", -1.0), ("right", 1.0))
WELDED = "welded"
"""Ends of knees coped and welded all round, not pinned."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Where a knee stands: `below` the post's top and `along` from the post's axis [m].

    Of the marks on post and beam, as they are read off a tape; `off` the surface is what stands
    there. The knee is cut for these marks, so that it closes whatever was rounded.
    """

    below: float
    along: float
    off: float
    post: float
    beam: float

    @property
    def angle(self) -> float:
        """Angle between knee and post [rad]."""
        return math.atan2(self.along - self.post / 2 - self.off, self.below - self.off)

    @property
    def work_length(self) -> float:
        """Length between the axes of post and beam [m]."""
        between = math.hypot(self.along - self.post / 2 - self.off, self.below - self.off)
        past = (self.post / 2 + self.off) / math.sin(self.angle)
        return between + past + (self.beam / 2 + self.off) / math.cos(self.angle)


def reach_of(rack: Rack) -> Reach:
    """Work out where the knees of a rack stand."""
    brace = rack.knees
    assert brace is not None
    off = 0.0 if brace.ends == WELDED else lug_arm(rack)
    post, beam, slant = rack.posts.pipe.od, rack.beam.pipe.od, math.tan(brace.angle)
    return Reach(
        below=on_tape(brace.drop - (post / 2 + off) / slant - beam / 2, rack.units),
        along=on_tape(brace.reach - (beam / 2 + off) * slant, rack.units),
        off=off,
        post=post,
        beam=beam,
    )


def knee_piece(rack: Rack) -> Piece:
    """Return the knees, their long points all on the line that faces out and down."""
    brace = rack.knees
    assert brace is not None
    count = 2 * len(rack.posts.positions)
    stands = reach_of(rack)
    at_post, at_beam = stands.angle, math.pi / 2 - stands.angle
    post, beam = rack.posts.pipe, rack.beam.pipe
    if brace.ends == WELDED:
        for header, name in ((post, "post"), (beam, "beam")):
            _fits(brace.pipe, header, f"knees on the {name}")
        bore = brace.pipe.nominal.bore
        set_back = long_point(post.od / 2, bore / 2, at_post)
        set_back += long_point(beam.od / 2, bore / 2, at_beam)
        ends = (
            PieceEnd(kind=COPE, onto="post", header=post.od, angle=at_post, bore=bore),
            PieceEnd(kind=COPE, onto="beam", header=beam.od, angle=at_beam, bore=bore),
        )
    else:
        off, reach = stands.off, tab_reach(rack)
        set_back = (post.od / 2 + off) / math.sin(at_post) + reach
        set_back += (beam.od / 2 + off) / math.sin(at_beam) + reach
        ends = (
            PieceEnd(kind=TAB, onto="post", angle=at_post, reach=reach),
            PieceEnd(kind=TAB, onto="beam", angle=at_beam, reach=reach),
        )
    length = _long_enough(stands.work_length - set_back, "knees")
    return replace(
        pipe_piece(PartKind.KNEE, count, brace.pipe, length),
        ends=ends,
        lines=("outer", "", "inner", ""),
    )


def knee_marks(rack: Rack, carrier: str) -> list[Mark]:
    """Return where the centre line of each knee, or its eye, meets the "post" or the "beam"."""
    return list(_knee_marks(rack, carrier)) if rack.knees else []


def knee_mark(rack: Rack, index: int, side: str, carrier: str) -> str:
    """Name the mark of a knee of a post, from 0, on the post or the beam."""
    what = "knee" if rack.knees and rack.knees.ends == WELDED else "eye of knee"
    several = carrier == "beam" and len(rack.posts.positions) > 1
    return f"{what}, {side}" + (f" of {post_name(rack, index)}" if several else "")


def _knee_marks(rack: Rack, carrier: str) -> Iterator[Mark]:
    brace = rack.knees
    assert brace is not None
    of = PartKind.KNEE if brace.ends == WELDED else PartKind.LUG
    stands, off = reach_of(rack), 0.0 if brace.ends == WELDED else lug_arm(rack)
    hole = 0.0 if brace.ends == WELDED else rack.welds.lug_bolt + HOLE
    if carrier == "post":
        at = rack.posts.footing.depth + rack.posts.height - rack.beam.pipe.od / 2 - stands.below
        for side, sign in SIDES:
            around = (sign * math.pi / 2) % (2 * math.pi)
            name = knee_mark(rack, 0, side, carrier)
            yield Mark(name=name, at=at, around=around, off=off, hole=hole, of=of)
        return
    for i, x in enumerate(rack.posts.positions):
        for side, sign in SIDES:
            at = on_tape(rack.beam.length / 2 + x, rack.units) + sign * stands.along
            name = knee_mark(rack, i, side, carrier)
            yield Mark(name=name, at=at, around=math.pi, off=off, hole=hole, of=of)


def stays(rack: Rack, tilt: float, ground: Ground) -> list[Piece]:
    """Return the stays, front and back or left and right apart where they differ in length."""
    line = rack.stays
    assert line is not None
    reach, found = tab_reach(rack), eyes(rack, line, tilt)
    lengths = [
        (e, float(np.linalg.norm(ground.point(e.foot[0], e.foot[1]) - e.point)) - 2 * reach)
        for e in found
    ]
    end = PieceEnd(kind=TAB, reach=reach)
    groups = _alike(lengths)
    return [
        replace(
            pipe_piece(PartKind.STAY, len(mine), line.pipe, _long_enough(mine[0], "stays"), which),
            ends=(end, end),
        )
        for which, mine in groups.items()
    ]


def _alike(lengths: list[tuple[Eye, float]]) -> dict[str, list[float]]:
    """Group stays by the fewest words that keep different lengths apart, within 1/32 in."""
    told: tuple[Callable[[Eye], str], ...] = (
        lambda eye: "",
        lambda eye: eye.edge,
        lambda eye: eye.side,
        lambda eye: eye.which,
    )
    groups: dict[str, list[float]] = {}
    for words in told:
        groups = {}
        for eye, length in lengths:
            groups.setdefault(words(eye), []).append(length)
        if all(max(some) - min(some) <= INCH / 32 for some in groups.values()):
            break
    return groups


def _fits(branch: Pipe, header: Pipe, where: str) -> None:
    if branch.od > header.od * (1 + 1e-9):
        what = f"{branch.label} is thicker than the {header.label} it is coped onto"
        raise InputError((Problem(where, what, "give a thinner brace, or pin it to lugs"),))


def _long_enough(length: float, where: str) -> float:
    if length < SHORTEST:
        what = "leave no pipe between their ends"
        raise InputError((Problem(where, what, "give more drop and reach, or weld the ends"),))
    return length
