"""What the view that a reader turns by hand is drawn from: a few numbers for every rack in it.

The keys are those that the scripts in `frame/page/view` read. All in SI units and global axes.
"""

import json
from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np

from frame.bracing.movement import worst_sag
from frame.draw.cell import LEAST_USED, SWELL
from frame.draw.notes import CLEAR, HARDLY, LONG, WORTH
from frame.draw.panes import MOST_TIMES, SHARE
from frame.draw.view import panel_corners, panel_nodes
from frame.idealize.build import Idealized
from frame.idealize.posts import beam_mark, post_name
from frame.idealize.state import HIGH
from frame.page.packed import packed, rounded_lists
from frame.pictured.choices import ViewChoice
from frame.pictured.flexing import STATIONS, seen_width, where_on
from frame.pictured.responses import Bare, Columns, Held, worked
from frame.plan.phrases import gust, happens
from frame.records.going import Going
from frame.solved.alpha import MEDIAN_ALPHA
from frame.units import show
from frame.units.show import KINDS, US

NAMED = ("movement", "force", "torque", "speed")
"""Kinds of quantity that the view writes."""
GUYS = {True: "stiff and tight", False: "giving and slack"}
"""Ends of the guys' band in words, by whether they are tight."""


def view_data(
    some: Iterable[ViewChoice], gust: float, tilt: float, system: str, room: int
) -> dict[str, Any]:
    """Return everything the view needs of the racks that find `room` [letters]; of two, always.

    It begins with the first of them, in a `gust` [m/s] at a `tilt` [rad] of its own; `left_out`
    says whether others found none.
    """
    most, begun = 0.0, 0
    bares: list[dict[str, Any]] = []
    known: dict[int, int] = {}
    racks: list[dict[str, Any]] = []
    taken, left_out = 0, False
    for choice in some:
        new = [h.bare for h in choice.held if id(h.bare) not in known]
        made = [_bare(bare) for bare in new]
        rack = _rack(choice, system)
        taken += len(json.dumps([made, rack]))
        if taken > room and len(racks) > 1:
            left_out = True
            break
        if not racks:
            most, begun = choice.rack.site.map_gust, choice.rack.tilts.index(tilt)
        for bare, one in zip(new, made, strict=True):
            known[id(bare)] = len(bares)
            bares.append(one)
        for one, held in zip(rack["tilts"], choice.held, strict=True):
            one["bare"] = known[id(held.bare)]
        racks.append(rack)
    return {
        "units": {kind: _units(kind, system) for kind in NAMED},
        "gust": {"most": max(most, gust), "start": gust},
        "tilt": begun,
        "times": MOST_TIMES,
        "share": SHARE,
        "hardly": HARDLY,
        "swell": SWELL,
        "least_used": LEAST_USED,
        "worth": WORTH,
        "stations": STATIONS,
        "arrow": [CLEAR, LONG],
        "alpha": MEDIAN_ALPHA,
        "left_out": left_out,
        "racks": racks,
        "bares": bares,
    }


def _rack(choice: ViewChoice, system: str) -> dict[str, Any]:
    rack = choice.rack
    footing = rack.posts.footing
    concrete = [footing.hole, footing.depth] if footing.cast else None
    return {
        "title": choice.title,
        "height": rack.posts.height,
        "limit": rack.limits.sway_per_height * rack.posts.height,
        "droop_limit": choice.sag.limit,
        "slip": _going(choice.first_slip, system),
        "breaks": _going(choice.first_break, system),
        "concrete": concrete,
        "tilts": [_held(held, system) for held in choice.held],
    }


def _going(going: Going | None, system: str) -> dict[str, Any] | None:
    if going is None:
        return None
    about = f"about {gust(going.gust, system)}"
    return {"gust": going.gust, "about": about, "what": happens(going.part, going.check)}


def _held(held: Held, system: str) -> dict[str, Any]:
    upper = np.triu_indices(held.geometric.shape[1])
    across = np.triu_indices(len(held.taken))
    return {
        "words": show(held.bare.frame.ideal.tilt, "angle", system),
        "guys": held.guy_places,
        "ends": [_end(held, i) for i in range(len(held.blocks))],
        "stretch": rounded_lists(held.stretch),
        "lines": rounded_lists(held.lines),
        "toppling": held.topples_at,
        "geometric": packed(held.geometric[:, *upper]),
        "pushes": packed(held.pushes[*across]),
        "told": rounded_lists(held.told),
        "mixed": rounded_lists(held.mixed, 5),
        "drawn": _fields(held.drawn),
    }


def _end(held: Held, i: int) -> dict[str, Any]:
    block = held.blocks[i]
    give, slackness, pull = held.give(block)
    sag = worst_sag([block])
    return {
        "droop": max(abs(sag.dead), abs(sag.still_air)),
        "droop_node": block.frame.ideal.marks[sag.where.node_mark],
        "words": GUYS[block.state.pretension == HIGH],
        "give": rounded_lists(give),
        "slackness": rounded_lists(slackness),
        "pull": rounded_lists(pull),
    }


def _fields(columns: Columns) -> dict[str, Any]:
    """Pack movements, turns and forces apart, for they are of different size."""
    moved, forces = columns.moved, columns.forces
    return {
        "moves": packed(moved[:, :, :3]),
        "turns": packed(moved[:, :, 3:]),
        "axial": packed(forces[..., 0]),
        "bending": packed(forces[..., 1:]),
    }


def _bare(bare: Bare) -> dict[str, Any]:
    frame, ideal = bare.frame, bare.frame.ideal
    model, posts = ideal.model, range(len(frame.rack.posts.positions))
    return {
        **_steel(bare),
        "nodes": _places([n.xyz for n in model.nodes]),
        "tops": [ideal.marks[f"{post_name(frame.rack, i)} top"] for i in posts],
        "beams": [ideal.marks[beam_mark(frame.rack, i)] for i in posts],
        "panels": {
            "corners": _places(panel_corners(ideal)),
            "nodes": panel_nodes(ideal),
        },
        "pressure": float(f"{bare.pressure:.12g}"),
        "winds": [
            {"words": w.words, "from": w.direction, "factors": rounded_lists(row)}
            for w, row in zip(bare.winds, bare.per_pressure, strict=True)
        ],
        "columns": _fields(bare.columns),
        "told": rounded_lists(bare.columns.told),
    }


def _steel(bare: Bare) -> dict[str, Any]:
    ideal, rack = bare.frame.ideal, bare.frame.rack
    nodes = np.array([n.xyz for n in ideal.model.nodes])
    members = ideal.model.members
    hard = worked(bare.frame, members)
    where = [list(_where(ideal, i)) for i in range(len(members))]
    places = list(dict.fromkeys(words for each in where for words in each))
    return {
        "places": places,
        "members": [
            {
                "part": m.part,
                "kind": m.part.kind,
                "ends": m.ends,
                "arms": _places(m.setback),
                "free": [bool(m.free[0]), bool(m.free[1])],
                "width": seen_width(rack, m.part.kind),
                "works": rounded_lists(hard[i], 5),
                "round": bool(np.isclose(hard[i, 1], hard[i, 2])),
                "where": [places.index(words) for words in where[i]],
            }
            for i, m in enumerate(members)
        ],
        "connections": [
            c.ends for c in ideal.model.connections if np.any(nodes[c.ends[0]] != nodes[c.ends[1]])
        ],
        "guys": [
            {
                "name": g.name,
                "node": g.node,
                "arm": _places([g.setback])[0],
                "anchor": _places([g.anchor])[0],
            }
            for g in ideal.model.guys
        ],
    }


def _where(ideal: Idealized, member: int) -> Iterator[str]:
    """Say where on its part every station of a member is."""
    for i in range(STATIONS):
        yield where_on(ideal, ideal.model.members[member], i / (STATIONS - 1))


def _places(points: Any) -> list[list[float]]:
    """Return points (n, 3) to a hundredth of a millimetre."""
    found: list[list[float]] = np.round(np.array(points, dtype=float), 5).tolist()
    return found


def _units(kind: str, system: str) -> dict[str, Any]:
    """Return how a kind of quantity is written: the usual unit, and that of what is small."""
    found = KINDS[kind]
    us = system == US
    usual, small = (found.us, found.us_small) if us else (found.metric, found.metric_small)
    return {
        "usual": [usual.label, usual.factor, usual.decimals],
        "small": [small.label, small.factor, small.decimals] if small else None,
        "below": found.us_below if us else found.metric_below,
    }


def as_script(data: dict[str, Any]) -> str:
    """Return data as JSON that no markup in it can end the script element of."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
