"""What can be read off a standing rack, with which tool, and how well."""

from dataclasses import dataclass
from functools import cache

from frame.tables.reader import rows
from frame.units import parse

SHAKES = "shakes"
"""Kind of a reading that is a plain count in ten seconds."""
OF_ONE_POST = frozenset(
    ("end_moved", "end_stayed", "lift_left", "lift_right", "level", "level_pressed", "play")
)
"""Readings that tell of the play of a sleeve, and so only where one post holds the beam."""
THIN = frozenset(("beam_wall", "post_wall", "play"))
"""Lengths told as thicknesses."""
FIELDS = ("key", "kind", "tool", "needs", "words", "how")


@dataclass(frozen=True, slots=True)
class ReadingKind:
    """A reading by its `key`: `kind` of quantity, usual `tool`, in `words`.

    `needs` names the force it is read under ("pull", "push", "press"), "" for none; `how` it is
    read.
    """

    key: str
    kind: str
    tool: str
    needs: str
    words: str
    how: str


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool for readings of a `kind`; two readings in three come `within` of the truth [SI]."""

    name: str
    kind: str
    within: float


@cache
def reading_kinds() -> dict[str, ReadingKind]:
    """Return every reading by its key."""
    return {row["key"]: ReadingKind(*(row[field] for field in FIELDS)) for row in rows("readings")}


@cache
def tools() -> dict[str, Tool]:
    """Return every tool by its name."""
    return {
        row["tool"]: Tool(row["tool"], row["kind"], reading_in_si(row["within"], row["kind"]))
        for row in rows("reading_tools")
    }


def reading_in_si(text: str, kind: str) -> float:
    """Return a quantity of a reading in SI; UnitError where it is none.

    Shakes in ten seconds are told as a frequency [Hz].
    """
    return float(text) / 10.0 if kind == SHAKES else parse(text, kind)
