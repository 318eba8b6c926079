"""Everything a shop needs for one rack or several, as records."""

from collections.abc import Callable
from dataclasses import dataclass, field

from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.shop.buying.items import Shopping
from frame.shop.buying.shopping import shopping
from frame.shop.buying.there import StandingRack, There, there_already
from frame.shop.cutting.cut_plan import Cutting, PilePlan, pile_plan
from frame.shop.ground import Ground, as_tall_as_the_tallest, check_ground
from frame.shop.raising import Raising, raising
from frame.shop.steel.assembly import joints
from frame.shop.steel.crowded import Crowded, crowded, make_way
from frame.shop.steel.cut_list import cut_list
from frame.shop.steel.pieces import Joint, Piece
from frame.shop.steel.templates import Template, templates
from frame.shop.steel.tilt_stop import StopPlate, stop_plate_of
from frame.shop.steel.welds import Bolted, Weld, bolted_of, welds_of
from frame.shop.yard.clearance import Clearance, clearance
from frame.shop.yard.lines import GuyLine, guy_lines
from frame.shop.yard.neighbours import Neighbours, neighbours
from frame.shop.yard.pull import TensionCard, tension_card
from frame.shop.yard.stakes import Stake, TapeLength, measures, stakes
from frame.shop.yard.trenches import Trench, trenches
from frame.verdict.inspect import inspect

ALIKE = 1e-3
"""Guys of a group that differ by less in length share a card [m]."""


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What is asked for: how many `racks`, on which `ground`, `apart` [m], how it is cut.

    `standing`: the rack as it stands, where it does and no other is built.
    """

    racks: int = 1
    ground: Ground = field(default_factory=Ground)
    apart: tuple[float, float] | None = None
    cutting: Cutting = field(default_factory=Cutting)
    standing: StandingRack | None = None


@dataclass(frozen=True, kw_only=True)
class Job:
    """Equal racks with a `bracing`, set out at a `tilt` [rad]; all but `racks` is of one rack.

    `result`: everything known of the rack solved, None where it was not; with posts of different
    lengths it is solved with all as tall as the tallest. `again` with the splices of the cut plan.
    `moved`: rails that made way for what is welded to the beam, as `rack` has them; `crowded`:
    those that cannot. `beside`: what several racks do to each other. What is `there` already is
    only marked.
    """

    rack: Rack
    bracing: tuple[str, ...]
    tilt: float
    racks: int
    ground: Ground
    result: BracingResult | None
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]
    templates: tuple[Template, ...]
    lines: tuple[GuyLine, ...]
    stakes: tuple[Stake, ...]
    measures: tuple[TapeLength, ...]
    trenches: tuple[Trench, ...]
    cards: tuple[TensionCard, ...]
    beside: Neighbours | None
    welds: tuple[Weld, ...]
    bolted: tuple[Bolted, ...]
    shopping: Shopping
    raising: Raising
    clearance: Clearance
    crowded: tuple[Crowded, ...]
    moved: tuple[Crowded, ...]
    stop: StopPlate | None
    cuts: PilePlan | None
    again: BracingResult | None
    there: There


def make_job(
    rack: Rack,
    bracing: tuple[str, ...],
    wanted: Wanted | None = None,
    result: BracingResult | None = None,
    tell: Callable[[str], None] = lambda _: None,
) -> Job:
    """Work out the job; where it takes long, `tell` hears how far it is.

    Raises
    ------
    InputError
        Where a piece cannot be cut as described, or the ground not staked out.
    """
    asked = wanted or Wanted()
    check_ground(asked.ground, rack)
    tilt = min(rack.tilts)
    file_rack, pieces = rack, cut_list(rack, bracing, tilt, asked.ground)
    rack, moved = make_way(rack, pieces)
    if moved:
        pieces = cut_list(rack, bracing, tilt, asked.ground)
    tall = as_tall_as_the_tallest(rack, asked.ground)
    if result is not None and tall != file_rack:
        tell("solving with rails and posts as they are cut and marked")
        result = inspect(tall, bracing).result
    lines = guy_lines(rack, bracing, asked.ground)
    found = stakes(rack, bracing, asked.ground, lines)
    there = there_already(rack, pieces, asked.standing, tilt, asked.ground)
    new = there.to_cut(pieces)
    wraps = templates(new)
    welds = welds_of(rack, bracing, pieces, wraps)
    cuts = None
    if result is not None:
        cuts = pile_plan(tall, new, asked.racks, result, asked.cutting, tell)
    again = inspect(cuts.again, bracing).result if cuts and cuts.again else None
    several = asked.racks > 1 or asked.apart is not None
    return Job(
        rack=rack,
        bracing=bracing,
        tilt=tilt,
        racks=asked.racks,
        ground=asked.ground,
        result=result,
        pieces=pieces,
        joints=joints(rack, pieces),
        templates=wraps,
        lines=lines,
        stakes=found,
        measures=measures(found),
        trenches=trenches(rack, asked.ground, lines, found),
        cards=_cards(rack, lines),
        beside=neighbours(rack, lines, asked.apart) if several else None,
        welds=welds,
        bolted=bolted_of(rack, bracing, pieces),
        shopping=shopping(
            rack,
            bracing,
            pieces,
            lines,
            welds,
            cuts,
            there,
        ),
        raising=raising(rack, bracing, pieces, asked.standing, there),
        clearance=clearance(rack, bracing, lines, asked.ground),
        crowded=crowded(rack, pieces),
        moved=moved,
        stop=stop_plate_of(rack),
        cuts=cuts,
        again=again,
        there=there,
    )


def _cards(rack: Rack, lines: tuple[GuyLine, ...]) -> tuple[TensionCard, ...]:
    """Return a card for every group and length of guy."""
    groups = {g.name: g for g in rack.guys}
    found: list[TensionCard] = []
    for line in lines:
        alike = (c for c in found if c.name == line.group and abs(c.length - line.pins) < ALIKE)
        if not any(alike):
            found.append(tension_card(groups[line.group], line.group, line.pins))
    return tuple(found)
