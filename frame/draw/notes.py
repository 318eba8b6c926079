"""Labels, arrows and dimensions of the drawings, each where its value occurs."""

import numpy as np

from frame.draw.cell import FARTHEST, LABEL, Arrow, Dimension
from frame.draw.labels import Label
from frame.draw.picture import Array
from frame.draw.seen import FRONT, SIDE, SeenElevation
from frame.idealize.posts import beam_mark, lug_height
from frame.named.part import PartKind, Side
from frame.pictured.beside import Loaded, Shown
from frame.pictured.flexing import Flex, flexes
from frame.plan.gone import TOPPLES
from frame.rack.rack import KNEES
from frame.units import MM, show

HARDLY = 1.6 * MM
"""Movement under which a part hardly moves: less than a builder sees, judgement."""
WORTH = 0.05
"""Use under which no part is said to flex [1]."""
SECOND = 0.6
"""Share of the largest use from which a second part is named [1]."""
MOSTLY = 0.5
"""Share of the sway from which the ground is said to give [1]."""
LONG, CLEAR = 0.5, 0.15
"""Length of a wind arrow and its distance from the panels [m]."""


def _node(loaded: Loaded, view: SeenElevation, mark: str) -> tuple[Array, Array]:
    """Place and movement of a mark on the paper [m]."""
    ideal = loaded.block.frame.ideal
    node = ideal.marks[mark]
    place = view.on_paper(np.array(ideal.model.nodes[node].xyz))
    return place, view.on_paper(loaded.moved[node, :3])


def sag_note(
    one: Shown, view: SeenElevation, times: int, system: str
) -> tuple[Label, tuple[Arrow, ...]]:
    """Label and arrow of the droop where it is worst, against the beam at its posts."""
    rack, loaded, where = one.rack, one.weight, one.sag.where
    last = len(rack.posts.positions) - 1
    roots = [0 if where.side is Side.LEFT else last]
    if where.span is not None:
        roots = [where.span - 1, where.span]
    place, moved = _node(loaded, view, where.node_mark)
    level = np.mean([_node(loaded, view, beam_mark(rack, r))[1] for r in roots], axis=0)
    start, end = place + times * level, place + times * moved
    start = np.array([end[0], start[1]])
    value = max(abs(one.sag.dead), abs(one.sag.still_air))
    how = "hardly droops" if value < HARDLY else "droops"
    toward = np.array([np.sign(place[0]) * -0.4, -1.0])
    label = Label(
        text=f"{how}\n{show(value, 'movement', system)}",
        point=end,
        toward=toward,
        name=f"sag {one.title}",
        size=LABEL,
    )
    return label, (Arrow(start=start, end=end),)


def sway_note(one: Shown, view: SeenElevation, times: int, system: str) -> tuple[Label, ...]:
    """Label of what the post top moves level, all ways together."""
    place, moved = _top(one, view)
    value = one.sway.top
    how = "top hardly moves" if value < HARDLY else "top moves"
    side = np.sign(moved[0]) or 1.0
    return (
        Label(
            text=f"{how}\n{show(value, 'movement', system)}",
            point=place + times * moved,
            toward=np.array([side, -0.3]),
            name=f"sway {one.title}",
            size=LABEL,
        ),
    )


def _top(one: Shown, view: SeenElevation) -> tuple[Array, Array]:
    xyz = np.array(one.wind.block.frame.ideal.model.nodes[one.top].xyz)
    return view.on_paper(xyz), view.on_paper(one.wind.moved[one.top, :3])


def arrow_of_top(one: Shown, view: SeenElevation, times: int) -> tuple[Arrow, ...]:
    """Arrow of the post top from still air, as far as it goes across the paper."""
    if one.gone:
        return ()
    place, moved = _top(one, view)
    return (Arrow(start=place, end=place + times * moved),)


def spun_at(one: Shown, view: SeenElevation, times: int) -> Array | None:
    """Return where the swing is drawn: on the post, halfway up; None where nothing swings."""
    if one.gone or one.swing is None or not one.swing.torque:
        return None
    place, moved = _top(one, view)
    share = 0.55 * lug_height(one.rack) / one.rack.posts.height
    return np.array([place[0] + times * share**1.5 * moved[0], share * place[1]])


def in_wind(
    one: Shown, view: SeenElevation, times: int, system: str, spun: Array | None
) -> tuple[Label, ...]:
    """Labels of swing, flexing parts and ground; only why, where it is gone."""
    if one.gone:
        why = "topples\nin this gust" if one.gone == TOPPLES else "something has\nbroken already"
        place, _ = _top(one, view)
        return (
            Label(
                text=why,
                point=place,
                toward=np.array([1.0, -0.5]),
                name=f"gone {one.title}",
                size=LABEL,
            ),
        )
    labels = list(flexing(one, one.wind, view, times))
    if spun is not None and one.swing is not None:
        text = f"swings with\n{show(one.swing.torque, 'torque', system)}"
        point = spun + np.array([2.6 * one.rack.posts.pipe.od, 0.0])
        labels.insert(
            0,
            Label(
                text=text, point=point, toward=np.array([1.0, -0.3]), name=f"swing {one.title}",
                size=LABEL,
            ),
        )  # fmt: skip
    if one.ground is not None and one.ground > MOSTLY:
        posts = one.rack.posts
        side = max(posts.footing.hole, posts.pipe.od) / 2
        foot = np.array([_top(one, view)[0][0] + side, -0.3 * posts.footing.depth])
        labels.append(
            Label(
                text=f"the ground gives:\n{100 * one.ground:.0f} % of the sway",
                point=foot,
                toward=np.array([1.0, -0.2]),
                name=f"ground {one.title}",
                size=LABEL,
            )
        )
    return tuple(labels)


def flexing(one: Shown, loaded: Loaded, view: SeenElevation, times: int) -> tuple[Label, ...]:
    """Say in place which parts flex: the hardest worked of those that are seen, and the next."""
    shown = {s.member: s for s in view.strips}
    found: list[Flex] = []
    for flex in flexes(loaded.block, _seen_only(loaded, set(shown))):
        if flex.use >= WORTH and (not found or flex.use >= SECOND * found[0].use):
            found.append(flex)
    labels = []
    for flex in found[:2]:
        strip = shown[flex.member]
        station = round(flex.along * (len(strip.used) - 1))
        point = strip.at[station] + times * strip.shape[station]
        name = "rails" if flex.part is PartKind.RAIL else flex.part
        place = f"\n{flex.where}" if flex.where else ""
        labels.append(
            Label(
                text=f"flexes here:\nthe {name}{place}",
                point=point,
                toward=np.array([-1.0, -0.6]),
                name=f"flex {one.title}",
                size=LABEL,
                farthest=FARTHEST,
            )
        )
    return tuple(labels)


def _seen_only(loaded: Loaded, members: set[int]) -> Array:
    used = loaded.used.copy()
    used[[i for i in range(len(used)) if i not in members]] = 0.0
    return used


def wind_arrows(one: Shown, view: SeenElevation, speed: float) -> tuple[Arrow, ...]:
    """Three arrows where the wind comes across the paper."""
    ways = {(SIDE, "front"): 1.0, (SIDE, "back"): -1.0, (FRONT, "left"): 1.0, (FRONT, "right"): -1}
    way = ways.get((view.view, one.direction))
    if way is None or not speed:
        return ()
    edge = view.panels[:, 0]
    at = (edge.min() if way > 0 else edge.max()) - way * CLEAR
    low, high = view.panels[:, 1].min(), view.panels[:, 1].max()
    heights = np.linspace(low + 0.1 * (high - low), high - 0.1 * (high - low), 3)
    if np.ptp(heights) < 0.2:
        heights = heights.mean() + np.array([-0.2, 0.0, 0.2])
    return tuple(
        Arrow(start=np.array([at - way * LONG, z]), end=np.array([at, z]), bold=True)
        for z in heights
    )


def sizes(
    one: Shown, view: SeenElevation, system: str, first: Shown | None
) -> tuple[Dimension, ...]:
    """Lengths of the rack from the front; beside another, only what differs from it."""
    rack = one.rack
    left, right, _, top = view.extent(0.0)
    x = rack.posts.positions[0]
    side = left - x
    height, depth, half = rack.posts.height, rack.posts.footing.depth, rack.beam.length / 2
    was = first.rack if first else None
    found = []

    def add(name: str, ends: list[list[float]], off: tuple[float, float], value: float) -> None:
        text = show(value, "length", system)
        points = np.array(ends)
        found.append(
            Dimension(ends=points, off=np.array(off), text=text, name=f"{name} {one.title}")
        )

    if was is None or was.posts.height != height:
        add("height", [[x, 0.0], [x, height]], (1.1 * side, 0.0), height)
    if was is None or was.posts.footing.depth != depth:
        last = rack.posts.positions[-1]
        add("depth", [[last, -depth], [last, 0.0]], (0.45 * (right - last), 0.0), depth)
    if was is None or was.beam.length != rack.beam.length:
        add("beam", [[-half, height], [half, height]], (0.0, 1.12 * (top - height)), 2 * half)
    return tuple(found)


def knee_note(one: Shown, system: str) -> tuple[Label, ...]:
    """Say how far down and out the knees are set."""
    knees, posts = one.rack.knees, one.rack.posts
    if knees is None or KNEES not in one.bracing:
        return ()
    down, out = (show(v, "length", system) for v in (knees.drop, knees.reach))
    point = np.array([posts.positions[-1] + knees.reach / 2, posts.height - knees.drop / 2])
    return (
        Label(
            text=f"knee {down} down,\n{out} out",
            point=point,
            toward=np.array([1.0, -1.0]),
            name=f"knee {one.title}",
            size=LABEL,
            farthest=FARTHEST,
        ),
    )


def guy_reach(one: Shown, view: SeenElevation, system: str) -> tuple[Dimension, ...]:
    """How far out the guys' anchors stand from where they are tied."""
    if not view.wires:
        return ()
    wire = max(view.wires, key=lambda w: float(w.ends[1, 0]))
    (x, _), (anchor, z) = wire.ends
    down = -0.1 * (view.extent(0.0)[1] - view.extent(0.0)[0])
    return (
        Dimension(
            ends=np.array([[x, z], [anchor, z]]),
            off=np.array([0.0, down]),
            text=show(abs(anchor - x), "length", system),
            name=f"out {one.title}",
        ),
    )
