"""From the keys of a file to a rack: catalog look-ups, and defaults that must be worked out."""

import math

from frame.casefile.bracing import build_guys, build_knees, build_stays, build_ties
from frame.casefile.fields import NOTHING
from frame.casefile.keys import PanelKeys, PostKeys, RackKeys, RailKeys, SiteKeys, SleeveKeys
from frame.casefile.notes import Notes
from frame.casefile.pipe import build_pipe
from frame.rack.beam import Beam, Rails, UBolts
from frame.rack.panel import Panels
from frame.rack.post import Footing, Posts
from frame.rack.rack import Limits, Rack
from frame.rack.site import Site
from frame.rack.sleeve import Pin, SetBolts, Sleeve
from frame.tables import channels, soils
from frame.units import parse

SERVICE_SHARE = math.sqrt(0.42)
"""Service over map gust: 0.42 of the wind pressure, IBC 2021 Table 1604.3 note f."""
SET_BOLTS, SET_BOLT, SET_BOLT_TORQUE = 1, "1/2 in", "25 ft-lb"


def assemble(keys: RackKeys, notes: Notes, name: str) -> Rack:
    """Put the rack together; whatever is wrong goes into `notes` and stands as NaN here."""
    notes.take_defaults(keys)
    panels = build_panels(keys.panels)
    rails = build_rails(notes, keys.rails, panels)
    beam_pipe = build_pipe(notes, "beam", keys.beam.pipe, keys.beam.steel)
    return Rack(
        name=keys.name or name,
        site=build_site(notes, keys.site),
        panels=panels,
        tilts=tuple(keys.tilts),
        posts=build_posts(notes, keys.post),
        sleeve=build_sleeve(notes, keys.sleeve),
        beam=Beam(pipe=beam_pipe, length=keys.beam.length),
        rails=rails,
        limits=Limits(sag_per_arm=keys.limits.sag, sway_per_height=keys.limits.sway),
        knees=build_knees(notes, keys.knees),
        ties=build_ties(notes, keys.ties, rails.channel),
        stays=build_stays(notes, keys.stays),
        guys=build_guys(notes, keys.guys),
        units=notes.system,
    )


def build_site(notes: Notes, keys: SiteKeys) -> Site:
    """Make the site; the service gust follows the map gust unless given."""
    gust = keys.service_gust
    if gust is None:
        gust = SERVICE_SHARE * keys.map_gust
        if gust > 0:
            notes.assume("site.service_gust", notes.show(gust, "speed"))
    return Site(
        map_gust=keys.map_gust,
        exposure=keys.exposure,
        elevation=keys.elevation,
        hill_factor=keys.hill_factor,
        flow=("clear", "obstructed") if keys.flow == "both" else (keys.flow,),
        service_gust=gust,
        soil=notes.look_up(soils.find, "site.soil", keys.soil, "clay"),
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
    )


def build_posts(notes: Notes, keys: PostKeys) -> Posts:
    """Make the posts, evenly spaced about the middle of the beam."""
    spacing = 0.0
    if keys.count > 1 and keys.spacing is None:
        notes.wrong("post.spacing", f"is missing for {keys.count} posts", "add post to post")
        spacing = NOTHING
    elif keys.count == 1 and keys.spacing is not None:
        notes.wrong("post.spacing", "is given for one post", "add count = 2, or leave it out")
    elif keys.spacing is not None:
        spacing = keys.spacing
    first = -(keys.count - 1) / 2
    footing = Footing(
        depth=keys.depth, hole=keys.hole, backfill=keys.backfill, ignored=keys.ignored
    )
    return Posts(
        pipe=build_pipe(notes, "post", keys.pipe, keys.steel),
        height=keys.height,
        footing=footing,
        positions=tuple((first + i) * spacing for i in range(keys.count)),
    )


def build_sleeve(notes: Notes, keys: SleeveKeys) -> Sleeve:
    """Make the sleeve, locked by set bolts unless a pin is given."""
    bolt_keys = ("set_bolts", "set_bolt", "set_bolt_torque")
    if keys.pin is not None:
        if any(getattr(keys, name) is not None for name in bolt_keys):
            notes.wrong("sleeve.pin", "stands beside set bolts", "give the pin or the set bolts")
        return Sleeve(length=keys.length, clearance=keys.clearance, lock=Pin(diameter=keys.pin))
    count, size, torque = keys.set_bolts, keys.set_bolt, keys.set_bolt_torque
    if count is None:
        count = SET_BOLTS
        notes.assume("sleeve.set_bolts", str(count))
    if size is None:
        size = parse(SET_BOLT, "length")
        notes.assume("sleeve.set_bolt", notes.show(size))
    if torque is None:
        torque = parse(SET_BOLT_TORQUE, "torque")
        notes.assume("sleeve.set_bolt_torque", notes.show(torque, "torque"))
    lock = SetBolts(count=count, diameter=size, torque=torque)
    return Sleeve(length=keys.length, clearance=keys.clearance, lock=lock)


def build_rails(notes: Notes, keys: RailKeys, panels: Panels) -> Rails:
    """Make the rails; two under each panel column, as long as the panels, unless given."""
    length = keys.length
    if length is None:
        length = panels.chord
        if length > 0:
            notes.assume("rails.length", f"{notes.show(length)}, as far as the panels reach")
    bolts = UBolts(diameter=keys.u_bolt, torque=keys.u_bolt_torque)
    default = "1-5/8 x 1-5/8 in 12 ga"
    return Rails(
        channel=notes.look_up(channels.find, "rails.channel", keys.channel, default),
        positions=rail_positions(notes, keys, panels),
        length=length,
        u_bolts=bolts,
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
    if panels.spread > 0:
        notes.assume("rails.positions", "at the quarter points of the panels' width")
    quarter = panels.width / 4
    if count == 2 * panels.across:
        edges = panels.columns()
        return tuple(x for left, right in edges for x in (left + quarter, right - quarter))
    reach = panels.spread / 2 - quarter
    return tuple(-reach + 2 * reach * i / (count - 1) for i in range(count))
