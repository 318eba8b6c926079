"""The cut plan, and what may be struck, as plain data."""

from typing import Any

from frame.shop.job import Job
from frame.shop.words import tape
from frame.units import DEG

CUT_HEAD = ("stick", "stick_m", "from", "from_m", "piece", "length", "length_m", "part_from_m")


def cut_plan_data(job: Job) -> dict[str, Any] | None:
    """Return the cut plan, None where there is no pile."""
    if job.cuts is None:
        return None
    again = job.again
    return {
        "kerf": job.cuts.cutting.kerf,
        "splice_share": job.cuts.cutting.share,
        "splice_uses": dict(job.cuts.uses),
        "zones": {letter: [list(z) for z in zones] for letter, zones in job.cuts.zones.items()},
        "groups": [
            {
                "name": group.name,
                "sticks": [
                    {
                        "name": s.name,
                        "length": s.length,
                        "cost": s.cost,
                        "bad": [list(b) for b in s.bad],
                        "at_hand": s.at_hand,
                    }
                    for s in group.pile.sticks
                ],
                "bought": group.plan.bought if group.plan else None,
                "splices": group.plan.splices if group.plan else None,
                "money": group.plan.money if group.plan else None,
                "proved": group.plan.proved if group.plan else None,
                "bound": list(group.plan.bound) if group.plan else None,
                "cuts": [
                    {
                        "piece": group.label(c.need),
                        "start": c.start,
                        "stop": c.stop,
                        "stick": c.stick,
                        "at": c.at,
                    }
                    for c in (group.plan.cuts if group.plan else ())
                ],
            }
            for group in job.cuts.groups
        ],
        "beam_splices": list(job.cuts.beam_splices),
        "again": {"limit_gust": again.limit_gust, "let_go_gust": again.let_go_gust}
        if again
        else None,
    }


def cut_rows(job: Job) -> list[tuple[object, ...]]:
    """Return a row for every cut."""
    system = job.rack.units
    found: list[tuple[object, ...]] = []
    for group in job.cuts.groups if job.cuts else ():
        for cut in group.plan.cuts if group.plan else ():
            stick, long = group.pile.sticks[cut.stick], cut.stop - cut.start
            found.append(
                (
                    stick.name,
                    f"{stick.length:.4f}",
                    tape(cut.at, system),
                    f"{cut.at:.4f}",
                    group.label(cut.need),
                    tape(long, system),
                    f"{long:.4f}",
                    f"{cut.start:.4f}",
                )
            )
    return found


def clearance_data(job: Job) -> dict[str, Any]:
    """Return what panels and rails strike, and the tilt stop with its holes."""
    found, stop = job.clearance, job.stop
    return {
        "held": found.held or None,
        "contacts": [
            {
                "what": c.what,
                "moving": c.moving,
                "gap": c.gap,
                "at_deg": c.at / DEG,
                "below_deg": None if c.below is None else c.below / DEG,
                "above_deg": None if c.above is None else c.above / DEG,
            }
            for c in found.contacts
        ],
        "turning": [
            {
                "tilt_deg": t.tilt / DEG,
                "what": t.what,
                "headings_deg": [[a / DEG, b / DEG] for a, b in t.headings],
            }
            for t in found.turning
        ],
        "tilt_stop": stop
        and {
            "count": stop.count,
            "thickness": stop.thickness,
            "half": stop.half,
            "top": stop.top,
            "hole": stop.hole,
            "over_beam": stop.over,
            "middle_tilt_deg": stop.middle / DEG,
            "holes": [
                {"tilt_deg": tilt / DEG, "at": [list(p) for p in pair]}
                for tilt, pair in stop.holes.items()
            ],
            "crowded": stop.crowded,
        },
    }
