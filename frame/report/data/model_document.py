"""The finite-element model with its answers as plain data, and as a short page.

SI units throughout (m, N, N m, Pa, rad). Positions in the lists are the indices used in "ends",
"node" and "member". Everything in a case is a total, first order.
"""

import math
from typing import Any

import numpy as np

from frame.fem.model import Connection, Guy, Member, Support, UnitLoad
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT
from frame.idealize.state import MIDDLE
from frame.rack.rack import bracing_title
from frame.solved.model_case import ModelCase
from frame.units import show

SCHEMA = 1
STATE = {"soil": MIDDLE, "wall": "design", "friction": None, "pretension": MIDDLE, "guys": MIDDLE}
"""`wall` "design": the design wall less rust. Friction stiffens nothing: the sleeve holds."""


def document(case: ModelCase) -> dict[str, Any]:
    """Everything another frame program needs to rebuild the model and compare its answers."""
    ideal, model = case.frame.ideal, case.model
    return {
        "schema": SCHEMA,
        "rack": ideal.rack.name,
        "bracing": bracing_title(ideal.bracing),
        "tilt_deg": math.degrees(ideal.tilt),
        "gust": case.gust,
        "velocity_pressure": case.frame.pressure(case.gust),
        "state": STATE,
        "nodes": [{"name": n.name, "xyz": list(n.xyz)} for n in model.nodes],
        "members": [_member(m) for m in model.members],
        "connections": [_connection(c) for c in model.connections],
        "supports": [_support(s) for s in model.supports],
        "guys": [_guy(g) for g in model.guys],
        "unit_loads": [_unit_load(load) for load in model.unit_loads],
        "cases": _cases(case),
    }


def _member(member: Member) -> dict[str, Any]:
    return {
        "name": member.name,
        "part": member.part,
        "ends": list(member.ends),
        "fitted": member.fitted,
        **{key: float(getattr(member, key)) for key in ("A", "Iy", "Iz", "J", "E", "G")},
        "y_axis": _floats(member.y_axis),
        "setback": [_floats(arm) for arm in member.setback],
        "free": [list(end) for end in member.free],
    }


def _connection(connection: Connection) -> dict[str, Any]:
    return {
        "name": connection.name,
        "ends": list(connection.ends),
        "fitted": connection.fitted,
        "axes": [_floats(axis) for axis in connection.axes],
        "k": [None if k is None else float(k) for k in connection.k],
    }


def _support(support: Support) -> dict[str, Any]:
    return {
        "node": support.node,
        "fitted": support.fitted,
        "fixed": list(support.fixed),
        "k": _floats(support.k),
    }


def _guy(guy: Guy) -> dict[str, Any]:
    return {
        "name": guy.name,
        "node": guy.node,
        "setback": _floats(guy.setback),
        "anchor": _floats(guy.anchor),
        "EA": float(guy.EA),
        "pretension": float(guy.pretension),
    }


def _unit_load(load: UnitLoad) -> dict[str, Any]:
    return {
        "name": load.name,
        "acts": load.acts,
        "nodes": [[node, _floats(force)] for node, force in load.nodes],
        "members": [[member, _floats(w)] for member, w in load.members],
    }


def _cases(case: ModelCase) -> list[dict[str, Any]]:
    model, answer = case.model, case.answer
    names = [load.name for load in model.unit_loads]
    nodes = [support.node for support in model.supports]
    arrays = {
        "displacements": answer.displacements,
        "member_forces": answer.member_forces,
        "connection_forces": answer.connection_forces,
        "guy_tensions": answer.tensions,
    }
    return [
        {
            "name": label,
            "words": case.words[i],
            "gust": case.gust if case.gusty[i] else None,
            "factors": {n: float(f) for n, f in zip(names, answer.factors[i], strict=True) if f},
            **{key: values[i].tolist() for key, values in arrays.items()},
            "reactions": [
                [node, six.tolist()] for node, six in zip(nodes, answer.reactions[i], strict=True)
            ],
        }
        for i, label in enumerate(case.labels)
    ]


def _floats(values: tuple[float, ...]) -> list[float]:
    return [float(value) for value in values]


def page(case: ModelCase, system: str) -> str:
    """Put what the model holds in a few lines; `system` "us" or "metric"."""
    ideal, model, answer = case.frame.ideal, case.model, case.answer
    index = model.load_index
    steel, panels = (
        show(float(case.frame.response.reactions[index[name], :, 2].sum()), "weight", system)
        for name in (STEEL_WEIGHT, PANEL_WEIGHT)
    )
    far = np.linalg.norm(answer.displacements[:, :, :3], axis=2)
    worst, node = np.unravel_index(int(far.argmax()), far.shape)
    first = model.members[0]
    first_end, second_end = (model.nodes[n].name for n in first.ends)
    counts = {
        "nodes": len(model.nodes),
        "members": len(model.members),
        "connections": len(model.connections),
        "supports": len(model.supports),
        "guys": len(model.guys),
        "unit loads": len(model.unit_loads),
        "load cases": len(case.labels),
    }
    title = (
        f"{ideal.rack.name}, {bracing_title(ideal.bracing)}, "
        f"tilt {show(ideal.tilt, 'angle', system)}, gust {show(case.gust, 'speed', system)}"
    )
    lines = [
        title,
        "Middle of every band: soil, wire, anchors, pretension; design wall of the pipes.",
        "",
        *(f"  {count:>5}  {what}" for what, count in counts.items()),
        "",
        f"  weight: steel {steel}, panels {panels}",
        f"  first member: {first.name}, from {first_end} to {second_end}",
        f"  moves most: {model.nodes[node].name}, {show(float(far.max()), 'movement', system)}",
        f"    in {case.labels[worst]}",
        "",
        "Add --json for all of it: nodes, members, springs, loads, and every case's movements,",
        "forces and reactions, in SI units, to rebuild it in another frame program.",
    ]
    return "\n".join([*lines, *(f"Note: {warning}" for warning in ideal.rack.warnings)])
