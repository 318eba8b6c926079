"""The paragraphs of the first screen, each a few lines of 80 letters."""

import math
from contextlib import suppress

from frame.changes.cost import concrete_volume
from frame.changes.thrown_away import concrete_to_pour
from frame.errors import FrameError
from frame.loads.wind import GUST_EFFECT
from frame.named.limit_state import LimitState
from frame.plan.decision import Decision
from frame.plan.standing import Standing
from frame.rack.rack import KNEES, Rack
from frame.rack.sleeve import SetBolts
from frame.rack.stood import NOTHING
from frame.records.results import BracingResult
from frame.report.screen.phrases import (
    RISE,
    gust,
    happens,
    in_one_unit,
    movement,
    no_rule,
    number,
    paragraph,
    taped,
)
from frame.report.screen.steps import as_now, moved_words, why_gone
from frame.shop.buying.shopping import BAG
from frame.shop.ground import Ground
from frame.shop.steel.braces import WELDED, knee_piece
from frame.shop.yard.lines import guy_lines
from frame.units import DEG, show
from frame.verdict.sentences import FLAT, FLUTTER
from frame.whatif.tilts import lies_flat

LINE = LimitState.GUY_WIRE, LimitState.GUY_HARDWARE
"""What a guy breaks by."""

MOSTLY = 0.5
HARDLY = 0.25e-3
"""Movement that nobody sees [m]."""
CALMED = {"topples": "it topples all the same; ", "broken": ""}
"""What is told of the post top with guys where its movement means nothing."""
FREE = "no gust falls: fit them if that matters"


def head_paragraph(decision: Decision) -> list[str]:
    """Say which rack it is, in a line."""
    rack, units = decision.rack, decision.rack.units
    posts, footing = rack.posts, rack.posts.footing
    many = len(posts.positions)
    said = (
        f"{many} post{'s' * (many > 1)} {posts.pipe.label}, {taped(posts.height, units)} up, "
        f"{taped(footing.depth, units)} down; beam {taped(rack.beam.length, units)}; "
        f"{rack.panels.across * rack.panels.up} panels"
    )
    name = rack.name.upper()
    return paragraph(name, said, min(len(name) + 2, 30))


def droop_paragraph(decision: Decision) -> list[str]:
    """Say why the beam droops: its shares, whether that is normal, what play may add."""
    sag, units, bow = decision.start.sag, decision.rack.units, decision.rack.beam.bow
    said = _drooped(decision)
    if sag.slop > abs(sag.dead) >= HARDLY:
        play = movement(sag.slop, units)
        said += f" A loose sleeve can add {play}: lift a beam end, does it clunk?"
    if bow and abs(sag.dead) >= HARDLY:
        said += f" Its ends hang {movement(bow, units)} for good, as was read."
    return paragraph("Droops", said)


def droop_line(decision: Decision) -> list[str]:
    """Say why the beam droops by its weight, and no more."""
    return paragraph("Droops", _drooped(decision))


def _drooped(decision: Decision) -> str:
    sag, units = decision.start.sag, decision.rack.units
    if abs(sag.dead) < HARDLY:
        return "hardly at all by weight: nothing to mend there."
    shares = {"beam pipe": sag.pipe, "sleeve": sag.sleeve, "post": sag.post}
    large = {
        name: f"{name} {movement(part, units)}"
        for name, part in sorted(shares.items(), key=lambda s: -abs(s[1]))
        if abs(part) >= 0.1 * abs(sag.dead)
    }
    told = ", ".join(large.values()) if len(large) > 1 else f"nearly all {next(iter(large), '-')}"
    normal = "normal" if sag.use <= 1 else "TOO MUCH"
    limit = movement(sag.limit, units)
    return f"{movement(sag.dead, units)} by weight ({told}): {normal}, limit {limit}."


def sway_paragraph(decision: Decision) -> list[str]:
    """Say why the post top moves, and what the swing about the post meets."""
    start, rack = decision.plan.start, decision.rack
    share = decision.ground
    ground = f"{100 * share:.0f} % of it the ground"
    cause = f"{ground} it stands in" if share > MOSTLY else f"{ground}, the rest the post's pipe"
    knees = "; knees don't help that" if rack.knees else ""
    limit = movement(start.sway.limit, rack.units)
    over = "" if start.sway.use <= 1 else f", limit {limit}"
    told = f"; limit {limit}" if why_gone(start, rack) else f"{over}: {cause}{knees}"
    said = f"{_swayed(decision)}{told}."
    swing = decision.start.swing
    if swing is not None and isinstance(rack.sleeve.lock, SetBolts) and swing.grip_low:
        turns, holds = in_one_unit("torque", rack.units, swing.torque, swing.grip_low)
        said += f" A one-sided gust turns it with {turns}; the set bolts surely hold {holds}."
    told_of = rack.stood
    if told_of and told_of.moved == NOTHING and told_of.panels_on:
        stood = gust(told_of.gust, rack.units)
        said += f" That is in the softest ground: it has stood {stood} with nothing moved."
    more = decision.start.gust_effect / GUST_EFFECT - 1
    if more > 0:
        said += (
            f" It shakes less than once a second: the margin counts {100 * more:.0f} % more wind "
            "force."
        )
    return paragraph("Moves", said)


def sway_line(decision: Decision) -> list[str]:
    """Say how far the post top moves, and what of it is the ground."""
    start, rack = decision.plan.start, decision.rack
    limit = movement(start.sway.limit, rack.units)
    cause = "" if why_gone(start, rack) else f": {100 * decision.ground:.0f} % by soil"
    return paragraph("Moves", f"{_swayed(decision)}, limit {limit}{cause}.")


def _swayed(decision: Decision) -> str:
    start, rack = decision.plan.start, decision.rack
    return f"in a {gust(start.sway.gust, rack.units)} gust {moved_words(start, rack)}"


def left_out(decision: Decision) -> list[str]:
    """Say which bracing described buys nothing, and what guys left out would do to the top."""
    guyed, end = decision.guyed, decision.plan.end
    guys = guyed.bracing if guyed else ()
    names = [n for n in decision.plan.left_out if n not in guys]
    whose = " (ours)" if decision.ours else ""
    why = "not needed" if decision.plan.reached else "no step tried gained by them"
    said = [f"{', '.join(names)}{whose}: {why}"] if names else []
    if guyed:
        called = ", ".join(n for n in guys if n not in end.bracing)
        price, calm = _price_of_calm(guyed, end), CALMED.get(why_gone(guyed, guyed.rack))
        if calm is None:
            top = movement(guyed.sway.top, guyed.rack.units)
            calm = f"the top then moves {top}, {'but' if price else 'and'} "
        said.append(f"{called}{whose}: {calm}{price or FREE}")
    return paragraph("Left out", "; ".join(said) + ".") if said else []


def _price_of_calm(guyed: Standing, end: Standing) -> str:
    """Say what guys lower beside the rack without them, or what no rule covers; "" for nothing."""
    unknown = guyed.uncovered - end.uncovered
    if unknown:
        return no_rule(unknown)
    units, first = end.rack.units, guyed.first_break
    without = end.first_break.gust if end.first_break else math.inf
    if first and first.gust * RISE < without:
        gusts = number(first.gust, units), gust(without, units)
        return f"{happens(first.part, first.check)} at {gusts[0]}, not {gusts[1]}"
    if guyed.limit_gust * RISE < end.limit_gust:
        margins = number(guyed.limit_gust, units), gust(end.limit_gust, units)
        return f"the code's margin ends at {margins[0]}, not {margins[1]}"
    return ""


def guy_paragraph(decision: Decision) -> list[str]:
    """Say which wire, fittings and anchors the plan's guys need."""
    end, units = decision.end, decision.plan.end.rack.units
    if not end.guys:
        return []
    pull = max(g.tension for g in end.guys)
    wire, breaks = _wire(decision)
    if math.isinf(pull):
        untold = "The rack sways over in a wind of its site, so no pull test is told."
        return paragraph("Guys", f"{wire}: with ends and fittings breaks at {breaks}. {untold}")
    said = (
        f"{wire}: pulls {show(pull, 'force', units, 2)}, with ends and fittings breaks at "
        f"{breaks}. Pull-test each anchor to {_test_pull(decision)}, in wet ground."
    )
    return paragraph("Guys", said)


def guy_line(decision: Decision) -> list[str]:
    """Say which wire the plan's guys need, and how hard to pull at their anchors."""
    end, units = decision.end, decision.plan.end.rack.units
    if not end.guys or math.isinf(max(g.tension for g in end.guys)):
        return guy_paragraph(decision)
    wire, _ = _wire(decision)
    pull = show(max(g.tension for g in end.guys), "force", units, 2)
    return paragraph(
        "Guys", f"{wire}: pulls {pull}; pull-test wet anchors to {_test_pull(decision)}."
    )


def _wire(decision: Decision) -> tuple[str, str]:
    """Name the wire of the plan's guys, and what its weakest line breaks at."""
    end, rack = decision.end, decision.plan.end.rack
    wire = ", ".join(dict.fromkeys(g.wire.name for g in rack.guys_in(end.bracing)))
    line = [row.nominal for row in end.rows if row.check in LINE]
    return wire, show(min(line), "force", rack.units, 2)


def _test_pull(decision: Decision) -> str:
    units = decision.plan.end.rack.units
    return show(max(g.test_pull for g in decision.end.guys), "force", units, 2)


def knee_paragraph(decision: Decision) -> list[str]:
    """Say what the braces carry, and which way decides."""
    end, units = decision.end, decision.rack.units
    if not end.braces:
        return []
    push, pull = (max(getattr(b, w) for b in end.braces) for w in ("compression", "tension"))
    decides = "push" if push >= pull else "pull"
    said = (
        f"push {show(push, 'force', units, 2)}, pull {show(pull, 'force', units, 2)} at most: the "
        f"{decides} decides the pipe."
    )
    return paragraph("Braces", said)


def cut_paragraph(decision: Decision) -> list[str]:
    """Say what to cut for the plan's knees and guys, from real pipe surfaces."""
    end = decision.plan.end
    rack, pieces = end.rack, []
    if rack.knees and KNEES in end.bracing:
        with suppress(FrameError):
            piece = knee_piece(rack)
            size = taped(piece.length, rack.units)
            angle = f"{rack.knees.angle / DEG:.0f}"
            ends = "long point to long point"
            if rack.knees.ends != WELDED:
                ends = "of pipe between their tabs"
            pieces.append(f"{piece.count} knees {size} {ends}, {angle} deg off the post")
    lines = guy_lines(rack, end.bracing, Ground())
    for group in rack.guys_in(end.bracing):
        mine = [line for line in lines if line.group == group.name]
        corners, longest = len({m.eye.which for m in mine}), max(m.pins for m in mine)
        pieces.append(f"{corners} {group.name} {taped(longest, rack.units)} pin to pin")
    return paragraph("Cut", "; ".join(pieces) + ".") if pieces else []


def concrete(decision: Decision) -> list[str]:
    """Say how much concrete a plan that adds some ends with; where a rack stands, what is new."""
    plan, units = decision.plan, decision.rack.units
    start, end = plan.start.rack, plan.end.rack
    more = concrete_to_pour(start, end)
    bag, words = BAG[units]
    if more < bag:
        return []
    poured = more if start.stands else concrete_volume(end)
    said = f"about {math.ceil(poured / bag)} bags of {words} round the posts."
    return paragraph("Concrete", said, 10)


def lay_down_paragraph(decision: Decision) -> list[str]:
    """Say before which forecast gust panels come off or go low, as it is and after the plan.

    And where the code is content that more than that may blow.
    """
    act, mapped = decision.end.act_by_gust, decision.rack.site.map_gust
    said = _lay_down(decision)
    if decision.plan.reached and act is not None and act < mapped / RISE:
        said += " The code asks no more, yet one such rack in ten would lose a part by then."
    return paragraph("Storm", said)


def lay_down_line(decision: Decision) -> list[str]:
    """Say before which forecast gust panels come off or go low, and no more."""
    return paragraph("Storm", _lay_down(decision))


def _lay_down(decision: Decision) -> str:
    rack, plan = decision.rack, decision.plan
    if lies_flat(rack):
        return f"no gust can be told of panels laid {FLUTTER}"
    told = [f"{as_now(rack)} {_act_by(decision.start, rack)}"]
    if plan.steps:
        told.append(f"after {len(plan.steps)}: {_act_by(decision.end, rack)}")
    said = f"panels off before a forecast gust of: {'; '.join(told)}."
    return f"{said} Never lay under {FLAT:.0f} deg."


def _act_by(result: BracingResult, rack: Rack) -> str:
    """Return the gust before which panels come off, and where it helps the one once laid low."""
    act = result.act_by_gust
    if act is None:
        return "none looked at"
    low = result.lowered
    if low is None or (low.act_by_gust is not None and low.act_by_gust < RISE * act):
        return gust(act, rack.units)
    good = "any looked at" if low.act_by_gust is None else number(low.act_by_gust, rack.units)
    return f"{gust(act, rack.units)} (laid to {low.tilt / DEG:.0f} deg: {good})"
