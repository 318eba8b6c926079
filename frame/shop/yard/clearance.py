"""Do panels or rails strike anything as they are tilted and turned, and where first?"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from frame.idealize.posts import lug_height, post_name
from frame.rack.guy import BEAM_ENDS, POST_TOP
from frame.rack.rack import KNEES, STAYS, Rack
from frame.shop.ground import Ground
from frame.shop.steel.cut_list import sleeve_bore
from frame.shop.steel.eyes import eyes
from frame.shop.yard.lines import GuyLine
from frame.units import DEG, INCH

FloatArray = np.ndarray
NEAR = 2 * INCH
"""Room to be left between what moves and what stands [m] (judgement)."""
STEEPEST = 75 * DEG
STEP, TURN = 0.5 * DEG, 3 * DEG
"""Steps of tilt and of heading looked at [rad]."""
POINTS = 121


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """What stands in the way: straight and round, from `start` to `end`, `radius` [m]."""

    name: str
    start: FloatArray
    end: FloatArray
    radius: float

    def points(self) -> FloatArray:
        """Points along its axis, (n, 3)."""
        part = np.linspace(0.0, 1.0, POINTS)[:, None]
        found: FloatArray = self.start + part * (self.end - self.start)
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """What moves: a box of a middle and half sizes along beam, slope and outward [m]."""

    name: str
    middle: FloatArray
    half: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """What a `moving` part does to what it may strike at the tilts of the file.

    `gap` [m]: least at those tilts, below nil where it strikes; `below` and `above`: next tilt
    under and over them at which it strikes [rad], None where none does from flat to 75 deg.
    """

    what: str
    moving: str
    gap: float
    at: float
    below: float | None
    above: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """What is struck as the beam is turned on the post at a `tilt`: from and to which headings."""

    tilt: float
    what: str
    headings: tuple[tuple[float, float], ...]


@dataclass(frozen=True, kw_only=True)
class Clearance:
    """All that may be struck; `held`: why the beam cannot be turned, empty where it can."""

    contacts: tuple[Contact, ...]
    turning: tuple[Turning, ...]
    held: str


def clearance(
    rack: Rack, bracing: tuple[str, ...], lines: tuple[GuyLine, ...], ground: Ground
) -> Clearance:
    """Sweep the tilt from flat to 75 deg, and the heading where the beam can be turned."""
    rods, boxes = tuple(_rods(rack, bracing, lines, ground)), _boxes(rack)
    contacts = [_contact(rack, rod, box) for rod in rods for box in boxes]
    contacts += [_on_ground(rack, box, ground) for box in boxes]
    held = _held(rack, bracing)
    return Clearance(
        contacts=_worst(contacts),
        turning=() if held else tuple(_turning(rack, rods, boxes)),
        held=held,
    )


def _held(rack: Rack, bracing: tuple[str, ...]) -> str:
    if len(rack.posts.positions) > 1:
        return "it stands on several posts"
    if KNEES in bracing:
        return "the knees hold it"
    ends = [g.name for g in rack.guys_in(bracing) if g.attach != POST_TOP]
    if ends:
        return f"the {ends[0]} hold it"
    if rack.stays and STAYS in bracing and rack.stays.attach != POST_TOP:
        return "the stays hold it"
    return ""


def _rods(
    rack: Rack, bracing: tuple[str, ...], lines: tuple[GuyLine, ...], ground: Ground
) -> Iterator[Rod]:
    height, od = rack.posts.height, rack.posts.pipe.od
    for i, x in enumerate(rack.posts.positions):
        name = post_name(rack, i)
        foot, mouth = ground.point(x, 0.0), np.array([x, 0.0, lug_height(rack)])
        top = np.array([x, 0.0, height - rack.beam.pipe.od / 2])
        yield Rod(name=name, start=foot, end=mouth, radius=od / 2)
        radius = sleeve_bore(rack) / 2 + rack.sleeve.wall
        yield Rod(name="sleeve", start=mouth, end=top, radius=radius)
        if rack.knees and KNEES in bracing:
            for side, sign in (("left", -1), ("right", 1)):
                work = np.array([x, 0.0, height - rack.knees.drop])
                way = np.array([sign * rack.knees.reach, 0.0, rack.knees.drop])
                inside = rack.beam.pipe.od / 2 / rack.knees.drop
                end = work + (1 - inside) * way
                radius = rack.knees.pipe.od / 2
                yield Rod(name=f"knee, {side}", start=work, end=end, radius=radius)
    wires = {g.name: g for g in rack.guys_in(bracing) if g.attach in (POST_TOP, BEAM_ENDS)}
    for line in lines:
        if line.group in wires:
            radius = wires[line.group].wire.diameter / 2
            yield Rod(name=line.name, start=line.eye.point, end=line.anchor, radius=radius)
    if rack.stays and STAYS in bracing and rack.stays.attach in (POST_TOP, BEAM_ENDS):
        for eye in eyes(rack, rack.stays, min(rack.tilts)):
            radius, foot = rack.stays.pipe.od / 2, ground.point(eye.foot[0], eye.foot[1])
            yield Rod(name=f"stay, {eye.which}", start=eye.point, end=foot, radius=radius)


def _boxes(rack: Rack) -> tuple[Box, ...]:
    rails, panels = rack.rails, rack.panels
    deep = rails.channel.depth
    top = rack.stand_off + deep / 2
    half = np.array([panels.spread / 2, panels.chord / 2, panels.thickness / 2])
    face = Box(name="panels", middle=np.array([0.0, 0.0, top + panels.thickness / 2]), half=half)
    half = np.array([rails.channel.width / 2, rails.length / 2, deep / 2])
    return (
        face,
        *(
            Box(name=f"rail {i + 1}", middle=np.array([x, 0.0, rack.stand_off]), half=half)
            for i, x in enumerate(rails.positions)
        ),
    )


def gaps(
    points: FloatArray, box: Box, height: float, tilts: FloatArray, headings: FloatArray
) -> FloatArray:
    """Least distance of points (m, 3) from a box turned with the rack, below nil inside it [m].

    `height` of the beam's axis [m]; `tilts` about it, `headings` about the post [rad],
    right-handed, (n,) or one; returns (n,).
    """
    c, s = np.cos(headings)[:, None], np.sin(headings)[:, None]
    x, y, z = points.T
    z = z - height
    along, across = c * x + s * y, c * y - s * x
    c, s = np.cos(tilts)[:, None], np.sin(tilts)[:, None]
    middle, half = box.middle, box.half
    past = [
        np.abs(along - middle[0]) - half[0],
        np.abs(c * across + s * z - middle[1]) - half[1],
        np.abs(c * z - s * across - middle[2]) - half[2],
    ]
    outside = np.sqrt(sum(np.maximum(p, 0.0) ** 2 for p in past))
    inside = np.minimum(np.maximum(np.maximum(past[0], past[1]), past[2]), 0.0)
    least: FloatArray = (outside + inside).min(axis=1)
    return least


def lowest_corner(box: Box, height: float, tilts: FloatArray, ground: Ground) -> FloatArray:
    """Least height of a box's corners over the ground [m], at `tilts` [rad], (n,)."""
    c, s = np.cos(tilts)[:, None], np.sin(tilts)[:, None]
    signs = np.array([(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)])
    x, up, out = (box.middle + signs * box.half).T
    y, z = c * up - s * out, s * up + c * out + height
    fall = np.array([ground.height(1.0, 0.0), ground.height(0.0, 1.0)])
    least: FloatArray = (z - fall[0] * x - fall[1] * y).min(axis=1)
    return least


def _contact(rack: Rack, rod: Rod, box: Box) -> Contact:
    points, still = rod.points(), np.zeros(1)
    return _sweep(
        rack,
        rod.name,
        box.name,
        lambda tilts: gaps(points, box, rack.posts.height, tilts, still) - rod.radius,
    )


def _on_ground(rack: Rack, box: Box, ground: Ground) -> Contact:
    height = rack.posts.height
    return _sweep(
        rack, "ground", box.name, lambda tilts: lowest_corner(box, height, tilts, ground)
    )


def _sweep(
    rack: Rack, what: str, moving: str, room: Callable[[FloatArray], FloatArray]
) -> Contact:
    """Look at every tilt from flat to the steepest."""
    at = room(np.array(rack.tilts))
    tightest = int(at.argmin())
    over = np.arange(max(rack.tilts), STEEPEST, STEP)
    under = np.arange(min(rack.tilts), 0.0, -STEP)
    return Contact(
        what=what,
        moving=moving,
        gap=float(at[tightest]),
        at=rack.tilts[tightest],
        below=_first(room, under),
        above=_first(room, over),
    )


def _first(room: Callable[[FloatArray], FloatArray], tilts: FloatArray) -> float | None:
    """Return the first of some tilts at which there is no room, between steps by bisection."""
    struck = np.flatnonzero(room(tilts) <= 0) if tilts.size else tilts
    if not struck.size:
        return None
    first = int(struck[0])
    if first == 0:
        return float(tilts[0])
    free, hit = float(tilts[first - 1]), float(tilts[first])
    for _ in range(20):
        middle = (free + hit) / 2
        free, hit = (free, middle) if room(np.array([middle]))[0] <= 0 else (middle, hit)
    return hit


def _worst(contacts: list[Contact]) -> tuple[Contact, ...]:
    """Return for everything that may be struck the part that comes nearest, the nearest first."""
    found: dict[str, list[Contact]] = {}
    for one in contacts:
        found.setdefault(one.what, []).append(one)
    worst = []
    for some in found.values():
        nearest = min(some, key=lambda c: c.gap)
        below = max((c.below for c in some if c.below is not None), default=None)
        above = min((c.above for c in some if c.above is not None), default=None)
        worst.append(
            Contact(
                what=nearest.what,
                moving=nearest.moving,
                gap=nearest.gap,
                at=nearest.at,
                below=below,
                above=above,
            )
        )
    return tuple(sorted(worst, key=lambda c: c.gap))


def _turning(rack: Rack, rods: tuple[Rod, ...], boxes: tuple[Box, ...]) -> Iterator[Turning]:
    """Turn the beam right round at every tilt of the file."""
    headings = np.arange(0.0, 2 * math.pi, TURN)
    for tilt in rack.tilts:
        for rod in rods:
            points = rod.points()
            least = np.min(
                [gaps(points, b, rack.posts.height, np.array([tilt]), headings) for b in boxes],
                axis=0,
            )
            struck = [bool(near <= rod.radius) for near in least]
            if any(struck):
                yield Turning(tilt=tilt, what=rod.name, headings=_runs(struck, headings))


def _runs(struck: list[bool], headings: FloatArray) -> tuple[tuple[float, float], ...]:
    """Return where it is struck from and to [rad]."""
    found: list[tuple[float, float]] = []
    for hit, heading in zip(struck, headings, strict=True):
        if not hit:
            continue
        if found and heading - found[-1][1] <= 1.5 * TURN:
            found[-1] = (found[-1][0], float(heading))
        else:
            found.append((float(heading), float(heading)))
    return tuple(found)
