"""Each unknown alone: what knowing it better would lift the gusts by, so what to find out first.

The answer of every command is the worst of all corners that matter. Here one unknown at a time is
put at the end that helps, all others staying at their worst.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from frame.checks.check import Check, Numbers
from frame.checks.set_bolt import GRIP_FACTOR as BOLT_FACTOR
from frame.checks.u_bolt import FRICTION_HIGH, FRICTION_LOW, GRIP_FACTOR
from frame.rack.rack import Rack
from frame.study.frames import Block, Frame, blocks, corners, solve_frames, stiff_part
from frame.study.governing import Checker
from frame.study.situation import Situation
from frame.study.unknowns import FRICTION, PRELOAD, SET_BOLT, U_BOLT, End, Unknown, unknowns
from frame.study.weakest import Weakest, weakest

Frames = Mapping[tuple[tuple[str, ...], float, str], Frame]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One unknown at the end that helps most, called `end`, all others at their worst.

    Gusts [m/s] of the whole rack then, infinite where nothing is reached; `first` to let go.
    """

    name: str
    end: str
    find_out: str
    limit_gust: float
    act_by_gust: float
    let_go_gust: float
    first: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """Gusts [m/s] with everything at its `worst` and at its `best`, and each unknown alone.

    `known` is ranked: what lifts the limit gust most first, then the let-go gust.
    """

    worst: Weakest
    best: Weakest
    known: tuple[Known, ...]


def bands(
    rack: Rack, bracing: tuple[str, ...], checkers: Sequence[Checker], whole: Weakest | None = None
) -> Bands:
    """Solve the rack with one unknown known at a time; `whole`: its gusts as they are, if known.

    An end that lowers a gust is no better than the worst, which is then kept.
    """
    frames = solve_frames(rack, [bracing], rack.tilts)
    worst = whole or solved(rack, bracing, checkers, frames, ())
    known, good = [], []
    for unknown in unknowns(rack, bracing):
        best, at = worst, unknown.ends[0]
        for end in unknown.ends:
            found = solved(rack, bracing, checkers, frames, (end,))
            if _gusts(found) > _gusts(best):
                best, at = found, end
        known.append(_known(unknown, at, best))
        good.append(at)
    return Bands(
        worst=worst,
        best=solved(rack, bracing, checkers, frames, good),
        known=tuple(sorted(known, key=lambda k: (-k.limit_gust, -k.let_go_gust))),
    )


def solved(
    rack: Rack,
    bracing: tuple[str, ...],
    checkers: Sequence[Checker],
    frames: Frames,
    ends: Sequence[End],
) -> Weakest:
    """Solve the rack with some `ends` known; `frames` are those of the rack as it is."""
    changed, pinned = rack, dict[str, str]()
    holds: frozenset[str] = frozenset()
    for end in ends:
        changed, holds = end.rack(changed), holds | end.holds
        pinned.update(end.state)
    if any(end.stiff for end in ends):
        frames = solve_frames(changed, [bracing], rack.tilts)
    elif changed is not rack:
        frames = {
            key: replace(f, ideal=replace(f.ideal, rack=changed)) for key, f in frames.items()
        }
    if holds:
        checkers = tuple(_gripping(checker, holds) for checker in checkers)
    return weakest(_blocks(frames, bracing, rack.tilts, pinned), checkers)


def _blocks(
    frames: Frames, bracing: tuple[str, ...], tilts: Sequence[float], pinned: Mapping[str, str]
) -> tuple[Block, ...]:
    """Every tilt and corner that is left with some bands pinned to an end.

    Give and pull of the guys go together in the corners that matter; with one of them known the
    other still takes both its ends.
    """
    if not pinned:
        return blocks(dict(frames), bracing, tilts)
    states = [replace(s, **pinned) for s in corners(bracing)]
    return tuple(
        Block(frame=frames[stiff_part(bracing), tilt, state.soil], bracing=bracing, state=state)
        for tilt in tilts
        for state in dict.fromkeys(states)
    )


def _gripping(checker: Checker, holds: frozenset[str]) -> Checker:
    """Let a checker count some of the bands of grip at their high end."""

    def run(now: Situation) -> Iterator[tuple[str, Check]]:
        for part, check in checker(now):
            if check.name == SET_BOLT and SET_BOLT in holds:
                high = check.extra["grip_high"]
                yield part, replace(check, nominal=high, allowable=high / BOLT_FACTOR)
            elif check.name == U_BOLT:
                grip = _u_bolt(check, now.rack.beam.pipe.od / 2, holds)
                yield part, replace(check, nominal=grip, allowable=grip / GRIP_FACTOR)
            else:
                yield part, check

    return run


def _u_bolt(check: Check, radius: float, holds: frozenset[str]) -> Numbers:
    """Grip of a U-bolt [N], cases in an array: friction and preload low or high."""
    rough = FRICTION_HIGH / FRICTION_LOW
    if PRELOAD in holds:
        high = check.extra["grip_high"] / radius
        return high if FRICTION in holds else high / rough
    return check.nominal * rough if FRICTION in holds else check.nominal


def _known(unknown: Unknown, end: End, found: Weakest) -> Known:
    return Known(
        name=unknown.name,
        end=end.words,
        find_out=unknown.find_out,
        limit_gust=found.limit_gust,
        act_by_gust=found.act_by_gust,
        let_go_gust=found.let_go_gust,
        first=found.let_go.part if found.let_go else "",
    )


def _gusts(found: Weakest) -> tuple[float, float]:
    return found.act_by_gust, found.let_go_gust
