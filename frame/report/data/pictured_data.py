"""The numbers of a picture of racks beside each other, as plain data for JSON: SI values."""

from typing import Any

from frame.pictured.beside import Beside, Loaded, Shown
from frame.pictured.flexing import flexes
from frame.report.data.plan_data import first_of_kinds
from frame.units import DEG


def document(beside: Beside) -> dict[str, Any]:
    """Return the racks shown, by weight and in the gust, and where each flexes."""
    return {
        "schema": 1,
        "rack": beside.rack.name,
        "gust": beside.gust,
        "why": beside.why,
        "racks": [_shown(one) for one in beside.racks],
    }


def _shown(one: Shown) -> dict[str, Any]:
    gone = bool(one.gone)
    return {
        "title": one.title,
        "bracing": list(one.bracing),
        "weight": {
            **_loaded(one.weight),
            "droop": max(abs(one.sag.dead), abs(one.sag.still_air)),
            "limit": one.sag.limit,
            "where": str(one.sag.where),
        },
        "wind": {
            **_loaded(one.wind),
            "words": one.sway.words,
            "gone": one.gone or None,
            "sway": None if gone else one.sway.top,
            "limit": one.sway.limit,
            "torque": one.swing.torque if one.swing and not gone else None,
        },
        "ground_share": one.ground,
        "first_slip": first_of_kinds(one.first_slip),
        "first_break": first_of_kinds(one.first_break),
    }


def _loaded(loaded: Loaded) -> dict[str, Any]:
    model, fitted = loaded.block.frame.ideal.model, loaded.block.fitted
    return {
        "tilt_deg": loaded.block.frame.ideal.tilt / DEG,
        "flexes": [
            {"part": str(f.part), "where": f.where, "used": f.use}
            for f in flexes(loaded.block, loaded.used)
        ],
        "guys": [
            {"name": str(guy.name), "pull": float(pull)}
            for guy, pull, there in zip(model.guys, loaded.pulls, fitted, strict=True)
            if there
        ],
    }
