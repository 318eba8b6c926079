"""The keys of a rack file, section by section: types, defaults, and a description of each.

A default stands here as a builder would write it; `assumptions.toml` says of each which way it
errs and how to find the true value out. `None` marks a value the builder of the rack works out.
"""

from typing import Annotated

from pydantic import Field

from frame.casefile.keys.fields import Choice, Count, PlainNumber, Quantity, Ratio, Text
from frame.casefile.keys.lines import ATTACHMENTS, GuyKeys, HillKeys
from frame.casefile.keys.measured import MeasuredKeys
from frame.casefile.keys.pipes import PIPE_HELP, STEEL_HELP, Pipe, SteelName
from frame.casefile.keys.rails import RailKeys, TieKeys
from frame.casefile.keys.section import (
    Length,
    Level,
    Offset,
    Section,
    Torque,
    Wall,
    YesNo,
    key,
)
from frame.casefile.keys.store import PriceKeys, StickKeys, StockKeys
from frame.named.backfill import BACKFILLS, EARTH
from frame.rack.stood import MOVED
from frame.units import MPH

ELECTRODES = {"E60": "60 ksi", "E70": "70 ksi"}
"""Classes of rod and the tensile strength each stands for, AWS A5.1."""
HIGHEST = (5000.0, "16 400 ft (5000 m)")
FIERCEST = (200 * MPH, "200 mph")


class SiteKeys(Section):
    """Where the rack stands."""

    map_gust: Annotated[float, Quantity("speed")] = key(
        "3-second gust of the site from the building office or the code's map (risk category II), "
        "not the worst wind remembered"
    )
    exposure: Annotated[str, Choice(("B", "C", "D"))] = key(
        "B woods or town all round, C open country, D open water", "C"
    )
    elevation: Annotated[float, Quantity("length", "any", HIGHEST)] = key(
        "height of the ground above the sea", "0 ft"
    )
    hill_factor: Annotated[float, PlainNumber(1.0, 4.0)] = key(
        "speed-up over a hill on the wind pressure (Kzt), 1 on flat ground", 1.0
    )
    flow: Annotated[str, Choice(("clear", "obstructed", "both"))] = key(
        "wind under the panels: clear, obstructed (more than half blocked), or both", "both"
    )
    soil: Annotated[str, Text("the kind of soil", "clay")] = key("kind of soil", "clay")
    ground_stiffness: Annotated[float, PlainNumber(0.01, 100.0)] | None = key(
        "stiffness of the ground over the middle of its kind, by `rack diagnose`", None
    )
    hill: HillKeys | None = key("a rise of the ground, in place of hill_factor", None)
    snow: Annotated[float, Quantity("pressure", "not negative")] = key(
        "ground snow load of the code's 2022 maps (risk category II)", "0 psf"
    )
    ice: Offset = key("thickness of ice from freezing rain, of the same maps", "0 in")
    ice_gust: Annotated[float, Quantity("speed")] | None = key(
        "3-second gust that comes with the ice, of the same maps", None
    )
    frost: Offset | None = key("depth that frost reaches", None)
    pressure: Annotated[float, Quantity("pressure")] | None = key(
        "net pressure square to the panels, their mean at the map gust, before the code's 0.6: "
        "the standard's winds are scaled to it",
        None,
    )
    service_gust: Annotated[float, Quantity("speed")] | None = key(
        "gust at which sway and swing are compared", None
    )


class PanelKeys(Section):
    """The panels, a grid of equal ones."""

    across: Annotated[int, Count(1, 40)] = key("panels side by side along the beam")
    up: Annotated[int, Count(1, 10)] = key("panels one above the other up the slope")
    size: Annotated[tuple[float, float], Quantity("size")] = key("short and long side of a panel")
    weight: Annotated[float, Quantity("weight", heavier=True)] = key(
        "weight of one panel, as it hangs in use"
    )
    long_side: Annotated[str, Choice(("up the slope", "along the beam"))] = key(
        "which way the long side of a panel lies", "up the slope"
    )
    gap: Offset = key("gap between neighbouring panels", "1/2 in")
    clamp_bolt: Length = key("diameter of the bolt of a panel clamp, four to a panel", "1/4 in")
    thickness: Length = key("thickness of a panel's frame, seen edge-on", "1-3/8 in")
    rating: Annotated[float, Quantity("pressure")] | None = key(
        "pressure a panel was tested for, from its papers; not checked if left out", None
    )


class PostKeys(Section):
    """The post or posts and their setting in the ground."""

    pipe: Pipe = key(f"post pipe: {PIPE_HELP}")
    height: Length = key("from grade to the centre line of the beam")
    steel: SteelName | None = key(STEEL_HELP, None)
    depth: Length = key(
        "how far the post goes below grade; push a rod down beside it to its foot, or take its "
        "whole length less what stands above grade"
    )
    hole: Length = key("diameter of the hole", "10 in")
    backfill: Annotated[str, Choice(BACKFILLS)] = key("what the hole is filled with", EARTH)
    ignored: Offset = key("top of the soil that is not counted: frost, plough, shrinkage", "1 ft")
    foot: Length | None = key("width of a plate or flat stone under the foot", None)
    slab: Annotated[str, Choice(("yes", "no"))] = key(
        "is there a rigid slab all round the post at grade", "no"
    )
    count: Annotated[int, Count(1, 4)] = key("number of equal posts under the beam", 1)
    spacing: Length | None = key("from post to post, centre to centre; with two or more", None)


class SleeveKeys(Section):
    """The sleeve that carries the beam on the post."""

    length: Length = key("length of sleeve over the post", "8 in")
    clearance: Length = key("play: bore of the sleeve less outside diameter of the post", "1/8 in")
    play: Offset | None = key(
        "play found by `rack diagnose`, or left by a shim: it counts, not the clearance", None
    )
    stiffness: Annotated[float, PlainNumber(0.01, 100.0)] | None = key(
        "its stiffness against tilting over what is worked out, by `rack diagnose`", None
    )
    wall: Wall | None = key("wall of the sleeve, as measured at its foot, or a gauge", None)
    steel: SteelName | None = key("steel of the sleeve, as marked on it or on its papers", None)
    set_bolts: Annotated[int, Count(1, 12)] | None = key("number of set bolts", None)
    set_bolt: Length | None = key("diameter of a set bolt", None)
    set_bolt_torque: Torque | None = key("torque each set bolt is tightened to", None)
    jam_nuts: YesNo | None = key("yes if every set bolt is locked by a jam nut", None)
    pin: Length | None = key("diameter of a bolt or pin right through sleeve and post", None)


class BeamKeys(Section):
    """The crossbeam."""

    pipe: Pipe = key(f"beam pipe: {PIPE_HELP}")
    length: Length = key("end to end; the posts stand under its middle")
    steel: SteelName | None = key(STEEL_HELP, None)
    bow: Level | None = key("how far its ends hang for good, by `rack diagnose`", None)
    splices: list[Level] | None = key(
        "places where two lengths of pipe are welded end to end, from the beam's middle", None
    )
    splice_efficiency: Annotated[float, PlainNumber(0.1, 1.0)] | None = key(
        "strength of such a weld as a share of the pipe's", None
    )


class WeldKeys(Section):
    """The welds: fillets all round."""

    leg: Length = key("leg of the fillets", "3/16 in")
    electrode: Annotated[str, Choice(tuple(ELECTRODES))] = key("class of the rod or wire", "E70")
    lug_length: Length = key("length along the pipe of the lugs of guys and pinned braces", "3 in")
    lug_plate: Length = key("thickness of those lugs", "1/4 in")
    lug_bolt: Length = key("diameter of the bolt through each, and through rail ends", "1/2 in")


class KneeKeys(Section):
    """Knee braces from each post out to the beam, both sides."""

    pipe: Pipe = key(f"brace pipe: {PIPE_HELP}")
    drop: Length = key("from the beam's centre line down to the work point on the post")
    reach: Length = key("from the post's centre line out to the work point on the beam")
    steel: SteelName | None = key(STEEL_HELP, None)
    ends: Annotated[str, Choice(("pinned", "welded"))] = key("how the ends are held", "pinned")
    fitted: Annotated[str, Choice(("before", "after", "jacked"))] = key(
        "before the panels, after them, or jacked: after, with the beam lifted to shape", "after"
    )


class StayKeys(Section):
    """Stiff pipes from the rack down to the ground."""

    attach: Annotated[str, Choice(ATTACHMENTS)] = key("where they start", alias="from")
    pipe: Pipe = key(f"stay pipe: {PIPE_HELP}")
    out: Length = key("from the attachment to the foot, across the beam")
    along: Offset = key("from the attachment to the foot, along the beam", "0 ft")
    steel: SteelName | None = key(STEEL_HELP, None)
    fitted: Annotated[str, Choice(("before", "after"))] = key(
        "before or after the panels are on", "after"
    )


class StoodKeys(Section):
    """The strongest gust the rack has lived through."""

    gust: Annotated[float, Quantity("speed", "positive", FIERCEST)] = key(
        "3-second gust at the rack: of the nearest weather station on that day"
    )
    tilt: Annotated[float, Quantity("angle", "any")] = key("tilt of the panels in that gust")
    fitted: list[Annotated[str, Text("the name of a bracing", "knees")]] | None = key(
        "bracing that was on it then, by the names used in this file", None
    )
    panels: Annotated[str, Choice(("on", "off"))] = key("were the panels on or off", "on")
    moved: Annotated[str, Choice(MOVED)] = key("what was found moved afterwards", "nothing")


class LimitKeys(Section):
    """Movements that are flagged."""

    sag: Annotated[float, Ratio()] = key("sag of a beam end, as a part of its arm", "1/180")
    sway: Annotated[float, Ratio()] = key("sway of the post top, as a part of its height", "1/80")


class RackKeys(Section):
    """A panel rack: post, beam, rails, panels, site, and the bracing to compare."""

    name: Annotated[str, Text("a name for the rack", "boat shed")] | None = key(
        "name of the rack in answers; the file's name if left out", None
    )
    tilts: list[Annotated[float, Quantity("angle", "any")]] = key(
        "tilts of the panels in use, lowest edge down, all of them checked"
    )
    site: SiteKeys
    panels: PanelKeys
    post: PostKeys
    sleeve: SleeveKeys = Field(default_factory=SleeveKeys)
    beam: BeamKeys
    rails: RailKeys = Field(default_factory=RailKeys)
    welds: WeldKeys = Field(default_factory=WeldKeys)
    ties: TieKeys | None = None
    knees: KneeKeys | None = None
    stays: StayKeys | None = None
    guys: list[GuyKeys] = Field(default_factory=list)
    limits: LimitKeys = Field(default_factory=LimitKeys)
    stands: YesNo = key(
        "yes if the rack is welded up and in the ground already; [measured] says so too", "no"
    )
    stood: StoodKeys | None = None
    measured: MeasuredKeys | None = None
    prices: PriceKeys | None = None
    stock: list[StockKeys] = Field(default_factory=list)
    sticks: list[StickKeys] = Field(default_factory=list)


SECTIONS: dict[str, type[Section]] = {
    "site": SiteKeys,
    "panels": PanelKeys,
    "post": PostKeys,
    "sleeve": SleeveKeys,
    "beam": BeamKeys,
    "rails": RailKeys,
    "welds": WeldKeys,
    "ties": TieKeys,
    "knees": KneeKeys,
    "stays": StayKeys,
    "guys": GuyKeys,
    "limits": LimitKeys,
    "stood": StoodKeys,
    "measured": MeasuredKeys,
    "prices": PriceKeys,
    "stock": StockKeys,
    "sticks": StickKeys,
}


def key_names(section: type[Section]) -> tuple[str, ...]:
    """Key names of a section as written in the file."""
    return tuple(field.alias or name for name, field in section.model_fields.items())
