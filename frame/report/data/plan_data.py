"""The plan and what decides the answer, as plain data for JSON: SI values."""

import math
from typing import Any

from frame.plan.decision import Decision
from frame.plan.gone import gone
from frame.plan.standing import Standing
from frame.plan.steps import PlanStep
from frame.records.going import Going
from frame.records.results import Row
from frame.report.screen.steps import sleeve_note

Data = dict[str, Any]


def first_of_kinds(going: Going | None) -> Data | None:
    """Return what goes first of some kinds; null where nothing does."""
    if going is None:
        return None
    return {
        "part": going.part,
        "check": going.check,
        "kind": going.kind,
        "gust": going.gust,
        "low": going.low,
        "high": going.high,
    }


def plan_data(found: Decision) -> Data:
    """Return the steps, the rack they start from, and what decides."""
    plan = found.plan
    return {
        "start": _standing(plan.start),
        "ground_share": found.ground,
        "plan": [
            _step(before, step)
            for before, step in zip(
                (plan.start, *(step.after for step in plan.steps)), plan.steps, strict=False
            )
        ],
        "plan_reached": plan.reached,
        "unmended": _limited(found.unmended),
        "left_out": list(plan.left_out),
        "decides": [
            {
                "unknown": d.unknown,
                "assumed": d.assumed,
                "part": d.going.part,
                "check": d.going.check,
                "gust": d.going.gust,
                "gust_if_well": d.gust_if_well,
                "find_out": d.find_out,
            }
            for d in found.decides
        ],
        "other_kinds": [{"words": k.words, **_standing(k.standing)} for k in found.kinds],
    }


def _limited(row: Row | None) -> Data | None:
    if row is None:
        return None
    return {"part": row.part, "check": row.check, "limit_gust": row.limit_gust}


def _step(before: Standing, step: PlanStep) -> Data:
    return {
        "do": step.words,
        "sleeve_rolled": bool(sleeve_note(before.rack, step)),
        "kind": step.kind,
        "names": list(step.names),
        "edits": [
            {"section": section, "key": key, "value": value}
            for offer in step.made
            for (section, key), value in offer.edits.items()
        ],
        **_standing(step.after),
        "added_steel": step.added_steel,
        "added_cost": step.added_cost,
    }


def _standing(at: Standing) -> Data:
    return {
        "bracing": list(at.bracing),
        "first_slip": first_of_kinds(at.first_slip),
        "first_break": first_of_kinds(at.first_break),
        "limit_gust": at.limit_gust if math.isfinite(at.limit_gust) else None,
        "sag": at.sag.dead,
        "droop": max(abs(at.sag.dead), abs(at.sag.still_air)),
        "sway": at.sway.top,
        "sway_gone": gone(at.sway, at.first_break, at.rack.posts.height) or None,
        "holds": at.holds,
        "uncovered": [{"part": part, "check": check} for part, check in sorted(at.uncovered)],
        "other_loads": at.laden.use if math.isfinite(at.laden.use) else None,
    }
