"""A study as plain data for JSON: SI values under stable keys, null for what is not known."""

from frame.plan.decision import Decision
from frame.plan.exhaustive import Exhausted
from frame.rack.rack import bracing_title
from frame.records.results import Study
from frame.report.data.bracing import bracing_data
from frame.report.data.plain import Data, document_opening, finite, footing_data
from frame.report.data.plan_data import plan_data
from frame.report.data.wind_data import weights_data, wind_data
from frame.report.exhausted import exhausted_data
from frame.units import DEG


def document(
    study: Study, plan: Decision | None = None, exhausted: Exhausted | None = None
) -> Data:
    """Return the answer of `rack compare`, its plan in the verdict. Every number is finite.

    `exhausted`: what every combination of a few changes tells of the plan, where asked for.
    """
    found = {
        **document_opening(study.rack),
        "bracings": [bracing_data(study.rack, r) for r in study.results],
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
        "weights": weights_data(study.rack),
        "wind": wind_data(study.rack, study.results),
        **footing_data(study.rack),
    }
    return finite(found)


def _verdict(study: Study) -> Data:
    verdict = study.verdict
    return {
        "bracing": bracing_title(verdict.bracing),
        "holds": verdict.holds,
        "headline": verdict.headline,
        "act_by": verdict.act_by_words,
        "reason": verdict.reason,
        "next_cure": verdict.next_cure,
        "first_to_go": verdict.first_to_go,
        "not_checked": list(verdict.not_checked),
    }
