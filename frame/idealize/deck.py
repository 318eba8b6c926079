"""Rails, ties and panels: what lies across the beam, and how panel loads reach it."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.fem.model import AFTER, BEFORE, Connection
from frame.idealize.draft import CLOSE, Draft, Profile
from frame.named.part import U_BOLT, Edge, tie
from frame.named.part import rail as rail_part
from frame.rack.rack import Rack
from frame.tables.channels import Channel

GLOBAL_AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Slope:
    """Directions of the tilted plane: `up` the slope and `out` of its top face, global axes."""

    tilt: float

    @property
    def up(self) -> np.ndarray:
        """From the low edge to the high edge."""
        return np.array([0.0, math.cos(self.tilt), math.sin(self.tilt)])

    @property
    def out(self) -> np.ndarray:
        """Square to the panels, away from the ground."""
        return np.array([0.0, -math.sin(self.tilt), math.cos(self.tilt)])


@dataclass(frozen=True, slots=True)
class Patch:
    """A piece of panel area that one rail carries at one clamp."""

    node: int
    area: float
    x_side: str
    chord_half: str


def channel_bar(channel: Channel) -> Profile:
    """Return the bar of a channel whose local y is square to the panels."""
    return Profile(
        A=channel.area, Iy=channel.I2, Iz=channel.I1, J=channel.J, weight=channel.weight
    )


def rail_bar(channel: Channel) -> Profile:
    """Return the bar of a rail: the panels clamped to it keep it from twisting by itself.

    Counted as stiff against twist as against bending both ways, G (I1 + I2) (judgement): an open
    channel by itself would buckle sideways where one under panels does not. Nothing twists a rail
    but ties and pulls at its ends.
    """
    return replace(channel_bar(channel), J=channel.I1 + channel.I2)


def clamp_stations(rack: Rack) -> list[float]:
    """Distances from mid-chord up the slope [m] of the clamps: quarter points of each panel."""
    return [
        low + part * (high - low) for low, high in rack.panels.row_edges() for part in (0.25, 0.75)
    ]


def add_rails(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add the rails, each held rigidly to the beam by its U-bolt until that slips."""
    half = rack.rails.length / 2
    named = [(-half, "lower end"), (0.0, "at beam"), (half, "upper end")]
    clamps = [(s, f"clamp {j + 1}") for j, s in enumerate(clamp_stations(rack))]
    for i, x in enumerate(rack.rails.positions):
        rail = rail_part(i + 1)
        centre = np.array([x, 0.0, rack.posts.height]) + rack.stand_off * slope.out
        nodes: list[int] = []
        last = -math.inf
        for s, mark in sorted(named + clamps):
            if s - last < CLOSE:
                draft.marks[f"{rail} {mark}"] = nodes[-1]
            else:
                nodes.append(draft.node(f"{rail} {mark}", tuple(centre + s * slope.up)))
                last = s
        draft.chain(rail, nodes, rail_bar(rack.rails.channel), tuple(slope.out))
        ends = (draft.marks[f"beam at {rail}"], draft.marks[f"{rail} at beam"])
        draft.connections.append(
            Connection(
                name=f"u-bolt, {rail}", part=U_BOLT, ends=ends, axes=GLOBAL_AXES, k=(None,) * 6
            )
        )


def add_ties(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add the tie rails along the lower and upper rail ends."""
    if rack.ties is None:
        return
    fitted = AFTER if rack.ties.fitted == "after" else BEFORE
    bar = channel_bar(rack.ties.channel)
    for where in rack.ties.at:
        ends = [draft.marks[f"rail {i + 1} {where} end"] for i in range(len(rack.rails.positions))]
        draft.chain(tie(Edge(where)), ends, bar, tuple(slope.out), fitted)


def rail_shares(rails: np.ndarray, left: float, right: float) -> np.ndarray:
    """Length [m] of a strip from `left` to `right` that each rail carries, by the lever rule.

    `rails` (n,) sorted positions [m], n >= 2. Linear between neighbouring rails and beyond the
    outer ones, so that force and moment are kept exactly; an overhang may load its far rail
    negatively.
    """
    cuts = np.unique([left, right, *rails[(rails > left) & (rails < right)]])
    shares = np.zeros(len(rails))
    for a, b in itertools.pairwise(cuts):
        middle = (a + b) / 2
        i = int(np.clip(np.searchsorted(rails, middle) - 1, 0, len(rails) - 2))
        part = (middle - rails[i]) / (rails[i + 1] - rails[i])
        shares[i] += (b - a) * (1 - part)
        shares[i + 1] += (b - a) * part
    return shares


def carrying(rails: np.ndarray, left: float, right: float) -> np.ndarray:
    """Positions in `rails` of those under a panel column; the two nearest if fewer than two."""
    under = np.flatnonzero((rails >= left - 1e-6) & (rails <= right + 1e-6))
    if len(under) >= 2:
        return under
    return np.sort(np.argsort(np.abs(rails - (left + right) / 2))[:2])


def patches(
    draft: Draft, rack: Rack, window: tuple[float, float] = (-math.inf, math.inf)
) -> Iterator[Patch]:
    """Every piece of panel area within `window` of x [m], at the clamp that carries it.

    Each half panel's load sits at its own clamp, since the clamps stand at the quarter points of
    the panel's height. Area of the gaps is not counted.
    """
    rails = np.array(rack.rails.positions)
    half_height = rack.panels.height / 2
    for left, right in rack.panels.column_edges():
        used = carrying(rails, left, right)
        for side, low, high in (("left", left, min(right, 0.0)), ("right", max(left, 0.0), right)):
            a, b = max(low, window[0]), min(high, window[1])
            if b - a <= 1e-9:
                continue
            for rail, share in zip(used, rail_shares(rails[used], a, b), strict=True):
                for j, s in enumerate(clamp_stations(rack)):
                    node = draft.marks[f"rail {rail + 1} clamp {j + 1}"]
                    half = "lower" if s < 0 else "upper"
                    yield Patch(node, float(share) * half_height, side, half)
