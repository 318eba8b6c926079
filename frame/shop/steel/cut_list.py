"""The cut list: every piece of a rack with its length, ends and marks, from real pipe surfaces."""

import math
from dataclasses import replace
from string import ascii_uppercase

from frame.geometry.cope import long_point
from frame.geometry.tube import Tube
from frame.idealize.posts import lug_height, post_name
from frame.named.part import PartKind
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.ground import Ground, grades, stepped
from frame.shop.steel.braces import knee_marks, knee_piece, stays
from frame.shop.steel.pieces import (
    BEAM_LINES,
    COPE,
    HOLE,
    PIPE,
    POST_LINES,
    Mark,
    Piece,
    PieceEnd,
    on_tape,
    pipe_piece,
)
from frame.shop.steel.rails import lug_marks, marks_in_order, rail_piece, tie_piece
from frame.shop.steel.straps import strap_of, strap_piece
from frame.shop.steel.tilt_stop import stop_marks
from frame.tables.steels import material

TOP, BOTTOM = 0.0, math.pi
GRADE = "grade"
LEVEL = Ground()
QUARTER = math.pi / 2


def cut_list(
    rack: Rack, bracing: tuple[str, ...], tilt: float, ground: Ground = LEVEL
) -> tuple[Piece, ...]:
    """Return every piece of steel to cut for one rack with a bracing, in the order of raising.

    `tilt` [rad] at which lines from the rails are set out; where the `ground` falls along the
    beam, each post has its own length and letter, and the beam is level. Where
    pieces meet, marks are whole steps of a tape; other lengths are exact, rounded in print.

    Raises
    ------
    InputError
        Where a brace is thicker than the pipe it is to be coped onto, or too short to be cut.
    """
    fitted = replace(
        rack,
        knees=rack.knees if KNEES in bracing else None,
        ties=rack.ties if TIES in bracing else None,
        stays=rack.stays if STAYS in bracing else None,
        guys=rack.guys_in(bracing),
    )
    pieces = [
        *_posts(fitted, tilt, ground),
        _sleeve(fitted),
        _beam(fitted, tilt),
        rail_piece(fitted, tilt),
    ]
    strap = strap_of(fitted)
    if strap:
        pieces.append(strap_piece(fitted, strap))
    if fitted.ties:
        pieces.append(tie_piece(fitted))
    if fitted.knees:
        pieces.append(knee_piece(fitted))
    if fitted.stays:
        pieces += stays(fitted, tilt, ground)
    return _lettered(pieces)


def _lettered(pieces: list[Piece]) -> tuple[Piece, ...]:
    letters = {p.name: letter for p, letter in zip(pieces, ascii_uppercase, strict=False)}

    def named(end: PieceEnd) -> PieceEnd:
        onto = [letters[p.name] for p in pieces if p.of == end.onto]
        return replace(end, onto=" or ".join(onto))

    return tuple(
        replace(p, letter=letters[p.name], ends=(named(p.ends[0]), named(p.ends[1])))
        for p in pieces
    )


def post_top(rack: Rack) -> float:
    """Height above grade [m] of the top of a post, under the beam."""
    return rack.posts.height - rack.beam.pipe.od / 2


def sleeve_bore(rack: Rack) -> float:
    """Bore of the sleeve as it is cut [m], whatever play is left when it is shimmed or worn."""
    return rack.posts.pipe.od + (rack.sleeve.as_built or rack.sleeve.clearance)


def _posts(rack: Rack, tilt: float, ground: Ground) -> list[Piece]:
    """Return the posts: one piece where they are alike, else one for each, the left one first."""
    post = _post(rack, tilt)
    if not stepped(ground, rack):
        return [_from_the_top(post, rack.units)]
    return [
        _from_the_top(
            _stepped(replace(post, name=str(post_name(rack, i)), count=1), i + 1, -grade),
            rack.units,
        )
        for i, grade in enumerate(grades(ground, rack))
    ]


def _stepped(post: Piece, number: int, more: float) -> Piece:
    """Lengthen the post of a `number` between grade and top by so much `more` [m]."""
    marks = [
        m if m.name == GRADE else replace(m, at=m.at + more, on=())
        for m in post.marks
        if not m.on or number in m.on
    ]
    length = post.length + more
    weight = post.weight / post.length * length
    return replace(post, length=length, weight=weight, marks=tuple(marks))


def _from_the_top(post: Piece, system: str) -> Piece:
    """Put all marks but grade a whole step of the tape from the top, which the beam sits on."""
    length = on_tape(post.length, system)
    marks = [
        m if m.name == GRADE else replace(m, at=length - on_tape(post.length - m.at, system))
        for m in post.marks
    ]
    return replace(post, length=length, marks=marks_in_order(marks))


def _post(rack: Rack, tilt: float) -> Piece:
    depth = rack.posts.footing.depth
    count, length = len(rack.posts.positions), depth + post_top(rack)
    piece = pipe_piece(PartKind.POST, count, rack.posts.pipe, length)
    marks = [
        Mark(name=GRADE, at=depth),
        Mark(name="foot of the sleeve", at=depth + lug_height(rack)),
    ]
    lock, middle = rack.sleeve.lock, depth + post_top(rack) - rack.sleeve.length / 2
    if isinstance(lock, Pin):
        marks.append(Mark(name="pin, right through", at=middle, around=0.0, hole=lock.diameter))
    marks += knee_marks(rack, "post")
    marks += lug_marks(rack, tilt, "post")
    return replace(piece, marks=marks_in_order(marks), lines=POST_LINES)


def _sleeve(rack: Rack) -> Piece:
    sleeve, beam, bore = rack.sleeve, rack.beam.pipe.od, sleeve_bore(rack)
    tube = Tube(bore + 2 * sleeve.wall, sleeve.wall)
    above = beam / 2 - long_point(beam / 2, bore / 2, QUARTER)
    length = sleeve.length + above
    end = PieceEnd(kind=COPE, onto="beam", header=beam, bore=bore, flanks=tube.od > beam)
    marks = [Mark(name="top of the post", at=sleeve.length)]
    lock = sleeve.lock
    if isinstance(lock, Pin):
        middle = sleeve.length / 2
        marks.append(Mark(name="pin, right through", at=middle, around=0.0, hole=lock.diameter))
    else:
        marks += [
            Mark(
                name=f"set bolt {i + 1}",
                at=sleeve.length * (1 if i % 2 else 3) / 4,
                around=_set_bolt_line(i, lock.count),
                hole=lock.diameter + HOLE,
            )
            for i in range(lock.count)
        ]
    return Piece(
        letter="",
        name="sleeve",
        of=PartKind.SLEEVE,
        count=len(rack.posts.positions),
        kind=PIPE,
        stock="sleeve stock",
        od=tube.od,
        wall=tube.wall,
        length=length,
        weight=tube.area * material().unit_weight * length,
        ends=(PieceEnd(), end),
        marks=marks_in_order(marks),
        lines=POST_LINES,
    )


def _set_bolt_line(index: int, count: int) -> float:
    """Return where round the sleeve a set bolt stands [rad]: from the back, evenly."""
    return (math.pi + 2 * math.pi * index / max(count, 4)) % (2 * math.pi)


def _beam(rack: Rack, tilt: float) -> Piece:
    half = rack.beam.length / 2
    piece = pipe_piece(PartKind.BEAM, 1, rack.beam.pipe, rack.beam.length)
    marks = [
        Mark(name=sleeve_mark(rack, i), at=half + x, around=BOTTOM, of=PartKind.SLEEVE)
        for i, x in enumerate(rack.posts.positions)
    ]
    marks += [
        Mark(name=f"rail {i + 1}", at=half + x, of=PartKind.RAIL, number=i + 1)
        for i, x in enumerate(rack.rails.positions)
    ]
    marks += [Mark(name=f"splice {i + 1}", at=half + x) for i, x in enumerate(rack.beam.splices)]
    marks += stop_marks(rack, "beam")
    marks += knee_marks(rack, "beam")
    marks += lug_marks(rack, tilt, "beam")
    return replace(piece, marks=marks_in_order(marks), lines=BEAM_LINES)


def sleeve_mark(rack: Rack, index: int) -> str:
    """Name the mark of a post's sleeve on the beam, posts from 0."""
    return "sleeve" if len(rack.posts.positions) == 1 else f"sleeve of {post_name(rack, index)}"
