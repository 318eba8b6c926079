"""The cheapest changes that raise a bracing's gusts, each verified by solving the changed rack."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from frame.changes.catalogue import Change, changes
from frame.changes.cost import added_cost, pipe_weight, trouble
from frame.errors import FrameError
from frame.fem.cases import Answer
from frame.fem.ritz import Ritz
from frame.parts.checker import Checker
from frame.rack.rack import Rack
from frame.records.results import BracingResult, Move
from frame.search.searched import use_of
from frame.search.weakest import Weakest, learned_of, weakest
from frame.solved.frames import Block, solved_models, split
from frame.solved.situation import situation, whole_table, whole_wind

GAIN = 1.1
"""Least rise of a gust that makes a change worth telling [1] (judgement)."""
MOST = 3


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
    def growth(self) -> dict[tuple[str, float], Answer]:
        """Second-order answers to every case of some states."""
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
    found = found or solved_models(rack, result.bracing)
    bare = pipe_weight(rack, result.bracing)
    priced = [
        (trouble(rack, result.bracing, change), change) for change in changes(rack, result.bracing)
    ]
    better: list[Move] = []
    learned = learned_of(rack, checkers)
    for _, change in sorted(priced, key=lambda t: t[0]):
        try:
            if not _promising(_watch(change, places, found), checkers, before):
                continue
            after = weakest(_changed(change, found), checkers, learned)
        except FrameError:
            continue
        if _better(before, (after.limit_gust, after.let_go_gust)):
            added = pipe_weight(change.rack, change.bracing) - bare
            price = added_cost(rack, result.bracing, change)
            better.append(replace(_move(change, added, before, after), cost=price))
        if len(better) == most:
            break
    return tuple(better)


def _changed(change: Change, found: Sequence[Block]) -> Sequence[Block]:
    """Blocks of the changed rack at every tilt; its frames are only solved if they changed."""
    if change.stiff:
        return solved_models(change.rack, change.bracing)
    return [_stronger(b, change) for b in found if b.frame.ideal.tilt in change.rack.tilts]


def _stronger(block: Block, change: Change) -> Block:
    return OtherStrength(
        frame=block.frame,
        bracing=block.bracing,
        state=block.state,
        median=block.median,
        like=block,
        changed=change.rack,
    )


def _gust(gust: float | None) -> float:
    return math.inf if gust is None else gust


def _places(result: BracingResult) -> tuple[float, ...]:
    """Tilts at which the rack as it is goes first."""
    rows = sorted(result.rows, key=lambda r: _gust(r.limit_gust))[:1]
    going = [r.going.tilt for r in result.ladder[:1] if r.going]
    return tuple(dict.fromkeys((*(r.tilt for r in rows), *going)))


def _watch(change: Change, places: Sequence[float], found: Sequence[Block]) -> Sequence[Block]:
    """Blocks of the changed rack at those tilts; its frame is only solved if it changed."""
    tilts = [t if t in change.rack.tilts else max(change.rack.tilts) for t in places]
    if change.stiff:
        return solved_models(change.rack, change.bracing, dict.fromkeys(tilts))
    return [_stronger(b, change) for b in found if b.frame.ideal.tilt in tilts]


def _promising(
    watch: Sequence[Block], checkers: Sequence[Checker], before: tuple[float, float]
) -> bool:
    """Whether nothing there is reached a little above the limit gust or the let-go gust."""
    ends = (GAIN * whole_wind(before[0]), GAIN * before[1])
    return any(
        gust > 0 and not any(_reached(block, checkers, min(gust, 1e3)) for block in some)
        for gust, some in zip(ends, split(watch), strict=True)
    )


def _reached(block: Block, checkers: Sequence[Checker], gust: float) -> bool:
    """Whether some check of a block is reached in the whole wind of a gust [m/s]."""
    now = situation(block, whole_table(block), [gust])
    return any((use_of(check, now) >= 1.0).any() for run in checkers for _, check in run(now))


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
