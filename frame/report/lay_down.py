"""The lay-down card: before which forecast gust to go to which tilt, and how it is done."""

import math
from collections.abc import Sequence
from itertools import pairwise

from rich.console import Group
from rich.text import Text

from frame.rack.rack import Rack
from frame.records.going import Going
from frame.report import going_words, words
from frame.report.data.plan_data import Data, first_of_kinds
from frame.report.screen.phrases import gust, happens
from frame.report.tables import FLAG
from frame.units import DEG, MPH, show
from frame.whatif.tilts import COVERED, STEADY_TO_GUST, AtTilt, Deed, TiltCurve, holds_one_tilt

CALM = 15 * MPH
"""Gust above which nobody moves panels [m/s] (common practice)."""
FLAT = f"{COVERED[0] / DEG:g} deg"
ORDER = """\
Do it the calm day before, {calm} of gust at most, in daylight; it takes about half an hour and \
two people, three for a wide rack. In more wind than that leave the rack alone.
Keep everybody else two rack heights away. Nobody stands under the panels, below the low edge or \
between the panels and the post at any time.
Panels first: prop both ends of the low edge from the ground, and rope both top corners back to \
firm ground behind. The props and ropes carry the panels from here on, never the grip of a \
U-bolt: it holds nothing once its nuts are loose.
One person at each end of the beam, outside the panels, rope in hand with a turn round something \
firm; nobody pushes from beneath.
Loosen the U-bolts of the inner rails, then those of the end rails, half a turn at a time and \
alternating from side to side.
Lower on the ropes together. Snug the end rails, then the inner ones; tighten all to their torque \
in two rounds, end rails first. Only then take props and ropes away.
Paint a line across beam and U-bolt: a shifted line after the storm tells that it slipped.\
""".splitlines()
RIGGED = (
    "Guys or stays on beam or rails hold only one tilt: slack them off before the U-bolts, fit "
    "and tension them anew at the new tilt before the wind comes."
)
INDENT = 9


def lay_down_card(
    rack: Rack, curve: TiltCurve, stages: Sequence[Deed], why: str, system: str
) -> Group:
    """Return the first lines: what to do before which forecast gust, why, and what slips apart.

    `why` the card is for this bracing.
    """
    lines = [
        Text(f"{rack.name.upper()}, {words.title_in_sentence(curve.title)}: {why}", "bold"),
        Text("Before a forecast gust of", "bold"),
        *(Text(line, "bold") for line in _deeds(curve, stages, system)),
        *(_paragraph("Why", said) for said in _why(curve, stages, system)),
        *(_paragraph("Limit", said) for said in _limits(stages, system)),
        *(_paragraph("Apart", said) for said in _apart(curve, system)),
        _paragraph(
            "Gusts",
            f"are {STEADY_TO_GUST[0]:g} to {STEADY_TO_GUST[1]:g} times the steady wind of a "
            "forecast, more in hills: act on the higher.",
        ),
    ]
    return Group(*lines, Text(""))


def _paragraph(head: str, said: str) -> Text:
    return Text(f"{head:<{INDENT}}{said}", style=FLAG if head == "Apart" else "")


def _deeds(curve: TiltCurve, stages: Sequence[Deed], system: str) -> list[str]:
    """Say what to do before each gust, lowest first."""
    lines = [
        f"  any      no answer at {words.tilt(p.tilt)}, outside what is covered: not for any wind"
        for p in curve.points
        if p.own and not p.covered
    ]
    lines += [
        f"  {gust(now.below, system):<9}{_deed(now, then)}" for now, then in pairwise(stages)
    ]
    last = stages[-1] if stages else None
    if last is None or (last.tilt is None and last.above == 0):
        lines.append("  any      panels off, or do not hang them: no tilt stands still air")
    elif last.tilt is not None:
        lines.append(
            f"  any      leave it at {words.tilt(last.tilt)}: no gust looked at is too much"
        )
    return lines


def _deed(now: Deed, then: Deed) -> str:
    """Say where to go before a stage ends."""
    if then.tilt is None or now.tilt is None:
        return f"panels off the calm day before, or keep two rack heights away; never under {FLAT}"
    start, to = words.tilt(now.tilt), words.tilt(then.tilt)
    if then.flattest is None:
        return f"from {start} to {to} or flatter, not under {FLAT}"
    also = "".join(f", or to {words.tilt(tilt)}" for tilt in then.also)
    if then.flattest == then.tilt:
        only = "nothing between" if also else "neither steeper nor flatter"
        return f"from {start} to {to}{also}, {only}"
    only = "nothing else" if also else "not flatter"
    return f"from {start} to anything from {words.tilt(then.flattest)} to {to}{also}, {only}"


def _limits(stages: Sequence[Deed], system: str) -> list[str]:
    """Say of every stage that ends before its own tilt does which tilt ends it."""
    said = []
    for s in stages:
        if s.tilt is None or s.alone is None or s.ends_at is None or s.listed is None:
            continue
        below, alone = gust(s.below, system), gust(s.alone, system)
        if below == alone:
            continue
        way = f", on the way to {words.tilt(s.listed)}" if s.ends_at != s.listed else ""
        said.append(
            f"{below} is what {words.tilt(s.ends_at)} stands{way}, a tilt of the file; kept at "
            f"{words.tilt(s.tilt)} it is good to {alone}."
        )
    return said


def _why(curve: TiltCurve, stages: Sequence[Deed], system: str) -> list[str]:
    """Say what goes at the steepest tilt, and what at the flattest."""
    found = [(s.ends_at or s.tilt, s.going) for s in stages if s.tilt is not None and s.going]
    if not found:
        last = stages[-1].going if stages else None
        return (
            [f"{happens(last.part, last.check)} {going_words.about(last, system)}."]
            if last
            else []
        )
    told = {going.part: (tilt, going) for tilt, going in (found[-1], found[0])}
    said = [_at(going, tilt, system) for tilt, going in reversed(told.values())]
    return [f"{'; '.join(said)}. Act by the low end: one in ten goes sooner."]


def _at(going: Going, tilt: float, system: str) -> str:
    what = happens(going.part, going.check)
    return f"{what} {going_words.about(going, system)} at {words.tilt(tilt)}"


def _apart(curve: TiltCurve, system: str) -> list[str]:
    """Warn of what only turns or leans before anybody acts at that tilt, each with its cure."""
    points = _own(curve)
    acted = {p.tilt: p.act_by_gust for p in points}
    said = []
    for going in going_words.mildest(points):
        if going.gust >= acted.get(going.tilt, math.inf):
            continue
        cure = going_words.cure(going)
        told = f"{_at(going, going.tilt, system)}: {going_words.SAID[going.kind]}."
        said.append(f"{told} Cure: {cure}." if cure else told)
    return said


def how_to_lower(rack: Rack, bracing: tuple[str, ...], system: str) -> Group:
    """Return the steps of lowering the panels."""
    steps = [ORDER[0].format(calm=show(CALM, "speed", system)), *ORDER[1:3]]
    if holds_one_tilt(rack, bracing):
        steps.append(RIGGED)
    steps += ORDER[3:]
    return Group(
        Text("How to lower (ways and order: common practice, no source)", style="bold"),
        *(Text(f"  {i}. {step}") for i, step in enumerate(steps, 1)),
        Text(""),
    )


def lay_down_data(curve: TiltCurve, stages: Sequence[Deed]) -> Data:
    """Return the card for JSON: SI, null where no gust reaches it."""
    return {
        "bracing": curve.title,
        "steady_to_gust": list(STEADY_TO_GUST),
        "stages": [
            {
                "above": s.above,
                "below": s.below if math.isfinite(s.below) else None,
                "tilt_deg": None if s.tilt is None else s.tilt / DEG,
                "flattest_deg": None if s.flattest is None else s.flattest / DEG,
                "also_deg": [tilt / DEG for tilt in s.also],
                "alone": s.alone if s.alone is not None and math.isfinite(s.alone) else None,
                "ends_at_deg": None if s.ends_at is None else s.ends_at / DEG,
                "part": s.part,
                "going": first_of_kinds(s.going),
            }
            for s in stages
        ],
        "warned_apart": [
            {
                **(first_of_kinds(g) or {}),
                "tilt_deg": g.tilt / DEG,
                "cure": going_words.cure(g) or None,
            }
            for g in going_words.mildest(_own(curve))
        ],
    }


def _own(curve: TiltCurve) -> list[AtTilt]:
    """Return the points of the file's tilts that are covered."""
    return [p for p in curve.points if p.own and p.covered]
