"""What `rack gusts` prints: lay-down card, gusts against tilt, one part gone, what is unknown."""

import math

from rich.console import Group, RenderableType
from rich.text import Text

from frame.plan.gusts import Gusts
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.report import going_words, unknowns, words
from frame.report.data.plain import document_opening
from frame.report.data.plan_data import Data, first_of_kinds
from frame.report.lay_down import how_to_lower, lay_down_card, lay_down_data
from frame.report.tables import FLAG, new_table, once, under_title
from frame.search.weakest import Weakest
from frame.units import DEG, head_unit, show
from frame.verdict.wind_notes import balance_sentence
from frame.whatif.imperfect import Flaw
from frame.whatif.tilts import AtTilt, TiltCurve

NEAR_FLAT = (
    "Tilts under 8 deg are not covered: near flat, panels can gallop in gusts far below any here. "
    "Do not lay them flat."
)
SAME_GUST = 0.02
"""Change of every gust up to which an error of building is told to change nothing [1]."""
HEADS = (">act by", "slips about", "breaks about", ">margin\nup to")


def page(found: Gusts, system: str) -> Group:
    """Return the whole answer, in units of `system` ("us" or "metric")."""
    rack, title = found.rack, found.curve.title
    parts: list[RenderableType] = [
        lay_down_card(rack, found.curve, found.stages, found.why, system),
        _curve(rack, found.curve, system),
        _others(found, system),
        unknowns.decisive(title, found.decides, system),
        _losses(found, system),
        _flaws(found, system),
        unknowns.page(title, found.known, system),
        how_to_lower(rack, found.curve.bracing, system),
        Group(
            *(Text(w, style="italic") for w in (*_caveats(rack), *rack.warnings, *words.CAUTIONS)),
        ),
    ]
    return Group(*parts)


def _caveats(rack: Rack) -> tuple[str, ...]:
    if rack.site.pressure > 0:
        return (NEAR_FLAT,)
    return (NEAR_FLAT, balance_sentence(rack))


def _cells(found: Weakest, system: str) -> list[str]:
    """Return act by, slips about, breaks about and margin of one rack."""
    return [
        _act_by(found, system),
        _told(found.first_slip, system),
        _told(found.first_break, system),
        going_words.forecast(found.limit_gust, system),
    ]


def _act_by(found: Weakest, system: str) -> str:
    """Return the act-by gust, with what tilts where that is told in no other cell."""
    told = going_words.forecast(found.act_by_gust, system)
    going = found.act_by
    if going is None or going in (found.first_slip, found.first_break):
        return told
    return f"{told}\n{going.part} {going_words.how(going)}"


def _told(going: Going | None, system: str) -> str:
    if going is None:
        return going_words.BEYOND
    how = f" {going_words.how(going)}" if going.slips else ""
    return f"{going_words.ranged(going, system)}\n{going.part}{how}"


def _curve(rack: Rack, curve: TiltCurve, system: str) -> Group:
    made = new_table(">Tilt", *HEADS)
    for p in (p for p in curve.points if p.covered):
        tilt = words.tilt(p.tilt)
        made.add_row(f"{tilt} *" if p.own else tilt, *_cells(p, system))
    unit, mapped = head_unit("speed", system), show(rack.site.map_gust, "speed", system)
    return under_title(
        f"Gusts against tilt [{unit}]: {words.title_in_sentence(curve.title)}",
        made,
        "* a tilt of the file. Act by: the forecast gust before which panels come off or go low, "
        "the low end of what first tilts or breaks. In brackets the range: one in ten comes "
        f"sooner, one in ten later. Margin: the code's, to be compared with the map's {mapped}.",
    )


def _others(found: Gusts, system: str) -> Group:
    """Return the other bracings at the file's tilts."""
    others = [c for c in found.curves if c is not found.curve]
    lines = [(c.title, p) for c in others for p in c.points if p.own and p.covered]
    if not lines:
        return Group()
    made = new_table("Bracing", ">tilt", *HEADS)
    for title, (_, p) in zip(once([t for t, _ in lines]), lines, strict=True):
        made.add_row(title, words.tilt(p.tilt), *_cells(p, system))
    return under_title(
        f"The other bracings, at the file's tilts [{head_unit('speed', system)}]",
        made,
        "The card of another one: add --bracing NAMES.",
    )


def _losses(found: Gusts, system: str) -> Group:
    made = new_table("What is gone", *HEADS)
    for loss in found.losses:
        if loss.after is None:
            alone = Text(f"stands by that part alone: {loss.alone}", style=FLAG)
            made.add_row(loss.words, "0", alone, "", "")
        else:
            made.add_row(loss.words, *_cells(loss.after, system))
    if not found.losses:
        return Group()
    made.add_section()
    made.add_row("nothing: all in place", *_cells(found.losses[0].whole, system))
    unit, title = head_unit("speed", system), words.title_in_sentence(found.curve.title)
    return under_title(f"One part gone, at the file's worst tilt [{unit}]: {title}", made)


def _flaws(found: Gusts, system: str) -> Group:
    told = [s for s in found.flaws if s.flips or _matters(s)]
    rest = "; ".join(s.words for s in found.flaws if s not in told)
    made = new_table("What is off", *HEADS)
    for flaw in told:
        flips = Text(f"{flaw.words}: {flip_words(flaw, found.rack.site.map_gust)}", style=FLAG)
        made.add_row(flips if flaw.flips else flaw.words, *_cells(flaw.after, system))
    if not found.flaws:
        return Group()
    unit, title = head_unit("speed", system), words.title_in_sentence(found.curve.title)
    made.add_section()
    made.add_row("nothing: as drawn", *_cells(found.flaws[0].drawn, system))
    return under_title(
        f"Built a little wrong [{unit}]: {title}",
        *([made] if told else []),
        f"These change nothing: {rest}." if rest else "",
    )


def flip_words(flaw: Flaw, mapped: float) -> str:
    """Say what of the answer is another with an error of building; `mapped` gust [m/s]."""
    if flaw.drawn.limit_gust >= mapped > flaw.after.limit_gust:
        return "NO LONGER HAS THE MARGIN of its site"
    return "ANOTHER PART GOES FIRST, or in another way"


def _matters(flaw: Flaw) -> bool:
    """Whether an error of building changes any gust by enough to tell."""
    return any(
        abs(a - b) > SAME_GUST * max(a, b)
        for a, b in zip(_three(flaw.drawn), _three(flaw.after), strict=True)
        if math.isfinite(a) or math.isfinite(b)
    )


def _three(found: Weakest) -> tuple[float, float, float]:
    return found.limit_gust, found.act_by_gust, found.let_go_gust


def document(found: Gusts) -> Data:
    """Return the same for JSON: SI, null where no gust reaches it or the tilt is not covered."""
    return {
        **document_opening(found.rack),
        "curves": [
            {"name": c.title, "fitted": list(c.bracing), "tilts": [_point(p) for p in c.points]}
            for c in found.curves
        ],
        "lay_down": lay_down_data(found.curve, found.stages),
        "losses": [
            {
                "part": x.part,
                "words": x.words,
                **_expected(x.after),
                "limit_gust": _finite(x.limit_gust),
                "let_go_gust": _finite(x.let_go_gust),
                "next_part": x.next_part or None,
                "note": x.alone or None,
            }
            for x in found.losses
        ],
        "built_wrong": [
            {
                "words": x.words,
                **_expected(x.after),
                "limit_gust": _finite(x.limit_gust),
                "let_go_gust": _finite(x.let_go_gust),
                "first": x.first or None,
                "flips": x.flips,
            }
            for x in found.flaws
        ],
        "bands": unknowns.document(found.known),
        "decides": [unknowns.deciding_data(one) for one in found.decides],
        "caveats": list(_caveats(found.rack)),
    }


def _point(p: AtTilt) -> Data:
    limit, act, let_go = (_finite(g) if p.covered else None for g in _three(p))
    return {
        "tilt_deg": p.tilt / DEG,
        "limit_gust": limit,
        "act_by_gust": act,
        "act_by_part": p.act_by_part or None,
        "let_go_gust": let_go,
        "first_to_go": p.first or None,
        "first_slip": first_of_kinds(p.first_slip) if p.covered else None,
        "first_break": first_of_kinds(p.first_break) if p.covered else None,
        "covered": p.covered,
        "in_file": p.own,
    }


def _expected(found: Weakest | None) -> Data:
    """Return what slips and breaks first and the act-by gust; nulls where nothing is left."""
    return {
        "act_by_gust": _finite(found.act_by_gust) if found else 0.0,
        "first_slip": first_of_kinds(found.first_slip) if found else None,
        "first_break": first_of_kinds(found.first_break) if found else None,
    }


def _finite(gust: float) -> float | None:
    return gust if math.isfinite(gust) else None
