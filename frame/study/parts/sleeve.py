"""The sleeve on the post and what locks it: wall bearing, set bolts or a through pin."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check
from frame.checks.pin import (
    PinnedWall,
    ThroughPin,
    pin_bearing,
    pin_bending,
    pin_shear,
    section_left,
)
from frame.checks.pipe import Forces, interaction
from frame.checks.set_bolt import set_bolt_grip
from frame.checks.sleeve import BearingWall, wall_bearing
from frame.checks.weld import Metal
from frame.idealize.posts import post_name
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.study.frames import FloatArray
from frame.study.grip import set_bolts
from frame.study.parts.forces import Wall, coded_metal, connections, remark, squeeze, wall_of
from frame.study.parts.pipes import PartCheck, round_pipe
from frame.study.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.steels import find


@dataclass(frozen=True)
class SleeveForces:
    """What each sleeve passes from post to beam, arrays (n, sleeves).

    `push` up the post and `side` across it [N], `swing` about it [N m]; bending [N m], with the
    second-order factor: `middle` of the sleeve over the post, `weld` the larger of its values at
    the beam's axis and at the beam's underside, where the saddle weld runs; `in_plane` of post and
    beam and `out_of_plane` at the same place.
    """

    push: FloatArray
    side: FloatArray
    swing: FloatArray
    middle: FloatArray
    weld: FloatArray
    in_plane: FloatArray
    out_of_plane: FloatArray


def sleeve_forces(now: Situation) -> SleeveForces:
    """Find the forces of every sleeve from its connection at the beam's axis over the post."""
    rack = now.rack
    F = now.answer.on_connections(connections(now, "sleeve"))
    Fx, Fy, Fz, Mx, My, Mz = (F[..., i] for i in range(6))
    factor = now.second_order[:, None]

    def below(arm: float) -> tuple[FloatArray, FloatArray]:
        return factor * (Mx - arm * Fy), factor * (My + arm * Fx)

    radius = rack.beam.pipe.od / 2
    axis, under = below(0.0), below(radius)
    return SleeveForces(
        push=Fz,
        side=np.hypot(Fx, Fy),
        swing=np.abs(Mz),
        middle=np.hypot(*below(radius + rack.sleeve.length / 2)),
        weld=np.maximum(np.hypot(*axis), np.hypot(*under)),
        in_plane=np.maximum(np.abs(axis[1]), np.abs(under[1])),
        out_of_plane=np.maximum(np.abs(axis[0]), np.abs(under[0])),
    )


def sleeve_checks(now: Situation) -> Iterator[PartCheck]:
    """Wall bearing at three places, and the lock: set bolts, or a pin and its holes."""
    forces = sleeve_forces(now)
    yield from _bearing(now, forces)
    if isinstance(now.rack.sleeve.lock, Pin):
        yield from _pin(now, forces, now.rack.sleeve.lock)
    else:
        yield "set bolt", _set_bolts(now, forces)


def sleeve_od(rack: Rack) -> float:
    """Outside diameter of the sleeve [m]: over the post with its play."""
    return rack.posts.pipe.od + rack.sleeve.clearance + 2 * rack.sleeve.wall


def sleeve_wall(rack: Rack) -> Wall:
    """Wall counted on [m] and steel of the sleeve."""
    return rack.sleeve.wall, rack.sleeve.steel


def _bearing(now: Situation, forces: SleeveForces) -> Iterator[PartCheck]:
    rack, post = now.rack, now.rack.posts.pipe
    sleeve = BearingWall(
        od=sleeve_od(rack), wall=rack.sleeve.wall, yield_stress=_yield(now, sleeve_wall(rack))
    )
    top = BearingWall(
        od=post.design.od, wall=post.design.wall, yield_stress=_yield(now, wall_of(post))
    )
    foot = replace(top, open_end=False)
    stress = _post_stress(now)
    runs = (
        ("post wall at foot of sleeve", foot, stress, post.steel),
        ("post wall at its top", top, 0.0, post.steel),
        ("sleeve wall at its foot", sleeve, 0.0, rack.sleeve.steel),
    )
    for name, wall, compression, steel in runs:
        check = wall_bearing(forces.middle, forces.side, rack.sleeve.length, wall, compression)
        yield name, remark(check, steel)


def _yield(now: Situation, wall: Wall) -> float:
    metal: Metal = coded_metal(now, wall)
    return float(metal.counted_yield)


def _post_stress(now: Situation) -> FloatArray:
    """Compression [Pa] of each post at the foot of its sleeve, (n, posts)."""
    rack, marks = now.rack, now.block.frame.ideal.marks
    names = [post_name(rack, i) for i in range(len(rack.posts.positions))]
    each = [squeeze(now, n, [marks[f"{n} lug"]], rack.posts.pipe) for n in names]
    return np.concatenate(each, axis=1)


def _set_bolts(now: Situation, forces: SleeveForces) -> Check:
    """Grip against swing and lift; where several posts hold the beam it cannot swing."""
    grip = set_bolts(now.rack)
    assert grip is not None
    free = len(now.rack.posts.positions) == 1
    swing = forces.swing if free else np.zeros_like(forces.swing)
    return set_bolt_grip(swing, grip, -forces.push)


def _pin(now: Situation, forces: SleeveForces, lock: Pin) -> Iterator[PartCheck]:
    """Pin of unmarked steel at the middle of the sleeve; it may carry the weight (safe side)."""
    rack, post = now.rack, now.rack.posts.pipe
    middle = (post.od - post.design.wall) / 2
    pin = ThroughPin(
        diameter=lock.diameter,
        shear_stress=find_grade("unmarked").shear,
        yield_stress=find("unknown sound").fy,
        post_radius=middle,
        sleeve_radius=(sleeve_od(rack) - rack.sleeve.wall) / 2,
    )
    along = np.abs(forces.push)
    yield "through pin", pin_shear(forces.swing, along, pin)
    yield "through pin", pin_bending(forces.swing, along, pin)
    edge = (rack.sleeve.length - lock.diameter) / 2
    for name, (wall, steel) in (("post", wall_of(post)), ("sleeve", sleeve_wall(rack))):
        pinned = PinnedWall(wall=wall, yield_stress=steel.fy, tensile=steel.fu, to_edge=edge)
        yield f"{name} wall at pin", remark(pin_bearing(forces.swing, along, pin, pinned), steel)
    left = float(section_left(post.design.od, post.design.wall, lock.diameter))
    # The couple of the sleeve has let go half of this moment at the pin: the safe side.
    bent = Forces(N=forces.push * -1.0, My=forces.middle, Vy=forces.side, T=forces.swing)
    pipe = round_pipe(post).spliced(left)
    yield "post at pin hole", remark(interaction(pipe, bent, rack.posts.height), post.steel)
