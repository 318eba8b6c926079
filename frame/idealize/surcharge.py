"""Unit loads of snow, ice and a worker, and how the wind's speed-up follows from a hill."""

import math

import numpy as np

from frame.fem.model import AFTER
from frame.idealize.actions import DOWN, wind_height
from frame.idealize.deck import Slope, patches
from frame.idealize.draft import Draft
from frame.idealize.drag import add_iced_drag
from frame.loads.cases import ACROSS, ALONG, ActionCase, WindCase
from frame.loads.hill import DOWNWIND, UPWIND, Rise, hill_factor
from frame.loads.ice import (
    ICE,
    ICE_LOAD,
    ICED_DRAG,
    design_thickness,
    ice_cases,
    ice_weight,
)
from frame.loads.snow import QUARTERS, roof_snow, snow_cases
from frame.loads.wind import LEAST_PRESSURE
from frame.loads.wording import BACK, CLEAR, EVEN, FRONT
from frame.loads.worker import worker_cases
from frame.named.part import PartKind
from frame.rack.rack import Rack

ACROSS_WAY = np.array([0.0, 1.0, 0.0])
PLATE_ICE = 0.6 * math.pi
"""Ice on a lying plate over thickness times area, ASCE/SEI 7-22 10.4.1 (from memory)."""
LEVEL = "level on panels"


def speed_up(rack: Rack, slope: Slope) -> float:
    """Kzt [1] at the panels: of the hill if there is one, else as the file gives it.

    The wind may come from either side of the hill: the worse of upwind and downwind counts.
    """
    place = rack.site.hill
    if place is None:
        return rack.site.hill_factor
    hill = Rise(shape=place.shape, height=place.height, half_length=place.half_length)
    height = wind_height(rack, slope)
    return max(
        hill_factor(hill, rack.site.exposure, height, place.distance, side)
        for side in (UPWIND, DOWNWIND)
    )


def worker_places(rack: Rack) -> tuple[str, ...]:
    """Return the nodes where a worker weighs worst: the beam's ends and midspans.

    Nobody may hang on the end of a rail: a U-bolt's friction is no match for that.
    """
    spans = len(rack.posts.positions) - 1
    middles = tuple(f"beam midspan {i + 1}" for i in range(spans))
    return ("beam end, left", "beam end, right", *middles)


def surcharges(rack: Rack, slope: Slope) -> tuple[ActionCase, ...]:
    """Every way a worker, snow or ice may lie on the rack; snow and ice only if the site has it.

    The worker hangs where he loads the rack worst, in still air. ASCE/SEI 7-22 chapters 4, 7, 10.
    """
    found = worker_cases(worker_places(rack))
    snows: tuple[ActionCase, ...] = ()
    if rack.site.snow > 0:
        snows = snow_cases(roof_snow(rack.site.snow, slope.tilt))
    found += snows
    return found + ice_cases(snows) if rack.site.ice > 0 else found


def least_pressure() -> tuple[WindCase, ...]:
    """Winds of the least pressure that the standard allows, from the front and from the back.

    16 psf on the area of panels and pipes seen along the wind, level and even, at any gust;
    ASCE/SEI 7-22 27.1.5 (from memory of the standard). The pipes take it with their drag factor.
    """
    return tuple(
        WindCase(
            name=f"{direction}, least",
            words=f"{words}, least pressure of the standard",
            direction=direction,
            case="",
            flow=CLEAR,
            side=EVEN,
            coefficients=((LEVEL, sense * LEAST_PRESSURE), (ACROSS, sense * LEAST_PRESSURE)),
            fixed=True,
        )
        for direction, words, sense in (
            (FRONT, "wind in the face", 1.0),
            (BACK, "wind from behind", -1.0),
        )
    )


def add_surcharges(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add 1 N of a worker at each place, 1 Pa of level area of snow on each quarter, the ice.

    And 1 Pa on the panels' upright area, pushing level towards +y: no pressure, for the standard's
    least load alone.
    """
    level = draft.load(LEVEL, AFTER)
    for patch in patches(draft, rack):
        level.add_force(patch.node, patch.area * abs(math.sin(slope.tilt)) * ACROSS_WAY)
    for place in worker_places(rack):
        draft.load(f"worker, {place}", AFTER).add_force(draft.marks[place], DOWN)
    if rack.site.snow > 0:
        for half, side in QUARTERS:
            draft.load(f"snow, {half} {side}", AFTER)
        flat = abs(math.cos(slope.tilt))
        for patch in patches(draft, rack):
            load = draft.load(f"snow, {patch.chord_half} {patch.x_side}", AFTER)
            load.add_force(patch.node, patch.area * flat * DOWN)
    if rack.site.ice > 0:
        _add_ice(draft, rack, slope)


def plate_ice(rack: Rack, slope: Slope) -> float:
    """Weight of the site's ice on the panels, of their area [Pa], ASCE/SEI 7-22 10.4.1."""
    return PLATE_ICE * _ice_thickness(rack, slope) * ICE


def _ice_thickness(rack: Rack, slope: Slope) -> float:
    return design_thickness(rack.site.ice, wind_height(rack, slope), speed_up(rack, slope))


def _add_ice(draft: Draft, rack: Rack, slope: Slope) -> None:
    """Add ice of the site's thickness on pipes, rails, panels, and half of each guy's; its drag.

    The other half of a guy's ice hangs on its anchor; the sag of long guys is not counted.
    """
    load = draft.load(ICE_LOAD, AFTER)
    thickness = _ice_thickness(rack, slope)
    add_iced_drag(draft, rack, (ICED_DRAG[ACROSS], ICED_DRAG[ALONG]), thickness)
    across = _diameters(rack)
    for i, member in enumerate(draft.members):
        if max(draft.xyz(n)[2] for n in member.ends) > 0:
            load.members[i] += float(ice_weight(across[member.part.kind], thickness)) * DOWN
    on_panels = plate_ice(rack, slope)
    for patch in patches(draft, rack):
        load.add_force(patch.node, on_panels * patch.area * DOWN)
    wire = {g.name: g.wire.diameter for g in rack.guys}
    for guy in draft.guys:
        length = float(np.linalg.norm(np.subtract(guy.anchor, draft.xyz(guy.node))))
        weight = float(ice_weight(wire[guy.name.group], thickness))
        load.add_force(guy.node, weight * length / 2 * DOWN)


def _diameters(rack: Rack) -> dict[PartKind, float]:
    """Diameter round each kind of part [m]; of a channel, the circle round it."""
    rail = rack.rails.channel
    found = {
        PartKind.POST: rack.posts.pipe.od,
        PartKind.BEAM: rack.beam.pipe.od,
        PartKind.RAIL: math.hypot(rail.depth, rail.width),
    }
    if rack.ties:
        found[PartKind.TIE] = math.hypot(rack.ties.channel.depth, rack.ties.channel.width)
    if rack.knees:
        found[PartKind.KNEE] = rack.knees.pipe.od
    if rack.stays:
        found[PartKind.STAY] = rack.stays.pipe.od
    return found
