"""Guys as they are cut and hung: where each runs, pin to pin, its ends, clips and tension."""

import math
from dataclasses import dataclass

import numpy as np

from frame.named.part import Part, guy
from frame.rack.guy import RAIL_CORNERS, Guys
from frame.rack.rack import Rack
from frame.shop.ground import Ground
from frame.shop.steel.eyes import Eye, eyes
from frame.tables.reader import rows, si
from frame.tables.wires import CAST_CLIPS, CLIPS
from frame.units import INCH, METRIC, MM

TRIM = 6 * INCH
"""Wire left over to grip and trim at both ends together [m] (judgement)."""
SPACING = 6.0
"""Clips apart, in diameters of the wire (common practice, US Navy rigging manual)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndClips:
    """Clips of one end: how many, `turn_back` of the wire, `apart` [m], `torque` [N m]."""

    count: int
    turn_back: float
    apart: float
    torque: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyLine:
    """One guy from the `eye` of the rack to the eye of its anchor at `anchor` [m].

    `tilt` [rad] it is for, None where it fits all; `cut` length of wire, rounded up to the
    inch or the centimetre [m].
    """

    name: Part
    group: str
    eye: Eye
    anchor: np.ndarray
    tilt: float | None
    cut: float

    @property
    def pins(self) -> float:
        """Length pin to pin [m]."""
        return float(np.linalg.norm(self.anchor - self.eye.point))

    @property
    def rise(self) -> float:
        """Angle of the guy over the level [rad]."""
        return math.asin((self.eye.point[2] - self.anchor[2]) / self.pins)


def clips_of(guys: Guys) -> EndClips | None:
    """Return the clips of one end of a guy; None where it ends otherwise.

    Forged clips, FF-C-450, by the row of the next bigger rope; cast ones one more than that.
    """
    if guys.termination not in CLIPS:
        return None
    table = rows("wire_clips")
    row = next((r for r in table if si(r, "rope_in") >= guys.wire.diameter * 0.999), table[-1])
    count = int(row["clips"]) + (guys.termination == CAST_CLIPS)
    apart = SPACING * guys.wire.diameter
    return EndClips(
        count=count,
        turn_back=max(si(row, "turn_back_in"), count * apart),
        apart=apart,
        torque=si(row, "torque_ft_lb"),
    )


def guy_lines(rack: Rack, bracing: tuple[str, ...], ground: Ground) -> tuple[GuyLine, ...]:
    """Return every guy that is fitted; those from the rails once for every tilt of the file."""
    found = []
    for group in rack.guys_in(bracing):
        tilts = rack.tilts if group.attach == RAIL_CORNERS else rack.tilts[:1]
        for tilt in tilts:
            told = tilt if len(tilts) > 1 else None
            step = 10 * MM if rack.units == METRIC else INCH
            found += [_line(group, eye, ground, told, step) for eye in eyes(rack, group, tilt)]
    return tuple(found)


def _line(group: Guys, eye: Eye, ground: Ground, tilt: float | None, step: float) -> GuyLine:
    anchor = ground.point(eye.foot[0], eye.foot[1], group.rise)
    pins = float(np.linalg.norm(anchor - eye.point))
    clips = clips_of(group)
    turned = 2 * clips.turn_back if clips else 0.0
    return GuyLine(
        name=guy(group.name, eye.edge, eye.side),
        group=group.name,
        eye=eye,
        anchor=anchor,
        tilt=tilt,
        cut=math.ceil((pins + turned + TRIM) / step) * step,
    )
