"""Each unknown alone: what knowing it better would lift the code's margin by.

The code's margin is the worst of all corners that matter. Here one unknown at a time is put at
the end that helps, all others staying at their worst. What knowing more would do to what is
expected to let go is in its ranges: `ladder_of` finds them for every check.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from frame.rack.rack import Rack
from frame.records.going import Going
from frame.search.expected_going import expect
from frame.search.survived import Learned
from frame.search.weakest import lowest_limit
from frame.solved.blocks import Block, blocks, corners, median_blocks
from frame.solved.frames import Frame, solve_frames, stiff_part
from frame.whatif.unknowns import BandEnd, Unknown, unknowns

Frames = Mapping[tuple[tuple[str, ...], float, str], Frame]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One unknown at the end that helps most, called `end`, all others at their worst.

    `limit_gust` [m/s] of the whole rack then, infinite where nothing is reached.
    """

    name: str
    end: str
    find_out: str
    limit_gust: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownBetter:
    """Limit gusts [m/s] with everything at its `worst` and at its `best`, and each unknown alone.

    `known` is ranked: what lifts the limit gust most first.
    """

    worst: float
    best: float
    known: tuple[Known, ...]


def known_better(rack: Rack, bracing: tuple[str, ...], whole: float | None = None) -> KnownBetter:
    """Solve the rack with one unknown known at a time; `whole`: its limit gust, if known.

    An end that lowers the gust is no better than the worst, which is then kept.
    """
    frames = solve_frames(rack, [bracing], rack.tilts)
    worst = limit_with(rack, bracing, frames, ()) if whole is None else whole
    known, good = [], []
    for unknown in unknowns(rack, bracing):
        tried = [(limit_with(rack, bracing, frames, (e,)), e) for e in unknown.ends]
        gust, end = max(tried, key=lambda t: t[0])
        known.append(_known(unknown, end, max(gust, worst)))
        good.append(end)
    return KnownBetter(
        worst=worst,
        best=max(worst, limit_with(rack, bracing, frames, good)),
        known=tuple(sorted(known, key=lambda k: -k.limit_gust)),
    )


def ladder_of(rack: Rack, bracing: tuple[str, ...], learned: Learned) -> tuple[Going, ...]:
    """Everything that is expected to go of one bracing at the file's tilts, in order."""
    frames = solve_frames(rack, [bracing], rack.tilts)
    found = expect(median_blocks(frames, bracing, rack.tilts), learned)
    return tuple(sorted(found[bracing].values(), key=lambda going: going.gust))


def limit_with(
    rack: Rack,
    bracing: tuple[str, ...],
    frames: Frames,
    ends: Sequence[BandEnd],
) -> float:
    """Limit gust with some `ends` known; `frames` are those of the rack as it is."""
    changed, pinned = rack, dict[str, str]()
    for end in ends:
        changed = end.rack(changed)
        pinned.update(end.state)
    if any(end.stiff for end in ends):
        frames = solve_frames(changed, [bracing], rack.tilts)
    elif changed is not rack:
        frames = {
            key: replace(f, ideal=replace(f.ideal, rack=changed)) for key, f in frames.items()
        }
    return lowest_limit(_blocks(frames, bracing, rack.tilts, pinned)).gust


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


def _known(unknown: Unknown, end: BandEnd, gust: float) -> Known:
    return Known(name=unknown.name, end=end.words, find_out=unknown.find_out, limit_gust=gust)
