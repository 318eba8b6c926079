"""A rack that really stands, made by another program: PyNite (PyniteFEA), an open-source library.

It is cut up more finely than the program's own frame (24 pieces of post in the ground, not 8; the
beam in pieces of its own), the weight grows its sway by PyNite's P-delta, and its pace is PyNite's
modal analysis. What is read off it carries the noise of a tape (1/8 in.) and a scale (20 %).
"""

import itertools
import math
from dataclasses import dataclass, field, replace

import numpy as np
from Pynite import FEModel3D

from frame.rack.measured import Measured, Reading
from frame.rack.rack import Rack
from frame.tables.readings import reading_kinds, tools

INCH, LB, DEG = 0.0254, 4.4482216152605, math.pi / 180  # NIST SP 811, appendix B
E, G, WEIGHT = 199.948e9, 77.22e9, 76973.0
"""29 000 ksi, 11 200 ksi and 490 lb/ft3, AISC Manual."""
STIFF = 0.02
SHORT = 0.004
BELOW = 24
NOISE, SCALE = INCH / 8, 0.2
PULL, PUSH, PRESS = 100 * LB, 30 * LB, 40 * LB


@dataclass(frozen=True)
class Truth:
    """What the rack is really like: factors over what its file leads one to expect, SI else."""

    ground: float = 1.0
    beam_wall: float = 0.97
    post_wall: float = 0.97
    sleeve: float = 1.0
    play: float = 0.0
    rest: float = 0.0
    rest_unloaded: float = 0.0
    bow_left: float = 0.0
    bow_right: float = 0.0
    lean_along: float = 0.0
    lean_across: float = 0.0
    turn: float = 0.0


@dataclass
class Twin:
    """One rack on one post, without bracing, with its truth."""

    rack: Rack
    truth: Truth
    tilt: float
    exact: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.exact = self._readings()

    def model(self, *, lumped: bool = False) -> FEModel3D:
        rack, truth, m = self.rack, self.truth, FEModel3D()
        m.add_material("steel", E, G, 0.3, 0.0)
        post, beam = rack.posts.pipe, rack.beam.pipe
        _section(m, "post", post.od, post.wall * truth.post_wall)
        _section(m, "beam", beam.od, beam.wall * truth.beam_wall)
        channel = rack.rails.channel
        m.add_section("rail", channel.area, channel.I2, channel.I1, channel.I1 + channel.I2)
        m.add_section("arm", STIFF, STIFF, STIFF, STIFF)
        k = _sleeve(rack) * truth.sleeve
        m.add_section("sleeve", STIFF, k * SHORT / E, k * SHORT / E, STIFF)
        _post(m, rack, truth)
        _beam(m, rack)
        _rails(m, rack, self.tilt)
        _weights(m, rack, truth, lumped=lumped)
        m.add_node_load("top", "FY", PULL, case="pull")
        m.add_node_load(_end(rack, 1), "FY", PUSH, case="push")
        m.add_node_load(_end(rack, 0), "FZ", -PRESS, case="press")
        for name in ("steel", "all", "pull", "push", "press"):
            cases = {"steel": 1.0} if name == "steel" else {"steel": 1.0, "panels": 1.0}
            m.add_load_combo(name, {**cases, **({name: 1.0} if name in TESTS else {})})
        return m

    def _readings(self) -> dict[str, float]:
        m, rack, truth = self.model(), self.rack, self.truth
        m.analyze_PDelta(check_stability=False)

        def at(node: str, freedom: str, case: str) -> float:
            return float(getattr(m.nodes[node], freedom)[case])

        slop = truth.play / rack.sleeve.length
        found: dict[str, float] = {}
        for side, sign in ((0, 1.0), (1, -1.0)):
            name, arm = ("left", "right")[side], rack.arms[side]
            bow = (truth.bow_left, truth.bow_right)[side]
            for key, case, rest in (
                ("droop", "all", truth.rest),
                ("unloaded", "steel", truth.rest_unloaded),
            ):
                elastic = at("root", "DZ", case) - at(_end(rack, side), "DZ", case)
                tilted = sign * arm * (rest + truth.lean_along)
                found[f"{key}_{name}"] = elastic + tilted + bow
            found[f"lift_{name}"] = arm * (slop + sign * truth.rest)
        found["top_moved"] = at("top", "DY", "pull") - at("top", "DY", "all")
        back = at(_end(rack, 1), "DY", "push") - at(_end(rack, 1), "DY", "all")
        found["end_stayed"] = rack.arms[1] * truth.turn
        found["end_moved"] = back + found["end_stayed"]
        found["level"] = -at("root", "RY", "all") + truth.lean_along + truth.rest
        found["level_pressed"] = -at("root", "RY", "press") + truth.lean_along + slop
        height = rack.posts.height
        found["lean_along"] = height * truth.lean_along - at("top", "DX", "all")
        found["lean_across"] = height * truth.lean_across - at("top", "DY", "all")
        found["shakes"] = self._pace()
        found["beam_wall"] = rack.beam.pipe.wall * truth.beam_wall
        found["post_wall"] = rack.posts.pipe.wall * truth.post_wall
        found["play"] = truth.play
        return found

    def _pace(self) -> float:
        """Pace of the mode that most of the mass follows across the beam."""
        m = self.model(lumped=True)
        m.analyze_modal(6, "all", "Z", 9.80665, check_stability=False)
        share = []
        for i in range(6):
            moved = np.array([float(n.DY[f"Mode {i + 1}"]) for n in m.nodes.values()])
            weight = np.array([_weight(n) for n in m.nodes.values()])
            other = [
                np.array([float(getattr(n, f)[f"Mode {i + 1}"]) for n in m.nodes.values()])
                for f in ("DX", "DZ")
            ]
            size = float(weight @ (moved**2 + other[0] ** 2 + other[1] ** 2))
            share.append(float(weight @ moved) ** 2 / size)
        return float(m.frequencies[int(np.argmax(share))])

    def read(self, rng: np.random.Generator, keys: tuple[str, ...] = ()) -> Measured:
        """Read it off with noise, every reading or some, as the program is told it."""
        told = []
        for key in keys or tuple(self.exact):
            kind = reading_kinds()[key]
            by_eye = kind.tool in ("tape", "string line", "plumb line")
            within = NOISE if by_eye else tools()[kind.tool].within
            value = self.exact[key]
            if kind.needs and key not in ("end_stayed", "level_pressed"):
                stays = self.exact["end_stayed"] if key == "end_moved" else 0.0
                value = (value - stays) * math.exp(SCALE * rng.standard_normal()) + stays
            value += within * rng.standard_normal()
            told.append(Reading(key=key, value=value, within=within, tool=kind.tool))
        return replace(self.conditions(self.rack), readings=tuple(told))

    @staticmethod
    def conditions(rack: Rack) -> Measured:
        """Return how a rack is read: bare, in the first of its tilts, across the beam."""
        return Measured(
            readings=(),
            fitted=(),
            tilt=rack.tilts[0],
            pull=PULL,
            pull_height=rack.posts.height,
            pull_way="across",
            push=PUSH,
            press=PRESS,
            scale_within=SCALE,
            lean_height=rack.posts.height,
            shakes_way="across",
        )


TESTS = ("pull", "push", "press")


def _section(m: FEModel3D, name: str, od: float, wall: float) -> None:
    bore = od - 2 * wall
    inertia = math.pi / 64 * (od**4 - bore**4)
    m.add_section(name, math.pi / 4 * (od**2 - bore**2), inertia, inertia, 2 * inertia)


def _sleeve(rack: Rack) -> float:
    """Two bearings a sleeve's length apart, each giving 40 / (E D): k = s^2 E D / 160."""
    return rack.sleeve.length**2 * E * rack.posts.pipe.od / 160


def _post(m: FEModel3D, rack: Rack, truth: Truth) -> None:
    footing, soil, height = rack.posts.footing, rack.site.soil, rack.posts.height
    rate = math.sqrt(soil.stiffness_soft * soil.stiffness_stiff) * truth.ground
    wide = footing.hole if footing.backfill == "concrete" else rack.posts.pipe.od
    step = footing.depth / BELOW
    before = ""
    for i in range(BELOW + 1):
        depth = footing.depth - i * step
        name = f"below {i}" if i < BELOW else "grade"
        m.add_node(name, 0.0, 0.0, -depth)
        low, high = min(depth + step / 2, footing.depth), max(depth - step / 2, 0.0)
        counted = max(0.0, low - max(high, footing.ignored))
        lateral = rate * ((low + max(high, footing.ignored)) / 2 if soil.law == "linear" else 1.0)
        if counted:
            shear = lateral / 2.7
            m.def_support_spring(name, "DX", lateral * counted)
            m.def_support_spring(name, "DY", lateral * counted)
            m.def_support_spring(name, "RZ", 4 * math.pi * shear * (wide / 2) ** 2 * counted)
        if i == 0:
            deep = rate * (footing.depth if soil.law == "linear" else 1.0)
            m.def_support_spring(name, "DZ", 4 * deep / 2.7 * wide / 2 / 0.65)
        if before:
            m.add_member(f"post {i}", before, name, "steel", "post")
        before = name
    for i in range(1, 7):
        name = "top" if i == 6 else f"above {i}"
        m.add_node(name, 0.0, 0.0, height * i / 6)
        m.add_member(f"shaft {i}", before, name, "steel", "post")
        before = name


def _stations(rack: Rack) -> list[float]:
    half = rack.beam.length / 2
    places = {-half, half, 0.0, *rack.rails.positions}
    return sorted(places)


def _name(x: float) -> str:
    return "root" if abs(x) < 1e-9 else f"beam {x:.4f}"


def _end(rack: Rack, side: int) -> str:
    return _name((-1, 1)[side] * rack.beam.length / 2)


def _beam(m: FEModel3D, rack: Rack) -> None:
    height, places = rack.posts.height, _stations(rack)
    for x in places:
        m.add_node(_name(x), x, 0.0, height + SHORT)
    for a, b in itertools.pairwise(places):
        m.add_member(f"beam {a:.4f} {b:.4f}", _name(a), _name(b), "steel", "beam")
    m.add_member("sleeve", "top", "root", "steel", "sleeve")


def _clamps(rack: Rack) -> list[float]:
    return [a + p * (b - a) for a, b in rack.panels.row_edges() for p in (0.25, 0.75)]


def _rails(m: FEModel3D, rack: Rack, tilt: float) -> None:
    up = np.array([0.0, math.cos(tilt), math.sin(tilt)])
    out = np.array([0.0, -math.sin(tilt), math.cos(tilt)])
    off = rack.beam.pipe.od / 2 + rack.rails.channel.depth / 2
    for i, x in enumerate(rack.rails.positions):
        centre = np.array([x, 0.0, rack.posts.height + SHORT]) + off * out
        places = sorted({0.0, *_clamps(rack)})
        for s in places:
            m.add_node(_clamp(i, s), *(centre + s * up))
        m.add_member(f"arm {i}", _name(x), _clamp(i, 0.0), "steel", "arm")
        for a, b in itertools.pairwise(places):
            m.add_member(f"rail {i} {a:.4f}", _clamp(i, a), _clamp(i, b), "steel", "rail")


def _clamp(rail: int, s: float) -> str:
    return f"rail {rail} at {s:.4f}"


def _weights(m: FEModel3D, rack: Rack, truth: Truth, *, lumped: bool) -> None:
    """Panels shared by the two rails under each column, half of each half at its clamp."""
    post, beam, panels = rack.posts.pipe, rack.beam.pipe, rack.panels
    thin = beam.wall * truth.beam_wall
    per_length = beam.weight * thin * (beam.od - thin) / (beam.wall * (beam.od - beam.wall))
    for name in list(m.members):
        if not name.startswith(("beam", "shaft")):
            continue
        heavy = per_length if name.startswith("beam") else post.weight
        member = m.members[name]
        for node in (member.i_node, member.j_node) if lumped else ():
            m.add_node_load(node.name, "FZ", -heavy * member.L() / 2, case="steel")
        if not lumped:
            m.add_member_dist_load(name, "FZ", -heavy, -heavy, case="steel")
    m.add_node_load("root", "FZ", -1.4 * post.weight * rack.sleeve.length, case="steel")
    per_rail = rack.rails.channel.weight * rack.rails.length
    for i, x in enumerate(rack.rails.positions):
        column = min(
            range(panels.across), key=lambda c, x=x: abs(sum(panels.column_edges()[c]) / 2 - x)
        )
        sharing = sum(
            1
            for y in rack.rails.positions
            if abs(sum(panels.column_edges()[column]) / 2 - y) <= panels.width / 2
        )
        for s in _clamps(rack):
            m.add_node_load(_clamp(i, s), "FZ", -panels.weight / 2 / sharing, case="panels")
            m.add_node_load(_clamp(i, s), "FZ", -per_rail / len(_clamps(rack)), case="steel")


def _weight(node: object) -> float:
    return -sum(
        load[1] for load in node.NodeLoads if load[0] == "FZ" and load[2] in ("steel", "panels")
    )  # type: ignore[attr-defined]
