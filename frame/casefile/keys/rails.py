"""The keys of the channel rails and of what ties them together."""

from typing import Annotated

from frame.casefile.keys.fields import Choice, Count, Text
from frame.casefile.keys.section import Length, Level, Section, Torque, YesNo, key
from frame.tables.channels import COMMON

ChannelName = Annotated[str, Text("the name of a channel", COMMON)]


class RailKeys(Section):
    """The channel rails across the beam, up the slope."""

    channel: ChannelName = key("channel of the rails", COMMON)
    marked: YesNo = key(
        "yes if the channel bears its maker's mark as strut channel: more is counted on", "no"
    )
    count: Annotated[int, Count(2, 80)] | None = key(
        "number of rails, evenly under the columns", None
    )
    positions: list[Level] | None = key(
        "place of each rail along the beam from its middle, left of it negative", None
    )
    length: Length | None = key("length of a rail up the slope", None)
    u_bolt: Length = key("rod diameter of the U-bolt that holds a rail on the beam", "3/8 in")
    u_bolt_torque: Torque | None = key("torque on its nuts", None)
    u_bolts: Annotated[int, Count(1, 4)] = key("U-bolts that hold each rail", 1)
    tilt_stops: Annotated[int, Count(0, 80)] = key(
        "rails held by a plate like the lugs too, welded to the beam and bolted to the rail",
        0,
    )


class TieKeys(Section):
    """Rails along the lower and upper ends of the rails."""

    channel: ChannelName | None = key("channel of the tie rails", None)
    at: list[Annotated[str, Choice(("lower", "upper"))]] = key(
        "which rail ends are tied", ["lower", "upper"]
    )
    fitted: Annotated[str, Choice(("before", "after"))] = key(
        "before or after the panels are on", "after"
    )
