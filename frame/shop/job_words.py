"""A job's numbers in words: guys, neighbours, shopping, lifting."""

import math

from frame.checks.guys.anchor import proof_pull
from frame.idealize.posts import post_name
from frame.named.part import PartKind
from frame.rack.rack import STAYS
from frame.records.results import BracingResult
from frame.shop.buying.items import Item
from frame.shop.ground import grades, stepped
from frame.shop.job import Job
from frame.shop.raising import Lift, Raising
from frame.shop.words import tape
from frame.shop.yard.lines import EndClips
from frame.shop.yard.neighbours import Neighbours
from frame.shop.yard.proof import anchor_tests
from frame.tables.steels import welding_advice
from frame.units import DEG, FT, INCH, METRIC, show, told_in

SWAYS_OVER = "the rack sways over in a wind of its site"
"""Why forces of second order have no end."""


def clip_words(clips: EndClips, system: str) -> str:
    """Say how one end of a guy is clipped."""
    return (
        f"{clips.count} clips an end, {tape(clips.apart, system)} apart, wire turned back "
        f"{tape(clips.turn_back, system)}, nuts at {show(clips.torque, 'torque', system)}"
    )


def slope_words(job: Job) -> str:
    """Say which way the ground falls and what that does to tapes, guys and posts."""
    ground = job.ground
    if not ground.slope:
        return _risen_words(job)
    said = (
        f"The ground falls {ground.slope / DEG:.0f} deg to the {ground.falls}: tapes lie along "
        "it, and every guy is cut for where its anchor comes out."
    )
    if job.lines:
        said += " Pulls and strengths were worked out with the anchors on level ground."
    return f"{said} {stepped_words(job)}".rstrip()


def _risen_words(job: Job) -> str:
    """Say that the ground is level, and how much higher or lower the file has anchors."""
    system = job.rack.units
    risen = [
        f"the anchors of {g.name} stand {tape(abs(g.rise), system)} "
        f"{'above' if g.rise > 0 else 'below'} the post's grade"
        for g in job.rack.guys_in(job.bracing)
        if g.rise
    ]
    if not risen:
        return "The ground is taken as level."
    return (
        f"The ground is taken as level, but {' and '.join(risen)}, by rise in the file: pulls and "
        "strengths were worked out so, guys and tapes are as long as that asks for. Level it "
        "before you cut."
    )


def stepped_words(job: Job) -> str:
    """Say how posts of different lengths stand, and what the rack bears so; empty if alike."""
    rack = job.rack
    if not stepped(job.ground, rack):
        return ""
    system, at = rack.units, grades(job.ground, rack)
    heights = [rack.posts.height - grade for grade in at]
    falls = ", ".join(
        f"{tape(abs(grade - at[0]), system)} {'lower' if grade < at[0] else 'higher'} at "
        f"{post_name(rack, i)}"
        for i, grade in enumerate(at)
        if i
    )
    said = (
        f"The beam is level, so the posts differ in length. Against {post_name(rack, 0)} the "
        f"ground lies {falls}: prove it with a level before a post is cut."
    )
    if job.result is None:
        return said
    return (
        f"{said} Solved with every post as tall as the tallest, "
        f"{tape(max(heights), system)} from grade to the beam's centre line: "
        f"{_bears(job.result, system)}."
    )


def marked_elsewhere(job: Job) -> list[str]:
    """Say which rails are marked elsewhere than the file has them, and what the rack bears so."""
    system = job.rack.units
    said = [
        f"Rail {one.rail} is marked {tape(abs(one.shift), system)} nearer the {_end(one.shift)} "
        f"end than the file has it: there its U-bolts clear the {one.what.replace(', ', ' ')}."
        for one in job.moved
    ]
    if said and job.result is not None:
        said.append(f"Solved with the rails as they are marked: {_bears(job.result, system)}.")
    return said


def crowded_words(job: Job) -> list[str]:
    """Say which rails find no room for their U-bolts where they are marked, and what helps."""
    system = job.rack.units
    said = []
    for one in job.crowded:
        what = one.what.replace(", ", " ")
        place = (
            f"the nearest free place under that panel is {tape(abs(one.place), system)} "
            f"{'right' if one.place > 0 else 'left'} of the beam's middle: write it into [rails] "
            "positions and run this again; or"
            if one.place is not None
            else "no place under that panel is free of all that is welded there: other places in "
            "[rails] positions,"
        )
        said.append(
            f"WARNING: the {what} stands in the way of the U-bolts of rail {one.rail}. "
            f"{tape(abs(one.shift), system)} nearer the {_end(one.shift)} end they would clear "
            "it, but the rail would leave its panel, its clamps or its place beside the others: "
            f"it is marked where the file has it, and cannot be bolted so. What helps: {place} "
            "fewer U-bolts to a rail, or less width of what stands there."
        )
    return said


def _end(shift: float) -> str:
    return "far" if shift > 0 else "hook"


def _bears(result: BracingResult, system: str) -> str:
    least, broken = result.limit_gust, result.first_break
    margin = "" if least is None else f"; the code's margin reaches {show(least, 'speed', system)}"
    breaks = (
        f"the first break is expected at {show(broken.gust, 'speed', system)}"
        if broken
        else "no break is expected"
    )
    return breaks + margin


def neighbour_words(found: Neighbours, system: str) -> list[str]:
    """Say how far apart racks stand, and what is wrong at the distance asked for."""
    said = []
    if found.turning:
        sweep = tape(found.turning, system)
        said.append(f"Turned right round, a rack sweeps {sweep} from its post at every tilt.")
    said.append(
        "Nothing of one is in the way of the other from post to post (middle to middle) "
        f"{tape(found.beside, system)} side by side, or {tape(found.behind, system)} one behind "
        "the other."
    )
    if found.given:
        along, behind = (tape(d, system) for d in found.given)
        wrong = "; ".join(found.faults) or "nothing is in the way"
        said.append(f"At {along} along and {behind} behind: {wrong}.")
    return said


def proof_words(job: Job) -> list[str]:
    """Say what each anchor must stand in a pull test."""
    if job.result is None or not job.lines:
        return []
    system = job.rack.units
    return [
        f"Pull test: every anchor of {name} must stand {show(pull, 'force', system, 2)} along its "
        "guy for ten minutes, in wet ground, without creeping. It pulls at most "
        f"{show(most, 'force', system, 2)} in the winds looked at."
        if math.isfinite(pull)
        else f"Pull test: none is told for the anchors of {name}: {SWAYS_OVER}."
        for name, (pull, most) in anchor_tests(job.result, job.lines).items()
    ]


def foot_words(job: Job) -> list[str]:
    """Say what the feet of stays must stand, which no check covers."""
    if job.result is None or STAYS not in job.bracing:
        return []
    stays = [b for b in job.result.braces if b.name.kind is PartKind.STAY]
    pull, push = max(b.tension for b in stays), max(b.compression for b in stays)
    proof, system = float(proof_pull(pull, 0.0)), job.rack.units
    unchecked = "Feet of stays: nothing here checks the ground that holds them."
    if math.isinf(max(pull, push)):
        return [f"{unchecked} No pull test is told: {SWAYS_OVER}."]
    said = (
        f"{unchecked} Each must stand {show(proof, 'force', system, 2)} along its stay for ten "
        "minutes in a pull test, in wet ground, and a push of"
        f" {show(push, 'force', system, 2)} without sinking."
    )
    return [said]


def amount_words(item: Item, amount: float, system: str) -> str:
    """Say how much of an item."""
    if item.unit == "liquid":
        factor, label = (1e-3, "L") if system == METRIC else (231 * INCH**3, "gal")
        return f"{amount / factor:.1f} {label}"
    if item.unit == "volume":
        factor, label = (1.0, "m3") if system == METRIC else (FT**3, "cu ft")
        return (
            f"{amount / factor:.2g} {label}"
            if amount < factor
            else f"{amount / factor:.1f} {label}"
        )
    if item.unit:
        return show(amount, item.unit, system)
    return f"{amount:.0f}"


def price_words(item: Item, job: Job) -> str:
    """Say what an item costs for all racks, nothing where the file gives no price."""
    if item.price is None:
        return ""
    return currency_amount(item.price * item.to_buy(job.racks))


def currency_amount(amount: float) -> str:
    """Return an amount of the file's currency."""
    return f"{amount:,.0f}" if amount >= 20 else f"{amount:.2f}"


def cost_words(job: Job) -> list[str]:
    """Say what a rack costs with everything the file has prices for."""
    each = job.shopping.cost
    if each is None or job.rack.prices is None:
        return ["No prices stand in the file: write them under [prices], and cost is told."]
    name = job.rack.prices.currency
    said = f"One rack costs {currency_amount(each)} {name}".rstrip()
    if job.racks > 1:
        said += f", {job.racks} cost {currency_amount(each * job.racks)}"
    counted = "material, concrete, rod, digging and work; nothing taken off for what is at hand"
    return [f"{said}, by the file's prices: {counted}."]


def lifting_words(found: Raising, system: str) -> list[str]:
    """Say when nothing is lifted, and what holds what meanwhile."""
    calm, low = show(found.calm, "speed", system), show(found.low_edge, "force", system, 2)
    calmly = (
        f"Nothing is lifted in gusts over {calm}, nor with such forecast for the day. Nobody "
        "stands under a beam or panels. One leads and gives the signals, nobody else."
    )
    loose = (
        f"While the U-bolts are loose the panels swing about the beam: {low} at the low edge of "
        "the rails holds all of them. Prop and rope it for three times that."
    )
    said = [calmly, loose]
    if found.jack:
        force = show(found.jack, "force", system, 2)
        said.append(
            f"Jacking before the knees takes about {force} at each knee point (beam, rails and "
            "panels as an even load on a stiff post). If it takes half as much again, stop and "
            "look what binds."
        )
    return said


def lift_words(stage: Lift, system: str) -> str:
    """Say what is lifted in a stage and where it balances."""
    if not stage.lift:
        return ""
    said = show(stage.lift, "weight", system)
    if stage.balance is not None:
        said += f"; {tape(stage.balance, system)} from its hook end"
    return said


def weld_advice(job: Job) -> list[str]:
    """Say how the steels of this rack are welded, as far as anything is known of them."""
    rack = job.rack
    pipes = [rack.posts.pipe, rack.beam.pipe]
    pipes += [part.pipe for part in (rack.knees, rack.stays) if part]
    names = dict.fromkeys([p.steel.name for p in pipes] + [rack.sleeve.steel.name])
    told = ((name, told_in(welding_advice(name), rack.units)) for name in names)
    return [f"Steel {name}: {advice}." for name, advice in told if advice]
