"""The sleeve on the post and what locks it: wall bearing, set bolts or a through pin."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Kind
from frame.checks.fasteners.pin import (
    BEARING_FACTOR,
    BENDING_FACTOR,
    BOLT_FACTOR,
    PinnedWall,
    ThroughPin,
    pin_bearing,
    pin_bending,
    pin_shear,
    section_left,
)
from frame.checks.fasteners.set_bolt import expected_set_bolt_grip, set_bolt_grip
from frame.checks.fasteners.sleeve import BearingWall, Couple, expected_wall_bearing, wall_bearing
from frame.checks.steel.pipe import Forces, interaction
from frame.checks.welds.round_joint import yield_in_tables
from frame.idealize.posts import post_name
from frame.named.limit_state import LimitState
from frame.named.part import PIN_HOLE, SET_BOLT, THROUGH_PIN, PartKind, Spot
from frame.named.part import wall as wall_part
from frame.parts.checker import PartCheck
from frame.parts.forces import (
    Wall,
    connections,
    metal_between,
    pipe_wall,
    remark,
    squeeze,
    tensile_of,
)
from frame.parts.steel.grip import expected_set_bolts, resting, set_bolts
from frame.parts.steel.pipes import pipe_in
from frame.rack.guy import POST_TOP
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.sleeve import Pin
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import find


@dataclass(frozen=True)
class SleeveForces:
    """What each sleeve passes from post to beam, arrays (n, sleeves).

    `push` up the post and `side` across it [N], `swing` about it [N m]; bending [N m]: `middle` of
    the sleeve over the post, `in_plane` of post and beam and `out_of_plane` the larger of their
    values at the beam's axis and at its underside, where the saddle weld runs. Of `side`, `along`
    is the part along the push of the couple at the top of the sleeve, negative against it, and
    `beside` the part square to it [N].
    """

    push: FloatArray
    side: FloatArray
    swing: FloatArray
    middle: FloatArray
    in_plane: FloatArray
    out_of_plane: FloatArray
    along: FloatArray
    beside: FloatArray


def sleeve_forces(now: Situation) -> SleeveForces:
    """Find the forces of every sleeve from its connection at the beam's axis over the post."""
    rack = now.rack
    F = now.answer.on_connections(connections(now, PartKind.SLEEVE))
    Fx, Fy, Fz, Mx, My, Mz = (F[..., i] for i in range(6))

    def below(arm: float) -> tuple[FloatArray, FloatArray]:
        return Mx - arm * Fy, My + arm * Fx

    radius = rack.beam.pipe.od / 2
    axis, under = below(0.0), below(radius)
    along, beside = _beside_couple((Fx, Fy), below(radius + rack.sleeve.length / 2))
    return SleeveForces(
        push=Fz,
        side=np.hypot(Fx, Fy),
        swing=np.abs(Mz),
        middle=np.hypot(*below(radius + rack.sleeve.length / 2)),
        in_plane=np.maximum(np.abs(axis[1]), np.abs(under[1])),
        out_of_plane=np.maximum(np.abs(axis[0]), np.abs(under[0])),
        along=along,
        beside=beside,
    )


def _beside_couple(
    force: tuple[FloatArray, FloatArray], moment: tuple[FloatArray, FloatArray]
) -> tuple[FloatArray, FloatArray]:
    """Part of a level force along the push that makes a moment at its top, and square to it [N].

    A moment (Mx, My) is made by pushes along (My, -Mx) above and against it below.
    """
    (Fx, Fy), (Mx, My) = force, moment
    M = np.hypot(Mx, My)
    none = M == 0
    with np.errstate(divide="ignore", invalid="ignore"):
        along = np.where(none, np.hypot(Fx, Fy), (Fx * My - Fy * Mx) / M)
        beside = np.where(none, 0.0, np.abs(Fx * Mx + Fy * My) / M)
    return along, beside


def sleeve_checks(now: Situation) -> Iterator[PartCheck]:
    """Wall bearing at three places, and the lock: set bolts, or a pin and its holes."""
    forces = sleeve_forces(now)
    yield from _bearing(now, forces)
    if isinstance(now.rack.sleeve.lock, Pin):
        yield from _pin(now, forces, now.rack.sleeve.lock)
    else:
        yield SET_BOLT, _set_bolts(now, forces)


def sleeve_od(rack: Rack) -> float:
    """Outside diameter of the sleeve [m]: over the post with its play."""
    return rack.posts.pipe.od + rack.sleeve.clearance + 2 * rack.sleeve.wall


def sleeve_wall(rack: Rack) -> Wall:
    """Wall counted on [m] and steel of the sleeve."""
    return rack.sleeve.wall, rack.sleeve.steel


def sleeve_pipe(now: Situation, ndim: int = 1) -> Wall:
    """Wall [m] and steel of the sleeve: as the code counts it, or as expected in every case.

    A sleeve of which nothing was told is counted as the post is, and expected to be as the post
    is; the wall of any other was measured, and is as found.
    """
    sleeve, post = now.rack.sleeve, now.rack.posts.pipe
    if now.median and math.isclose(sleeve.wall, post.design.wall, rel_tol=1e-9):
        return now.wall_of(post, ndim), sleeve.steel
    return sleeve.wall, sleeve.steel


def _bearing(now: Situation, forces: SleeveForces) -> Iterator[PartCheck]:
    rack, post = now.rack, now.rack.posts.pipe
    sleeve = _bearing_wall(now, sleeve_od(rack), sleeve_pipe(now, 2))
    top = _bearing_wall(now, post.design.od, pipe_wall(now, post, 2))
    foot = replace(top, open_end=False)
    stress = _post_stress(now)
    above = Couple(
        moment=forces.middle,
        shear=forces.along,
        length=rack.sleeve.length,
        beside=forces.beside,
    )
    below = replace(above, shear=-forces.along)
    runs = (
        (wall_part(PartKind.POST, Spot.SLEEVE_FOOT), below, foot, stress, post.steel),
        (wall_part(PartKind.POST, Spot.TOP), above, top, 0.0, post.steel),
        (wall_part(PartKind.SLEEVE, Spot.FOOT), below, sleeve, 0.0, rack.sleeve.steel),
    )
    for name, couple, wall, squeezed, steel in runs:
        check = (
            expected_wall_bearing(couple, wall, squeezed, now.expected("sleeve_bearing", 2))
            if now.median
            else wall_bearing(couple, wall, squeezed)
        )
        yield name, remark(check, steel)


def _bearing_wall(now: Situation, od: float, wall: Wall) -> BearingWall:
    """Return a wall with the yield counted on beside a weld, as expected in the median model."""
    metal = metal_between(now, wall, ndim=2)
    counted = metal.counted_yield if now.median else yield_in_tables(metal.counted_yield)
    return BearingWall(od=od, wall=metal.wall, yield_stress=counted)


def _post_stress(now: Situation) -> FloatArray:
    """Compression [Pa] of each post at the foot of its sleeve, (n, posts)."""
    rack, marks = now.rack, now.block.frame.ideal.marks
    names = [post_name(rack, i) for i in range(len(rack.posts.positions))]
    each = [squeeze(now, n, [marks[f"{n} lug"]], rack.posts.pipe) for n in names]
    return np.concatenate(each, axis=1)


def _set_bolts(now: Situation, forces: SleeveForces) -> Check:
    """Grip against swing and lift.

    Where several posts hold the beam it cannot swing; what slips then is a sleeve off its post.
    Braces from beam to post or ground hold the beam too: by them a load on its ends lifts its
    middle off the post, which a little slip makes good. That lift is no part of what is expected.
    """
    free = len(now.rack.posts.positions) == 1
    swing = forces.swing if free else np.zeros_like(forces.swing)
    lift, weight = -forces.push, resting(now, forces.push)
    if now.median:
        bolts = expected_set_bolts(now)
        assert bolts is not None
        friction = now.expected("set_bolt_friction", 2)
        lift = np.zeros_like(lift) if _braced(now) else lift
        check = expected_set_bolt_grip(swing, bolts, friction, lift, weight)
    else:
        counted = set_bolts(now.rack)
        assert counted is not None
        check = set_bolt_grip(swing, counted, lift, weight)
    return check if free else replace(check, name=LimitState.LIFT_GRIP, kind=Kind.BREAKS)


def _braced(now: Situation) -> bool:
    """Whether stiff braces carry the beam beside its sleeves."""
    stays = now.rack.stays if STAYS in now.block.bracing else None
    return KNEES in now.block.bracing or (stays is not None and stays.attach != POST_TOP)


def _pin(now: Situation, forces: SleeveForces, lock: Pin) -> Iterator[PartCheck]:
    """Pin of unmarked steel at the middle of the sleeve, which carries the weight too."""
    rack, post, pin = now.rack, now.rack.posts.pipe, _through_pin(now, lock)
    loads = forces.swing, np.abs(forces.push), pin
    bolt, bearing, bending = (
        (1.0, 1.0, 1.0) if now.median else (BOLT_FACTOR, BEARING_FACTOR, BENDING_FACTOR)
    )
    yield THROUGH_PIN, pin_shear(*loads, bolt)
    yield THROUGH_PIN, pin_bending(*loads, bending)
    edge = (rack.sleeve.length - lock.diameter) / 2
    for on, (wall, steel) in (
        (PartKind.POST, pipe_wall(now, post, 2)),
        (PartKind.SLEEVE, sleeve_pipe(now, 2)),
    ):
        pinned = PinnedWall(
            wall=wall,
            yield_stress=now.yield_of(steel, 2) if now.median else steel.fy,
            tensile=tensile_of(now, steel, 2),
            to_edge=edge,
        )
        yield wall_part(on, Spot.PIN), remark(pin_bearing(*loads, pinned, bearing), steel)
    yield PIN_HOLE, remark(_at_hole(now, forces, lock), post.steel)


def _through_pin(now: Situation, lock: Pin) -> ThroughPin:
    """Return the pin of unmarked steel."""
    rack, post, steel = now.rack, now.rack.posts.pipe, find("unknown sound")
    grade = find_grade("unmarked")
    pin = ThroughPin(
        diameter=lock.diameter,
        shear_stress=grade.shear,
        yield_stress=steel.fy,
        post_radius=(post.od - post.design.wall) / 2,
        sleeve_radius=(sleeve_od(rack) - rack.sleeve.wall) / 2,
    )
    if not now.median:
        return pin
    shear = grade.expected_shear * now.expected("rod_shear", 2)
    return replace(pin, shear_stress=shear, yield_stress=now.yield_of(steel, 2))


def _at_hole(now: Situation, forces: SleeveForces, lock: Pin) -> Check:
    """Bending of the post where the pin's holes weaken it.

    The couple of the sleeve has let go half of this moment at the pin: the safe side.
    """
    rack, post = now.rack, now.rack.posts.pipe
    left = float(section_left(post.design.od, post.design.wall, lock.diameter))
    bent = Forces(N=forces.push * -1.0, My=forces.middle, Vy=forces.side, T=forces.swing)
    return interaction(pipe_in(now, post, 2).spliced(left), bent, rack.posts.height)
