"""From the word for the ground in a file to a soil of the tables."""

import tomllib
from functools import cache
from importlib import resources

from frame.casefile.notes import Notes
from frame.tables import soils
from frame.tables.lookup import key


@cache
def no_soils() -> dict[str, tuple[str, str]]:
    """Load words for ground that is no soil of the tables: what is wrong, and what is right."""
    file = resources.files("frame.casefile") / "ground_words.toml"
    groups = tomllib.loads(file.read_text(encoding="utf-8")).values()
    return {key(word): (row["what"], row["right"]) for row in groups for word in row["words"]}


def find_soil(notes: Notes, where: str, name: str, instead: str) -> soils.Soil:
    """Find a soil; ground that holds no post, or may be anything, is refused in its own words."""
    refused = no_soils().get(key(name))
    if refused is not None:
        what, right = refused
        notes.wrong(where, f'"{name}" {what}', right)
        return soils.find(instead)
    return notes.look_up(soils.find, where, name, instead)
