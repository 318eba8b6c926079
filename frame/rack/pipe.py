"""A round pipe of the rack: size, wall as measured or listed, steel."""

from dataclasses import dataclass

from frame.geometry.tube import Tube
from frame.tables.steels import Steel

ERW_DESIGN_WALL = 0.93
"""Design over nominal wall of electric-resistance-welded pipe, AISC 360-22 B4.2."""
SOUND_WALL = 0.875
"""Share of the listed wall counted on in sound salvage nobody has measured: judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """A pipe.

    `od`, `wall` [m]; `weight` [N/m]; `basis` says how the wall is known: "listed" (catalog),
    "measured" (calipers) or "weighed" (worked out from weight per length); `rust` [m] is taken off
    the outside; `wall_factor` turns the wall into the design wall (0.93 of nominal or measured for
    ERW pipe, less where salvage is unmeasured or pitted). `fitted` [m]: the wall that its bending
    tells of, 0 if none does.
    """

    label: str
    od: float
    wall: float
    weight: float
    steel: Steel
    basis: str = "listed"
    wall_factor: float = ERW_DESIGN_WALL
    rust: float = 0.0
    fitted: float = 0.0

    @property
    def nominal(self) -> Tube:
        """The pipe with its full wall, as it was made."""
        return Tube(self.od, self.wall)

    @property
    def design(self) -> Tube:
        """The pipe counted on in every stiffness and strength: design wall, less rust.

        A fitted wall takes its place only where it is thinner: bending does not measure a wall.
        """
        wall = self.wall * self.wall_factor
        return Tube(self.od - 2 * self.rust, min(wall, self.fitted or wall) - self.rust)
