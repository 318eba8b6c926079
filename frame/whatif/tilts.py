"""Limit and act-by gust against tilt, and the card that says when to lay the panels down."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from frame.rack.guy import POST_TOP
from frame.rack.rack import STAYS, Rack, bracing_title
from frame.records.going import Going
from frame.search.survived import Learned
from frame.search.weakest import Weakest, learned_of, weakest
from frame.solved.blocks import both_models
from frame.solved.frames import solve_frames
from frame.units import DEG

SWEEP = tuple(d * DEG for d in (10, 15, 20, 25, 30, 35, 40, 45))
"""Tilts looked at beside those of the file [rad]; the wind tables end at 45 degrees."""
COVERED = (8 * DEG, 45 * DEG)
"""Tilts that a static answer covers: flatter, panels can gallop at gusts far below any here."""
SAME_TILT = 0.5 * DEG
STILL = 0.5
"""Gust below which the air is called still [m/s]."""
STEADY_TO_GUST = (1.3, 1.6)
"""Gust over the steady wind of a forecast, open country to rough land (common practice)."""
RISES = (1.1, 1.2, 1.35, 1.5, 2.0)
"""Least rise of the act-by gust for which panels are lowered another step (judgement).

Nobody lowers panels for a gust a few percent higher; the larger ones where there are many steps.
"""
NEAR = 0.02
"""Part by which a tilt between two that a stage stands may stand less and end it sooner [1].

Judgement: a forecast is never that sure, and a card with a hole at one tilt is harder to follow.
"""
MOST_STAGES = 4
"""Tilts that a lay-down card has at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTilt(Weakest):
    """What decides of one bracing at one `tilt` [rad].

    `covered` is False where a static answer does not cover the tilt; `own` where the file lists
    it.
    """

    tilt: float
    covered: bool
    own: bool

    @property
    def act_by_part(self) -> str:
        """The part that is expected to tilt or break first, "" if none."""
        return self.act_by.part if self.act_by else ""

    @property
    def first(self) -> str:
        """The part that is expected to go first, "" if none."""
        return self.let_go.part if self.let_go else ""


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
class Deed:
    """One line of the lay-down card: from gust `above` to `below` [m/s] stand at most at `tilt`.

    `tilt` None: no tilt that is covered stands it; take the panels down or keep away. `flattest`:
    the tilt under which that gust is too much again, None where every flatter one stands it.
    `going`: what is expected to tilt or break first there, about `part`; None where nothing is.
    `also`: tilts of the file flatter than `flattest` that stand it all the same. `alone`: the gust
    [m/s] that `tilt` itself stands, more than `below` where the stage ends with another tilt,
    `ends_at`, on the way to `listed`, one of the file: who runs the panels there acts then.
    """

    above: float
    below: float
    tilt: float | None
    part: str
    flattest: float | None = None
    going: Going | None = None
    also: tuple[float, ...] = ()
    alone: float | None = None
    ends_at: float | None = None
    listed: float | None = None


def lies_flat(rack: Rack) -> bool:
    """Whether every tilt of the file is flatter than a static answer covers."""
    return max(rack.tilts) < COVERED[0] - SAME_TILT / 5


def sweep(rack: Rack) -> tuple[float, ...]:
    """Tilts [rad] to look at: the file's, and every five degrees that keep off the ground."""
    extra = (t for t in SWEEP if all(abs(t - own) > SAME_TILT for own in rack.tilts))
    return tuple(sorted((*rack.tilts, *(t for t in extra if clears_ground(rack, t)))))


def clears_ground(rack: Rack, tilt: float) -> bool:
    """Whether the low edge of panels and rails stays above grade at `tilt` [rad]."""
    longest = max(rack.panels.chord, rack.rails.length)
    drop = longest / 2 * math.sin(tilt)
    return rack.posts.height + rack.stand_off * math.cos(tilt) - drop > 0


def tilt_curves(
    rack: Rack,
    bracings: Sequence[tuple[str, ...]],
    tilts: Sequence[float] = (),
    learned: Learned | None = None,
) -> tuple[TiltCurve, ...]:
    """Solve every bracing at every tilt [rad] (those of `sweep` unless given), each on its own.

    `learned`: what the rack has stood tells, if worked out already.
    """
    tilts = tuple(tilts) or sweep(rack)
    frames = solve_frames(rack, bracings, tilts)
    learned = learned_of(rack) if learned is None else learned
    curves = []
    for bracing in bracings:
        points = []
        for tilt in tilts:
            found = weakest(both_models(frames, bracing, (tilt,)), learned)
            points.append(_point(rack, tilt, found))
        curves.append(
            TiltCurve(bracing=bracing, title=bracing_title(bracing), points=tuple(points))
        )
    return tuple(curves)


def _point(rack: Rack, tilt: float, found: Weakest) -> AtTilt:
    return AtTilt(
        tilt=tilt,
        limit=found.limit,
        going=found.going,
        covered=COVERED[0] - 1e-9 <= tilt <= COVERED[1] + 1e-9,
        own=tilt in rack.tilts,
    )


def lay_down(curve: TiltCurve) -> tuple[Deed, ...]:
    """Return the lay-down card: which is the steepest tilt up to which gust, then flatter ones.

    Starts from the steepest tilt of the file; tilts that a static answer does not cover are left
    out, whatever they would stand. At most `MOST_STAGES` tilts, each worth the work.
    """
    steepest = max(p.tilt for p in curve.points if p.own)
    points = [p for p in curve.points if p.covered and p.tilt <= steepest + 1e-9]
    for rise in RISES:
        stages = _stages(points, rise)
        if len(stages) <= MOST_STAGES:
            break
    stages = _no_later(stages, points)
    reached = stages[-1].below if stages else 0.0
    if math.isfinite(reached):
        last = stages[-1].going if stages else _least(points)
        part = last.part if last else ""
        stages.append(Deed(above=reached, below=math.inf, tilt=None, part=part, going=last))
    return tuple(stages)


def _stages(points: Sequence[AtTilt], rise: float) -> list[Deed]:
    """Tilts from the steepest, each good for `rise` times the gust of the one before."""
    stages: list[Deed] = []
    reached = 0.0
    for point in sorted(points, key=lambda p: -p.tilt):
        if point.act_by_gust > reached * rise and point.act_by_gust > STILL:
            stages.append(
                Deed(
                    above=reached,
                    below=point.act_by_gust,
                    tilt=point.tilt,
                    part=point.act_by_part,
                    flattest=_flattest(point.tilt, point.act_by_gust, points),
                    going=point.act_by,
                    alone=point.act_by_gust,
                )
            )
            reached = point.act_by_gust
    return stages


def _no_later(stages: Sequence[Deed], points: Sequence[AtTilt]) -> list[Deed]:
    """End every stage no later than each tilt of the file that it lowers from must be left."""
    ended: list[Deed] = []
    reached = 0.0
    for i, stage in enumerate(stages):
        to = stages[i + 1].tilt if i + 1 < len(stages) else None
        left = [p for p in points if p.own and (to or 0.0) < p.tilt <= (stage.tilt or 0.0)]
        soonest = min(left, key=lambda p: p.act_by_gust, default=None)
        end = stage
        if soonest and soonest.act_by_gust < stage.below:
            end = _ended(stage, soonest, points)
        if end.below > reached:
            ended.append(replace(end, above=reached))
            reached = end.below
    return ended


def _ended(stage: Deed, listed: AtTilt, points: Sequence[AtTilt]) -> Deed:
    """End a stage with a tilt of the file, or with one passed on the way to it."""
    tilt, below = stage.tilt or 0.0, listed.act_by_gust
    near = (
        p for p in points if listed.tilt <= p.tilt <= tilt and p.act_by_gust >= (1 - NEAR) * below
    )
    last = min(near, key=lambda p: p.act_by_gust)
    flattest = _flattest(tilt, last.act_by_gust, points)
    return replace(
        stage,
        below=last.act_by_gust,
        part=last.act_by_part,
        going=last.act_by,
        flattest=flattest,
        also=tuple(
            p.tilt
            for p in points
            if p.own and p.tilt < (flattest or 0.0) and p.act_by_gust >= last.act_by_gust
        ),
        ends_at=last.tilt,
        listed=listed.tilt,
    )


def _least(points: Sequence[AtTilt]) -> Going | None:
    """Return what goes first at the flattest tilt."""
    flattest = min(points, key=lambda p: p.tilt, default=None)
    return flattest.act_by if flattest else None


def _flattest(tilt: float, gust: float, points: Sequence[AtTilt]) -> float | None:
    """Flattest tilt down to which, from `tilt`, all stand `gust`; None if all flatter ones do."""
    reached = tilt
    for point in sorted((p for p in points if p.tilt < tilt), key=lambda p: -p.tilt):
        if point.act_by_gust < gust:
            return reached
        reached = point.tilt
    return None


def holds_one_tilt(rack: Rack, bracing: tuple[str, ...]) -> bool:
    """Whether guys or stays run to the rails or the beam, and must be re-rigged at each tilt."""
    guys = any(g.attach != POST_TOP for g in rack.guys_in(bracing))
    return guys or bool(STAYS in bracing and rack.stays and rack.stays.attach != POST_TOP)
