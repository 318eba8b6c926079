"""From the word for the ground in a file to a soil of the tables."""

from frame.casefile.notes import Notes
from frame.tables import soils
from frame.tables.lookup import plain_name

VAGUE = ("dirt", "earth", "soil", "ground", "normal", "unknown", "don't know")
IN_THE_HAND = (
    "roll a damp pinch between the palms: a thread that holds is clay, grit is sand; leave the "
    "line out if you cannot tell"
)
"""How to tell soils apart: common practice, no source."""


def find_soil(notes: Notes, where: str, name: str, instead: str) -> soils.Soil:
    """Find a soil; a word that may mean any ground is answered with how to tell."""
    if plain_name(name) in map(plain_name, VAGUE):
        notes.wrong(where, f'"{name}" may be anything', IN_THE_HAND)
        return soils.find(instead)
    return notes.look_up(soils.find, where, name, instead)
