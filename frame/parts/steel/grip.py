"""How much torque about the post the sleeve's lock holds, and what weight helps it."""

from dataclasses import replace

import numpy as np

from frame.checks.check import Numbers
from frame.checks.fasteners.set_bolt import (
    NUT_FACTOR,
    Grip,
    expected_set_bolt_grip,
    set_bolt_grip,
)
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT
from frame.named.part import PartKind
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.bolts import set_screw
from frame.tables.expected import spreads

KEPT_WITHOUT_JAM_NUTS = 0.5
"""Share of the torque left on set bolts without jam nuts, for the code's margin (judgement)."""
JAM_NUTS_SAVE = 0.5
"""Share of the torque lost without jam nuts that they save, by either model (judgement)."""
LEAST_DEAD = 0.6
"""Share of the weight that counts where it holds, ASCE/SEI 7-22 2.4.1 combination 7."""


def share_kept(lock: SetBolts) -> float:
    """Share of the torque that lasts on set bolts [1], for the code's margin."""
    return float(torque_kept(lock, KEPT_WITHOUT_JAM_NUTS))


def torque_kept(lock: SetBolts, without: Numbers) -> Numbers:
    """Share of the torque that lasts [1], given that `without` jam nuts."""
    return 1 - (1 - without) * JAM_NUTS_SAVE if lock.jam_nuts else without


def set_bolts(rack: Rack) -> Grip | None:
    """Return the grip of the set bolts with the holding forces of the table; None with a pin."""
    lock, post = rack.sleeve.lock, rack.posts.pipe
    if not isinstance(lock, SetBolts):
        return None
    row = set_screw(lock.diameter)
    return Grip(
        count=lock.count,
        diameter=lock.diameter,
        torque=lock.torque,
        seating_torque=row.torque,
        holding=row.hold,
        post_od=post.od,
        post_wall=post.design.wall,
        post_yield=post.steel.fy,
        kept=share_kept(lock),
    )


def most_torque(rack: Rack) -> float:
    """Torque [N m] left on each set bolt beyond which the code's margin counts no more grip.

    The most of the table, or what makes the bolt dent the post's wall; infinite with a pin.
    """
    bolts = set_bolts(rack)
    if bolts is None:
        return np.inf
    denting = NUT_FACTOR * bolts.diameter * bolts.denting
    return float(np.minimum(bolts.seating_torque, denting))


def expected_set_bolts(now: Situation, ndim: int = 2) -> Grip | None:
    """Return the set bolts with the torque, wall and yield expected, arrays as `now.expected`."""
    bolts, lock, post = set_bolts(now.rack), now.rack.sleeve.lock, now.rack.posts.pipe
    if bolts is None or not isinstance(lock, SetBolts):
        return None
    return replace(
        bolts,
        kept=torque_kept(lock, now.expected("set_bolt_kept", ndim)),
        nut_factor=now.expected("set_bolt_nut_factor", ndim),
        post_wall=now.wall_of(post, ndim),
        post_yield=now.yield_of(post.steel, ndim),
    )


def resting(now: Situation, push: FloatArray) -> FloatArray:
    """Dead weight [N] that presses the beam on every post top, (n, posts); `push` [N] as found.

    The wind's own press is not counted, what it lifts is taken off. The code's model counts six
    tenths of the weight in every case.
    """
    share = 1.0 if now.median else LEAST_DEAD
    weight = share * now.each(_weights)
    return np.clip(push, 0.0, weight)


def _weights(block: Block) -> FloatArray:
    """Weight on every post top [N], (posts,): of what stood on it when the panels went on."""
    response = block.frame.response
    model = response.model
    loads = [model.load_index[name] for name in (STEEL_WEIGHT, PANEL_WEIGHT)]
    sleeves = model.connections_of(PartKind.SLEEVE)
    up: FloatArray = response.connection_forces[loads][:, sleeves, 2].sum(axis=0)
    return np.maximum(up, 0.0)


def grip(rack: Rack) -> tuple[float | None, float | None]:
    """Torque the set bolts hold, low and high [N m]; None where a pin locks the sleeve.

    Low is what the code's margin counts, before its factor; high what nine of ten slip by.
    """
    bolts, lock = set_bolts(rack), rack.sleeve.lock
    if bolts is None or not isinstance(lock, SetBolts):
        return None, None
    likely = replace(
        bolts,
        kept=torque_kept(lock, spreads()["set_bolt_kept"].median),
        nut_factor=spreads()["set_bolt_nut_factor"].median,
        post_yield=rack.posts.pipe.steel.expected_fy,
    )
    high = expected_set_bolt_grip(0.0, likely, spreads()["set_bolt_friction"].high)
    return float(set_bolt_grip(0.0, bolts).nominal), float(high.nominal)
