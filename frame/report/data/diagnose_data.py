"""What was found of a rack by its readings, as plain data for JSON: SI values."""

from typing import Any

from frame.diagnosis.candidates import Proposal
from frame.diagnosis.diagnosis import Diagnosis
from frame.diagnosis.effect import Effect
from frame.diagnosis.movements import MovementFound
from frame.plan.greedy import Plan

Data = dict[str, Any]


def document(found: Diagnosis) -> Data:
    """Return the whole diagnosis; keys are added, never renamed."""
    fit = found.found
    return {
        "schema": 1,
        "rack": found.rack.name,
        "readings": [
            {
                "key": r.key,
                "read": r.value,
                "error": float(sigma),
                "miss": float(miss),
            }
            for r, sigma, miss in zip(fit.readings, fit.sigma, fit.misses, strict=True)
        ],
        "left_out": found.left_out.key if found.left_out else None,
        "agreement": {"chance": found.consistency.chance, "suspect": found.consistency.suspect},
        "unknowns": [
            {
                "key": u.key,
                "value": fit.values[u.key],
                "low": fit.band(u.key)[0],
                "high": fit.band(u.key)[1],
                "learned": fit.learned(u.key),
            }
            for u in fit.unknowns
        ],
        "movements": [_movement(m) for m in found.movements],
        "chief": {"kind": found.chief.kind, "cause": found.chief.cause},
        "yielding": [
            {"part": y.part, "under": y.under, "use": y.use, "chance": y.chance}
            for y in found.yieldings
        ],
        "beam_bent": found.bent,
        "fitted": [
            {
                "key": f.key,
                "value": f.value,
                "low": f.low,
                "high": f.high,
                "edits": [
                    {"section": section, "key": key, "value": value}
                    for (section, key), value in f.edits.items()
                ],
            }
            for f in found.fitted
        ],
        "next": _proposal(found.proposal),
        "plan": _effect(found.effect),
    }


def _movement(told: MovementFound) -> Data:
    return {
        "kind": told.kind,
        "side": ("left", "right")[told.side],
        "size": told.size,
        "normal": list(told.normal),
        "limit": told.limit or None,
        "read": told.read,
        "cause": told.cause,
        "shares": [
            {"part": s.part, "size": s.size, "low": s.low, "high": s.high, "normal": s.normal}
            for s in told.shares
        ],
        "causes": [{"part": part, "chance": chance} for part, chance in told.causes],
    }


def _proposal(told: Proposal | None) -> Data | None:
    if told is None:
        return None
    return {
        "key": told.best.key,
        "for_break": told.for_break,
        "tried": [
            {
                "key": c.key,
                "narrows": c.narrows,
                "splits": c.splits,
                "low": c.expected[0],
                "high": c.expected[1],
            }
            for c in told.tried
        ],
    }


def _effect(told: Effect | None) -> Data | None:
    if told is None:
        return None
    return {
        "before": _plan(told.before),
        "after": _plan(told.after),
        "dropped": list(told.dropped),
        "added": list(told.added),
        "changed": list(told.changed),
    }


def _plan(told: Plan) -> Data:
    return {
        "steps": [step.words for step in told.steps],
        "start_first_break": told.start.first_break.gust if told.start.first_break else None,
        "end_first_break": told.end.first_break.gust if told.end.first_break else None,
        "reached": told.reached,
    }
