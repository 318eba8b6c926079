"""Drag of pipes, rails and panel edges in the wind, bare or grown by ice."""

import numpy as np

from frame.fem.model import AFTER
from frame.idealize.deck import patches
from frame.idealize.draft import Draft
from frame.loads.cases import ACROSS, ALONG
from frame.loads.wind import FLAT_EDGE_DRAG, PIPE_DRAG
from frame.named.part import PartKind
from frame.rack.rack import Rack


def add_drag(draft: Draft, rack: Rack) -> None:
    """Add 1 Pa of velocity pressure, without Kd and G, on what stands in the wind.

    "Drag across" acts along +y, "drag along" along +x; pipes below grade take none. Rails and
    the panels' edges are sheltered by the panels in wind across: the low edge counts in the net
    coefficients, which come from tests on whole roofs. In wind along the beam each rail and each
    column of panels takes its full depth (no shielding, 27.1.4): more than the edges behind the
    first can feel, and so enough for the wind that rubs along the faces too (judgement). Bare guys
    are left out: 9 ft of 1/4 in wire take under 4 lb in a gust of 100 mph, half of it at the rack.
    """
    _pipes(draft, rack, (ACROSS, ALONG), 0.0)
    _edges(draft, rack, ALONG, 0.0)


def add_iced_drag(draft: Draft, rack: Rack, names: tuple[str, str], thickness: float) -> None:
    """Add the same across and along as loads of these `names`, all `thickness` [m] of ice thicker.

    With the iced guys, half of each at its node; the panels' faces do not grow (judgement: by no
    more than a part in a hundred). ASCE/SEI 7-22 10.5, with the drag factors of bare pipes.
    """
    _pipes(draft, rack, names, 2 * thickness)
    _edges(draft, rack, names[1], 2 * thickness)
    loads = [draft.load(name, AFTER) for name in names]
    wire = {g.name: g.wire.diameter for g in rack.guys}
    for guy in draft.guys:
        line = np.subtract(guy.anchor, draft.xyz(guy.node))
        length = float(np.linalg.norm(line))
        width = wire[guy.name.group] + 2 * thickness
        for load, axis in zip(loads, (1, 0), strict=True):
            facing = width * length * _square_to(line / length, axis)
            load.add_force(guy.node, PIPE_DRAG * facing / 2 * np.eye(3)[axis])


def _pipes(draft: Draft, rack: Rack, names: tuple[str, str], grown: float) -> None:
    across, along = (draft.load(name, AFTER) for name in names)
    widths = {PartKind.POST: rack.posts.pipe.od, PartKind.BEAM: rack.beam.pipe.od}
    if rack.knees:
        widths[PartKind.KNEE] = rack.knees.pipe.od
    if rack.stays:
        widths[PartKind.STAY] = rack.stays.pipe.od
    for i, member in enumerate(draft.members):
        ends = [draft.xyz(n) for n in member.ends]
        if max(e[2] for e in ends) <= 0:
            continue
        line = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
        kind = member.part.kind
        if kind in widths:
            force = PIPE_DRAG * (widths[kind] + grown)
            across.members[i] += (0.0, force * _square_to(line, 1), 0.0)
            along.members[i] += (force * _square_to(line, 0), 0.0, 0.0)
        elif kind is PartKind.RAIL:
            depth = rack.rails.channel.depth + grown
            along.members[i] += (FLAT_EDGE_DRAG * depth, 0.0, 0.0)


def _edges(draft: Draft, rack: Rack, name: str, grown: float) -> None:
    """Add the edges of every column of panels, shared by its rails as its weight is.

    At the rails' centre lines: the small couple from the panels' height above them goes from rail
    to rail through the clamps.
    """
    along = draft.load(name, AFTER)
    per_area = FLAT_EDGE_DRAG * (rack.panels.thickness + grown) / rack.panels.width
    for patch in patches(draft, rack):
        along.add_force(patch.node, np.array([per_area * patch.area, 0.0, 0.0]))


def _square_to(line: np.ndarray, axis: int) -> float:
    """Part of a pipe's length that faces wind along a global axis [1]."""
    return float(np.sqrt(max(0.0, 1 - line[axis] ** 2)))
