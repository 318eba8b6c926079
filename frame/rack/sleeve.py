"""The coped sleeve that carries the beam on the post, and what locks it."""

from dataclasses import dataclass

from frame.tables.steels import Steel


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBolts:
    """Bolts through the sleeve that press on the post: `diameter` [m], `torque` [N m] each.

    `jam_nuts` on all of them save some of the torque that is else lost.
    """

    count: int
    diameter: float
    torque: float
    jam_nuts: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """A bolt or pin through sleeve and post: `diameter` [m]."""

    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """The sleeve: `length` over the post [m], `clearance` [m] of bore over post diameter, lock.

    `wall` [m] as counted on, of `steel`. `stiffness` [1] against tilting, as found over as worked
    out; `as_built` [m]: the clearance where what was found takes its place.
    """

    length: float
    clearance: float
    wall: float
    steel: Steel
    lock: SetBolts | Pin
    stiffness: float = 1.0
    as_built: float = 0.0

    @property
    def slop(self) -> float:
        """Tilt the play allows each way from the middle of its range to a stop [rad]."""
        return self.clearance / self.length
