"""The cut list: every piece of a rack with its length, ends and marks, from real pipe surfaces."""

import math
from dataclasses import replace
from string import ascii_uppercase

from frame.geometry.cope import long_point
from frame.geometry.tube import Tube
from frame.idealize.posts import lug_height, post_name
from frame.named.part import PartKind
from frame.rack.brace import Stays
from frame.rack.guy import Guys
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin
from frame.shop.ground import Ground, grades, stepped
from frame.shop.steel.braces import knee_marks, knees, stays
from frame.shop.steel.eyes import end_hole, eyes
from frame.shop.steel.pieces import (
    BEAM_LINES,
    CHANNEL,
    CHANNEL_LINES,
    COPE,
    HOLE,
    PIPE,
    POST_LINES,
    End,
    Mark,
    Piece,
    on_tape,
    pipe_piece,
)
from frame.shop.steel.straps import LOWER, UPPER, strap_of, strap_piece
from frame.shop.steel.tilt_stop import stop_marks
from frame.tables.channels import Channel
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
        _rail(fitted, tilt),
    ]
    strap = strap_of(fitted)
    if strap:
        pieces.append(strap_piece(fitted, strap))
    if fitted.ties:
        pieces.append(_tie(fitted))
    if fitted.knees:
        pieces.append(knees(fitted))
    if fitted.stays:
        pieces += stays(fitted, tilt, ground)
    return _lettered(pieces)


def _lettered(pieces: list[Piece]) -> tuple[Piece, ...]:
    letters = {p.name: letter for p, letter in zip(pieces, ascii_uppercase, strict=False)}

    def named(end: End) -> End:
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
    return replace(post, length=length, marks=_sorted(marks))


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
    marks += _lugs(rack, tilt, "post")
    return replace(piece, marks=_sorted(marks), lines=POST_LINES)


def _sleeve(rack: Rack) -> Piece:
    sleeve, beam, bore = rack.sleeve, rack.beam.pipe.od, sleeve_bore(rack)
    tube = Tube(bore + 2 * sleeve.wall, sleeve.wall)
    above = beam / 2 - long_point(beam / 2, bore / 2, QUARTER)
    length = sleeve.length + above
    end = End(kind=COPE, onto="beam", header=beam, bore=bore, flanks=tube.od > beam)
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
        ends=(End(), end),
        marks=_sorted(marks),
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
    marks += _lugs(rack, tilt, "beam")
    return replace(piece, marks=_sorted(marks), lines=BEAM_LINES)


def sleeve_mark(rack: Rack, index: int) -> str:
    """Name the mark of a post's sleeve on the beam, posts from 0."""
    return "sleeve" if len(rack.posts.positions) == 1 else f"sleeve of {post_name(rack, index)}"


def _channel_piece(name: str, of: PartKind, count: int, channel: Channel, length: float) -> Piece:
    return Piece(
        letter="",
        name=name,
        of=of,
        count=count,
        kind=CHANNEL,
        stock=channel.name,
        od=channel.depth,
        wall=channel.width,
        length=length,
        weight=channel.weight * length,
        lines=CHANNEL_LINES,
    )


def _rail(rack: Rack, tilt: float) -> Piece:
    rails = rack.rails
    half, legs = rails.length / 2, (rack.beam.pipe.od + rails.u_bolts.diameter) / 2
    count = len(rails.positions)
    piece = _channel_piece("rail", PartKind.RAIL, count, rails.channel, rails.length)
    strap = strap_of(rack)
    bore = rails.u_bolts.diameter + HOLE if strap is None or strap.through else 0.0
    marks = [
        Mark(name=LOWER, at=half - legs, hole=bore),
        Mark(name="middle of the beam", at=half),
        Mark(name=UPPER, at=half + legs, hole=bore),
    ]
    for j, (low, high) in enumerate(rack.panels.rows()):
        row = f" of row {j + 1}" if rack.panels.up > 1 else ""
        marks += [
            Mark(name=f"panel{row}, lower edge", at=half + low),
            Mark(name=f"clamp 1{row}", at=half + low + (high - low) / 4),
            Mark(name=f"clamp 2{row}", at=half + low + 3 * (high - low) / 4),
            Mark(name=f"panel{row}, upper edge", at=half + high),
        ]
    bolt = rack.welds.lug_bolt + HOLE
    for where in rack.ties.at if rack.ties else ():
        at = end_hole(rack) if where == "lower" else rails.length - end_hole(rack)
        marks.append(Mark(name=f"bolt of the {where} tie", at=at, hole=bolt))
    marks += stop_marks(rack, "rail")
    marks += _lugs(rack, tilt, "rail")
    return replace(piece, marks=_sorted([m for m in marks if 0 <= m.at <= rails.length]))


def _tie(rack: Rack) -> Piece:
    ties, places = rack.ties, rack.rails.positions
    assert ties is not None
    edge = rack.rails.channel.width / 2
    length = places[-1] - places[0] + 2 * edge
    bolt = rack.welds.lug_bolt + HOLE
    first, *_ = on_beam = [on_tape(rack.beam.length / 2 + x, rack.units) for x in places]
    marks = [
        Mark(name=f"rail {i + 1}", at=on_tape(edge, rack.units) + x - first, hole=bolt)
        for i, x in enumerate(on_beam)
    ]
    piece = _channel_piece("tie rail", PartKind.TIE, len(ties.at), ties.channel, length)
    return replace(piece, marks=tuple(marks))


def _lugs(rack: Rack, tilt: float, carrier: str) -> list[Mark]:
    """Return the marks of all eyes on one kind of piece."""
    lines: list[Guys | Stays] = [*rack.guys, *([rack.stays] if rack.stays else [])]
    found = []
    for line in lines:
        name = line.name if isinstance(line, Guys) else STAYS
        for eye in eyes(rack, line, tilt):
            if eye.carrier != carrier:
                continue
            found.append(
                Mark(
                    name=f"eye of {name}, {eye.which}",
                    of=PartKind.LUG,
                    at=eye.at,
                    around=eye.around,
                    off=0.0 if carrier == "rail" else rack.welds.lug_length / 2,
                    hole=rack.welds.lug_bolt + HOLE,
                    on=() if carrier == "beam" else (eye.number,),
                )
            )
    return found


def _sorted(marks: list[Mark]) -> tuple[Mark, ...]:
    return tuple(sorted(marks, key=lambda m: (m.at, m.around or 0.0)))
