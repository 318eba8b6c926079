"""What is told beside the bracings: panels lowered, other reaches of the knees. SI units."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Lowered:
    """Act-by gust [m/s] at the flattest `tilt` [rad] of the file, None where no gust reaches it.

    `rigged_anew`: whether guys or stays hold one tilt only, and must be fitted anew at another.
    """

    tilt: float
    act_by_gust: float | None
    rigged_anew: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeChoice:
    """One reach of the knees: how much sag it leaves, and the piece to cut.

    `part` of the arm [1], `reach`, `drop` [m]; `sag` [m] fitted before the panels or jacked;
    `left` of the bare sag [1]; `force` the largest axial force [N], a push where `pushed`, of the
    case in `words`, with the panels at the steepest `tilt` [rad] looked at; `cut` long point to
    long point [m]; `angle` from the post [rad]; `described` where it is the reach in the file;
    `note` where the reach cannot be built.
    """

    part: float
    reach: float
    drop: float
    sag: float
    left: float
    force: float
    pushed: bool
    words: str
    tilt: float
    cut: float
    angle: float
    described: bool = False
    note: str = ""
