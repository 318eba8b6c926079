"""The cheapest changes that raise a bracing's gusts, each verified by solving the changed rack."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from frame.errors import FrameError
from frame.fem.ritz import Ritz
from frame.idealize.state import State
from frame.loads.cases import WHOLE_WIND
from frame.rack.rack import Rack
from frame.study.changes import Change, changes
from frame.study.coarse import ACT_BY, LET_GO, both_uses
from frame.study.cost import added_cost, pipe_weight, trouble
from frame.study.frames import Block, FloatArray, corners, solve_frames, solved_blocks, stiff_part
from frame.study.governing import Checker
from frame.study.results import BracingResult, Move
from frame.study.situation import situation, whole_wind
from frame.study.weakest import Weakest, weakest

GAIN = 1.1
"""Least rise of a gust that makes a change worth telling [1] (judgement)."""
MOST = 3
Place = tuple[float, State]


@dataclass(frozen=True, kw_only=True)
class OtherStrength(Block):
    """A block of a rack, `changed` from that of `like` in strength alone: forces stay."""

    like: Block
    changed: Rack

    @property
    def rack(self) -> Rack:
        """The rack whose strength counts."""
        return self.changed

    @property
    def shapes(self) -> Ritz:
        """Shapes it buckles in."""
        return self.like.shapes

    @property
    def growth(self) -> dict[tuple[str, float], FloatArray]:
        """Second-order factors of every case of some states."""
        return self.like.growth


def moves(
    rack: Rack,
    result: BracingResult,
    checkers: Sequence[Checker],
    most: int = MOST,
    found: Sequence[Block] = (),
) -> tuple[Move, ...]:
    """Find the `most` cheapest changes that raise the limit or let-go gust and lower neither.

    Cheapest by the file's prices, else by steel added and work (judgement). Every change is first
    tried where the rack as it is goes first, which can only flatter it, cheapest first; what
    passes is solved over every tilt, corner and wind. None may be found where two parts go
    together: then change both. `found`: the blocks of the result at every tilt, if at hand.
    """
    before = (_gust(result.limit_gust), _gust(result.let_go_gust))
    places = _places(result)
    found = found or solved_blocks(rack, result.bracing)
    bare = pipe_weight(rack, result.bracing)
    priced = [
        (trouble(rack, result.bracing, change), change) for change in changes(rack, result.bracing)
    ]
    better: list[Move] = []
    for _, change in sorted(priced, key=lambda t: t[0]):
        try:
            if not _promising(list(_watch(change, places, found)), checkers, before):
                continue
            after = weakest(_changed(change, found), checkers)
        except FrameError:
            continue
        if _better(before, (after.limit_gust, after.let_go_gust)):
            added = pipe_weight(change.rack, change.bracing) - bare
            price = added_cost(rack, result.bracing, change)
            better.append(replace(_move(change, added, before, after), cost=price))
        if len(better) == most:
            break
    return tuple(better)


def verify(rack: Rack, bracing: tuple[str, ...], checkers: Sequence[Checker]) -> Weakest:
    """Solve a rack afresh at every tilt and corner."""
    return weakest(solved_blocks(rack, bracing), checkers)


def _changed(change: Change, found: Sequence[Block]) -> Sequence[Block]:
    """Blocks of the changed rack at every tilt; its frames are only solved if they changed."""
    if change.stiff:
        return solved_blocks(change.rack, change.bracing)
    return [_stronger(b, change) for b in found if b.frame.ideal.tilt in change.rack.tilts]


def _stronger(block: Block, change: Change) -> Block:
    return OtherStrength(
        frame=block.frame,
        bracing=block.bracing,
        state=block.state,
        like=block,
        changed=change.rack,
    )


def _gust(gust: float | None) -> float:
    return math.inf if gust is None else gust


def _places(result: BracingResult) -> tuple[Place, ...]:
    """Tilts and corners at which the rack as it is goes first."""
    rows = sorted(result.rows, key=lambda r: _gust(r.limit_gust))[:1] + list(result.ladder[:1])
    found = [(r.let_go_tilt if r.let_go_tilt is not None else r.tilt, r.state) for r in rows]
    return tuple(dict.fromkeys(found))


def _watch(change: Change, places: Sequence[Place], found: Sequence[Block]) -> Iterator[Block]:
    """Blocks of the changed rack at those places; its frame is only solved if it changed."""
    rack, bracing = change.rack, change.bracing
    allowed = corners(bracing)
    tilts = [t if t in rack.tilts else max(rack.tilts) for t, _ in places]
    if change.stiff:
        frames = solve_frames(rack, [bracing], dict.fromkeys(tilts))
    for tilt, (_, state) in dict.fromkeys(zip(tilts, places, strict=True)):
        here = state if state in allowed else next(s for s in allowed if s.soil == state.soil)
        if change.stiff:
            frame = frames[stiff_part(bracing), tilt, here.soil]
            yield Block(frame=frame, bracing=bracing, state=here)
        else:
            like = next(b for b in found if b.frame.ideal.tilt == tilt and b.state == here)
            yield _stronger(like, change)


def _promising(
    watch: Sequence[Block], checkers: Sequence[Checker], before: tuple[float, float]
) -> bool:
    """Whether nothing there is reached a little above the limit gust or the let-go gust."""
    acts = lets = True
    act, let = GAIN * whole_wind(before[0]), GAIN * before[1]
    for block in watch:
        gusts = [min(g, 1e3) for g in (act, let)]
        now = situation(block, block.frame.cases(WHOLE_WIND), gusts)
        half = len(now.case) // 2
        for checker in checkers:
            for _, check in checker(now):
                uses = both_uses(check, len(now.case))
                acts = acts and not (uses[ACT_BY][:half] >= 1.0).any()
                lets = lets and not (uses[LET_GO][half:] >= 1.0).any()
                if not (acts or lets):
                    return False
    return (acts and act > 0) or lets


def _better(before: tuple[float, float], after: tuple[float, float]) -> bool:
    """Whether one gust rises enough to matter and neither falls."""
    kept = all(b <= a * (1 + 1e-6) for b, a in zip(before, after, strict=True))
    raised = any(a > GAIN * b or (b == 0 < a) for b, a in zip(before, after, strict=True))
    return kept and raised


def _move(change: Change, added: float, before: tuple[float, float], after: Weakest) -> Move:
    first = after.let_go
    return Move(
        words=change.words,
        limit_gust=(before[0], after.limit_gust),
        let_go_gust=(before[1], after.let_go_gust),
        next_part=first.part if first else "",
        next_words=f"{first.check}; {first.words}" if first else "",
        added_steel=added,
        work=change.work,
        rack=change.rack,
        bracing=change.bracing,
    )
