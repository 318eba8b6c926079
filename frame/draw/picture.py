"""What is drawn: plain arrays in the plane of the paper, a to the right and b up, SI units."""

from dataclasses import dataclass
from itertools import chain

import numpy as np
import numpy.typing as npt

from frame.units import show

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnMember:
    """A member at S stations.

    `at` (S, 2) place [m]; `shape` (S, 2) movement [m]; `force` (S,) what is drawn
    across it: moment [N m], positive where the side to the right of the way from first to last
    station is stretched, or shear or axial force [N]. `brace` marks knees,
    stays and ties, `rail` rails; `rigid` parts are drawn as stubs.
    """

    part: str
    at: Array
    shape: Array
    force: Array
    brace: bool = False
    rigid: bool = False
    rail: bool = False

    @property
    def stretched(self) -> Array:
        """Unit vector (2,) across the bar toward the side on which a positive force is drawn."""
        way = self.at[-1] - self.at[0]
        length = np.hypot(*way)
        return np.array([way[1], -way[0]]) / length if length else np.zeros(2)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnGuy:
    """A guy from its attachment to its anchor: `ends` (2, 2) [m], `shape` (2, 2) movement [m]."""

    name: str
    ends: Array
    shape: Array
    slack: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueMark:
    """A value written where it occurs.

    The point is `at` + scale x `offset` (2,): movement in a picture of the moved shape, force
    across the bar in one of the forces. `toward` (2,) is where the text goes first.
    """

    text: str
    at: Array
    offset: Array
    toward: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One view of a rack in one case: `panels` (k, 2) outline [m]; ground at b = 0 if `ground`."""

    bars: tuple[DrawnMember, ...]
    lines: tuple[DrawnGuy, ...] = ()
    panels: Array | None = None
    movements: tuple[ValueMark, ...] = ()
    forces: tuple[ValueMark, ...] = ()
    ground: bool = True

    def extent(self) -> Array:
        """Left, right, bottom and top of all that stands still [m]."""
        points = np.vstack(
            [
                *(bar.at for bar in self.bars),
                *(line.ends for line in self.lines),
                *([] if self.panels is None else [self.panels]),
            ]
        )
        (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
        return np.array([left, right, bottom, top])

    @property
    def largest_movement(self) -> float:
        """Longest movement of any station [m]."""
        return max((float(np.hypot(*bar.shape.T).max()) for bar in self.bars), default=0.0)

    @property
    def largest_force(self) -> float:
        """Largest force at any station, by size [N m or N]."""
        return max((float(np.abs(bar.force).max()) for bar in self.bars), default=0.0)


def guy_text(name: str, pull: float, system: str) -> str:
    """Name a guy by its corner, and its pull [N] under that."""
    told = show(pull, "force", system) if pull > 0 else "slack"
    return f"{name.replace(', ', ' ')}\n{told}"


def shared_corners(pictures: tuple[Picture, ...]) -> Array:
    """Left, right, bottom and top [m] that hold every one of several pictures."""
    left, right, bottom, top = np.array([p.extent() for p in pictures]).T
    return np.array([left.min(), right.max(), bottom.min(), top.max()])


def shared_exaggeration(pictures: tuple[Picture, ...], share: float = 0.09) -> float:
    """Round number (1, 2 or 5 x 10^n, at least 1) by which all movements are drawn larger.

    The largest movement takes at most `share` of the smaller side of the pictures [1].
    """
    left, right, bottom, top = shared_corners(pictures)
    most = max(p.largest_movement for p in pictures)
    if most <= 0:
        return 1.0
    room = share * min(right - left, top - bottom) / most
    steps = chain.from_iterable((10.0**n, 2 * 10.0**n, 5 * 10.0**n) for n in range(12))
    return max((s for s in steps if s <= room), default=1.0)


def shared_force_scale(pictures: tuple[Picture, ...], share: float = 0.13) -> float:
    """Metres on the drawing per N m or N, so that the largest takes `share` of the height."""
    _, _, bottom, top = shared_corners(pictures)
    most = max(p.largest_force for p in pictures)
    return share * float(top - bottom) / most if most > 0 else 0.0
