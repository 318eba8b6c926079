"""What acts on a rack beside its weight and the wind, by an id."""

from enum import StrEnum


class LoadKind(StrEnum):
    """Which combinations take a load."""

    LEANING = "leaning"
    SNOW = "snow"
    WORKER = "worker"
    ICE = "ice"
    ICE_AND_SNOW = "ice and snow"
