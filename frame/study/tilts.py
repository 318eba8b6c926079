"""Limit and act-by gust against tilt, and the card that says when to lay the panels down."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from frame.rack.guy import POST_TOP
from frame.rack.rack import STAYS, Rack, bracing_title
from frame.study.frames import both_models, solve_frames
from frame.study.governing import Checker
from frame.study.weakest import Weakest, learned_of, weakest
from frame.units import DEG

SWEEP = tuple(d * DEG for d in (0, 5, 10, 15, 20, 25, 30, 35, 40, 45))
"""Tilts looked at beside those of the file [rad]; the wind tables end at 45 degrees."""
COVERED = (8 * DEG, 45 * DEG)
"""Tilts that a static answer covers: flatter, panels can gallop at gusts far below any here."""
SAME = 0.5 * DEG
STEADY_TO_GUST = (1.3, 1.6)
"""Gust over the steady wind of a forecast, open country to rough land (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTilt:
    """Gusts [m/s] of one bracing at one tilt [rad], infinite where nothing is reached.

    `covered` is False where a static answer does not cover the tilt; `own` where the file lists
    it. `first`: the part that lets go first.
    """

    tilt: float
    limit_gust: float
    act_by_gust: float
    let_go_gust: float
    act_by_part: str
    first: str
    covered: bool
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltCurve:
    """One bracing over every tilt, flattest first."""

    bracing: tuple[str, ...]
    title: str
    points: tuple[AtTilt, ...]

    @property
    def act_by_gust(self) -> float:
        """Lowest act-by gust over the tilts the file lists [m/s]."""
        return min(p.act_by_gust for p in self.points if p.own)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One line of the lay-down card: from gust `above` to `below` [m/s] stand at most at `tilt`.

    `tilt` None: no tilt that is covered stands it; take the panels down or keep away. `flattest`:
    the tilt under which that gust is too much again, None where every flatter one stands it.
    """

    above: float
    below: float
    tilt: float | None
    part: str
    flattest: float | None = None


def sweep(rack: Rack) -> tuple[float, ...]:
    """Tilts [rad] to look at: the file's, and every five degrees that keep off the ground."""
    extra = (t for t in SWEEP if all(abs(t - own) > SAME for own in rack.tilts))
    return tuple(sorted((*rack.tilts, *(t for t in extra if clears_ground(rack, t)))))


def clears_ground(rack: Rack, tilt: float) -> bool:
    """Whether the low edge of panels and rails stays above grade at `tilt` [rad]."""
    longest = max(rack.panels.chord, rack.rails.length)
    drop = longest / 2 * math.sin(tilt)
    return rack.posts.height + rack.stand_off * math.cos(tilt) - drop > 0


def tilt_curves(
    rack: Rack,
    bracings: Sequence[tuple[str, ...]],
    checkers: Sequence[Checker],
    tilts: Sequence[float] = (),
) -> tuple[TiltCurve, ...]:
    """Solve every bracing at every tilt [rad] (those of `sweep` unless given), each on its own."""
    tilts = tuple(tilts) or sweep(rack)
    frames = solve_frames(rack, bracings, tilts)
    curves, learned = [], learned_of(rack, checkers)
    for bracing in bracings:
        points = []
        for tilt in tilts:
            found = weakest(both_models(frames, bracing, (tilt,)), checkers, learned)
            points.append(_point(rack, tilt, found))
        curves.append(
            TiltCurve(bracing=bracing, title=bracing_title(bracing), points=tuple(points))
        )
    return tuple(curves)


def _point(rack: Rack, tilt: float, found: Weakest) -> AtTilt:
    return AtTilt(
        tilt=tilt,
        limit_gust=found.limit_gust,
        act_by_gust=found.act_by_gust,
        let_go_gust=found.let_go_gust,
        act_by_part=found.act_by.part if found.act_by else found.limit_part,
        first=found.let_go.part if found.let_go else "",
        covered=COVERED[0] - 1e-9 <= tilt <= COVERED[1] + 1e-9,
        own=tilt in rack.tilts,
    )


def lay_down(curve: TiltCurve) -> tuple[Stage, ...]:
    """Return the lay-down card: which is the steepest tilt up to which gust, then flatter ones.

    Starts from the steepest tilt of the file; tilts that a static answer does not cover are left
    out, whatever they would stand.
    """
    steepest = max(p.tilt for p in curve.points if p.own)
    points = [p for p in curve.points if p.covered and p.tilt <= steepest + 1e-9]
    stages: list[Stage] = []
    reached = 0.0
    for point in sorted(points, key=lambda p: -p.tilt):
        if point.act_by_gust > reached * 1.01 and point.act_by_gust > 0:
            stages.append(
                Stage(
                    above=reached,
                    below=point.act_by_gust,
                    tilt=point.tilt,
                    part=point.act_by_part,
                    flattest=_flattest(point, points),
                )
            )
            reached = point.act_by_gust
    if math.isfinite(reached):
        part = stages[-1].part if stages else min(points, key=lambda p: p.tilt).act_by_part
        stages.append(Stage(above=reached, below=math.inf, tilt=None, part=part))
    return tuple(stages)


def _flattest(stage: AtTilt, points: Sequence[AtTilt]) -> float | None:
    """Flattest tilt down to which all stand what `stage` does; None if all flatter ones do."""
    reached = stage.tilt
    for point in sorted((p for p in points if p.tilt < stage.tilt), key=lambda p: -p.tilt):
        if point.act_by_gust < stage.act_by_gust:
            return reached
        reached = point.tilt
    return None


def holds_one_tilt(rack: Rack, bracing: tuple[str, ...]) -> bool:
    """Whether guys or stays run to the rails or the beam, and must be re-rigged at each tilt."""
    guys = any(g.attach != POST_TOP for g in rack.guys_in(bracing))
    return guys or bool(STAYS in bracing and rack.stays and rack.stays.attach != POST_TOP)
