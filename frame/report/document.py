"""A study as plain data for JSON: SI values under stable keys, null for what is not known."""

import math
from typing import Any

import numpy as np

from frame.plan.decision import Decision
from frame.plan.exhaustive import Exhausted
from frame.plan.gone import gone
from frame.rack.rack import Rack, bracing_title
from frame.records.going import Going
from frame.records.results import BracingResult, GuyForce, Row, Study
from frame.report.built import built_data
from frame.report.cautioned import warnings
from frame.report.exhausted import exhausted_data
from frame.report.plan_data import first, plan_data
from frame.units import DEG

SCHEMA = 1
METHOD = "ASD"
Data = dict[str, Any]


def document(
    study: Study, plan: Decision | None = None, exhausted: Exhausted | None = None
) -> Data:
    """Return the answer of `rack compare`, its plan in the verdict. Every number is finite.

    `exhausted`: what every combination of a few changes tells of the plan, where asked for.
    """
    found = {
        **heading(study.rack),
        "bracings": [_bracing(study.rack, r) for r in study.results],
        "dropped": list(study.dropped),
        "knee_card": [
            {
                "part": c.part,
                "reach": c.reach,
                "drop": c.drop,
                "sag": c.sag,
                "left": c.left,
                "force": c.force,
                "force_words": c.words,
                "force_tilt_deg": c.tilt / DEG,
                "pushed": c.pushed,
                "cut": c.cut,
                "angle_deg": c.angle / DEG,
                "described": c.described,
                "note": c.note or None,
            }
            for c in study.knee_card
        ],
        "verdict": {
            **_verdict(study),
            **(plan_data(plan) if plan else {}),
            **({"exhaustive": exhausted_data(exhausted)} if exhausted else {}),
        },
        "moves": [
            {
                "words": m.words,
                "limit_gust": list(m.limit_gust),
                "let_go_gust": list(m.let_go_gust),
                "next_to_go": m.next_part,
                "added_steel": m.added_steel,
                "cost": m.cost,
            }
            for m in study.moves
        ],
        "notes": list(study.notes),
        **footing_data(study.rack),
    }
    return finite(found)


def heading(rack: Rack) -> Data:
    """Return what every document begins with."""
    site = rack.site
    return {
        "schema": SCHEMA,
        "rack": rack.name,
        "method": METHOD,
        "site": {
            "map_gust": site.map_gust,
            "service_gust": site.service_gust,
            "exposure": site.exposure,
            "elevation": site.elevation,
            "hill_factor": site.hill_factor,
            "flow": list(site.flow),
            "soil": site.soil.name,
        },
        "tilts_deg": [t / DEG for t in rack.tilts],
    }


def footing_data(rack: Rack) -> Data:
    """Return what every document ends with: what was assumed, and the warnings."""
    return {
        "assumptions": [
            {"key": a.key, "value": a.value, "errs": a.errs, "find_out": a.find_out}
            for a in rack.assumptions
        ],
        "counted_on": built_data(rack),
        "warnings": list(warnings(rack)),
    }


def _range(going: Going | None) -> Data:
    return {
        "let_go_low": going and going.low,
        "let_go_high": going and going.high,
        "let_go_case": going and going.case,
        "let_go_words": going and going.words,
        "let_go_tilt_deg": going and going.tilt / DEG,
        "expected_strength": going and going.hand.nominal,
        "expected_demand": going and going.hand.demand,
    }


def rung(row: Row) -> Data:
    """Return one check of one part."""
    return {
        "part": row.part,
        "check": row.check,
        "let_go_gust": row.let_go_gust,
        "kind": row.kind,
        **_range(row.going),
        "limit_gust": row.limit_gust,
        "act_by_gust": row.act_by_gust,
        "utilisation": row.utilisation,
        "demand": row.demand,
        "allowable": row.allowable,
        "nominal": row.nominal,
        "unit": row.unit,
        "case": row.case,
        "words": row.words,
        "tilt_deg": row.tilt / DEG,
        "decided_by": row.decided_by or None,
        "covered": row.covered,
        "source": row.source,
    }


def finite(document: Data) -> Data:
    """Return the same data with plain numbers, and null for what is infinite or undefined."""
    return {key: _plain(value) for key, value in document.items()}


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return finite(value)
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def _bracing(rack: Rack, result: BracingResult) -> Data:
    agreement = result.agreement
    return {
        "name": result.title,
        "fitted": list(result.bracing),
        "sag": _sag(result),
        "sway": {
            "gust": result.sway.gust,
            "top": None if result.sway.topples else result.sway.top,
            "limit": result.sway.limit,
            "words": result.sway.words,
            "topples": result.sway.topples,
            "gone": gone(result.sway, result.first_break, rack.posts.height) or None,
        },
        "swing": _swing(result),
        "limit_gust": result.limit_gust,
        "act_by_gust": result.act_by_gust,
        "let_go_gust": result.let_go_gust,
        "first_slip": first(result.first_slip),
        "first_break": first(result.first_break),
        "lowered": lowered_data(result),
        "holds": result.holds,
        "ladder": [rung(row) for row in result.ladder],
        "braces": [
            {
                "name": b.name,
                "tension": b.tension,
                "compression": b.compression,
                "tension_words": b.tension_words or None,
                "compression_words": b.compression_words or None,
            }
            for b in result.braces
        ],
        "guys": [
            {
                "name": g.name,
                "tension": g.tension,
                "pretension": g.pretension,
                "words": g.words,
                "slack_in": list(g.slack_in),
            }
            for g in result.guys
        ],
        "anchors": [_anchor(result, g) for g in result.guys],
        "post": _post(rack, result),
        **_shaking(result),
        **_stability(result),
        "steel": result.steel,
        "added_steel": result.added_steel,
        "cost": result.cost,
        "added_cost": result.added_cost,
        "agreement": agreement and {"front": agreement.front, "side": agreement.side},
    }


def lowered_data(result: BracingResult) -> Data | None:
    """Return what it stands at the flattest tilt of the file; null where not worked out."""
    low = result.lowered
    if low is None:
        return None
    return {"tilt_deg": low.tilt / DEG, "act_by_gust": low.act_by_gust}


def _anchor(result: BracingResult, guy: GuyForce) -> Data:
    name = guy.name.replace("guy,", "guy anchor,", 1)
    rows = [r for r in result.rows if r.part == name and "proof_pull" in r.hand.extra]
    proof = max((float(r.hand.extra["proof_pull"]) for r in rows), default=None)
    return {"name": name, "uplift": guy.uplift, "pull": guy.tension, "proof_pull": proof}


def _post(rack: Rack, result: BracingResult) -> Data:
    rows = [r for r in result.rows if "depth_needed" in r.hand.extra]
    worst = max(rows, key=lambda r: float(r.hand.extra["depth_needed"]), default=None)
    return {
        "depth": rack.posts.footing.depth,
        "depth_needed": float(worst.hand.extra["depth_needed"]) if worst else None,
        "decided_by": (worst.decided_by or None) if worst else None,
    }


def _shaking(result: BracingResult) -> Data:
    shaking = result.shaking
    if shaking is None:
        return {"first_frequency_hz": None, "frequencies": None}
    return {
        "first_frequency_hz": shaking.at_rest[0],
        "frequencies": {
            "at_rest_hz": list(shaking.at_rest),
            "guys_slack_hz": list(shaking.slack) or None,
            "with_play_hz": shaking.play,
            "gust_effect": shaking.gust_effect,
        },
    }


def _stability(result: BracingResult) -> Data:
    found = result.stability
    if found is None:
        return {"buckling_factor": None, "buckling": None}
    return {
        "buckling_factor": found.factor,
        "buckling": {"gust": found.gust, "words": found.words, "tilt_deg": found.tilt / DEG},
    }


def _sag(result: BracingResult) -> Data:
    sag = result.sag
    return {
        "dead": sag.dead,
        "still_air": sag.still_air,
        "limit": sag.limit,
        "where": sag.where,
        "share": {"pipe": sag.pipe, "sleeve": sag.sleeve, "post": sag.post},
        "slop": sag.slop,
    }


def _swing(result: BracingResult) -> Data | None:
    swing = result.swing
    if swing is None:
        return None
    return {
        "gust": swing.gust,
        "torque": swing.torque,
        "grip_low": swing.grip_low,
        "grip_high": swing.grip_high,
        "ground": swing.ground,
        "words": swing.words,
    }


def _verdict(study: Study) -> Data:
    verdict = study.verdict
    return {
        "bracing": bracing_title(verdict.bracing),
        "holds": verdict.holds,
        "headline": verdict.headline,
        "act_by": verdict.act_by,
        "reason": verdict.reason,
        "next_cure": verdict.next_cure,
        "first_to_go": verdict.first_to_go,
        "not_checked": list(verdict.not_checked),
    }
