"""From the keys of a file to a rack: catalog look-ups, and defaults that must be worked out."""

import math
from dataclasses import replace

from frame.casefile.assemble.bracing import build_guys, build_knees, build_stays, build_ties
from frame.casefile.assemble.ground import find_soil
from frame.casefile.assemble.measured import build_measured
from frame.casefile.assemble.pipe import build_pipe
from frame.casefile.assemble.sleeve_and_welds import build_sleeve, build_welds
from frame.casefile.assemble.sticks import build_sticks
from frame.casefile.assemble.stock import build_stock
from frame.casefile.assemble.stood import build_stood
from frame.casefile.keys.fields import NO_NUMBER
from frame.casefile.keys.rack import (
    BeamKeys,
    PanelKeys,
    PostKeys,
    RackKeys,
    SiteKeys,
)
from frame.casefile.keys.rails import RailKeys
from frame.casefile.keys.store import PriceKeys
from frame.casefile.notes import Notes
from frame.named.backfill import CONCRETE
from frame.rack.beam import Beam, Rails, UBolts
from frame.rack.panel import Panels
from frame.rack.post import Footing, Posts
from frame.rack.prices import Prices
from frame.rack.rack import Limits, Rack
from frame.rack.site import Hill, Site
from frame.tables import channels, wrench
from frame.tables.soils import on_site
from frame.units import MPH

SERVICE_SHARE = math.sqrt(0.42)
"""Service over map gust: 0.42 of the wind pressure, IBC 2021 Table 1604.3 note f."""
ICE_GUST = 60 * MPH
"""Highest gust that comes with ice over most land, ASCE/SEI 7-22 Fig. 10.4-2 (from memory)."""
SPLICE = 0.5
"""Share of the pipe's strength in a splice weld that nobody has tested: judgement."""


def assemble(keys: RackKeys, notes: Notes, name: str) -> Rack:
    """Put the rack together; whatever is wrong goes into `notes` and stands as NaN here."""
    notes.take_defaults(keys)
    panels = build_panels(keys.panels)
    rails = build_rails(notes, keys.rails, panels)
    posts = build_posts(notes, keys.post)
    rack = Rack(
        name=keys.name or name,
        site=build_site(notes, keys.site),
        panels=panels,
        tilts=tuple(keys.tilts),
        posts=posts,
        sleeve=build_sleeve(notes, keys.sleeve, posts.pipe),
        beam=build_beam(notes, keys.beam),
        rails=rails,
        welds=build_welds(keys.welds),
        limits=Limits(sag_per_arm=keys.limits.sag, sway_per_height=keys.limits.sway),
        knees=build_knees(notes, keys.knees),
        ties=build_ties(notes, keys.ties, rails.channel),
        stays=build_stays(notes, keys.stays),
        guys=build_guys(notes, keys.guys),
        units=notes.system,
        prices=build_prices(keys.prices),
        stock=build_stock(notes, keys.stock),
        sticks=build_sticks(notes, keys.sticks),
        stands=keys.stands == "yes" or keys.measured is not None,
    )
    return replace(
        rack,
        stood=build_stood(notes, keys.stood, rack.bracing_names),
        measured=build_measured(notes, keys.measured, rack),
    )


def build_prices(keys: PriceKeys | None) -> Prices | None:
    """Make the prices; what the file does not price counts as nothing."""
    if keys is None:
        return None
    return Prices(
        currency=keys.currency or "",
        pipe=keys.pipe,
        rail=keys.rail,
        wire=keys.wire,
        fitting=keys.fitting,
        anchor=keys.anchor,
        concrete=keys.concrete,
        rod=keys.rod,
        work=keys.work,
    )


def build_site(notes: Notes, keys: SiteKeys) -> Site:
    """Make the site; the service gust follows the map gust unless given."""
    gust = keys.service_gust
    if gust is None:
        gust = SERVICE_SHARE * keys.map_gust
        if gust > 0:
            notes.assume("site.service_gust", notes.show(gust, "speed"))
    soil = find_soil(notes, "site.soil", keys.soil, "clay")
    return Site(
        map_gust=keys.map_gust,
        exposure=keys.exposure,
        elevation=keys.elevation,
        hill_factor=keys.hill_factor,
        flow=("clear", "obstructed") if keys.flow == "both" else (keys.flow,),
        service_gust=gust,
        hill=build_hill(notes, keys),
        snow=keys.snow,
        ice=keys.ice,
        ice_gust=ice_gust(notes, keys),
        pressure=keys.pressure or 0.0,
        frost=keys.frost or 0.0,
        soil=on_site(soil, keys.ground_stiffness) if keys.ground_stiffness else soil,
    )


def ice_gust(notes: Notes, keys: SiteKeys) -> float:
    """Return the gust that comes with ice [m/s], the highest of the maps' if it is not given."""
    if keys.ice <= 0:
        if keys.ice_gust is not None:
            notes.warn(
                "The gust that comes with ice counts only where site.ice is given: it is not."
            )
        return 0.0
    if keys.ice_gust is None:
        notes.assume("site.ice_gust", notes.show(ICE_GUST, "speed"))
    return keys.ice_gust or ICE_GUST


def build_hill(notes: Notes, keys: SiteKeys) -> Hill | None:
    """Make the hill, a ridge with the rack on its crest unless the file says otherwise."""
    hill = keys.hill
    if hill is None:
        return None
    if "hill_factor" in keys.model_fields_set:
        notes.wrong("site.hill_factor", "stands beside a hill", "give one of the two")
    notes.assumptions[:] = [a for a in notes.assumptions if a.key != "site.hill_factor"]
    if hill.shape is None:
        notes.assume("site.hill.shape", "ridge", "hill.shape")
    if hill.distance is None:
        notes.assume("site.hill.distance", "0, on the crest", "hill.distance")
    return Hill(
        shape=hill.shape or "ridge",
        height=hill.height,
        half_length=hill.half_length,
        distance=hill.distance or 0.0,
    )


def build_panels(keys: PanelKeys) -> Panels:
    """Make the panels, long side up the slope or along the beam."""
    short, long = sorted(keys.size)
    upright = keys.long_side == "up the slope"
    return Panels(
        across=keys.across,
        up=keys.up,
        width=short if upright else long,
        height=long if upright else short,
        weight=keys.weight,
        gap=keys.gap,
        clamp_bolt=keys.clamp_bolt,
        rating=keys.rating,
        thickness=keys.thickness,
    )


def build_posts(notes: Notes, keys: PostKeys) -> Posts:
    """Make the posts, evenly spaced about the middle of the beam."""
    spacing = 0.0
    if keys.count > 1 and keys.spacing is None:
        notes.wrong("post.spacing", f"is missing for {keys.count} posts", "add post to post")
        spacing = NO_NUMBER
    elif keys.count == 1 and keys.spacing is not None:
        notes.wrong("post.spacing", "is given for one post", "add count = 2, or leave it out")
    elif keys.spacing is not None:
        spacing = keys.spacing
    first = -(keys.count - 1) / 2
    if keys.foot is None and keys.backfill != CONCRETE:
        notes.assume("post.foot", "none, the pipe's own end")
    footing = Footing(
        depth=keys.depth,
        hole=keys.hole,
        backfill=keys.backfill,
        ignored=keys.ignored,
        foot=keys.foot or 0.0,
        slab=keys.slab == "yes",
    )
    return Posts(
        pipe=build_pipe(notes, "post", keys.pipe, keys.steel),
        height=keys.height,
        footing=footing,
        positions=tuple((first + i) * spacing for i in range(keys.count)),
    )


def build_beam(notes: Notes, keys: BeamKeys) -> Beam:
    """Make the beam, with the splices that it has."""
    efficiency = keys.splice_efficiency
    splices = tuple(sorted(keys.splices or ()))
    if efficiency is None:
        efficiency = SPLICE
        if splices:
            notes.assume("beam.splice_efficiency", f"{efficiency:g}")
    if any(abs(x) >= keys.length / 2 for x in splices):
        right = f"the beam ends at {notes.show(keys.length / 2)} from its middle"
        notes.wrong("beam.splices", "puts a splice beyond the beam", right)
    return Beam(
        pipe=build_pipe(notes, "beam", keys.pipe, keys.steel),
        length=keys.length,
        splices=splices,
        splice_efficiency=efficiency,
        bow=keys.bow or 0.0,
    )


def build_rails(notes: Notes, keys: RailKeys, panels: Panels) -> Rails:
    """Make the rails; two under each panel column, as long as the panels, unless given."""
    length = keys.length
    if length is None:
        length = panels.chord
        if length > 0:
            notes.assume("rails.length", f"{notes.show(length)}, as far as the panels reach")
    torque = keys.u_bolt_torque
    if torque is None:
        torque = wrench.wrench_torque(keys.u_bolt)
        notes.assume("rails.u_bolt_torque", notes.wrench_tight(torque))
    bolts = UBolts(diameter=keys.u_bolt, torque=torque, count=keys.u_bolts)
    return Rails(
        channel=notes.look_up(channels.find, "rails.channel", keys.channel, channels.COMMON),
        positions=rail_positions(notes, keys, panels),
        length=length,
        u_bolts=bolts,
        stops=keys.tilt_stops,
        marked=keys.marked == "yes",
    )


def rail_positions(notes: Notes, keys: RailKeys, panels: Panels) -> tuple[float, ...]:
    """Place the rails along the beam, from its middle, left to right."""
    if keys.positions is not None:
        if keys.count is not None and keys.count != len(keys.positions):
            what = f"is {keys.count} beside {len(keys.positions)} positions"
            notes.wrong("rails.count", what, "leave count out, the positions say it all")
        return tuple(sorted(keys.positions))
    count = keys.count
    if count is None:
        count = 2 * panels.across
        notes.assume("rails.count", f"{count}, two under each column of panels")
    each, over = divmod(count, panels.across)
    if over or each < 2:
        places, where = _spread(count, panels), "spread evenly over the panels' width"
    else:
        strips = [(left, (right - left) / each) for left, right in panels.column_edges()]
        places = tuple(left + strip * (i + 0.5) for left, strip in strips for i in range(each))
        where = f"{each} evenly under each column of panels"
        where = "at the quarter points of the panels' width" if each == 2 else where
    if panels.spread > 0:
        notes.assume("rails.positions", where)
    return places


def _spread(count: int, panels: Panels) -> tuple[float, ...]:
    """Spread rails evenly, the outermost a quarter of a panel from its edge [m]."""
    reach = panels.spread / 2 - panels.width / 4
    return tuple(-reach + 2 * reach * i / (count - 1) for i in range(count))
