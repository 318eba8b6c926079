"""What was found of one bracing, as plain data for JSON: SI values."""

from frame.named.part import anchor
from frame.plan.gone import gone
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.records.results import BracingResult, GuyForce, Row
from frame.report.data.plain import Data
from frame.report.data.plan_data import first_of_kinds
from frame.units import DEG


def bracing_data(rack: Rack, result: BracingResult) -> Data:
    """Return all that was found of one bracing of a rack."""
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
        "first_slip": first_of_kinds(result.first_slip),
        "first_break": first_of_kinds(result.first_break),
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
        "anchors": [_anchor(g) for g in result.guys],
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


def _anchor(guy: GuyForce) -> Data:
    return {
        "name": anchor(guy.name),
        "uplift": guy.uplift,
        "pull": guy.tension,
        "proof_pull": guy.test_pull,
    }


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
        "where": str(sag.where),
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
