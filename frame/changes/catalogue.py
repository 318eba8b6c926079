"""Changes a builder can make to a rack: each a rack made new, with what it takes in words."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from frame.checks.u_bolt import NUT_FACTOR
from frame.parts.grip import most_torque
from frame.parts.u_bolts import u_bolt
from frame.rack.guy import (
    BLOCK,
    DEADMAN,
    NO_FITTING,
    PICKETS,
    POST_TOP,
    SCREW,
    Anchor,
    Guys,
)
from frame.rack.pipe import ERW_DESIGN_WALL, Pipe
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.sleeve import Pin, SetBolts
from frame.tables import pipes, wires
from frame.units import DEG, FT, INCH, LB, show

STRONGER = 1.1
"""Least gain in section modulus for which changing a pipe is worth it [1] (judgement)."""
LOW_TILT = 10 * DEG
"""Tilt to lie low at, clear of the flat where panels flutter [rad] (common practice)."""
SHARE_OF_PROOF = 0.9
"""Part of its proof load up to which a U-bolt may be tightened [1] (judgement)."""
HOLDFASTS = ("1", "1-1", "1-1-1", "2-1", "3-2-1")
LEG_STEP, LEG_MOST = INCH / 16, INCH * 5 / 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change: the `rack` after it with its `bracing`, what to do in `words`.

    `work` is its trouble as a weight of steel [N] (judgement); steel itself is added later.
    `stiff` is False where it changes strength alone, not the frame's forces at the tilts kept.
    """

    words: str
    rack: Rack
    bracing: tuple[str, ...]
    work: float
    stiff: bool = True


Maker = Callable[[Rack, tuple[str, ...]], Iterator[Change]]


def changes(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Every change that applies to the rack with this bracing."""
    for maker in MAKERS:
        yield from maker(rack, bracing)


def lock(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Tighten, double or replace the set bolts."""
    now = rack.sleeve.lock
    if not isinstance(now, SetBolts):
        return
    units = rack.units

    def with_lock(words: str, new: SetBolts | Pin, work: float) -> Change:
        changed = replace(rack, sleeve=replace(rack.sleeve, lock=new))
        return Change(words=words, rack=changed, bracing=bracing, work=work, stiff=False)

    full = most_torque(rack)
    if not now.jam_nuts:
        yield with_lock("a jam nut on every set bolt", replace(now, jam_nuts=True), 2 * LB)
    if now.torque < 0.99 * full:
        words = f"tighten the set bolts to {show(full, 'torque', units)}, and every year again"
        yield with_lock(words, replace(now, torque=full), LB)
    where = "at a right angle to the first" if now.count == 1 else "under one of the others"
    words = f"one more set bolt, {where}, with a jam nut"
    yield with_lock(words, replace(now, count=now.count + 1, jam_nuts=True), 4 * LB)
    size = max(now.diameter, 5 * INCH / 8)
    words = f"a {show(size, 'length', units)} pin right through sleeve and post"
    yield with_lock(f"{words} in place of the set bolts", Pin(diameter=size), 6 * LB)


def sleeve(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Lengthen the sleeve by half."""
    longer = 1.5 * rack.sleeve.length
    room = rack.posts.height - rack.beam.pipe.od / 2
    if rack.knees and KNEES in bracing:
        room = min(room, rack.knees.drop - rack.beam.pipe.od / 2)
    if longer < room:
        words = f"a sleeve {show(longer, 'length', rack.units)} long"
        changed = replace(rack, sleeve=replace(rack.sleeve, length=longer))
        yield Change(words=words, rack=changed, bracing=bracing, work=10 * LB)


def u_bolts(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Tighten the U-bolts or put a second one on every rail."""
    bolts, count = rack.rails.u_bolts, len(rack.rails.positions)
    safe = float(SHARE_OF_PROOF * NUT_FACTOR * bolts.diameter * u_bolt(rack).proof)
    if bolts.torque < 0.95 * safe:
        words = f"tighten the U-bolts to {show(safe, 'torque', rack.units)}"
        tight = replace(rack.rails, u_bolts=replace(bolts, torque=safe))
        changed = replace(rack, rails=tight)
        yield Change(words=words, rack=changed, bracing=bracing, work=LB, stiff=False)
    more = replace(rack.rails, u_bolts=replace(bolts, count=bolts.count + 1))
    words = "another U-bolt on every rail"
    changed = replace(rack, rails=more)
    yield Change(words=words, rack=changed, bracing=bracing, work=count * 2 * LB, stiff=False)


def ground(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Set the post deeper, or in concrete."""
    posts = rack.posts
    footing, many = posts.footing, len(posts.positions)
    for feet in (1, 2, 3):
        deeper = replace(footing, depth=footing.depth + feet * FT)
        changed = replace(rack, posts=replace(posts, footing=deeper))
        words = f"the post {show(deeper.depth, 'length', rack.units)} deep"
        yield Change(words=words, rack=changed, bracing=bracing, work=feet * many * 5 * LB)
    if footing.backfill != "concrete":
        cast = replace(footing, backfill="concrete")
        changed = replace(rack, posts=replace(posts, footing=cast))
        words = "the post's hole filled with concrete"
        yield Change(words=words, rack=changed, bracing=bracing, work=many * 20 * LB)


def pipe(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Take the next stronger standard pipes for post, beam or knees."""
    for bigger in stronger(rack.beam.pipe)[:2]:
        changed = replace(rack, beam=replace(rack.beam, pipe=bigger))
        yield Change(words=f"a beam of {bigger.label}", rack=changed, bracing=bracing, work=0.0)
    for bigger in stronger(rack.posts.pipe)[:2]:
        if bigger.od < rack.posts.footing.hole:
            changed = replace(rack, posts=replace(rack.posts, pipe=bigger))
            words = f"a post of {bigger.label}"
            yield Change(words=words, rack=changed, bracing=bracing, work=5 * LB)
    if rack.knees and KNEES in bracing:
        for bigger in stronger(rack.knees.pipe)[:2]:
            changed = replace(rack, knees=replace(rack.knees, pipe=bigger))
            words = f"knees of {bigger.label}"
            yield Change(words=words, rack=changed, bracing=bracing, work=0.0)
    if rack.stays and STAYS in bracing:
        for bigger in stronger(rack.stays.pipe)[:2]:
            changed = replace(rack, stays=replace(rack.stays, pipe=bigger))
            words = f"stays of {bigger.label}"
            yield Change(words=words, rack=changed, bracing=bracing, work=0.0)


def knees(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Jack the beam before welding the knees, or let them reach further out."""
    now = rack.knees
    if now is None or KNEES not in bracing:
        return
    if now.fitted == "after":
        changed = replace(rack, knees=replace(now, fitted="jacked"))
        words = "jack the beam to shape before the knees are welded"
        yield Change(words=words, rack=changed, bracing=bracing, work=5 * LB)
    reach = now.reach + FT / 2
    if reach <= 0.8 * min(rack.arms) and len(rack.posts.positions) == 1:
        changed = replace(rack, knees=replace(now, reach=reach))
        words = f"knees reaching {show(reach, 'length', rack.units)} out"
        yield Change(words=words, rack=changed, bracing=bracing, work=0.0)


def welds(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Weld a leg one or two sixteenths larger."""
    for more in (1, 2):
        leg = rack.welds.leg + more * LEG_STEP
        if leg <= LEG_MOST * 1.01:
            changed = replace(rack, welds=replace(rack.welds, leg=leg))
            words = f"welds of {show(leg, 'length', rack.units)} leg"
            yield Change(words=words, rack=changed, bracing=bracing, work=2 * LB, stiff=False)


def post_top_guys(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Add guys at the post top where none are described, out as far as they are high."""
    if any(g.attach == POST_TOP for g in rack.guys):
        return
    wire = wires.find("1/4 in EHS strand")
    run = (rack.posts.height - rack.beam.pipe.od / 2 - rack.sleeve.length) / 2**0.5
    guys = Guys(
        name="post-top guys",
        attach=POST_TOP,
        wire=wire,
        out=run,
        along=run,
        pretension=200 * LB,
        anchor=DEADMAN,
        hold=Anchor(depth=4 * FT, height=FT, length=2 * FT),
        fitting=NO_FITTING,
    )
    words = f"four guys of {wire.name} from the post top to buried deadmen 4 ft down"
    changed = replace(rack, guys=(*rack.guys, guys))
    yield Change(words=words, rack=changed, bracing=(*bracing, guys.name), work=180 * LB)


def guy_lines(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Take stronger wire, better anchors, or tighten what is there."""
    for group in rack.guys_in(bracing):
        work = 4 * 3 * LB
        for wire in stronger_wires(group.wire)[:1]:
            yield _group(rack, bracing, replace(group, wire=wire), f"{wire.name}", work)
        if not group.hold.tested:
            yield from _anchors(rack, bracing, group)
        pull = 1.5 * group.pretension
        if pull <= 0.15 * group.wire.breaking:
            words = f"tightened to {show(pull, 'force', rack.units)}"
            yield _group(rack, bracing, replace(group, pretension=pull), words, LB)


def _anchors(rack: Rack, bracing: tuple[str, ...], group: Guys) -> Iterator[Change]:
    hold, units = group.hold, rack.units
    if group.anchor == DEADMAN:
        better = replace(hold, depth=hold.depth + FT)
        words = f"deadmen {show(better.depth, 'length', units)} down"
    elif group.anchor == SCREW:
        better = replace(hold, torque=1.5 * hold.torque)
        words = f"screw anchors driven to {show(better.torque, 'torque', units)}"
    elif group.anchor == BLOCK:
        better = replace(hold, weight=1.5 * hold.weight)
        words = f"blocks of {show(better.weight, 'weight', units)}"
    elif group.anchor == PICKETS and hold.holdfast in HOLDFASTS[:-1]:
        better = replace(hold, holdfast=HOLDFASTS[HOLDFASTS.index(hold.holdfast) + 1])
        words = f"{better.holdfast} pickets"
    else:
        return
    yield _group(rack, bracing, replace(group, hold=better), words, 4 * 8 * LB)


def _group(rack: Rack, bracing: tuple[str, ...], group: Guys, words: str, work: float) -> Change:
    groups = tuple(group if g.name == group.name else g for g in rack.guys)
    changed = replace(rack, guys=groups)
    return Change(words=f"{group.name}: {words}", rack=changed, bracing=bracing, work=work)


def season(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Change]:
    """Keep to the lower tilts, or to a low one, while the storms last."""
    low = min(rack.tilts)
    kept = low if low < max(rack.tilts) - 1e-6 and low >= 8 * DEG else LOW_TILT
    if max(rack.tilts) > kept + 1e-6:
        words = f"keep it at {show(kept, 'angle', rack.units)} in the season of storms"
        changed = replace(rack, tilts=(kept,))
        stiff = kept not in rack.tilts
        yield Change(words=words, rack=changed, bracing=bracing, work=0.5 * LB, stiff=stiff)


def stronger(pipe: Pipe) -> tuple[Pipe, ...]:
    """Return stronger standard pipes of the same steel and no smaller outside, lightest first."""
    least = STRONGER * pipe.design.elastic_modulus
    found = [standard(size, pipe) for size in pipes.pipes() if size.family == pipes.STANDARD]
    better = [p for p in found if p.design.elastic_modulus >= least and p.od >= pipe.od - 1e-6]
    return tuple(sorted(better, key=lambda p: p.weight))


def standard(size: pipes.PipeSize, like: Pipe) -> Pipe:
    """Return a catalog pipe, new and without rust, of the steel of another."""
    return Pipe(
        label=size.name,
        od=size.od,
        wall=size.wall,
        weight=size.weight,
        steel=like.steel,
        wall_factor=ERW_DESIGN_WALL,
    )


def stronger_wires(wire: wires.Wire) -> tuple[wires.Wire, ...]:
    """Return wires of the same construction that break later, lightest first."""
    same = [w for w in wires.wires() if w.construction == wire.construction]
    better = [w for w in same if w.breaking > 1.2 * wire.breaking]
    return tuple(sorted(better, key=lambda w: (w.weight, -w.breaking)))


MAKERS: tuple[Maker, ...] = (
    season,
    lock,
    u_bolts,
    welds,
    sleeve,
    ground,
    pipe,
    knees,
    post_top_guys,
    guy_lines,
)
