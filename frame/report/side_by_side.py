"""Every bracing side by side: gusts, movements, uses."""

from rich.console import Group, RenderableType

from frame.named.part import PartKind
from frame.plan.gone import gone
from frame.records.going import Going
from frame.records.results import BracingResult, Study
from frame.report import words
from frame.report.ladder import gust_with_range
from frame.report.money import amount, what_cost_counts
from frame.report.part_forces import REST, share_cell, use_cell, worst_row
from frame.report.shaking import shaking_table
from frame.report.tables import flagged, new_table, under_title
from frame.units import head_unit, show

MARK = "!"
"""Flag of the overview, where a word is too wide."""


def movements_side_by_side(study: Study, system: str) -> Group:
    """Return how far every bracing lets the rack sag, sway, swing and shake."""
    return Group(_sag(study, system), _sway(study, system), shaking_table(study))


def gusts_side_by_side(study: Study, system: str) -> Group:
    """Return up to which gusts every bracing keeps its margin, slips and breaks."""
    if not any(r.let_go_gust is not None for r in study.results):
        return Group()
    return _gusts(study, system)


def _gusts(study: Study, system: str) -> Group:
    unit = head_unit("speed", system)
    made = new_table(
        "Bracing", ">margin up to\n(mapped gust)", ">panels off\nbefore",
        f"turns, tilts or leans\nat about, {unit}", f"breaks\nat about, {unit}",
    )  # fmt: skip
    for r in study.results:
        limit = flagged(
            words.gust_rounded_down(r.limit_gust, system),
            over=r.limit_gust is not None and r.limit_gust < study.rack.site.map_gust,
            word=MARK,
        )
        made.add_row(
            r.title,
            limit,
            words.gust_rounded_down(r.act_by_gust, system),
            _first(r.first_slip, system),
            _first(r.first_break, system),
        )
    gust = show(study.rack.site.map_gust, "speed", system)
    return under_title(
        f"Which gust? The site is mapped at {gust}.",
        made,
        f"{MARK}: margin short of the mapped gust. What goes first of each sort. "
        f"{words.PANELS_OFF}",
        words.ABOUT,
        words.NOT_ALIKE,
    )


def _first(going: Going | None, system: str) -> str:
    if going is None:
        return "none"
    gust = gust_with_range(going, system).replace(f" {head_unit('speed', system)} (", " (")
    return f"{gust}\n{going.part}: {going.check}"


def overview(study: Study, system: str) -> Group:
    """Return what every bracing adds, and what it leaves used of each kind of part."""
    priced = study.rack.prices is not None
    made = new_table(
        "Bracing", ">added\nsteel", *([">added\ncost"] if priced else []),
        ">sag, of\nits limit", ">sway, of\nits limit",
        ">swing, of\nlow grip", ">post\npipe", ">beam\npipe", ">braces",
        ">weakest\nelse",
    )  # fmt: skip
    for r in study.results:
        grip = r.swing and r.swing.grip_low
        turn = r.swing.torque / grip if r.swing and grip else None
        shares = [
            "-" if part is None else share_cell(part, MARK)
            for part in (r.sag.use, r.sway.use, turn)
        ]
        uses = [
            use_cell(worst_row(r.rows, *kinds), MARK)
            for kinds in (
                (PartKind.POST,),
                (PartKind.BEAM,),
                (PartKind.KNEE, PartKind.STAY),
                (REST,),
            )
        ]
        cost = [amount(r.added_cost)] if priced else []
        made.add_row(r.title, show(r.added_steel, "weight", system), *cost, *shares, *uses)
    gust, service = (
        show(v, "speed", system) for v in (study.rack.site.map_gust, study.rack.site.service_gust)
    )
    dropped = f"Too many to solve, left out: {'; '.join(study.dropped)}" if study.dropped else ""
    return under_title(
        f"Side by side. Uses at the map gust of {gust}, sway and swing in a gust of {service}.",
        made,
        f"100 % is all it can take with the code's margin, or all the limit lets it move. {MARK}: "
        "over that. Post pipe, beam pipe, braces: along their length; joints, welds, bolts and "
        "ground are under weakest else. Low grip: what the set bolts surely hold.",
        what_cost_counts(study.rack),
        dropped,
    )


def _sag(study: Study, system: str) -> Group:
    made = new_table(
        "Bracing", ">weight\nalone", ">still\nair", ">limit", ">from\npipe", ">from\nsleeve",
        ">from\npost", ">play of\nsleeve", "where",
    )  # fmt: skip
    for r in study.results:
        sag = r.sag
        droops = [
            flagged(words.movement_words(v, system), over=abs(v) > sag.limit)
            for v in (sag.dead, sag.still_air)
        ]
        rest = (sag.limit, sag.pipe, sag.sleeve, sag.post, sag.slop)
        made.add_row(
            r.title, *droops, *(words.movement_words(v, system) for v in rest), str(sag.where)
        )
    return under_title(
        "Sag: how far the beam droops (minus: it stands up)",
        made,
        "Pipe, sleeve and post add up to the sag under the weight alone; still air adds the pull "
        "of the guys. Play comes on top, once, either way.",
    )


def _sway(study: Study, system: str) -> Group:
    made = new_table("Bracing", ">sway", ">limit", ">swing", ">grip, low\nto high", "worst wind")
    for r in study.results:
        sway, swing = r.sway, r.swing
        cells: list[RenderableType] = ["-", "-"]
        blows = words.wind(sway.words)
        if swing:
            cells = [_torque(r, system), _grip(r, system)]
            if swing.words != sway.words:
                blows = f"sway: {blows}\nswing: {words.wind(swing.words)}"
        why = gone(sway, r.first_break, study.rack.posts.height)
        moved = why or flagged(words.movement_words(sway.top, system), over=sway.use > 1.0)
        made.add_row(r.title, moved, words.movement_words(sway.limit, system), *cells, blows)
    gust = show(study.rack.site.service_gust, "speed", system)
    held = any(r.swing for r in study.results)
    return under_title(
        f"Sway of the post top, and swing about the post, in a gust of {gust}",
        made,
        "Swing over the high grip: the sleeve turns on the post. Between low and high: it may."
        if held
        else "Two or more posts hold the beam: it cannot swing about one.",
    )


def _torque(result: BracingResult, system: str) -> RenderableType:
    swing = result.swing
    if swing is None:
        return "-"
    text = show(swing.torque, "torque", system)
    if swing.grip_high is not None and swing.torque > swing.grip_high:
        return flagged(text, over=True, word="TURNS")
    slips = swing.grip_low is not None and swing.torque > swing.grip_low
    return flagged(text, over=slips, word="MAY TURN")


def _grip(result: BracingResult, system: str) -> str:
    swing = result.swing
    if swing is None or swing.grip_low is None or swing.grip_high is None:
        return "pinned"
    low, high = (show(v, "torque", system) for v in (swing.grip_low, swing.grip_high))
    number, _, unit = low.partition(" ")
    return f"{number if high.endswith(unit) else low} to {high}"
