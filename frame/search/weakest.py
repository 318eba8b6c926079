"""The lowest gusts of a whole bracing, without those of every row: quick, to try many racks."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from frame.named.aim import Key
from frame.rack.rack import Rack
from frame.records.going import Going, least_low
from frame.search.crossings import lowest_gusts
from frame.search.expected_going import expect, first_going
from frame.search.grid import coarse
from frame.search.searched import Search
from frame.search.survey import coded_gust
from frame.search.survived import NOTHING_LEARNED, Learned, learn
from frame.solved.blocks import Block, median_blocks, split
from frame.solved.frames import solve_frames
from frame.solved.situation import whole_wind


@dataclass(frozen=True, slots=True)
class Limit:
    """Lowest gust at which a code combination reaches an allowable [m/s], infinite if none.

    `key`: which check of which part, the `block` where it does; None if none. `uncovered`: checks
    that no rule covers in some case, of which no gust is known.
    """

    gust: float
    key: Key | None = None
    block: Block | None = None
    uncovered: frozenset[Key] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Weakest:
    """What decides of a rack by both models.

    `limit`: what uses the code's margin up first; `going`: what is expected to go first of each
    kind, in order, and where there are ranges what has the least low end; see `first_going`.
    """

    limit: Limit
    going: tuple[Going, ...]

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite if beyond the highest."""
        return self.limit.gust

    @property
    def let_go(self) -> Going | None:
        """What is expected to go first; None where nothing is."""
        return self.going[0] if self.going else None

    @property
    def act_by(self) -> Going | None:
        """What tilts or breaks at the least low end; None where nothing is expected to."""
        return least_low(self.going)

    @property
    def first_slip(self) -> Going | None:
        """What turns, tilts or leans first; None where nothing does."""
        return next((g for g in self.going if g.slips), None)

    @property
    def first_break(self) -> Going | None:
        """What breaks first; None where nothing does."""
        return next((g for g in self.going if not g.slips), None)

    @property
    def let_go_gust(self) -> float:
        """Gust at which the first part is expected to go [m/s], infinite if none."""
        return self.let_go.gust if self.let_go else math.inf

    @property
    def act_by_gust(self) -> float:
        """Forecast gust before which panels come off or go low [m/s], infinite if none."""
        return self.act_by.low if self.act_by else math.inf


def weakest(
    blocks: Sequence[Block],
    learned: Learned = NOTHING_LEARNED,
    *,
    ranged: bool = True,
    near: float = 0.0,
) -> Weakest:
    """Find the limit gust and what is expected to go first, over all blocks of both models.

    `learned` of what the rack has stood. Blocks of one model leave the other's gusts infinite.
    `ranged`: see `frame.search.expected_going.first_going`; `near`: see `lowest_limit`.
    """
    code, median = split(blocks)
    return Weakest(
        limit=lowest_limit(code, near) if code else Limit(math.inf),
        going=first_going(median, learned, ranged=ranged) if median else (),
    )


def lowest_limit(blocks: Sequence[Block], near: float = 0.0) -> Limit:
    """Find the limit gust of one bracing over blocks of the code's model.

    It is thought to be `near` a gust [m/s], or below.
    """
    work = Search.of(blocks)
    seen = coarse(work, first=True, near=whole_wind(near))
    best = lowest_gusts(replace(work, owners=seen.owners), seen.crossing, lambda _: "")
    first = best.get("")
    gust = coded_gust(first.gust) if first else None
    if first is None or gust is None:
        return Limit(math.inf, uncovered=seen.uncovered)
    at = int(seen.crossing[first.name].block[first.row])
    return Limit(gust, first.name.key, work.blocks[at], seen.uncovered)


def learned_of(rack: Rack) -> Learned:
    """Work out what the file's `stood` tells of every check; nothing where it has none."""
    stood = rack.stood
    if stood is None:
        return NOTHING_LEARNED
    frames = solve_frames(rack, [stood.fitted], [stood.tilt])
    then = expect(median_blocks(frames, stood.fitted, [stood.tilt]))
    return learn(rack, then[stood.fitted].values())
