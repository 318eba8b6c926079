"""How a rack moves and shakes: plain frozen records, SI units."""

import math
from dataclasses import dataclass

from frame.named.part import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Sagging:
    """Where the beam sags: the end on a `side`, or a `span` between posts, from 1."""

    side: Side | None = None
    span: int | None = None

    def __str__(self) -> str:
        """Return it in words."""
        return f"beam end, {self.side}" if self.span is None else f"beam, midspan {self.span}"

    @property
    def node_mark(self) -> str:
        """Return the mark of the frame's node there."""
        return f"beam end, {self.side}" if self.span is None else f"beam midspan {self.span}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """Droop of the worst beam end against the beam at its post, down positive [m].

    `dead` under the weights alone, `still_air` with the guys' pull; `pipe`, `sleeve` and `post`
    add up to `dead`; `slop` is the play of the sleeve on top, either way.
    """

    dead: float
    still_air: float
    limit: float
    where: Sagging
    pipe: float
    sleeve: float
    post: float
    slop: float

    @property
    def use(self) -> float:
        """The worse of dead and still-air sag over the limit [1]."""
        return max(abs(self.dead), abs(self.still_air)) / self.limit

    @property
    def use_with_play(self) -> float:
        """The worse of both, and the play of the sleeve on top of it, over the limit [1]."""
        return self.use + self.slop / self.limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Sway:
    """Level movement of the post top from still air [m] at `gust` [m/s], and the wind for it.

    `topples`: the rack sways over in the wind told; `top` is then that of the winds it stands in.
    """

    gust: float
    top: float
    limit: float
    words: str
    topples: bool = False

    @property
    def use(self) -> float:
        """Sway over its limit [1], infinite where the rack topples."""
        return math.inf if self.topples else self.top / self.limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """Torque about the post at `gust` against the grip of the sleeve's lock, low and high [N m].

    `ground`: torque the post is held with in the ground [N m]; None while it is not worked out.
    """

    gust: float
    torque: float
    grip_low: float | None
    grip_high: float | None
    ground: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaking:
    """Natural frequencies [Hz], lowest first: `at_rest` with guys taut, `slack` with all slack.

    `slack` is empty without guys; `play` is the lowest with play in the sleeve, None without.
    `gust_effect` is the factor of ASCE/SEI 7-22 26.11.5 at the worst tilt and corner, where the
    code's margin counts it in place of 0.85, else None.
    """

    at_rest: tuple[float, ...]
    slack: tuple[float, ...]
    play: float | None
    gust_effect: float | None

    @property
    def lowest(self) -> float:
        """The lowest of all [Hz]."""
        return min(*self.at_rest, *self.slack, math.inf if self.play is None else self.play)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stability:
    """Lowest factor on all forces of a case at which the rack buckles, and that case.

    `gust` [m/s], 0 without wind; `tilt` [rad].
    """

    factor: float
    gust: float
    words: str
    tilt: float
