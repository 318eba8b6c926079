"""Whether the plan reaches its site's gust and carries everything else, and what else would."""

from frame.plan.decision import Decision
from frame.plan.standing import Standing
from frame.report.screen.phrases import RISE, gust, happens, no_rule, paragraph
from frame.units import show
from frame.verdict.sentences import STILL
from frame.verdict.verdict import not_carried


def reached(decision: Decision) -> list[str]:
    """Say whether the plan reaches the site's gust with the code's margin, and what else would."""
    rack, plan = decision.rack, decision.plan
    units, site = rack.units, gust(rack.site.map_gust, rack.units)
    mapped = f"{site} and {show(rack.site.snow, 'pressure', units)} of snow"
    mapped = mapped if rack.site.snow > 0 else site
    after = f"After {len(plan.steps)}" if plan.steps else "As it is"
    if plan.reached:
        much = "; it still moves too far, which is no matter of strength"
        much += "" if rack.guys else ": try [[guys]] from the post top"
        much = much if plan.end.moves_too_far else ""
        return paragraph(
            after, f"it has the code's margin for its site, mapped at {mapped}{much}."
        )
    limit = plan.end.weakest.limit
    if plan.end.passes:
        told = f"all that is checked has the code's margin for its site, mapped at {site}"
        return paragraph(after, f"{told}.{_uncovered(plan.end)}")
    if limit.gust >= rack.site.map_gust:
        wind = f"it has the code's margin in wind, mapped at {site}"
        weighs = "The command rack size tries other arrangements."
        return paragraph(after, f"{wind}, but {_laden(decision)} {weighs}{_uncovered(plan.end)}")
    has = "lacks the code's margin even in still air, let alone at the"
    if limit.gust >= STILL:
        has = f"keeps the code's margin to {gust(limit.gust, units)} only, not to the"
    first = f": {happens(*limit.key)} first" if limit.key else ""
    said = f"it {has} {site} mapped here{first}."
    lasting = decision.unmended
    if lasting and lasting.limit_gust:
        what = happens(*lasting.key)
        told = gust(lasting.limit_gust, units)
        said += (
            " Nothing here mends that."
            if lasting.key == limit.key
            else f" Nothing here mends this: by the code {what} at {told}."
        )
    better = [k for k in decision.kinds if k.standing.limit_gust > RISE * plan.end.limit_gust]
    if better:
        told = ", ".join(f"{gust(k.standing.limit_gust, units)} with {k.words}" for k in better)
        said += f" Built the same: {told}; rack size tries other arrangements."
    elif plan.cut_short:
        said += " More steps may gain more: write these into the file and run it again."
    elif plan.steps and not (lasting and lasting.key == limit.key):
        said += " No single step gains more; rack size tries other arrangements."
    if not plan.end.laden.carried:
        said += f" And it {_laden(decision)}"
    return paragraph(after, f"{said}{_uncovered(plan.end)}")


def _uncovered(end: Standing) -> str:
    """Say of what no rule tells whether it has the margin, and who should."""
    if not end.uncovered:
        return ""
    told = no_rule(end.uncovered)
    return f" {told[0].upper()}{told[1:]}: an engineer looks at that first."


def _laden(decision: Decision) -> str:
    """Say what the plan's end does not carry beside the wind, and which other rack would."""
    end, key = decision.plan.end, decision.plan.end.laden.key
    said = f"does not carry {not_carried(end.rack, decision.end)}"
    if key:
        said += f": {happens(*key)} first"
    said += "."
    lasting = decision.laden_unmended
    if lasting:
        what = "that" if lasting.key == key else f"this: {happens(*lasting.key)}"
        said += f" Nothing here mends {what}."
    would = [k.words for k in decision.kinds if k.standing.holds]
    built = f" Built the same, it would with {' or '.join(would)}." if would else ""
    return f"{said}{built}"
