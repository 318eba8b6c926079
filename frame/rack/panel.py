"""The panels: how many, how big, how heavy."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Panels:
    """A grid of equal panels, `across` the beam's length and `up` the slope.

    `width` along the beam and `height` up the slope [m] of one panel, `weight` [N] of one panel,
    `gap` [m] between neighbours both ways. `clamp_bolt` [m] is the diameter of the bolt of each of
    the four clamps of a panel; `rating` [Pa] the pressure it was tested for, if known; `thickness`
    [m] its frame's, seen edge-on.
    """

    across: int
    up: int
    width: float
    height: float
    weight: float
    gap: float
    clamp_bolt: float
    rating: float | None
    thickness: float

    @property
    def spread(self) -> float:
        """Length along the beam, edge to edge [m]."""
        return self.across * self.width + (self.across - 1) * self.gap

    @property
    def chord(self) -> float:
        """Length up the slope, edge to edge [m]."""
        return self.up * self.height + (self.up - 1) * self.gap

    @property
    def area(self) -> float:
        """Area of the panels themselves, without gaps [m2]."""
        return self.across * self.up * self.width * self.height

    @property
    def total_weight(self) -> float:
        """Weight of all panels [N]."""
        return self.across * self.up * self.weight

    def column_edges(self) -> tuple[tuple[float, float], ...]:
        """Left and right edge [m] of each panel column, x from the middle of the spread."""
        pitch = self.width + self.gap
        left = -self.spread / 2
        return tuple((left + i * pitch, left + i * pitch + self.width) for i in range(self.across))

    def row_edges(self) -> tuple[tuple[float, float], ...]:
        """Lower and upper edge [m] of each panel row, up the slope from mid-chord."""
        pitch = self.height + self.gap
        low = -self.chord / 2
        return tuple((low + j * pitch, low + j * pitch + self.height) for j in range(self.up))
