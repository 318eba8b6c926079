"""The coped sleeve that carries the beam on the post, and what locks it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBolts:
    """Bolts through the sleeve that press on the post: `diameter` [m], `torque` [N m] each."""

    count: int
    diameter: float
    torque: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """A bolt or pin through sleeve and post: `diameter` [m]."""

    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """The sleeve: `length` over the post [m], `clearance` [m] of bore over post diameter, lock."""

    length: float
    clearance: float
    lock: SetBolts | Pin

    @property
    def slop(self) -> float:
        """Tilt the play allows each way from the middle of its range to a stop, both ways [rad]."""
        return self.clearance / self.length
