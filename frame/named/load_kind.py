"""What acts on a rack beside its weight and the wind, by an id."""

from enum import StrEnum


class LoadKind(StrEnum):
    """Which combinations take a load."""

    LEANING = "leaning"
    SNOW = "snow"
    WORKER = "worker"
    ICE = "ice"
    ICE_AND_SNOW = "ice and snow"

    @property
    def of_site(self) -> bool:
        """Whether only some sites have it, as snow; every rack leans and is worked on."""
        return self not in (LoadKind.LEANING, LoadKind.WORKER)
