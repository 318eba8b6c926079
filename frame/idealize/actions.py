"""Unit loads: weights and wind put onto the nodes and members of a rack's frame."""

import math

import numpy as np

from frame.fem.model import AFTER, BEFORE, Member
from frame.idealize.deck import Slope, patches
from frame.idealize.draft import Draft
from frame.idealize.posts import beam_mark
from frame.named.part import PartKind
from frame.rack.rack import Rack

STEEL_WEIGHT, PANEL_WEIGHT = "steel weight", "panel weight"
PUSHES = ("push along", "push across")
"""1 N level on the beam, shared by the posts, along x and along y."""
SLEEVE_WEIGHT = 1.4
"""Weight of the sleeve per length over that of the post's pipe (judgement: next size, thicker)."""
DOWN = np.array([0.0, 0.0, -1.0])


def wind_height(rack: Rack, slope: Slope) -> float:
    """Mean height of the panels above grade [m]."""
    return rack.posts.height + float(slope.out[2]) * rack.stand_off


def strip_windows(rack: Rack, height: float) -> dict[str, tuple[float, float]]:
    """Windows of x [m] for wind along the beam: up to one, two and more heights from its edge."""
    half = rack.panels.spread / 2
    found = {}
    for sign, edge in ((1, "left"), (-1, "right")):
        for i in range(3):
            near = i * height
            far = (i + 1) * height if i < 2 else math.inf
            if near >= 2 * half:
                break
            window = sorted((sign * (near - half), sign * (min(far, 2 * half) - half)))
            found[f"strip {i + 1} from {edge}"] = (window[0], window[1])
    return found


def add_weights(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add the weight of the steel and of the panels.

    Steel fitted after the panels hangs on the nodes of the frame that stood before it, half at
    each end. Panels hang at their clamps, half a rail's depth above its centre line.
    """
    steel = draft.load(STEEL_WEIGHT, BEFORE)
    standing = {n for m in draft.members if m.fitted == BEFORE for n in m.ends}
    for i, (member, weight) in enumerate(zip(draft.members, draft.weights, strict=True)):
        full, flexible = _lengths(draft, member)
        if member.fitted == BEFORE:
            steel.members[i] += weight * DOWN
            inside = [np.linalg.norm(s) for s in member.setback]
            for node, length in zip(member.ends, inside, strict=True):
                if length:
                    steel.add_force(node, weight * length * DOWN)
            assert math.isclose(full, flexible + sum(inside), rel_tol=1e-9)
        else:
            for node in member.ends:
                if node in standing:
                    steel.add_force(node, weight * full / 2 * DOWN)
    for connection in draft.connections:
        if connection.part and connection.part.kind is PartKind.SLEEVE:
            weight = SLEEVE_WEIGHT * rack.posts.pipe.weight * rack.sleeve.length
            steel.add_force(connection.ends[1], weight * DOWN)
    panels = draft.load(PANEL_WEIGHT, BEFORE)
    per_area = rack.panels.weight / (rack.panels.width * rack.panels.height)
    arm = slope.out * rack.rails.channel.depth / 2
    for patch in patches(draft, rack):
        panels.add_force(patch.node, patch.area * per_area * DOWN, arm)


def add_wind(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add 1 Pa pressing on each quarter and strip of the panels."""
    for half in ("lower", "upper"):
        for side in ("left", "right"):
            draft.load(f"panels, {half} {side}", AFTER)
    for patch in patches(draft, rack):
        load = draft.load(f"panels, {patch.chord_half} {patch.x_side}", AFTER)
        load.add_force(patch.node, -patch.area * slope.out)
    for name, window in strip_windows(rack, wind_height(rack, slope)).items():
        load = draft.load(name, AFTER)
        for patch in patches(draft, rack, window):
            load.add_force(patch.node, -patch.area * slope.out)


def add_pushes(draft: Draft, rack: Rack) -> None:
    """Add a level push on the beam each way, for leaning racks and for how stiff they stand."""
    posts = len(rack.posts.positions)
    for name, way in zip(PUSHES, np.eye(3)[:2], strict=True):
        load = draft.load(name, AFTER)
        for i in range(posts):
            load.add_force(draft.marks[beam_mark(rack, i)], way / posts)


def _lengths(draft: Draft, member: Member) -> tuple[float, float]:
    """Length between the nodes and between the set-back ends [m]."""
    first, second = (draft.xyz(n) for n in member.ends)
    full = second - first
    flexible = full + np.array(member.setback[1]) - np.array(member.setback[0])
    return float(np.linalg.norm(full)), float(np.linalg.norm(flexible))
