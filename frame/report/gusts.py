"""What `rack gusts` prints: gusts against tilt, lay-down card, one part gone, what is unknown."""

import math
from collections.abc import Sequence

from rich.console import Group, RenderableType
from rich.text import Text

from frame.rack.rack import Rack
from frame.report import unknowns, words
from frame.report.document import Data, heading
from frame.report.tables import FLAG, section, table
from frame.study.bands import Bands
from frame.study.imperfect import Slip
from frame.study.losses import Loss
from frame.study.tilts import STEADY_TO_GUST, AtTilt, Stage, TiltCurve, holds_one_tilt
from frame.study.wind_notes import balance_sentence
from frame.units import DEG, MPH, show, show_no_more

CALM = 15 * MPH
"""Gust above which nobody moves panels [m/s] (common practice)."""
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
NEAR_FLAT = (
    "Tilts under 8 deg are not covered: near flat, panels can gallop in gusts far below any here. "
    "Do not lay them flat."
)
STEADY = (
    "Forecasts often give the steady wind. Gusts are {low:g} to {high:g} times that (common "
    "practice, no source), more in hills: act on the higher."
)


def page(
    rack: Rack,
    curves: Sequence[TiltCurve],
    card: tuple[TiltCurve, tuple[Stage, ...]],
    losses: Sequence[Loss],
    slips: Sequence[Slip],
    known: Bands,
    system: str,
) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    curve, stages = card
    parts: list[RenderableType] = [
        _lead(rack, curve, system),
        *(_curve(c, system) for c in curves),
        _card(rack, curve, stages, system),
        _losses(curve, losses, system),
        _slips(curve, slips, system),
        unknowns.page(curve.title, known, system),
        Group(
            *(Text(w, style="italic") for w in (*_caveats(rack), *rack.warnings, *words.CAUTIONS)),
        ),
    ]
    return Group(*parts)


def _caveats(rack: Rack) -> tuple[str, ...]:
    if rack.site.pressure > 0:
        return (NEAR_FLAT,)
    return (NEAR_FLAT, balance_sentence(rack))


def _lead(rack: Rack, curve: TiltCurve, system: str) -> Text:
    worst = min((p for p in curve.points if p.own), key=lambda p: p.act_by_gust)
    said = f"At {words.tilt(worst.tilt)} with {curve.title}, "
    if worst.act_by_gust == 0:
        said += f"the {worst.act_by_part} is overloaded in still air already."
    else:
        said += (
            f"act before a forecast gust of {_down(worst.act_by_gust, system)}: from there on the "
            f"{worst.act_by_part} is used beyond what is allowed."
        )
    mapped = show(rack.site.map_gust, "speed", system)
    return Text(f"{said} Margin up to is compared with the map gust, {mapped}.\n", style="bold")


def _gust(speed: float, system: str) -> str:
    return words.gust(None if math.isinf(speed) else speed, system)


def _down(speed: float, system: str) -> str:
    """Return a gust to act by, rounded down as everywhere."""
    return "any" if math.isinf(speed) else show_no_more(speed, "speed", system)


def _curve(curve: TiltCurve, system: str) -> Group:
    made = table(
        ">Tilt", "", ">margin up to\n(mapped gust)", ">act by\n(forecast gust)",
        ">lets go\nat about", "what lets go first",
    )  # fmt: skip
    for p in curve.points:
        made.add_row(
            words.tilt(p.tilt),
            "" if p.covered else Text("not covered", style=FLAG),
            *(_gust(g, system) if p.covered else "-" for g in _three(p)),
            p.first if p.covered else "",
        )
    return section(f"Gusts against tilt: {curve.title}", made)


def _three(p: AtTilt) -> tuple[float, float, float]:
    return p.limit_gust, p.act_by_gust, p.let_go_gust


def _card(rack: Rack, curve: TiltCurve, stages: Sequence[Stage], system: str) -> Group:
    made = table("Forecast gust", ">steady wind", "do")
    for s in stages:
        low, high = _down(s.above, system), _down(s.below, system)
        said = f"up to {high}" if s.above == 0 else f"{low} to {high}"
        steady = f"up to {_down(s.below / STEADY_TO_GUST[1], system)}"
        if math.isinf(s.below):
            said = f"over {low}" if s.above else "any"
            steady = "more"
        made.add_row(said, steady, _deed(s))
    steps = [ORDER[0].format(calm=show(CALM, "speed", system)), *ORDER[1:3]]
    if holds_one_tilt(rack, curve.bracing):
        steps.append(RIGGED)
    steps += ORDER[3:]
    return section(
        f"Lay-down card: {curve.title}",
        made,
        STEADY.format(low=STEADY_TO_GUST[0], high=STEADY_TO_GUST[1]),
        "How to lower:",
        *(f"  {i}. {step}" for i, step in enumerate(steps, 1)),
        "  Ways and order: common practice, no source.",
    )


def _deed(stage: Stage) -> str:
    if stage.tilt is None:
        return (
            f"no tilt stands it ({stage.part}): take the panels down the calm day before, or keep "
            "people and animals two rack heights away"
        )
    if stage.flattest is None:
        return f"{words.tilt(stage.tilt)} or flatter, not under 8 deg"
    if stage.flattest == stage.tilt:
        return f"{words.tilt(stage.tilt)}, neither steeper nor flatter"
    return f"{words.tilt(stage.flattest)} to {words.tilt(stage.tilt)}, not flatter"


def _losses(curve: TiltCurve, losses: Sequence[Loss], system: str) -> Group:
    made = table("What is gone", ">margin up to", ">lets go\nat about", "what goes next")
    for loss in losses:
        gusts = (loss.limit_gust, loss.let_go_gust)
        made.add_row(loss.words, *(_gust(g, system) for g in gusts), loss.next_part)
    whole = ""
    if losses:
        limit, let_go = (_gust(g, system) for g in losses[0].before)
        whole = f"All in place: margin up to {limit}, lets go at about {let_go}."
    return section(f"One part gone: {curve.title}", made, whole) if losses else Group()


def _slips(curve: TiltCurve, slips: Sequence[Slip], system: str) -> Group:
    made = table("Built a little wrong", ">margin up to", ">lets go\nat about", "what goes first")
    for slip in slips:
        flips = Text(f"{slip.words}  FLIPS THE ANSWER", style=FLAG)
        gusts = (slip.limit_gust, slip.let_go_gust)
        made.add_row(
            flips if slip.flips else slip.words, *(_gust(g, system) for g in gusts), slip.first
        )
    return section(f"Built a little wrong: {curve.title}", made) if slips else Group()


def document(
    rack: Rack,
    curves: Sequence[TiltCurve],
    card: tuple[TiltCurve, tuple[Stage, ...]],
    losses: Sequence[Loss],
    slips: Sequence[Slip],
    known: Bands,
) -> Data:
    """Return the same for JSON: SI, null where no gust reaches it or the tilt is not covered."""
    curve, stages = card
    return {
        **heading(rack),
        "curves": [
            {"name": c.title, "fitted": list(c.bracing), "tilts": [_point(p) for p in c.points]}
            for c in curves
        ],
        "lay_down": {
            "bracing": curve.title,
            "steady_to_gust": list(STEADY_TO_GUST),
            "stages": [
                {
                    "above": s.above,
                    "below": _finite(s.below),
                    "tilt_deg": None if s.tilt is None else s.tilt / DEG,
                    "flattest_deg": None if s.flattest is None else s.flattest / DEG,
                    "part": s.part,
                }
                for s in stages
            ],
        },
        "losses": [
            {
                "part": x.part,
                "words": x.words,
                "limit_gust": _finite(x.limit_gust),
                "let_go_gust": _finite(x.let_go_gust),
                "next_part": x.next_part or None,
                "note": x.note or None,
            }
            for x in losses
        ],
        "built_wrong": [
            {
                "words": x.words,
                "limit_gust": _finite(x.limit_gust),
                "let_go_gust": _finite(x.let_go_gust),
                "first": x.first or None,
                "flips": x.flips,
            }
            for x in slips
        ],
        "bands": unknowns.document(known),
        "caveats": list(_caveats(rack)),
    }


def _point(p: AtTilt) -> Data:
    limit, act, let_go = (_finite(g) if p.covered else None for g in _three(p))
    return {
        "tilt_deg": p.tilt / DEG,
        "limit_gust": limit,
        "act_by_gust": act,
        "let_go_gust": let_go,
        "first_to_go": p.first or None,
        "covered": p.covered,
        "in_file": p.own,
    }


def _finite(gust: float) -> float | None:
    return gust if math.isfinite(gust) else None
