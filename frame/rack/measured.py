"""What was read off the standing rack with tape, string, level, scale and phone."""

from dataclasses import dataclass

ACROSS, ALONG, TURNING = "across", "along", "turning"
WAYS = (ACROSS, ALONG)
SHAKE_WAYS = (ACROSS, ALONG, TURNING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading by its `key` in `frame.tables.readings`; `value` None where nobody can tell.

    SI: lengths [m], angles [rad], forces [N], shakes [Hz]. Two readings in three come `within` of
    the truth.
    """

    key: str
    value: float | None
    within: float
    tool: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Readings, and how the rack was when they were taken.

    `fitted` bracing by the names of the rack, panels at `tilt` [rad]. Level side `pull` [N] at
    `pull_height` [m] above grade, `pull_way` "across" or "along" the beam; level `push` [N] at the
    right beam end, square to the beam; `press` [N] down at the left one. The scale is right
    within the share `scale_within` [1] of what it shows. The post leans over `lean_height` [m].
    Shakes are counted `shakes_way`.
    """

    readings: tuple[Reading, ...]
    fitted: tuple[str, ...]
    tilt: float
    pull: float
    pull_height: float
    pull_way: str
    push: float
    press: float
    scale_within: float
    lean_height: float
    shakes_way: str

    @property
    def taken(self) -> tuple[Reading, ...]:
        """Readings that somebody could take."""
        return tuple(r for r in self.readings if r.value is not None)
