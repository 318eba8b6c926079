"""The lowest gusts of a whole bracing, without those of every row: quick enough to try many racks.

Block after block is looked at only as far as the lowest gust found so far; what lies above it
cannot matter.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from frame.idealize.state import State
from frame.loads.cases import WHOLE_WIND, CaseTable
from frame.study.crossings import Key
from frame.study.frames import Block, FloatArray
from frame.study.governing import Checker
from frame.study.gusts import ACT_BY, CODE_SHARE, GRID, LET_GO, TOP, both_uses
from frame.study.situation import at_gusts

PIECES = 8
CLOSE = 1e-8
"""Relative width of a gust's bracket at which the search stops."""
NO_SOONER = 1e-6
"""Use over 1 at the lowest gust so far up to which a block goes no sooner: one just like it."""
BELOW = (0.55,)
"""Parts of the lowest gust so far at which a further block is looked at too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class First:
    """The first part over its strength at `gust` [m/s]: `check`, the wind in `words`, where."""

    gust: float
    part: str
    check: str
    words: str
    tilt: float
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Weakest:
    """First part over its allowable and first to let go in the whole wind; None up to `TOP`."""

    act_by: First | None
    let_go: First | None

    @property
    def places(self) -> tuple[tuple[float, State], ...]:
        """Tilts [rad] and corners at which it goes: look there first on a rack much like it."""
        return tuple((f.tilt, f.state) for f in (self.act_by, self.let_go) if f)

    @property
    def act_by_gust(self) -> float:
        """Gust from which something is used beyond its allowable [m/s], infinite if none."""
        return self.act_by.gust if self.act_by else math.inf

    @property
    def let_go_gust(self) -> float:
        """Gust at which the first part is expected to go [m/s], infinite if none."""
        return self.let_go.gust if self.let_go else math.inf

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite if beyond `TOP`."""
        gust = self.act_by_gust / math.sqrt(CODE_SHARE)
        return gust if gust <= TOP else math.inf


@dataclass(frozen=True)
class _Work:
    """One block with the cases looked at on it."""

    block: Block
    table: CaseTable
    checkers: Sequence[Checker]

    def uses(self, case: np.ndarray, gust: FloatArray) -> dict[str, dict[Key, FloatArray]]:
        """Every use of allowable and of nominal strength for rows of (case, gust), (n,)."""
        now = at_gusts(self.block, self.table, case, gust)
        found: dict[str, dict[Key, FloatArray]] = {ACT_BY: {}, LET_GO: {}}
        for checker in self.checkers:
            for part, check in checker(now):
                for kind, use in both_uses(check, len(case)).items():
                    found[kind][part, check.name] = use
        return found


def weakest(blocks: Sequence[Block], checkers: Iterable[Checker]) -> Weakest:
    """Find the lowest act-by and let-go gust over all blocks, checks and winds.

    Put the blocks that are likely to govern first: the rest is then looked at fewer gusts.
    """
    checkers = tuple(checkers)
    best: dict[str, First | None] = {ACT_BY: None, LET_GO: None}
    for block in blocks:
        work = _Work(block, block.frame.cases(WHOLE_WIND), checkers)
        gusts, count = _gusts(best), len(work.table.labels)
        uses = work.uses(np.tile(np.arange(count), len(gusts)), np.repeat(gusts, count))
        for kind, held in tuple(best.items()):
            use = {key: u.reshape(len(gusts), count) for key, u in uses[kind].items()}
            found = _first(work, kind, use, gusts, held.gust if held else math.inf)
            if found is not None and (held is None or found.gust < held.gust):
                best[kind] = found
    return Weakest(act_by=best[ACT_BY], let_go=best[LET_GO])


def _gusts(best: dict[str, First | None]) -> FloatArray:
    """Return the gusts at which a block is looked at, ascending, up to the lowest so far."""
    if any(found is None for found in best.values()):
        return GRID
    held = [found.gust for found in best.values() if found]
    return np.unique([part * held[0] for part in BELOW] + held)


def _first(
    work: _Work, kind: str, use: dict[Key, FloatArray], gusts: FloatArray, held: float
) -> First | None:
    """First crossing of one block before `held`, from uses on a grid of gusts (gusts, cases)."""
    worst = np.max(list(use.values()), axis=0)
    over = np.flatnonzero(worst.max(axis=1) >= np.where(gusts < held, 1.0, 1.0 + NO_SOONER))
    if not len(over) or gusts[over[0]] > held:
        return None
    k = int(over[0])
    case = np.flatnonzero(worst[k] >= 1.0)
    low, high = float(gusts[k - 1]) if k else 0.0, float(gusts[k])
    ends = (float(worst[k - 1, case].max()) if k else 0.0, float(worst[k, case].max()))
    if not k:
        case = np.arange(worst.shape[1])
    use = {key: u[k : k + 1, case] for key, u in use.items()}
    while high - low > CLOSE * max(high, 1.0):
        points = _points(low, high, ends)
        uses = work.uses(np.tile(case, len(points)), np.repeat(points, len(case)))[kind]
        use = {key: u.reshape(len(points), len(case)) for key, u in uses.items()}
        worst = np.max(list(use.values()), axis=0)
        j = int(np.flatnonzero((worst >= 1.0).any(axis=1))[0])
        keep = worst[j] >= 1.0
        if j == 0:
            high = low
        else:
            low, high = float(points[j - 1]), float(points[j])
            ends = (float(worst[j - 1, keep].max()), float(worst[j, keep].max()))
        case, use = case[keep], {key: u[j : j + 1, keep] for key, u in use.items()}
    return _named(work, use, case, high)


def _named(work: _Work, use: dict[Key, FloatArray], case: np.ndarray, gust: float) -> First:
    """Name the part and the wind: the largest use at the crossing."""
    part, check = max(use, key=lambda key: float(use[key][-1].max()))
    wind = work.table.winds[int(case[int(use[part, check][-1].argmax())])] if gust else None
    return First(
        gust=gust,
        part=part,
        check=check,
        words=wind.words if wind else "still air",
        tilt=work.block.frame.ideal.tilt,
        state=work.block.state,
    )


def _points(low: float, high: float, ends: tuple[float, float]) -> FloatArray:
    """Gusts to look at between two, ascending, ends in: equal pieces and round the chord."""
    start, end = ends[0], min(ends[1], 1e6)
    part = (1 - start) / (end - start) if end > start else 0.5
    guess = math.sqrt(low**2 + min(max(part, 0.0), 1.0) * (high**2 - low**2))
    near = guess + (high - low) * np.array([-1e-2, -1e-4, 0.0, 1e-4, 1e-2])
    even = np.linspace(low, high, PIECES + 1)
    return np.sort(np.concatenate([even, np.clip(near, low, high)]))
