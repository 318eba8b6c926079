"""Keys of a pipe, and the names of pipes and steels."""

from typing import Annotated

from pydantic import Discriminator, Tag

from frame.casefile.keys.fields import Choice, Quantity, Text
from frame.casefile.keys.section import Length, Section, Wall, key, table_or_text

SteelName = Annotated[str, Text("the name of a steel", "A53 B")]


class PipeKeys(Section):
    """A pipe that is not simply a catalog name: measured, weighed, rusted or pitted."""

    listed: (
        Annotated[str, Text("the catalog name of the pipe", "2-7/8 in tubing 6.5 lb/ft")] | None
    ) = key("catalog name, where the pipe is known but rusted or pitted", None)
    od: Length | None = key("outside diameter: tape round the pipe, divided by 3.1416", None)
    wall: Wall | None = key(
        "wall: the least of four caliper readings at a cut end, or a gauge", None
    )
    weight: Annotated[float, Quantity("weight per length")] | None = key(
        "weight per length, from a bathroom scale; the wall is worked out from it", None
    )
    rust: Annotated[float, Quantity("length", "not negative")] = key(
        "depth of rust to take off the outside all round, beyond what was measured", "0 in"
    )
    fitted: Length | None = key(
        "wall that its bending tells of, by `rack diagnose`; the code takes it where thinner", None
    )
    condition: Annotated[str, Choice(("sound", "pitted"))] | None = key(
        "sound, or pitted to the eye (pitted counts three quarters of the wall)", None
    )


PipeName = Annotated[str, Text("the catalog name of a pipe", "3-1/2 in nominal")]
Pipe = Annotated[
    Annotated[PipeName, Tag("text")] | Annotated[PipeKeys, Tag("table")],
    Discriminator(table_or_text),
]
PIPE_HELP = "catalog name, or { od, wall } or { od, weight } for pipe without a name"
STEEL_HELP = "steel, as marked on the pipe or on its papers"
