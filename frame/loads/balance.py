"""What the wind standard gives and takes on a rack far smaller than what it was written for."""

from dataclasses import dataclass

from frame.loads.gust import Outline, rigid_gust_effect
from frame.loads.terrain import terrain
from frame.loads.wind import DIRECTIONALITY, GUST_EFFECT, LEAST_HEIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Pressure of a gust from the worst side over what the standard counts, by its causes [1].

    `size`: the gust factor that the standard works out for the size, over the 0.85 it allows;
    `height`: the gust profile at the panels over the one counted, which is level under 15 ft;
    `direction`: 1 over the 0.85 that stands for gusts seldom coming from the worst side.
    """

    size: float
    height: float
    direction: float

    @property
    def net(self) -> float:
        """All together [1]: over 1 where the standard counts too little."""
        return self.size * self.height * self.direction


def balance(outline: Outline, exposure: str) -> Balance:
    """Balance of a `outline` at mean height h in exposure "B", "C" or "D".

    ASCE/SEI 7-22 26.11.4 for the size, Table 26.10-1 note 1 with its power law carried on below
    15 ft (judgement: the standard stops there because bushes and buildings stir the wind below),
    Table 26.6-1 for the direction. For gust factors of 0.85, so from 1 Hz up. Hills are left out.
    """
    ground = terrain(exposure)
    low = min(outline.height, LEAST_HEIGHT) / LEAST_HEIGHT
    return Balance(
        size=rigid_gust_effect(outline, ground) / GUST_EFFECT,
        height=float(low ** (2 / ground.alpha)),
        direction=1 / DIRECTIONALITY,
    )
