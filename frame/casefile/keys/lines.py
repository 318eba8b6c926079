"""Keys of guys and their anchors, and of the hill a rack stands on."""

from typing import Annotated

from pydantic import Discriminator, Tag

from frame.casefile.keys.fields import Choice, Quantity, Text
from frame.casefile.keys.section import Length, Level, Offset, Section, Torque, key, table_or_text
from frame.tables.reader import rows

ATTACHMENTS = ("post top", "beam ends", "rail corners")
ANCHORS = ("deadman", "concrete block", "screw anchor", "pickets", "rock")
TERMINATIONS = tuple(row["termination"] for row in rows("guy_terminations"))
FITTINGS = (*dict.fromkeys(row["item"] for row in rows("guy_hardware")), "none")
SHAFTS = tuple(row["shaft"] for row in rows("screw_torque_factors"))
HOLDFASTS = tuple(row["pickets"] for row in rows("picket_holding"))


class HillKeys(Section):
    """A hill, ridge or bluff that the rack stands on or near."""

    height: Length = key("from the land around up to the crest")
    half_length: Length = key("level, from the crest to where the ground is half of that lower")
    shape: Annotated[str, Choice(("ridge", "escarpment", "hill"))] | None = key(
        "ridge (long), escarpment (bluff: flat beyond the crest) or hill (round)", None
    )
    distance: Offset | None = key("level, from the crest to the rack", None)


class AnchorKeys(Section):
    """A ground anchor described: what its kind needs, or the pull that one of them stood."""

    kind: Annotated[str, Choice(ANCHORS)] = key("kind of ground anchor")
    depth: Length | None = key(
        "deadman: grade to the middle of its face; screw anchor: to its top helix", None
    )
    height: Length | None = key(
        "deadman: height of its face; concrete block: of its eye above the base", None
    )
    length: Length | None = key(
        "deadman: length of its face; block: its base along the guy; rock: grouted length", None
    )
    weight: Annotated[float, Quantity("weight")] | None = key("concrete block: its weight", None)
    torque: Torque | None = key("screw anchor: torque over the last turns", None)
    shaft: Annotated[str, Choice(SHAFTS)] | None = key("screw anchor: its shaft", None)
    size: Length | None = key("screw anchor: diameter of the helix; rock: of the hole", None)
    pickets: Annotated[str, Choice(HOLDFASTS)] | None = key(
        "pickets lashed one behind the other, from the guy backwards", None
    )
    tested: Annotated[float, Quantity("force")] | None = key(
        "pull that one of them stood for ten minutes, along its guy", None
    )
    tested_in: Annotated[str, Choice(("wet", "dry"))] | None = key("how the ground was then", None)


Anchor = Annotated[
    Annotated[str, Choice(ANCHORS), Tag("text")] | Annotated[AnchorKeys, Tag("table")],
    Discriminator(table_or_text),
]


class GuyKeys(Section):
    """A group of equal guys, one towards each corner."""

    attach: Annotated[str, Choice(ATTACHMENTS)] = key("where they start", alias="from")
    wire: Annotated[str, Text("the name of a wire", "1/4 in EHS strand")] = key("strand or rope")
    out: Length = key("from the attachment to the anchor, across the beam")
    along: Offset = key("from the attachment to the anchor, along the beam, away from the post")
    pretension: Annotated[float, Quantity("force")] | None = key(
        "pull a gauge reads in still air, panels on", None
    )
    anchor: Anchor = key(
        "kind of ground anchor, or { kind, ... } with what is known of it", "screw anchor"
    )
    termination: Annotated[str, Choice(TERMINATIONS)] = key(
        "how the wire ends, the weaker end", "forged clips"
    )
    fitting: Annotated[str, Choice(FITTINGS)] = key(
        "weakest fitting in the line, or none", "turnbuckle, hook"
    )
    fitting_size: Length | None = key("its size, across the thread or rod", None)
    rise: Level = key("height of the anchor above grade at the post, below it negative", "0 ft")
    name: Annotated[str, Text("a name for the group", "house-side guys", 30)] | None = key(
        "name of the group in answers", None
    )
